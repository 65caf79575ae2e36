"""What people did about one job: its job.* and inspection.* entries, sorted by what they are."""

from collections.abc import Iterable
from dataclasses import dataclass

from msgspec import Struct

from shuntbook.fold.report import Finding
from shuntbook.fold.voids import failed
from shuntbook.report.entry import Entry
from shuntbook.report.working import InspectionPassed, JobDeferred, JobFinished, JobStopped
from shuntbook.setup.words import UNKNOWN


class Repair(Struct, frozen=True):
    """A `job.finished`: what it covers and who repaired (its author, `repairers`, authors of starts it ends)."""

    id: str
    covers: frozenset[str]
    repairers: frozenset[str]
    temporary: bool
    data: JobFinished


class Pass(Struct, frozen=True):
    """An `inspection.passed` with no check that is false; `ok` are the checks that are ok in one of its rows."""

    id: str
    person: str
    covers: frozenset[str]
    ok: frozenset[str]
    data: InspectionPassed


@dataclass(frozen=True)
class Acts:
    """The acts on one job. `findings` are its failed inspections, each a finding on the job itself.

    works: all finished work, the repairs and those that only their own author took back; unended: who started work
    that no finished work ends.
    """

    repairs: list[Repair]
    works: list[Repair]
    unended: frozenset[str]
    passes: list[Pass]
    findings: list[Finding]
    deferred: frozenset[str]
    under_way: bool


def acts_on(key: str, entries: Iterable[Entry], undone: Iterable[Entry] = ()) -> Acts:
    """Sort the entries about the job `key` that stand (voided ones left out by the caller).

    undone: starts and finishes that only their own author took back: no acts any more, but still work.
    """
    mine = sorted((entry for entry in entries if entry.subject == key), key=lambda entry: entry.id)
    work = [*mine, *(entry for entry in undone if entry.subject == key)]
    starts = {entry.id: entry.person for entry in work if entry.kind == "job.started"}
    works = [_repair(entry, entry.data, starts) for entry in work if isinstance(entry.data, JobFinished)]
    standing = {entry.id for entry in mine}
    finished = {name for one in works for name in one.data.ends}
    ended: set[str] = set()
    deferred: set[str] = set()
    for entry in mine:
        if isinstance(entry.data, JobStopped | JobFinished):
            ended.update(entry.data.ends)
        if isinstance(entry.data, JobDeferred):
            deferred.update(entry.data.covers)
    return Acts(
        [one for one in works if one.id in standing],
        works,
        frozenset(person for name, person in starts.items() if name not in finished),
        [_pass(entry, entry.data) for entry in mine if isinstance(entry.data, InspectionPassed) and not failed(entry)],
        [_failed(entry) for entry in mine if failed(entry)],
        frozenset(deferred),
        not standing & starts.keys() <= ended,
    )


def _repair(entry: Entry, data: JobFinished, starts: dict[str, str]) -> Repair:
    helpers = {starts[name] for name in data.ends if name in starts}
    repairers = frozenset({entry.person, *data.repairers, *helpers})
    return Repair(entry.id, frozenset(data.covers), repairers, data.temporary, data)


def _pass(entry: Entry, data: InspectionPassed) -> Pass:
    ok = frozenset(check.check for check in data.checks if check.ok)
    return Pass(entry.id, entry.person, frozenset(data.covers), ok, data)


def _failed(entry: Entry) -> Finding:
    return Finding(entry.id, entry.subject, UNKNOWN, "failed", "", None, [], False, [entry.id])

"""What people did about one job: its job.* and inspection.* entries, sorted by what they are."""

from collections.abc import Iterable
from dataclasses import dataclass

from shuntbook.fold.report import Finding
from shuntbook.fold.voids import failed
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import (
    InspectionPassed,
    JobDeferred,
    JobFinished,
    JobStopped,
)
from shuntbook.setup.words import UNKNOWN


@dataclass(frozen=True)
class Repair:
    """A `job.finished`: what it covers and who repaired (its author, `repairers`, authors of starts it ends)."""

    id: str
    covers: frozenset[str]
    repairers: frozenset[str]
    temporary: bool
    data: JobFinished


@dataclass(frozen=True)
class Pass:
    """An `inspection.passed` with every check ok."""

    id: str
    person: str
    covers: frozenset[str]
    data: InspectionPassed


@dataclass(frozen=True)
class Acts:
    """The acts on one job. `findings` are its failed inspections, each a finding on the job itself."""

    repairs: list[Repair]
    passes: list[Pass]
    findings: list[Finding]
    deferred: frozenset[str]
    under_way: bool


def acts_on(key: str, entries: Iterable[Entry]) -> Acts:
    """Sort the entries about the job `key` that stand (voided ones left out by the caller)."""
    mine = sorted((entry for entry in entries if entry.subject == key), key=lambda entry: entry.id)
    starts = {entry.id: entry.person for entry in mine if entry.kind == "job.started"}
    ended: set[str] = set()
    deferred: set[str] = set()
    for entry in mine:
        if isinstance(entry.data, JobStopped | JobFinished):
            ended.update(entry.data.ends)
        if isinstance(entry.data, JobDeferred):
            deferred.update(entry.data.covers)
    return Acts(
        [_repair(entry, entry.data, starts) for entry in mine if isinstance(entry.data, JobFinished)],
        [_pass(entry, entry.data) for entry in mine if isinstance(entry.data, InspectionPassed) and not failed(entry)],
        [_failed(entry) for entry in mine if failed(entry)],
        frozenset(deferred),
        not starts.keys() <= ended,
    )


def _repair(entry: Entry, data: JobFinished, starts: dict[str, str]) -> Repair:
    helpers = {starts[name] for name in data.ends if name in starts}
    repairers = frozenset({entry.person, *data.repairers, *helpers})
    return Repair(entry.id, frozenset(data.covers), repairers, data.temporary, data)


def _pass(entry: Entry, data: InspectionPassed) -> Pass:
    return Pass(entry.id, entry.person, frozenset(data.covers), data)


def _failed(entry: Entry) -> Finding:
    return Finding(entry.id, entry.subject, UNKNOWN, "failed", "", None, [], False, [entry.id])

"""What a pass counts for, and why not: each rule that decides says its reason, so the two never differ.

`queue/job.py` asks whether there is a reason, `queue/passes.py` which.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, TypeVar

from msgspec import Struct

from shuntbook.fold.report import Finding
from shuntbook.queue.acts import Acts, Pass, Repair
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.event import Event
from shuntbook.setup.words import UNKNOWN

ACCEPTABLE = frozenset({UNKNOWN, "marked", "worn"})
"""Conditions that a pass accepts unrepaired on a safety-critical job."""
ACCEPTABLE_UNTIL = "bent"
"""The condition that it accepts unrepaired until a service only."""

Why = Literal[
    "not-inspector",
    "unfinished-work",
    "until-begun",
    "no-check-ok",
    "must-check",
    "no-official",
    "own-repair",
    "own-work-undone",
    "too-bad",
    "bent",
    "temporary",
    "check-not-ok",
    "gone",
]
"""Why a pass does not count; the last two are found where it is no pass, or what it names is no finding any more."""

Act = TypeVar("Act", Repair, Pass)


@dataclass(frozen=True)
class Context:
    """What a job's fold needs beside its own entries: the set-up, and the services that the car came into."""

    event: Event
    car_map: CarMap
    entered: frozenset[str]

    def run_out(self, until: str | None) -> bool:
        """Return whether a pass good `until` a service covers nothing any more.

        It runs out once the car entered that service, or a later one of the itinerary. What names no service of the
        itinerary counts as not given.
        """
        limit = self.event.service_index(until)
        if limit is None:
            return False
        places = (self.event.service_index(service) for service in self.entered)
        return any(place is not None and place >= limit for place in places)


@dataclass(frozen=True)
class Hindrance:
    """A reason that a pass does not count; `checks`: those that must be ok and are not."""

    why: Why
    checks: tuple[str, ...] = ()


class Target(Struct, frozen=True):
    """A finding or a repair that a pass may cover.

    names: the entries that a cover may name for it; workers: whose pass does not count, repairers: those of them whose
    work stands; asks: None, or what has to be there first, a repair (`too-bad`) or a service that it is good until.
    """

    entry: str
    names: list[str]
    workers: frozenset[str]
    repairers: frozenset[str]
    asks: Literal["too-bad", "bent", "temporary"] | None


class PassRules:
    """The rules about passes on one job; covers are looked up by the ids that they name."""

    def __init__(self, group: str | None, critical: bool, acts: Acts, context: Context) -> None:
        self.group = group
        self.critical = critical
        self.acts = acts
        self.context = context
        self.repairs = by_named(acts.repairs)
        self.works = by_named(acts.works)
        self.musts = context.event.must_checks(group)

    def finding(self, finding: Finding) -> Target:
        """Return a finding as what a pass may cover: what is bad on a safety-critical job is repaired first."""
        repairs = naming(finding, self.repairs)
        repairers = frozenset(person for repair in repairs for person in repair.repairers)
        workers = frozenset(person for work in naming(finding, self.works) for person in work.repairers)
        return Target(finding.entry, finding.covered_by, workers, repairers, self._asked_of(finding, repairs))

    def _asked_of(self, finding: Finding, repairs: list[Repair]) -> Literal["too-bad", "bent", "temporary"] | None:
        if not self.critical or any(not repair.temporary for repair in repairs):
            return None
        if repairs:
            return "temporary"
        if finding.condition in ACCEPTABLE:
            return None
        return "bent" if finding.condition == ACCEPTABLE_UNTIL else "too-bad"

    def repair(self, repair: Repair) -> Target:
        """Return a repair as what a pass may cover."""
        asks: Literal["temporary"] | None = "temporary" if self.critical and repair.temporary else None
        return Target(repair.id, [repair.id], repair.repairers, repair.repairers, asks)

    def targets(self, reported: Iterable[Finding]) -> list[Target]:
        """Return all that is to be passed on the job: what reports say, failed inspections, repairs."""
        return [*map(self.finding, (*reported, *self.acts.findings)), *map(self.repair, self.acts.repairs)]

    def barred(self, reported: Iterable[Finding], uncovered: Collection[str]) -> frozenset[str]:
        """Return who worked there, so that no pass of theirs would cover all that is uncovered."""
        workers = (target.workers for target in self.targets(reported) if target.entry in uncovered)
        return self.acts.unended.union(*workers)

    def counts(self, a_pass: Pass) -> bool:
        """Return whether a pass counts for anything at all."""
        return next(self.against(a_pass), None) is None

    def covers(self, a_pass: Pass, target: Target) -> bool:
        """Return whether a pass that counts and names the target covers it."""
        return next(self.against_covering(a_pass, target), None) is None

    def against(self, a_pass: Pass) -> Iterator[Hindrance]:
        """Yield why a pass counts for nothing: an inspector's, checked, still good, a cage seen by an official."""
        if not self.context.event.has_role(a_pass.person, "inspector"):
            yield Hindrance("not-inspector")
        if a_pass.person in self.acts.unended:
            yield Hindrance("unfinished-work")
        if self.context.run_out(a_pass.data.until):
            yield Hindrance("until-begun")
        if not a_pass.ok:
            yield Hindrance("no-check-ok")
        elif not self.musts <= a_pass.ok:
            yield Hindrance("must-check", tuple(sorted(self.musts - a_pass.ok)))
        official = (a_pass.data.shown_to or "").strip() and (a_pass.data.official_said or "").strip()
        if self.group == "cage" and not official:
            yield Hindrance("no-official")

    def against_covering(self, a_pass: Pass, target: Target) -> Iterator[Hindrance]:
        """Yield why a pass that names the target does not cover it, whatever it counts for besides."""
        if a_pass.person in target.workers:
            yield Hindrance("own-repair" if a_pass.person in target.repairers else "own-work-undone")
        if target.asks == "too-bad" or (target.asks and not self._has_until(a_pass)):
            yield Hindrance(target.asks)

    def _has_until(self, a_pass: Pass) -> bool:
        return self.context.event.service_index(a_pass.data.until) is not None


def by_named(acts: Iterable[Act]) -> dict[str, list[Act]]:
    """Return acts by each id that they cover."""
    named: dict[str, list[Act]] = {}
    for act in acts:
        for name in act.covers:
            named.setdefault(name, []).append(act)
    return named


def naming(finding: Finding, named: dict[str, list[Act]]) -> list[Act]:
    """Return the acts that name the finding."""
    return [act for name in finding.covered_by for act in named.get(name, ())]

"""The lines of a cost sheet: one per repair of a job, one for what is left, one per access step of a service."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction
from functools import cached_property, partial
from typing import Literal

from shuntbook.cost.money import Money, PartCost, Worked, money_of
from shuntbook.cost.told import CarTold, Told
from shuntbook.fold.report import Finding
from shuntbook.kit.kept import Kept
from shuntbook.kit.money import two_decimals
from shuntbook.kit.times import day_in, instant
from shuntbook.queue.acts import Acts, Repair
from shuntbook.queue.car import CarLog
from shuntbook.queue.estimate import Estimate, estimate
from shuntbook.report.entry import Entry
from shuntbook.report.working import JobStopped
from shuntbook.setup.event import Event
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Rates
from shuntbook.setup.words import UNKNOWN, split_key


@dataclass(frozen=True)
class Line:
    """A line of the sheet with the entries behind it; `actual` is None where nothing was done yet.

    told: the report that the worst condition comes from, None without one. baseline: its worst condition, which the
    estimate is for, was there at the hand-over. steps: access that it needs.
    """

    kind: Literal["repair", "open", "access"]
    car: str
    job: str
    zone: str
    entries: tuple[str, ...]
    estimate: Money
    actual: Money | None
    action: str
    condition: str = ""
    component: str = ""
    step: str = ""
    service: str | None = None
    stage: str | None = None
    day: date | None = None
    repair: str = ""
    told: Told | None = None
    baseline: bool = False
    temporary: bool = False
    steps: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = field(default=(), repr=False)

    @cached_property
    def name(self) -> str:
        """A name for the line, no other line's: of its repair, of what is left of its job, or of step and service."""
        service = self.service or ("to-come" if self.actual is None else "at-no-service")
        place = (self.zone, service) if self.kind == "access" else (self.repair,)
        return "/".join(filter(None, (self.kind, self.car, self.job or self.step, *place)))

    @property
    def driver(self) -> str | None:
        """Who drove when it was hit."""
        return self.told.driver if self.told else None

    @property
    def incident(self) -> str | None:
        """The hit that it belongs to."""
        return self.told.incident.incident if self.told else None


def lines_of_car(
    car: str, log: CarLog, told: CarTold, setup: Setup, kept: Kept[list["Line"]] | None = None
) -> list[Line]:
    """Return the lines of a car's jobs, by job: a round per repair, and what is left.

    kept: lines by job, of the same car and set-up.
    """
    kept = kept or Kept()
    by_id = {entry.id: entry for entry in log.entries}
    stops = _stops(log.of_kind("job.stopped"))

    def on_job(key: str) -> list[Line]:
        findings = log.findings.get(key, [])
        return _OnJob(car, key, findings, log.acts_on(key), told, setup, by_id, stops.get(key, {})).lines()

    return [line for key in log.keys for line in kept.of(key, _made_of(key, log, told), partial(on_job, key))]


def _made_of(key: str, log: CarLog, told: CarTold) -> tuple[object, ...]:
    """Return all that the lines of a job follow from, but for the set-up: an entry is what its id says."""
    findings = log.findings.get(key, [])
    acts = [entry.id for entry in log.acts.get(key, ())]
    undone = [entry.id for entry in log.undone.get(key, ())]
    return findings, acts, undone, [told.reports.get(one.report) for one in findings], told.marks.get(key)


def _stops(entries: Iterable[Entry]) -> dict[str, dict[str, Entry]]:
    """Return who stopped which start, by job: all entries are gone through once, not once for each repair."""
    found: dict[str, dict[str, Entry]] = {}
    for entry in entries:
        if isinstance(entry.data, JobStopped):
            found.setdefault(entry.subject, {}).update(dict.fromkeys(entry.data.ends, entry))
    return found


class _OnJob:
    """One job of a car with all that its lines are made of."""

    def __init__(
        self,
        car: str,
        key: str,
        findings: Sequence[Finding],
        acts: Acts,
        told: CarTold,
        setup: Setup,
        by_id: dict[str, Entry],
        stops: dict[str, Entry],
    ) -> None:
        self.car, self.key, self.acts, self.told, self.setup, self.by_id = car, key, acts, told, setup, by_id
        self.stops = stops
        self.zone, self.component = split_key(key)
        self.findings = sorted([*findings, *acts.findings], key=lambda finding: finding.entry)

    def lines(self) -> list[Line]:
        """Return the job's lines."""
        lines = [self._repair(repair) for repair in self.acts.repairs]
        left = [f for f in self.findings if not any(_covered(f, repair) for repair in self.acts.repairs)]
        return [*lines, self._line(left, self.by_id[left[0].entry])[0]] if left else lines

    def _repair(self, repair: Repair) -> Line:
        covered = [finding for finding in self.findings if _covered(finding, repair)]
        done = self.by_id[repair.id]
        line, est = self._line(covered, done)
        return replace(
            line,
            kind="repair",
            entries=tuple(sorted({repair.id, *line.entries})),
            actual=_actual(repair, est, self.setup.rates, self._worked(repair, done)),
            action=repair.data.action or est.action,
            service=repair.data.service or _service_after(covered, self.setup.event),
            repair=repair.id,
            temporary=repair.temporary,
        )

    def _line(self, findings: Sequence[Finding], put_down: Entry) -> tuple[Line, Estimate]:
        """Return the line of these findings as if nothing were done; its day is the hit's, else that of the entry."""
        worst = self._worst(findings)
        condition = worst.condition if worst else UNKNOWN
        group = self.setup.car_map.group_of(self.component)
        est = estimate(self.zone, self.component, group, condition, self.setup.rates)
        told = self.told.reports.get(worst.report) if worst else None
        line = Line(
            kind="open",
            car=self.car,
            job=self.key,
            zone=self.zone,
            component=self.component,
            entries=tuple(sorted({finding.entry for finding in findings})),
            estimate=_planned(est, self.setup.rates),
            actual=None,
            action=est.action,
            condition=condition,
            stage=worst.stage if worst else None,
            day=day_in(told.when if told else put_down.when, self.setup.event.timezone),
            told=told,
            baseline=worst is not None and self._was_there(worst),
            steps=est.access,
            findings=tuple(findings),
        )
        return line, est

    def _worst(self, findings: Iterable[Finding]) -> Finding | None:
        """Return the first finding of the worst condition in the itinerary's order, one that is new before others."""
        event, car_map = self.setup.event, self.setup.car_map

        def rank(finding: Finding) -> tuple[object, ...]:
            place = event.stage_index(finding.stage)
            kind, grade = car_map.severity(self.component, finding.condition)
            itinerary = (len(event.stages) if place is None else place, finding.stage or "", finding.entry)
            return (-kind, -grade, self._was_there(finding), *itinerary)

        return min(findings, key=rank, default=None)

    def _was_there(self, finding: Finding) -> bool:
        return self.told.was_there(finding.entry, finding.key, finding.condition, finding.how)

    def _worked(self, repair: Repair, done: Entry) -> tuple[Worked, ...]:
        """Return who was on the repair for how long, by the starts that it ends; a clock that ran back says nothing."""
        found = []
        for name in repair.data.ends:
            start = self.by_id.get(name)
            if start is None or start.kind != "job.started" or start.subject != self.key:
                continue
            end = self.stops.get(name, done)
            seconds = int((instant(end.at) - instant(start.at)).total_seconds())
            if seconds >= 0:
                found.append(Worked(start.person, two_decimals(Fraction(seconds, 60))))
        return tuple(found)


def _planned(est: Estimate, rates: Rates) -> Money:
    parts = tuple(PartCost(part, qty, rates.parts[part].unit_cost) for part, qty in est.parts.items())
    return money_of(rates, est.mechanics, est.mechanic_minutes, parts, est.minutes.expected)


def _actual(repair: Repair, est: Estimate, rates: Rates, worked: tuple[Worked, ...]) -> Money:
    """Return what a repair took: labour as its minutes say, else as estimated; parts at the table's cost."""
    minutes = repair.data.minutes
    mechanics = est.mechanics if repair.data.mechanics is None else repair.data.mechanics
    parts = tuple(
        PartCost(p.part, p.qty, rates.parts[p.part].unit_cost if p.part in rates.parts else None)
        for p in repair.data.parts
    )
    if minutes is None:
        return money_of(rates, mechanics, est.mechanic_minutes, parts, None, "estimate", worked)
    return money_of(rates, mechanics, Fraction(minutes) * mechanics, parts, Fraction(minutes), "entered", worked)


def _covered(finding: Finding, repair: Repair) -> bool:
    return not repair.covers.isdisjoint(finding.covered_by)


def _service_after(findings: Sequence[Finding], event: Event) -> str | None:
    """Return the first service of the itinerary that comes after all the findings' stages."""
    places = [place for f in findings if (place := event.stage_index(f.stage)) is not None]
    for service in event.services if places else ():
        after = event.stage_index(service.after)
        if after is not None and after >= max(places):
            return service.service
    return None

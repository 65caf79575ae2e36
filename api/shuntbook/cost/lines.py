"""The lines of a cost sheet: one per repair of a job, one for what is left, one per access step of a service."""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, lru_cache, partial
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

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


class Line(Struct, frozen=True, dict=True):
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
    findings: tuple[Finding, ...] = ()

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
        self.covered = _Covered(self.findings)

    def lines(self) -> list[Line]:
        """Return the job's lines."""
        repairs = [(repair, self.covered.by(repair)) for repair in self.acts.repairs]
        lines = [self._line([self.findings[p] for p in places], repair) for repair, places in repairs]
        covered = {place for _, places in repairs for place in places}
        left = [finding for place, finding in enumerate(self.findings) if place not in covered]
        return [*lines, self._line(left)] if left else lines

    def _line(self, findings: Sequence[Finding], repair: Repair | None = None) -> Line:
        """Return the line of what a repair covers, or of these findings as if nothing were done.

        Its day is the hit's, else that of the entry which says it.
        """
        put_down = self.by_id[repair.id if repair else findings[0].entry]
        worst = self._worst(findings)
        condition = worst.condition if worst else UNKNOWN
        group = self.setup.car_map.group_of(self.component)
        est = estimate(self.zone, self.component, group, condition, self.setup.rates)
        told = self.told.reports.get(worst.report) if worst else None
        entries = {finding.entry for finding in findings}
        return Line(
            kind="repair" if repair else "open",
            car=self.car,
            job=self.key,
            zone=self.zone,
            component=self.component,
            entries=tuple(sorted({repair.id, *entries} if repair else entries)),
            estimate=_planned(est, self.setup.rates),
            actual=_actual(repair, est, self.setup.rates, self._worked(repair, put_down)) if repair else None,
            action=repair.data.action or est.action if repair else est.action,
            condition=condition,
            service=repair.data.service or _service_after(findings, self.setup.event) if repair else None,
            stage=worst.stage if worst else None,
            day=day_in(told.when if told else put_down.when, self.setup.event.timezone),
            repair=repair.id if repair else "",
            told=told,
            baseline=worst is not None and self._was_there(worst),
            temporary=repair is not None and repair.temporary,
            steps=est.access,
            findings=tuple(findings),
        )

    def _worst(self, findings: Sequence[Finding]) -> Finding | None:
        """Return the first finding of the worst condition in the itinerary's order, one that is new before others."""
        event, car_map = self.setup.event, self.setup.car_map

        def rank(finding: Finding) -> tuple[object, ...]:
            place = event.stage_index(finding.stage)
            kind, grade = car_map.severity(self.component, finding.condition)
            itinerary = (len(event.stages) if place is None else place, finding.stage or "", finding.entry)
            return (-kind, -grade, self._was_there(finding), *itinerary)

        return min(findings, key=rank, default=None) if len(findings) != 1 else findings[0]

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


class _Covered:
    """Which of a job's findings a repair covers, by the entries that it names: of a job with hundreds of both, none is
    held against each of the others."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self._places: dict[str, list[int]] = {}
        for place, finding in enumerate(findings):
            for name in finding.covered_by:
                self._places.setdefault(name, []).append(place)

    def by(self, repair: Repair) -> list[int]:
        """Return the places of those that it covers, ascending."""
        return sorted({place for name in repair.covers for place in self._places.get(name, ())})


@lru_cache(maxsize=8192)
def _planned(est: Estimate, rates: Rates) -> Money:
    parts = tuple(PartCost(part, qty, rates.parts[part].unit_cost) for part, qty in est.parts.items())
    return money_of(rates, est.mechanics, est.mechanic_minutes, parts, est.minutes.expected)


def _actual(repair: Repair, est: Estimate, rates: Rates, worked: tuple[Worked, ...]) -> Money:
    """Return what a repair took: labour as its minutes say, else as estimated; parts at the table's cost."""
    mechanics = est.mechanics if repair.data.mechanics is None else repair.data.mechanics
    parts = tuple(
        PartCost(p.part, p.qty, rates.parts[p.part].unit_cost if p.part in rates.parts else None)
        for p in repair.data.parts
    )
    money = _taken(est, rates, repair.data.minutes, mechanics, parts)
    return replace(money, worked=worked) if worked else money


@lru_cache(maxsize=4096)
def _taken(est: Estimate, rates: Rates, minutes: Decimal | None, mechanics: int, parts: tuple[PartCost, ...]) -> Money:
    if minutes is None:
        return money_of(rates, mechanics, est.mechanic_minutes, parts)
    return money_of(rates, mechanics, Fraction(minutes) * mechanics, parts, Fraction(minutes), "entered")


def _service_after(findings: Sequence[Finding], event: Event) -> str | None:
    """Return the first service of the itinerary that comes after all the findings' stages."""
    places = [place for f in findings if (place := event.stage_index(f.stage)) is not None]
    return event.service_after(max(places)) if places else None

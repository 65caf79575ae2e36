"""The lines of a cost sheet: one per repair of a job, one for what is left, one per access step of a service."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from shuntbook.fold.report import Finding
from shuntbook.queue.acts import Acts, Repair
from shuntbook.queue.estimate import Estimate, estimate
from shuntbook.queue.totals import access_lines
from shuntbook.setup.event import Event
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Rates
from shuntbook.setup.words import UNKNOWN, split_key


@dataclass(frozen=True)
class Money:
    """Labour and parts of a line, each rounded once; minutes are elapsed, None where not timed."""

    minutes: Fraction | None
    mechanics: int | None
    labour: Decimal
    parts_cost: Decimal
    parts: tuple[tuple[str, Decimal, Decimal | None], ...] = ()
    timed: bool = True

    @property
    def total(self) -> Decimal:
        """Labour and parts."""
        return self.labour + self.parts_cost


@dataclass(frozen=True)
class Line:
    """A line of the sheet with the entries behind it; `actual` is None where nothing was done yet."""

    kind: Literal["repair", "open", "access"]
    car: str
    job: str
    step: str
    zone: str
    component: str
    stage: str | None
    service: str | None
    action: str
    condition: str
    entries: tuple[str, ...]
    estimate: Money
    actual: Money | None
    repair: str = ""

    @property
    def name(self) -> str:
        """A name for the line, no other line's: of its repair, of what is left of its job, or of step and service."""
        place = (self.zone, self.service or "to-come") if self.kind == "access" else (self.repair,)
        return "/".join(filter(None, (self.kind, self.car, self.job or self.step, *place)))


def job_lines(car: str, key: str, findings: Sequence[Finding], acts: Acts, setup: Setup) -> list[tuple[Line, Estimate]]:
    """Return the lines of one job with the estimate behind each: a round per repair, and what is left."""
    everything = sorted([*findings, *acts.findings], key=lambda finding: finding.entry)
    lines = [_repair_line(car, key, repair, everything, setup) for repair in acts.repairs]
    left = [f for f in everything if not any(_covered(f, repair) for repair in acts.repairs)]
    if left:
        lines.append(_open_line(car, key, left, setup))
    return lines


def access_cost_lines(car: str, lines: Iterable[tuple[Line, Estimate]], rates: Rates) -> list[Line]:
    """Return a line for each access step of a service, once for the car or once a zone.

    Steps of open lines are together under no service: nobody knows yet where they will be done.
    """
    by_service: dict[tuple[bool, str], list[tuple[str, str]]] = {}
    entries: dict[tuple[bool, str], list[str]] = {}
    for line, est in lines:
        group = (line.actual is not None, line.service or "")
        by_service.setdefault(group, []).extend((step, line.zone) for step in est.access)
        entries.setdefault(group, []).extend(line.entries if est.access else ())
    found = []
    for group in sorted(by_service):
        done, service = group
        for item in access_lines(by_service[group], rates):
            minutes = item.step.minutes_open + item.step.minutes_close
            money = Money(
                minutes,
                item.step.mechanics,
                rates.labour(item.mechanic_minutes),
                Decimal(0),
                (),
                False,
            )
            behind = tuple(sorted(set(entries[group])))
            actual = money if done else None
            found.append(
                _access_line(
                    car,
                    item.step.step,
                    item.zone,
                    service if done else "",
                    behind,
                    money,
                    actual,
                )
            )
    return found


def _access_line(
    car: str,
    step: str,
    zone: str,
    service: str,
    entries: tuple[str, ...],
    money: Money,
    actual: Money | None,
) -> Line:
    return Line(
        "access",
        car,
        "",
        step,
        zone,
        "",
        None,
        service or None,
        step,
        "",
        entries,
        money,
        actual,
    )


def _repair_line(
    car: str, key: str, repair: Repair, findings: Sequence[Finding], setup: Setup
) -> tuple[Line, Estimate]:
    covered = [finding for finding in findings if _covered(finding, repair)]
    condition, stage = _worst(key, covered, setup)
    zone, component = split_key(key)
    est = estimate(zone, component, setup.car_map.group_of(component), condition, setup.rates)
    entries = tuple(sorted({repair.id, *(finding.entry for finding in covered)}))
    service = repair.data.service or _service_after(covered, setup.event)
    action = repair.data.action or est.action
    actual = _actual(repair, est, setup.rates)
    return Line(
        "repair",
        car,
        key,
        "",
        zone,
        component,
        stage,
        service,
        action,
        condition,
        entries,
        _planned(est, setup.rates),
        actual,
        repair.id,
    ), est


def _open_line(car: str, key: str, findings: Sequence[Finding], setup: Setup) -> tuple[Line, Estimate]:
    condition, stage = _worst(key, findings, setup)
    zone, component = split_key(key)
    est = estimate(zone, component, setup.car_map.group_of(component), condition, setup.rates)
    entries = tuple(sorted({finding.entry for finding in findings}))
    return Line(
        "open",
        car,
        key,
        "",
        zone,
        component,
        stage,
        None,
        est.action,
        condition,
        entries,
        _planned(est, setup.rates),
        None,
    ), est


def _planned(est: Estimate, rates: Rates) -> Money:
    parts = tuple((part, qty, rates.parts[part].unit_cost) for part, qty in est.parts.items())
    return Money(est.minutes.expected, est.mechanics, est.labour, est.parts_cost, parts)


def _actual(repair: Repair, est: Estimate, rates: Rates) -> Money:
    """Return what a repair took: labour as timed, else as estimated; parts at the table's cost."""
    minutes = repair.data.minutes
    mechanics = est.mechanics if repair.data.mechanics is None else repair.data.mechanics
    labour = est.labour if minutes is None else rates.labour(Fraction(minutes) * mechanics)
    parts = tuple(
        (
            p.part,
            p.qty,
            rates.parts[p.part].unit_cost if p.part in rates.parts else None,
        )
        for p in repair.data.parts
    )
    cost = rates.currency.round(sum((qty * unit for _, qty, unit in parts if unit is not None), Decimal(0)))
    return Money(
        None if minutes is None else Fraction(minutes),
        mechanics,
        labour,
        cost,
        parts,
        minutes is not None,
    )


def _covered(finding: Finding, repair: Repair) -> bool:
    return not repair.covers.isdisjoint(finding.covered_by)


def _worst(key: str, findings: Sequence[Finding], setup: Setup) -> tuple[str, str | None]:
    """Return the worst condition, and the stage of its first finding in the itinerary's order."""
    if not findings:
        return UNKNOWN, None
    component = split_key(key)[1]
    last = len(setup.event.stages)
    severity = {f.condition: setup.car_map.severity(component, f.condition) for f in findings}
    worst = max(severity, key=lambda condition: severity[condition])
    places = [(setup.event.stage_index(f.stage), f.stage) for f in findings if f.condition == worst]
    return worst, min(
        places,
        key=lambda place: (last if place[0] is None else place[0], place[1] or ""),
    )[1]


def _service_after(findings: Sequence[Finding], event: Event) -> str | None:
    """Return the first service of the itinerary that comes after all the findings' stages."""
    places = [place for f in findings if (place := event.stage_index(f.stage)) is not None]
    for service in event.services if places else ():
        after = event.stage_index(service.after)
        if after is not None and after >= max(places):
            return service.service
    return None

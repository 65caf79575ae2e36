"""The cost sheet of an event: what the team spent, line by line, with the manager's adjustments, sums, tax and total.

Tax is on the sum of rounded lines. What was spent is what was done: open lines are estimate only. What was there at
the hand-over is listed and counts in no sum.
"""

from collections.abc import Iterable, Mapping, MutableMapping, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import partial

from shuntbook.cost import answer
from shuntbook.cost.access import Share, open_up
from shuntbook.cost.adjusted import Adjustment, adjustments
from shuntbook.cost.car_costs import NO_SHARE, CarCosts
from shuntbook.cost.driven import stage_km
from shuntbook.cost.lines import Line, lines_of_car
from shuntbook.cost.memory import Memory
from shuntbook.cost.sums import Row, sums_by
from shuntbook.cost.told import told_of_car
from shuntbook.kit.money import Currency, quantity, total, two_decimals
from shuntbook.kit.times import day_in
from shuntbook.queue.car import CarLog, car_log
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import REPORT_KINDS, ServiceEntered
from shuntbook.setup.folder import Setup

FOLLOWS_FROM = REPORT_KINDS | {
    "job.started",
    "job.stopped",
    "job.finished",
    "inspection.failed",
    "entry.voided",
    "incident.grouped",
    "driver.changed",
    "service.entered",
    "car.retired",
    "car.restarts",
    "cost.adjusted",
}
"""Kinds that a sheet follows from: with all others it is the same as without."""
FOLLOWS_WHERE_SAID = {"inspection.passed": b"false"}
"""A pass counts where a check of it is false (`fold.voids.failed`), which JSON has one way to write."""


def cost_sheet(
    cars: Mapping[str, Iterable[Entry]],
    setup: Setup,
    car: str | None,
    memories: MutableMapping[str, Memory] | None = None,
) -> answer.Costs:
    """Return the cost sheet of the cars' entries (car → entries), `car` naming the only one asked for.

    memories: of each car by this set-up, from a sheet of the same entries or of fewer.
    """
    held = {} if memories is None else memories
    costs = []
    for name in sorted(cars):
        memory, entries = held.setdefault(name, Memory()), list(cars[name])
        made = partial(_costs_of_entries, name, entries, setup, memory)
        # Entries are only ever added: as many are the same ones.
        costs.append(memory.car.of(name, len(entries), made))
    return _sheet(costs, setup, car)


def _costs_of_entries(car: str, entries: Iterable[Entry], setup: Setup, memory: Memory) -> CarCosts:
    return costs_of_car(car, car_log(entries, setup, memory.reports), setup, memory)


def costs_of_car(car: str, log: CarLog, setup: Setup, memory: Memory | None = None) -> CarCosts:
    """Return what one car's log costs."""
    memory = memory or Memory()
    lines = lines_of_car(car, log, told_of_car(log, setup.car_map, memory.told), setup, memory.lines)
    opened = open_up(car, lines, setup.rates, _days(log, setup), memory.access)
    adjusted, km = adjustments(log.of_kind("cost.adjusted"), setup), stage_km(log, setup.event)
    return CarCosts(lines, opened.lines, opened.shares, adjusted, km, memory.answered)


def _days(log: CarLog, setup: Setup) -> dict[str, date]:
    """Return the day of each service: when the car came in, else when it was to arrive."""
    zone = setup.event.timezone
    days = {s.service: day_in(s.arrive, zone) for s in setup.event.services if s.arrive}
    for entry in reversed(log.of_kind("service.entered")):
        if isinstance(entry.data, ServiceEntered):
            days[entry.data.service] = day_in(entry.when, zone)
    return days


def _sheet(costs: Sequence[CarCosts], setup: Setup, car: str | None) -> answer.Costs:
    coin, event = setup.rates.currency, setup.event
    lines = [line for one in costs for line in (*one.lines, *one.access)]
    rows, loose = _rows(costs)
    km = sum((one.km for one in costs), Decimal(0))
    adjusted = [item for one in costs for item in one.adjustments]
    totals = _totals([line for line in lines if not line.baseline], adjusted, setup)
    return answer.Costs(
        event=event.event,
        car=car,
        rates=setup.rates.version,
        currency=coin.code,
        tax_percent=two_decimals(setup.rates.tax_percent),
        consumables_percent=two_decimals(setup.rates.consumables_percent),
        lines=[told for one in costs for told in one.answers(coin)],
        adjustments=adjusted,
        by_car=sums_by(answer.ByCar, rows, loose, coin, event.cars),
        by_day=sums_by(answer.ByDay, rows, loose, coin),
        by_stage=sums_by(answer.ByStage, rows, loose, coin, (stage.stage for stage in event.stages)),
        by_zone=sums_by(answer.ByZone, rows, loose, coin, setup.car_map.zones),
        by_component=sums_by(answer.ByComponent, rows, loose, coin),
        by_driver=sums_by(answer.ByDriver, rows, loose, coin, (person.person for person in event.people)),
        stage_km=quantity(km),
        per_stage_km=answer.PerKm(_per_km(totals.estimate, km, coin), _per_km(totals.before_tax, km, coin)),
        baseline=_baseline(lines, coin),
        totals=totals,
    )


def _totals(lines: Sequence[Line], adjustments: Sequence[Adjustment], setup: Setup) -> answer.CostTotals:
    coin = setup.rates.currency
    spent = total(_spent(line) for line in lines)
    adjusted = total(Decimal(item.amount) for item in adjustments if item.counts)
    tax = coin.round((spent + adjusted) * setup.rates.tax_percent / 100)
    return answer.CostTotals(
        estimate=coin.text(total(line.estimate.total for line in lines)),
        consumables=coin.text(total(line.actual.consumables for line in lines if line.actual)),
        actual=coin.text(spent),
        adjustments=coin.text(adjusted),
        before_tax=coin.text(spent + adjusted),
        tax=coin.text(tax),
        total=coin.text(spent + adjusted + tax),
    )


def _rows(costs: Sequence[CarCosts]) -> tuple[list[Row], Decimal]:
    """Return a row for each job line that counts, and the sum of the corrections that belong to none.

    A correction of a job goes to the last of its lines.
    """
    rows = []
    loose = Decimal(0)
    for one in costs:
        counting = [line for line in one.lines if not line.baseline]
        last = {line.job: line.name for line in counting}
        adjusted: dict[str, Decimal] = {}
        for item in one.adjustments:
            if item.counts and item.line in last:
                name = last[item.line]
                adjusted[name] = adjusted.get(name, Decimal(0)) + Decimal(item.amount)
            elif item.counts:
                loose += Decimal(item.amount)
        none = Decimal(0)
        rows += [_row(line, one.shares.get(line.name, NO_SHARE), adjusted.get(line.name, none)) for line in counting]
    return rows, loose


def _row(line: Line, share: Share, adjusted: Decimal) -> Row:
    actual = line.actual.total if line.actual else Decimal(0)
    return Row(line, line.estimate.total + share.estimate, actual + share.actual, adjusted)


def _per_km(amount: str, km: Decimal, coin: Currency) -> str | None:
    return coin.text(coin.round(Fraction(amount) / Fraction(km))) if km else None


def _baseline(lines: Iterable[Line], coin: Currency) -> answer.Spent:
    before = [line for line in lines if line.baseline]
    estimate = total(line.estimate.total for line in before)
    return answer.Spent(coin.text(estimate), coin.text(total(_spent(line) for line in before)))


def _spent(line: Line) -> Decimal:
    return line.actual.total if line.actual else Decimal(0)

"""The cost sheet of an event: what the team spent, line by line, with the manager's adjustments, sums, tax and total.

Tax is on the sum of rounded lines. What was spent is what was done: open lines are estimate only. What was there at
the hand-over is listed and counts in no sum.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from shuntbook.cost.access import Share, open_up
from shuntbook.cost.adjusted import Adjustment, adjustments
from shuntbook.cost.driven import stage_km
from shuntbook.cost.lines import Line, lines_of_car
from shuntbook.cost.sheet_json import adjustment_json, line_json
from shuntbook.cost.sums import DIMENSIONS, Row, sums_by
from shuntbook.cost.told import told_of_car
from shuntbook.kit.money import Currency, quantity, total, two_decimals
from shuntbook.kit.times import day_in
from shuntbook.queue.car import CarLog, car_log
from shuntbook.queue.release import Json
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import ServiceEntered
from shuntbook.setup.folder import Setup


@dataclass(frozen=True)
class CarCosts:
    """The lines of one car: jobs', access steps', each job line's share of access; corrections; stage km driven."""

    lines: list[Line]
    access: list[Line]
    shares: Mapping[str, Share]
    adjustments: list[Adjustment]
    km: Decimal


def cost_sheet(cars: Mapping[str, Iterable[Entry]], setup: Setup, car: str | None) -> Json:
    """Return the cost sheet as JSON of the cars' entries (car → entries), `car` naming the only one asked for."""
    costs = [costs_of_car(name, car_log(cars[name], setup), setup) for name in sorted(cars)]
    return _sheet(costs, setup, car)


def costs_of_car(car: str, log: CarLog, setup: Setup) -> CarCosts:
    """Return what one car's log costs."""
    lines = lines_of_car(car, log, told_of_car(log, setup.car_map), setup)
    opened = open_up(car, lines, setup.rates, _days(log, setup))
    return CarCosts(lines, opened.lines, opened.shares, adjustments(log.entries, setup), stage_km(log, setup.event))


def _days(log: CarLog, setup: Setup) -> dict[str, date]:
    """Return the day of each service: when the car came in, else when it was to arrive."""
    zone = setup.event.timezone
    days = {s.service: day_in(s.arrive, zone) for s in setup.event.services if s.arrive}
    for entry in sorted(log.entries, key=lambda entry: entry.id, reverse=True):
        if isinstance(entry.data, ServiceEntered):
            days[entry.data.service] = day_in(entry.when, zone)
    return days


def _sheet(costs: Sequence[CarCosts], setup: Setup, car: str | None) -> Json:
    coin = setup.rates.currency
    lines = [line for one in costs for line in (*one.lines, *one.access)]
    counting = [line for line in lines if not line.baseline]
    rows, loose = _rows(costs)
    spent = total(_spent(line) for line in counting)
    adjusted = total(item.amount for one in costs for item in one.adjustments if item.counts)
    tax = coin.round((spent + adjusted) * setup.rates.tax_percent / 100)
    money = {
        "estimate": total(line.estimate.total for line in counting),
        "consumables": total(line.actual.consumables for line in counting if line.actual),
        "actual": spent,
        "adjustments": adjusted,
        "before_tax": spent + adjusted,
        "tax": tax,
        "total": spent + adjusted + tax,
    }
    km = sum((one.km for one in costs), Decimal(0))
    shares = {name: share for one in costs for name, share in one.shares.items()}
    orders = {
        "car": list(setup.event.cars),
        "stage": [stage.stage for stage in setup.event.stages],
        "zone": list(setup.car_map.zones),
        "driver": [person.person for person in setup.event.people],
    }
    return {
        "event": setup.event.event,
        "car": car,
        "rates": setup.rates.version,
        "currency": coin.code,
        "tax_percent": two_decimals(setup.rates.tax_percent),
        "consumables_percent": two_decimals(setup.rates.consumables_percent),
        "lines": [line_json(line, shares.get(line.name, Share()), coin) for line in lines],
        "adjustments": [adjustment_json(item, coin) for one in costs for item in one.adjustments],
        **{f"by_{name}": sums_by(name, rows, loose, coin, orders.get(name, [])) for name in DIMENSIONS},
        "stage_km": quantity(km),
        "per_stage_km": _per_km(money, km, coin),
        "baseline": _baseline(lines, coin),
        "totals": {name: coin.text(amount) for name, amount in money.items()},
    }


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
                adjusted[name] = adjusted.get(name, Decimal(0)) + item.amount
            elif item.counts:
                loose += item.amount
        none = Decimal(0)
        rows += [Row(line, one.shares.get(line.name, Share()), adjusted.get(line.name, none)) for line in counting]
    return rows, loose


def _per_km(money: Mapping[str, Decimal], km: Decimal, coin: Currency) -> Json:
    def per_km(amount: Decimal) -> str | None:
        return coin.text(coin.round(Fraction(amount) / Fraction(km))) if km else None

    return {"estimate": per_km(money["estimate"]), "actual": per_km(money["before_tax"])}


def _baseline(lines: Iterable[Line], coin: Currency) -> Json:
    before = [line for line in lines if line.baseline]
    return {
        "estimate": coin.text(total(line.estimate.total for line in before)),
        "actual": coin.text(total(_spent(line) for line in before)),
    }


def _spent(line: Line) -> Decimal:
    return line.actual.total if line.actual else Decimal(0)

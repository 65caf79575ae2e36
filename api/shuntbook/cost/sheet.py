"""The cost sheet of an event: lines, the manager's adjustments, sums by stage and zone, tax and total.

Tax is on the sum of rounded lines. What was spent is what was done: open lines are estimate only.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from shuntbook.cost.lines import Line, Money, access_cost_lines, job_lines
from shuntbook.kit.money import Currency, quantity, total, two_decimals
from shuntbook.queue.acts import acts_on
from shuntbook.queue.car import CarLog, car_log
from shuntbook.queue.release import Json
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import CostAdjusted
from shuntbook.setup.folder import Setup


@dataclass(frozen=True)
class Adjustment:
    """A correction before tax; it counts if a manager made it."""

    entry: str
    car: str
    line: str
    amount: Decimal
    reason: str
    person: str
    counts: bool


def cost_sheet(cars: Mapping[str, Iterable[Entry]], setup: Setup, car: str | None) -> Json:
    """Return the cost sheet as JSON of the cars' entries (car → entries), `car` naming the only one asked for."""
    lines: list[Line] = []
    adjustments: list[Adjustment] = []
    for name in sorted(cars):
        log = car_log(cars[name], setup)
        lines += _lines_of_car(name, log, setup)
        adjustments += _adjustments(log.entries, setup)
    return _sheet(lines, adjustments, setup, car)


def _lines_of_car(car: str, log: CarLog, setup: Setup) -> list[Line]:
    pairs = []
    for key in log.keys:
        acts = acts_on(key, log.acts.get(key, []))
        pairs += job_lines(car, key, log.findings.get(key, []), acts, setup)
    return [line for line, _ in pairs] + access_cost_lines(car, pairs, setup.rates)


def _adjustments(entries: Iterable[Entry], setup: Setup) -> list[Adjustment]:
    return [
        Adjustment(
            entry.id,
            entry.car,
            entry.data.line,
            setup.rates.currency.round(entry.data.amount),
            entry.data.reason,
            entry.person,
            setup.event.has_role(entry.person, "manager"),
        )
        for entry in entries
        if isinstance(entry.data, CostAdjusted)
    ]


def _sheet(lines: list[Line], adjustments: list[Adjustment], setup: Setup, car: str | None) -> Json:
    coin = setup.rates.currency
    stages = [*(stage.stage for stage in setup.event.stages)]
    spent = total(_spent(line) for line in lines)
    adjusted = total(item.amount for item in adjustments if item.counts)
    tax = coin.round((spent + adjusted) * setup.rates.tax_percent / 100)
    money = {
        "estimate": total(line.estimate.total for line in lines),
        "actual": spent,
        "adjustments": adjusted,
        "before_tax": spent + adjusted,
        "tax": tax,
        "total": spent + adjusted + tax,
    }
    return {
        "event": setup.event.event,
        "car": car,
        "rates": setup.rates.version,
        "currency": coin.code,
        "tax_percent": two_decimals(setup.rates.tax_percent),
        "lines": [_line_json(line, coin) for line in lines],
        "adjustments": [_adjustment_json(item, coin) for item in adjustments],
        "by_stage": _by("stage", lines, coin, stages),
        "by_zone": _by("zone", lines, coin, list(setup.car_map.zones)),
        "totals": {name: coin.text(amount) for name, amount in money.items()},
    }


def _spent(line: Line) -> Decimal:
    return line.actual.total if line.actual else Decimal(0)


def _by(field: str, lines: list[Line], coin: Currency, order: list[str]) -> list[Json]:
    groups: dict[str, list[Line]] = {}
    for line in lines:
        groups.setdefault(getattr(line, field) or "", []).append(line)
    places = {name: place for place, name in enumerate(order)}
    return [
        {
            field: name or None,
            "estimate": coin.text(total(line.estimate.total for line in groups[name])),
            "actual": coin.text(total(_spent(line) for line in groups[name])),
        }
        for name in sorted(groups, key=lambda name: (places.get(name, len(places)), name))
    ]


def _line_json(line: Line, coin: Currency) -> Json:
    return {
        "line": line.name,
        "kind": line.kind,
        "car": line.car,
        "job": line.job or None,
        "step": line.step or None,
        "zone": line.zone or None,
        "component": line.component or None,
        "stage": line.stage,
        "service": line.service,
        "action": line.action,
        "condition": line.condition or None,
        "entries": list(line.entries),
        "estimate": _money_json(line.estimate, coin),
        "actual": _money_json(line.actual, coin) if line.actual else None,
    }


def _money_json(money: Money, coin: Currency) -> Json:
    return {
        "minutes": None if money.minutes is None else two_decimals(money.minutes),
        "mechanics": money.mechanics,
        "timed": money.timed,
        "labour": coin.text(money.labour),
        "parts": [
            {
                "part": part,
                "qty": quantity(qty),
                "unit_cost": None if unit is None else coin.text(unit),
            }
            for part, qty, unit in money.parts
        ],
        "parts_cost": coin.text(money.parts_cost),
        "total": coin.text(money.total),
    }


def _adjustment_json(item: Adjustment, coin: Currency) -> Json:
    return {
        "entry": item.entry,
        "car": item.car,
        "line": item.line,
        "amount": coin.text(item.amount),
        "reason": item.reason,
        "person": item.person,
        "counts": item.counts,
    }

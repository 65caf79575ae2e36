"""The lines and adjustments of a cost sheet as they stand in JSON."""

from shuntbook.cost.access import Share
from shuntbook.cost.adjusted import Adjustment
from shuntbook.cost.lines import Line
from shuntbook.cost.money import Money
from shuntbook.kit.money import Currency, quantity, two_decimals
from shuntbook.queue.release import Json


def line_json(line: Line, share: Share, coin: Currency) -> Json:
    """Return one line with its estimate and actual, and the share of the access lines that its job bears."""
    return {
        "line": line.name,
        "kind": line.kind,
        "car": line.car,
        "job": line.job or None,
        "step": line.step or None,
        "zone": line.zone or None,
        "component": line.component or None,
        "stage": line.stage,
        "day": line.day.isoformat() if line.day else None,
        "driver": line.driver,
        "incident": line.incident,
        "service": line.service,
        "action": line.action,
        "condition": line.condition or None,
        "temporary": line.temporary,
        "baseline": line.baseline,
        "entries": list(line.entries),
        "estimate": _money_json(line.estimate, coin),
        "actual": _money_json(line.actual, coin) if line.actual else None,
        "access_share": {"estimate": coin.text(share.estimate), "actual": coin.text(share.actual)},
    }


def adjustment_json(item: Adjustment, coin: Currency) -> Json:
    """Return one correction with its reason and author."""
    return {
        "entry": item.entry,
        "car": item.car,
        "line": item.line,
        "amount": coin.text(item.amount),
        "reason": item.reason,
        "person": item.person,
        "counts": item.counts,
    }


def _money_json(money: Money, coin: Currency) -> Json:
    return {
        "minutes": None if money.minutes is None else two_decimals(money.minutes),
        "mechanics": money.mechanics,
        "timed": money.timed_by == "entered",
        "timed_by": money.timed_by,
        "worked": [{"person": one.person, "minutes": two_decimals(one.minutes)} for one in money.worked],
        "labour": coin.text(money.labour),
        "parts": [
            {
                "part": part.part,
                "qty": quantity(part.qty),
                "unit_cost": None if part.unit_cost is None else coin.text(part.unit_cost),
            }
            for part in money.parts
        ],
        "parts_cost": coin.text(money.parts_cost),
        "consumables": coin.text(money.consumables),
        "total": coin.text(money.total),
    }

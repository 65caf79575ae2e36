"""Sums of a cost sheet by car, day, stage, zone, component and who drove; access steps in the shares that jobs bear."""

from collections.abc import Callable, Iterable
from decimal import Decimal
from typing import NamedTuple, TypeVar

from shuntbook.cost.answer import ByCar, ByComponent, ByDay, ByDriver, ByStage, ByZone, Sums
from shuntbook.cost.lines import Line
from shuntbook.kit.money import Currency, total


class Row(NamedTuple):
    """A job line with what was expected and spent, access that it bears included, and the manager's corrections of it.

    actual: 0 while nothing is done.
    """

    line: Line
    estimate: Decimal
    actual: Decimal
    adjusted: Decimal = Decimal(0)


Kind = TypeVar("Kind", ByCar, ByDay, ByStage, ByZone, ByComponent, ByDriver)
OF: dict[type[Sums], Callable[[Line], str | None]] = {
    ByCar: lambda line: line.car,
    ByDay: lambda line: line.day.isoformat() if line.day else None,
    ByStage: lambda line: line.stage,
    ByZone: lambda line: line.zone or None,
    ByComponent: lambda line: line.component or None,
    ByDriver: lambda line: line.driver,
}
"""What of a line each kind of sums is by."""


def sums_by(
    kind: type[Kind], rows: Iterable[Row], loose: Decimal, coin: Currency, order: Iterable[str] = ()
) -> list[Kind]:
    """Return estimate, actual, adjustments and their total before tax by one dimension, in `order`, null last.

    loose: corrections of what no line is about; they stand under null.
    """
    groups: dict[str | None, list[Row]] = {}
    for row in rows:
        groups.setdefault(OF[kind](row.line), []).append(row)
    if loose:
        groups.setdefault(None, [])
    places = {value: place for place, value in enumerate(order)}
    names = sorted(groups, key=lambda value: (value is None, places.get(value or "", len(places)), value or ""))
    found = []
    for name in names:
        actual = total([row.actual for row in groups[name]])
        adjusted = total([row.adjusted for row in groups[name]]) + (loose if name is None else Decimal(0))
        found.append(
            kind(
                name,
                estimate=coin.text(total([row.estimate for row in groups[name]])),
                actual=coin.text(actual),
                adjustments=coin.text(adjusted),
                before_tax=coin.text(actual + adjusted),
            )
        )
    return found

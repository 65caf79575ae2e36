"""Sums of a cost sheet by car, day, stage, zone, component and who drove; access steps in the shares that jobs bear."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from shuntbook.cost.access import Share
from shuntbook.cost.lines import Line
from shuntbook.kit.money import Currency, total
from shuntbook.queue.release import Json


@dataclass(frozen=True)
class Row:
    """A job line with the access that it bears and the manager's corrections of it."""

    line: Line
    share: Share = field(default_factory=Share)
    adjusted: Decimal = Decimal(0)

    @property
    def estimate(self) -> Decimal:
        """What was expected, with the share of access."""
        return self.line.estimate.total + self.share.estimate

    @property
    def actual(self) -> Decimal:
        """What was spent, with the share of access; 0 while nothing is done."""
        return (self.line.actual.total if self.line.actual else Decimal(0)) + self.share.actual


By = Callable[[Line], str | None]
DIMENSIONS: dict[str, By] = {
    "car": lambda line: line.car,
    "day": lambda line: line.day.isoformat() if line.day else None,
    "stage": lambda line: line.stage,
    "zone": lambda line: line.zone or None,
    "component": lambda line: line.component or None,
    "driver": lambda line: line.driver,
}


def sums_by(name: str, rows: Iterable[Row], loose: Decimal, coin: Currency, order: Sequence[str] = ()) -> list[Json]:
    """Return estimate, actual, adjustments and their total before tax by one dimension, in `order`, null last.

    loose: corrections of what no line is about; they stand under null.
    """
    groups: dict[str | None, list[Row]] = {}
    for row in rows:
        groups.setdefault(DIMENSIONS[name](row.line), []).append(row)
    if loose:
        groups.setdefault(None, [])
    places = {value: place for place, value in enumerate(order)}
    names = sorted(groups, key=lambda value: (value is None, places.get(value or "", len(places)), value or ""))
    return [{name: value, **_sums(groups[value], loose if value is None else Decimal(0), coin)} for value in names]


def _sums(rows: Sequence[Row], loose: Decimal, coin: Currency) -> Json:
    actual = total(row.actual for row in rows)
    adjusted = total(row.adjusted for row in rows) + loose
    return {
        "estimate": coin.text(total(row.estimate for row in rows)),
        "actual": coin.text(actual),
        "adjustments": coin.text(adjusted),
        "before_tax": coin.text(actual + adjusted),
    }

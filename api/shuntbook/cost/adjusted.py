"""The manager's corrections of a cost sheet."""

from collections.abc import Iterable

from msgspec import Struct

from shuntbook.report.entry import Entry
from shuntbook.report.kinds import CostAdjusted
from shuntbook.setup.folder import Setup


class Adjustment(Struct, frozen=True):
    """A correction before tax; it counts if a manager made it."""

    entry: str
    car: str
    line: str
    amount: str
    reason: str
    person: str
    counts: bool


def adjustments(entries: Iterable[Entry], setup: Setup) -> list[Adjustment]:
    """Return the corrections of a car, each with its reason and author."""
    return [
        Adjustment(
            entry.id,
            entry.car,
            entry.data.line,
            setup.rates.currency.text(entry.data.amount),
            entry.data.reason,
            entry.person,
            setup.event.has_role(entry.person, "manager"),
        )
        for entry in entries
        if isinstance(entry.data, CostAdjusted)
    ]

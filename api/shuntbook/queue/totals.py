"""What is left to do, added up: access steps once each, labour and parts in rounded lines."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Annotated

from msgspec import Meta, Struct

from shuntbook.kit.money import total, two_decimals
from shuntbook.queue.rank import Ranked
from shuntbook.setup.rates import Access, Rates


@dataclass(frozen=True)
class AccessLine:
    """An access step opened and closed once: for the car (zone "") or for one zone."""

    step: Access
    zone: str

    @property
    def mechanic_minutes(self) -> Fraction:
        """(open + close) × mechanics."""
        return (self.step.minutes_open + self.step.minutes_close) * self.step.mechanics


Withholdable = Meta(extra_json_schema={"type": ["string", "null"], "description": "null for who is shown no prices"})
"""A price, in whose place others are told null."""


class QueueTotals(Struct, frozen=True):
    """Sums over the jobs neither finished nor accepted; money as text with the currency's decimals."""

    mechanic_minutes: float
    access_minutes: float
    labour: Annotated[str, Withholdable]
    parts_cost: Annotated[str, Withholdable]
    total: Annotated[str, Withholdable]


def access_lines(pairs: Iterable[tuple[str, str]], rates: Rates) -> list[AccessLine]:
    """Return each step of (step, zone) pairs once: once for the car, or once a zone, in name order."""
    once = set()
    for name, zone in pairs:
        once.add((name, zone if rates.access[name].per == "zone" else ""))
    return [AccessLine(rates.access[name], zone) for name, zone in sorted(once)]


def totals(ranked: Iterable[Ranked], rates: Rates) -> QueueTotals:
    """Return the totals over the jobs neither finished nor accepted."""
    todo = [item for item in ranked if not item.over]
    steps = access_lines(((step, i.job.zone) for i in todo for step in i.estimate.access), rates)
    access = sum((line.mechanic_minutes for line in steps), Fraction(0))
    work = sum((item.estimate.mechanic_minutes for item in todo), Fraction(0))
    labour = total([i.estimate.labour for i in todo] + [rates.labour(line.mechanic_minutes) for line in steps])
    parts = total(item.estimate.parts_cost for item in todo)
    text = rates.currency.text
    return QueueTotals(
        mechanic_minutes=two_decimals(work + access),
        access_minutes=two_decimals(access),
        labour=text(labour),
        parts_cost=text(parts),
        total=text(labour + parts),
    )


def add_up(stocks: Iterable[dict[str, Decimal]]) -> dict[str, Decimal]:
    """Add quantities by part."""
    summed: dict[str, Decimal] = {}
    for stock in stocks:
        for part, qty in stock.items():
            summed[part] = summed.get(part, Decimal(0)) + qty
    return summed

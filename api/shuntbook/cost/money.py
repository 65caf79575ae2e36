"""Minutes and money of a cost line, each amount rounded once."""

from decimal import Decimal
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Literal

from msgspec import Struct

from shuntbook.setup.rates import Rates

TimedBy = Literal["entered", "estimate"]


class PartCost(Struct, frozen=True):
    """How many of a part, and what one costs by the rate table: None where the table has no such part."""

    part: str
    qty: Decimal
    unit_cost: Decimal | None

    @property
    def exact(self) -> Decimal:
        """What they cost together, not rounded; 0 without a price."""
        return self.qty * self.unit_cost if self.unit_cost is not None else Decimal(0)


class Worked(Struct, frozen=True):
    """Somebody's minutes on a repair: from a start that it ends to its end, by the clocks of the phones."""

    person: str
    minutes: float


class Money(Struct, frozen=True, dict=True):
    """Labour, parts and consumables of a line; minutes are elapsed, None where not timed."""

    minutes: Fraction | None
    mechanics: int | None
    mechanic_minutes: Fraction
    labour: Decimal
    parts: tuple[PartCost, ...]
    parts_cost: Decimal
    consumables: Decimal
    timed_by: TimedBy = "estimate"
    worked: tuple[Worked, ...] = ()

    @cached_property
    def total(self) -> Decimal:
        """Labour, parts and consumables."""
        return self.labour + self.parts_cost + self.consumables


def money_of(
    rates: Rates,
    mechanics: int | None,
    mechanic_minutes: Fraction,
    parts: tuple[PartCost, ...] = (),
    minutes: Fraction | None = None,
    timed_by: TimedBy = "estimate",
    worked: tuple[Worked, ...] = (),
) -> Money:
    """Return a line's money: labour by mechanic-minutes, parts at cost, consumables as a percentage of the parts."""
    labour, (cost, consumables) = _labour(rates, mechanic_minutes), _parts(rates, parts)
    return Money(minutes, mechanics, mechanic_minutes, labour, parts, cost, consumables, timed_by, worked)


# A sheet of thousands of lines has few amounts that differ.
@lru_cache(maxsize=4096)
def _labour(rates: Rates, mechanic_minutes: Fraction) -> Decimal:
    return rates.labour(mechanic_minutes)


@lru_cache(maxsize=4096)
def _parts(rates: Rates, parts: tuple[PartCost, ...]) -> tuple[Decimal, Decimal]:
    """Return what parts and consumables cost."""
    cost = rates.currency.round(sum((part.exact for part in parts), Decimal(0)))
    return cost, rates.currency.round(cost * rates.consumables_percent / 100)

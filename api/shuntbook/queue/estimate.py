"""What a job takes by the rate table: action, three-point minutes, mechanics, access, parts, money."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, lru_cache

from shuntbook.setup.car_map import CarMap
from shuntbook.setup.rates import Operation, Rates, ThreePoint
from shuntbook.setup.words import UNKNOWN

_NOTHING = (0.0, Fraction(0))


@dataclass(frozen=True, eq=False)
class Estimate:
    """A job's estimate, access left out; money rounded to lines, minutes exact. Compared by identity."""

    action: str
    no_rate: bool
    minutes: ThreePoint
    mechanics: int
    access: tuple[str, ...]
    parts: Mapping[str, Decimal]
    row_must_do: bool
    value: Fraction
    labour: Decimal
    parts_cost: Decimal

    @cached_property
    def mechanic_minutes(self) -> Fraction:
        """Expected minutes × mechanics."""
        return self.minutes.expected * self.mechanics

    @cached_property
    def worth(self) -> Fraction:
        """Value per mechanic-minute, exact; 0 without a row."""
        return self.value / self.mechanic_minutes

    @cached_property
    def worth_falling(self) -> tuple[float, Fraction]:
        """A key that sorts by worth, most first: the float settles nearly all pairs, the fraction the rest."""
        return (-float(self.worth), -self.worth) if self.value else _NOTHING

    @property
    def total(self) -> Decimal:
        """Labour and parts, both rounded lines."""
        return self.labour + self.parts_cost


@lru_cache(maxsize=8192)
def estimate(
    zone: str,
    component: str,
    group: str | None,
    condition: str,
    rates: Rates,
    inspect_access: tuple[str, ...] = (),
) -> Estimate:
    """Return the estimate for a component in a condition.

    Unknown is inspected, with the steps of `inspect_access` open; what has no row is assessed and never dropped.
    """
    if condition == UNKNOWN:
        return _inspection(rates.inspect(group), inspect_access, rates)
    row = rates.operation(component, condition, zone)
    return _by_row(row, rates) if row else _rowless("assess", True, rates.assess_minutes, (), rates)


@lru_cache(maxsize=1024)
def next_inspection(access: tuple[str, ...], rates: Rates) -> Estimate | None:
    """Return the estimate of a further inspection in the same zone; None where it takes as long as any."""
    minutes = rates.inspect_next_minutes
    return _inspection(minutes, access, rates) if minutes else None


def inspect_access(zone: str, component: str, car_map: CarMap, rates: Rates) -> tuple[str, ...]:
    """Return the steps that an inspection needs open: the component's own, else those of the zone's kind. Ascending."""
    own = car_map.inspect_access(component)
    known = car_map.zones.get(zone)
    steps = own if own is not None else rates.inspect_access.get(known.kind, ()) if known else ()
    return tuple(sorted(set(steps)))


def _inspection(minutes: ThreePoint, access: tuple[str, ...], rates: Rates) -> Estimate:
    return _rowless("inspect", False, minutes, access, rates)


def _rowless(action: str, no_rate: bool, minutes: ThreePoint, access: tuple[str, ...], rates: Rates) -> Estimate:
    labour = rates.labour(minutes.expected)
    return Estimate(action, no_rate, minutes, 1, access, {}, False, Fraction(0), labour, Decimal(0))


def _by_row(row: Operation, rates: Rates) -> Estimate:
    cost = sum(
        (rates.parts[part].unit_cost * qty for part, qty in row.parts.items()),
        Decimal(0),
    )
    return Estimate(
        row.action,
        False,
        row.minutes,
        row.mechanics,
        tuple(sorted(set(row.access))),
        dict(sorted(row.parts.items())),
        row.must_do,
        row.value,
        rates.labour(row.minutes.expected * row.mechanics),
        rates.currency.round(cost),
    )

"""The rate table as values: three-point minutes, mechanics, access, parts and money.

Expected minutes of a three-point estimate
are (best + 4·likely + worst) / 6, its variance ((worst − best) / 6)².
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import cached_property

from shuntbook.kit.money import Currency
from shuntbook.setup.lines import Rows

ON_STANDS = "-on-stands"
"""How a step's name ends that lifts the car, where the rate table does not say which do."""


@dataclass(frozen=True)
class ThreePoint:
    """Best, likely and worst minutes of a task."""

    best: Fraction
    likely: Fraction
    worst: Fraction

    @cached_property
    def expected(self) -> Fraction:
        """Mean minutes of the three-point estimate."""
        return (self.best + 4 * self.likely + self.worst) / 6

    @property
    def variance(self) -> Fraction:
        """Variance of the three-point estimate, in minutes squared."""
        return ((self.worst - self.best) / 6) ** 2


@dataclass(frozen=True)
class Operation:
    """A row of the rate table: what is done to a component in a condition ("" zone: in any zone).

    crew: one of its people may be the driver or co-driver.
    """

    component: str
    condition: str
    zone: str
    action: str
    minutes: ThreePoint
    mechanics: int
    access: tuple[str, ...]
    parts: Mapping[str, Decimal]
    must_do: bool
    value: Fraction
    skill: str = ""
    after: tuple[str, ...] = ()
    then: tuple[str, ...] = ()
    ground: bool = False
    fire_risk: bool = False
    wear: bool = False
    max_events: int | None = None
    crew: bool = False


@dataclass(frozen=True)
class Access:
    """A step that opens the way to a job, once for the car or once a zone; minutes are elapsed.

    moves_car: whether the car goes up or down; None where the rate table does not say.
    """

    step: str
    per: str
    minutes_open: Fraction
    minutes_close: Fraction
    mechanics: int
    needs: tuple[str, ...] = ()
    moves_car: bool | None = None
    crew: bool = False

    @property
    def moves(self) -> bool:
        """Whether the car goes up or down with it: as the table says, else where its name is `…-on-stands`."""
        return self.step.endswith(ON_STANDS) if self.moves_car is None else self.moves_car


@dataclass(frozen=True)
class Part:
    """A part and what one costs."""

    part: str
    description: str
    unit_cost: Decimal
    supplier: str = ""


@dataclass(frozen=True)
class Check:
    """A check that follows a job: `when` before-close or on-ground, `by` anyone, other or inspector."""

    check: str
    minutes: ThreePoint
    mechanics: int
    when: str
    by: str
    crew: bool = False


@dataclass(frozen=True, eq=False)
class Rates:
    """A checked rate table. Money in `currency`; `operations` by (component, condition, zone). rows: all of its files.

    inspect_next_minutes: of each further inspection in a zone, None where it takes as long as the first;
    inspect_access: the steps that an inspection needs open, by the zone's kind. Compared by identity, so that estimates
    can be remembered per table.
    """

    version: str
    currency: Currency
    labour_per_hour: Decimal
    tax_percent: Decimal
    consumables_percent: Decimal
    inspect_minutes: ThreePoint
    assess_minutes: ThreePoint
    inspect_minutes_by_group: Mapping[str, ThreePoint]
    inspect_next_minutes: ThreePoint | None
    inspect_access: Mapping[str, tuple[str, ...]]
    operations: Mapping[tuple[str, str, str], Operation]
    access: Mapping[str, Access]
    parts: Mapping[str, Part]
    checks: Mapping[str, Check]
    rows: Rows = field(default_factory=dict)

    def operation(self, component: str, condition: str, zone: str) -> Operation | None:
        """Return the row for the component in that condition: the zone's own, else the common one."""
        by_zone = self.operations.get((component, condition, zone))
        return by_zone or self.operations.get((component, condition, ""))

    def inspect(self, group: str | None) -> ThreePoint:
        """Return the minutes of a look: the group's own, else the common ones."""
        return self.inspect_minutes_by_group.get(group or "", self.inspect_minutes)

    def labour(self, mechanic_minutes: Fraction) -> Decimal:
        """Return one line of labour, rounded once."""
        return self.currency.round(mechanic_minutes * Fraction(self.labour_per_hour) / 60)

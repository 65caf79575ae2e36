"""Who pays for what: the terms agreed for a car and an event, and the price list of what is no damage.

They come from `[[agreements]]` and `[[other_charges]]` of event.toml.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal


@dataclass(frozen=True)
class Agreement:
    """The terms for one car; money before tax and in the rate table's currency.

    excess: what the customer bears of the damage of one incident, or of the whole event, at most; None = all of it.
    cap: what he pays at most in all. share_percent: his part of the damage, before excess and cap.
    wear_excluded: components whose wear is not charged. included: how many of a part are in the hire price.
    labour_per_hour: None = the rate table's, 0 = none is charged. consumables_percent: None = the rate table's.
    later_findings_days: how long after the return damage may still be found; None = without limit.
    """

    agreement: str
    car: str
    customer: str
    drivers: tuple[str, ...] = ()
    excess: Decimal | None = None
    excess_per: str = "incident"
    cap: Decimal | None = None
    share_percent: Decimal = Decimal(100)
    wear_excluded: tuple[str, ...] = ()
    included: Mapping[str, Decimal] = field(default_factory=dict)
    part_worn: bool = True
    labour_per_hour: Decimal | None = None
    consumables_percent: Decimal | None = None
    recovery: str = "charged"
    deposit: Decimal = Decimal(0)
    tax_percent: Decimal = Decimal(0)
    later_findings_days: int | None = None
    text: str = ""
    excluded: tuple[str, ...] = ()
    wear: str = "excluded"
    address: str = ""
    signed_on: date | None = None
    hire_from: datetime | None = None
    hire_to: datetime | None = None
    language: str = ""

    @property
    def never_charged(self) -> frozenset[str]:
        """Components that the customer never pays for."""
        return frozenset((*self.excluded, *self.wear_excluded))


@dataclass(frozen=True)
class Clause:
    """Which clause of an agreement says what becomes of a kind of line, or of the sum."""

    agreement: str
    of: str
    clause: str


@dataclass(frozen=True)
class Sender:
    """Who sends statements: as it stands on them. object_days, due_days: after a statement is issued."""

    name: str = ""
    address: str = ""
    contact: str = ""
    tax_number: str = ""
    bank: str = ""
    object_to: str = ""
    object_days: int = 14
    due_days: int = 14


@dataclass(frozen=True)
class OtherCharge:
    """A row of the price list: what is charged besides damage, before tax.

    price: of one unit. per_tank: units in a full tank. item: of the kit, "" for any. per_minutes: how long a unit of
    lateness is. tax_percent: None = the agreement's.
    """

    charge: str
    kind: str
    says: str
    price: Decimal
    unit: str = ""
    per_tank: Decimal | None = None
    item: str = ""
    per_minutes: int = 60
    tax_percent: Decimal | None = None

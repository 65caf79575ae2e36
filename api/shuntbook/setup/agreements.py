"""Who pays for what: the terms that were agreed for a car and an event, from `[[agreements]]` of event.toml."""

from collections.abc import Mapping
from dataclasses import dataclass, field
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

    @property
    def never_charged(self) -> frozenset[str]:
        """Components that the customer never pays for."""
        return frozenset((*self.excluded, *self.wear_excluded))

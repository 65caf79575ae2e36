"""What a customer is charged for a cost line under an agreement, or why nothing: the second of two money worlds.

The team's own spending is in the sheet. Here labour is at the agreed rate and includes the line's share of access,
parts are less what was used of them and what the agreement includes; each amount is rounded once.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from fractions import Fraction

from shuntbook.cost.access import Share
from shuntbook.cost.lines import Line
from shuntbook.cost.money import Money, PartCost
from shuntbook.kit.times import minutes_after
from shuntbook.report.settling import ChargeDecided
from shuntbook.setup.agreements import Agreement
from shuntbook.setup.rates import Rates
from shuntbook.setup.words import UNKNOWN

MINUTES_A_DAY = 24 * 60
NO_DECISION = ChargeDecided(charge="damage")


@dataclass(frozen=True)
class PartCharge:
    """A part of a charge; included: how many of it the agreement has in its price."""

    cost: PartCost
    used_percent: Decimal
    included: Decimal
    charged: Decimal


@dataclass(frozen=True)
class Charge:
    """What one line comes to for the customer."""

    line: Line
    mechanic_minutes: Fraction
    labour: Decimal
    parts: tuple[PartCharge, ...]
    parts_cost: Decimal
    consumables: Decimal

    @property
    def amount(self) -> Decimal:
        """Labour, parts and consumables."""
        return self.labour + self.parts_cost + self.consumables


@dataclass
class Terms:
    """An agreement at work on one car: what is left of the included quantities goes down line by line."""

    agreement: Agreement
    rates: Rates
    decisions: Mapping[str, ChargeDecided]
    withdrawn: Mapping[str, str]
    returned: datetime | None = None
    seen_at_return: frozenset[str] = frozenset()
    """Reports of the return walk, which both sides signed: new since the car went out."""
    left: dict[str, Decimal] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.left = dict(self.agreement.included)

    @property
    def per_hour(self) -> Decimal:
        """The labour rate of the agreement, or of the rate table."""
        agreed = self.agreement.labour_per_hour
        return self.rates.labour_per_hour if agreed is None else agreed

    @property
    def consumables_percent(self) -> Decimal:
        """Consumables in percent of the parts charged."""
        agreed = self.agreement.consumables_percent
        return self.rates.consumables_percent if agreed is None else agreed

    def why_not(self, line: Line) -> str | None:
        """Return why a line is not charged, as one word of WHY; None where it is."""
        if line.name in self.withdrawn:
            return "withdrawn"
        decided = self.decisions.get(line.name)
        if decided:
            return {"not-charged": "decided", "wear": "wear"}.get(decided.charge)
        return next((why for why, holds in self._reasons(line) if holds), None)

    def _reasons(self, line: Line) -> Sequence[tuple[str, bool]]:
        told, terms = line.told, self.agreement
        return (
            ("hand-over", line.baseline),
            ("no-report", told is None),
            ("look", line.kind == "open" and line.condition == UNKNOWN),
            ("agreed-wear", line.component in terms.wear_excluded),
            ("wear", line.condition == "worn" or bool(told and told.body.cause == "wear")),
            ("recovery", terms.recovery == "included" and bool(told and told.body.cause == "recovery")),
            ("other-driver", bool(terms.drivers and line.driver and line.driver not in terms.drivers)),
            ("found-alone", bool(told and told.found_alone and told.report not in self.seen_at_return)),
            ("found-late", self._late(line)),
        )

    def _late(self, line: Line) -> bool:
        days = self.agreement.later_findings_days
        if days is None or self.returned is None or line.told is None:
            return False
        return line.told.when > minutes_after(self.returned, days * MINUTES_A_DAY)

    def charge(self, line: Line, share: Share) -> Charge:
        """Return what the line comes to: as repaired, else as estimated."""
        money: Money = line.actual or line.estimate
        minutes = money.mechanic_minutes + share.mechanic_minutes
        coin = self.rates.currency
        used = {worn.part: worn.used_percent for worn in self.decisions.get(line.name, NO_DECISION).worn}
        parts = tuple(self._part(part, used.get(part.part, Decimal(0))) for part in money.parts)
        cost = sum((part.charged for part in parts), Decimal(0))
        return Charge(
            line,
            minutes,
            coin.round(minutes * Fraction(self.per_hour) / 60),
            parts,
            cost,
            coin.round(cost * self.consumables_percent / 100),
        )

    def _part(self, part: PartCost, used_percent: Decimal) -> PartCharge:
        included = min(self.left.get(part.part, Decimal(0)), part.qty)
        if included:
            self.left[part.part] -= included
        used = used_percent if self.agreement.part_worn else Decimal(0)
        amount = (part.qty - included) * (part.unit_cost or Decimal(0)) * (100 - used) / 100
        return PartCharge(part, used, included, self.rates.currency.round(amount))

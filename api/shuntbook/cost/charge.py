"""What a customer is charged for a cost line under an agreement, or why nothing: the second of two money worlds.

The team's own spending is in the sheet. Here labour is at the agreed rate and includes the line's share of access,
parts are less what was used of them and what the agreement includes; parts, labour and consumables are each rounded
once.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from fractions import Fraction

from shuntbook.cost.access import Share, apportion
from shuntbook.cost.decided import Decision
from shuntbook.cost.lines import Line
from shuntbook.cost.money import Money, PartCost
from shuntbook.kit.money import total
from shuntbook.kit.times import minutes_after
from shuntbook.setup.agreements import Agreement
from shuntbook.setup.rates import Rates
from shuntbook.setup.words import UNKNOWN

MINUTES_A_DAY = 24 * 60
NO_DECISION = Decision()
NOTHING = Decimal(0)


@dataclass(frozen=True)
class PartCharge:
    """A part of a charge; included: how many of it the agreement has in its price."""

    cost: PartCost
    used_percent: Decimal
    included: Decimal
    charged: Decimal


@dataclass(frozen=True)
class Charge:
    """What one line comes to for the customer; misuse: share, excess and cap do nothing to it."""

    line: Line
    misuse: bool
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
    decisions: Mapping[str, Decision]
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

    def decided(self, line: Line) -> Decision:
        """Return what managers decided of a line: nothing, where nobody did."""
        return self.decisions.get(line.name, NO_DECISION)

    def why_not(self, line: Line) -> str | None:
        """Return why a line is not charged, as one word of WHY; None where it is."""
        whatever_is_decided = self._never(line)
        charge = self.decided(line).charge
        reasons = self._reasons(line) if charge is None else self._by_decision(charge)
        return next((why for why, holds in (*whatever_is_decided, *reasons) if holds), None)

    def _never(self, line: Line) -> Sequence[tuple[str, bool]]:
        return (
            ("withdrawn", line.name in self.withdrawn),
            ("hand-over", line.baseline),
            ("excluded", line.component in self.agreement.never_charged),
        )

    def _by_decision(self, charge: str) -> Sequence[tuple[str, bool]]:
        return (("decided", charge == "not-charged"), ("wear", charge == "wear" and not self._wear_is_charged))

    def _reasons(self, line: Line) -> Sequence[tuple[str, bool]]:
        told, terms = line.told, self.agreement
        worn = line.condition == "worn" or bool(told and told.body.cause == "wear")
        return (
            ("no-report", told is None),
            ("look", line.kind == "open" and line.condition == UNKNOWN),
            ("wear", worn and not self._wear_is_charged),
            ("recovery", terms.recovery == "included" and bool(told and told.body.cause == "recovery")),
            ("other-driver", bool(terms.drivers and line.driver and line.driver not in terms.drivers)),
            ("found-alone", bool(told and told.found_alone and told.report not in self.seen_at_return)),
            ("found-late", self._late(line)),
        )

    @property
    def _wear_is_charged(self) -> bool:
        return self.agreement.wear == "charged"

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
        decided = self.decided(line)
        parts = self._parts(money.parts, decided.used)
        cost = total(part.charged for part in parts)
        return Charge(
            line,
            decided.charge == "misuse",
            minutes,
            coin.round(minutes * Fraction(self.per_hour) / 60),
            parts,
            cost,
            coin.round(Fraction(cost) * Fraction(self.consumables_percent) / 100),
        )

    def _parts(self, parts: Sequence[PartCost], used: Mapping[str, Decimal]) -> tuple[PartCharge, ...]:
        """Return what each part of a line bears of their sum, which is rounded once."""
        included = [self._take(part) for part in parts]
        percent = [used.get(part.part, NOTHING) if self.agreement.part_worn else NOTHING for part in parts]
        exact = [_less(*one) for one in zip(parts, included, percent, strict=True)]
        cost = self.rates.currency.round(sum(exact, Fraction(0)))
        borne = apportion(cost, exact, self.rates.currency) if cost else [cost for _ in parts]
        return tuple(map(PartCharge, parts, percent, included, borne))

    def _take(self, part: PartCost) -> Decimal:
        """Return how many of a part are in the price, and take them off what is left of those."""
        included = min(self.left.get(part.part, NOTHING), part.qty)
        if included:
            self.left[part.part] -= included
        return included


def _less(part: PartCost, included: Decimal, used_percent: Decimal) -> Fraction:
    """Return what a part costs without what is included and what was used of it, exactly."""
    price = Fraction(part.unit_cost or 0)
    return Fraction(part.qty - included) * price * Fraction(100 - used_percent) / 100

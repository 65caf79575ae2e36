"""Statements to a car's customer as phones and documents read them; money as text with the currency's decimals."""

from typing import Literal

from msgspec import Struct

from shuntbook.report.settling import Standing, StatedTotals, Step


class ChargedPart(Struct, frozen=True):
    """A part of a line: how many, at what, how much of its life was used, how many the agreement includes."""

    part: str
    description: str
    qty: float
    unit_cost: str | None
    used_percent: float
    included: float
    charged: str


class Tag(Struct, frozen=True):
    """Where the broken part is kept until the bill is paid."""

    tag: str
    shelf: str


class StatementLine(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A line with what is behind it; standing: agreed, disputed, withdrawn, or null; repaired false = estimated.

    charge: `misuse` is paid in full, beside share, excess and cap; left out where it is damage.
    """

    line: str
    job: str | None
    says: str
    action: str
    condition: str
    service: str | None
    repaired: bool
    mechanic_minutes: float
    labour: str
    parts: list[ChargedPart]
    parts_cost: str
    consumables: str
    amount: str
    entries: list[str]
    photos: list[str]
    photos_before: list[str]
    standing: Standing | None
    tag: Tag | None
    charge: Literal["damage", "misuse"] = "damage"


class StatementIncident(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A hit with its lines, and what of its damage is to be paid; misuse, where there is any."""

    incident: str
    title: str
    stage: str | None
    km: float | None
    driver: str | None
    reported_at_the_time: bool
    others_involved: bool
    reports: list[str]
    lines: list[StatementLine]
    steps: list[Step]
    to_pay: str
    misuse: str | None = None


class StatementNotCharged(Struct, frozen=True):
    """What is not charged, and why."""

    line: str
    job: str | None
    says: str
    why: str
    entries: list[str]
    photos: list[str]


class Statement(Struct, frozen=True):
    """One statement; entry, issued_at and by are null in a draft."""

    event: str
    car: str
    agreement: str
    customer: str
    currency: str
    rates: str
    number: int
    supplements: int | None
    entry: str | None
    issued_at: str | None
    by: str | None
    incidents: list[StatementIncident]
    not_charged: list[StatementNotCharged]
    steps: list[Step]
    totals: StatedTotals


class Statements(Struct, frozen=True):
    """The statements of one car; draft is null where no agreement names the car."""

    event: str
    car: str
    draft: Statement | None
    issued: list[Statement]

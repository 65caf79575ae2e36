"""Statements to a car's customer as phones and documents read them; money as text with the currency's decimals."""

from typing import Literal

from msgspec import Struct

from shuntbook.report.settling import Letter, OtherKind, Standing, StatedTotals, Step


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

    charge: `misuse` is paid in full, beside share, excess and cap; left out where it is damage. why: what it came from,
    who reported it when, and the clause.
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
    why: str = ""


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


class StatementOther(Struct, frozen=True):
    """What is charged besides damage: qty × price before tax, why it is, its tax in percent; standing as of a line."""

    line: str
    kind: OtherKind
    says: str
    qty: float
    unit: str
    price: str
    amount: str
    tax_percent: float
    why: str
    entries: list[str]
    photos: list[str]
    standing: Standing | None


class StatementNotCharged(Struct, frozen=True):
    """What is not charged, and why."""

    line: str
    job: str | None
    says: str
    why: str
    entries: list[str]
    photos: list[str]


class Statement(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One statement; entry, issued_at and by are null in a draft.

    other: what is charged besides damage; asks: what the manager is to settle before it is issued. Both are left out
    where there are none. letter: what makes it a letter; null in what release 0.1.0 issued.
    """

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
    other: list[StatementOther] = []
    asks: list[str] = []
    letter: Letter | None = None


class Statements(Struct, frozen=True):
    """The statements of one car; draft is null where no agreement names the car."""

    event: str
    car: str
    draft: Statement | None
    issued: list[Statement]

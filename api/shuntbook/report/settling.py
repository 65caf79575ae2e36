"""What entries hold about who had the car in what state, and who pays: hand-over walks, charges, statements."""

from decimal import Decimal
from typing import Annotated, Literal

from msgspec import Meta, Struct

from shuntbook.report.body import Name, Names, Sha256, Text, within

Amount = Annotated[str, Meta(pattern=r"^-?[0-9]{1,15}(\.[0-9]{1,4})?$")]
"""Money as it stands in JSON, with the currency's decimals."""
Standing = Literal["agreed", "disputed", "withdrawn"]
"""What became of a line of an issued statement."""
Level = Literal["full", "between", "low", "empty"]


class ReadAt(Struct, frozen=True):
    """A depth read at a place of the car, in millimetres: tread of a tyre, what is left of a pad."""

    place: Name
    mm: Decimal

    def __post_init__(self) -> None:
        within("mm", self.mm, 0, 100)


class FluidSeen(Struct, frozen=True):
    """How full a reservoir is, against its own marks."""

    fluid: Name
    level: Level


class KitItem(Struct, frozen=True):
    """Whether a loose item is aboard."""

    item: Name
    aboard: bool


class WalkPhoto(Struct, frozen=True):
    """One of the fixed views of the walk; photo None where it was left out, with the reason."""

    view: Name
    photo: Sha256 | None = None
    why_none: Text | None = None


class Signature(Struct, frozen=True):
    """Who signed for which side; `photo` is the picture of what was drawn on the screen, None where nobody drew."""

    side: Literal["team", "customer"]
    name: Text
    how: Literal["on-screen", "not-present", "refused"] = "on-screen"
    photo: Sha256 | None = None


class HandoverSigned(Struct, frozen=True, kw_only=True):
    """The car was walked round and changed hands; `marks` are the reports (where = hand-over) of the same walk."""

    walk: Literal["out", "return"]
    agreement: Name | None = None
    odometer_km: Decimal | None = None
    fuel_percent: Annotated[int, Meta(ge=0, le=100)] | None = None
    tread: Annotated[list[ReadAt], Meta(max_length=20)] = []
    pads: Annotated[list[ReadAt], Meta(max_length=20)] = []
    fluids: Annotated[list[FluidSeen], Meta(max_length=20)] = []
    kit: Annotated[list[KitItem], Meta(max_length=60)] = []
    photos: Annotated[list[WalkPhoto], Meta(max_length=40)] = []
    marks: Names = []
    signed: Annotated[list[Signature], Meta(max_length=6)] = []
    note: Text = ""
    needs_cleaning: bool | None = None
    replaces: Names = []

    def __post_init__(self) -> None:
        within("odometer_km", self.odometer_km, 0, 10_000_000)


class PartWorn(Struct, frozen=True):
    """How much of a part's life was used before the hit, in percent."""

    part: Name
    used_percent: Decimal

    def __post_init__(self) -> None:
        within("used_percent", self.used_percent, 0, 100)


Charging = Literal["damage", "wear", "misuse", "not-charged"]
"""What a line is to the agreement."""


class ChargeDecided(Struct, frozen=True, kw_only=True):
    """The manager says what a cost line is to the agreement; the entry is about the line's name.

    Without `charge` it only says how far parts were used.
    """

    charge: Charging | None = None
    incident: Name | None = None
    worn: Annotated[list[PartWorn], Meta(max_length=50)] = []
    reason: Text = ""
    replaces: Names = []


OtherKind = Literal["fuel", "kit", "cleaning", "lateness", "recovery", "property", "other"]
"""What a customer may be charged for besides damage; property: somebody else's that was hit."""
Price = Annotated[str, Meta(pattern=r"^-?[0-9]{1,12}(\.[0-9]{1,4})?$")]
"""What one of something costs, with at most 12 digits before the point."""


class ChargeAdded(Struct, frozen=True, kw_only=True):
    """The manager charges what is no damage of the car, or corrects such a line: the subject is its name then.

    qty × price, before tax; tax_percent null: as the agreement says. A price below 0 is a credit.
    """

    charge: OtherKind
    says: Text
    qty: Decimal = Decimal(1)
    unit: Text = ""
    price: Price
    tax_percent: Decimal | None = None
    reason: Text = ""
    photos: Annotated[list[Sha256], Meta(max_length=20)] = []
    replaces: Names = []

    def __post_init__(self) -> None:
        within("qty", self.qty, 0, 1_000_000)
        within("tax_percent", self.tax_percent, 0, 100)


class PartRetained(Struct, frozen=True):
    """The broken part is kept, tagged and shelved, until the bill is paid; the entry is about the job's key."""

    tag: Name
    shelf: Text = ""
    part: Name | None = None


class StatedPart(Struct, frozen=True, kw_only=True):
    """A part of a line: how many, at what, how much of its life was used, how many the agreement includes."""

    part: Name
    description: Text = ""
    qty: Decimal
    unit_cost: Amount | None = None
    used_percent: Decimal = Decimal(0)
    included: Decimal = Decimal(0)
    charged: Amount


class StatedLine(Struct, frozen=True, kw_only=True):
    """A line of a statement in words and sums; charge: misuse is paid in full, whatever the terms are.

    why: what it came from, who reported it when, and the clause by which it is charged.
    """

    line: Name
    charge: Literal["damage", "misuse"] = "damage"
    job: Name | None = None
    says: Text
    action: Text = ""
    condition: Text = ""
    service: Name | None = None
    mechanic_minutes: Decimal = Decimal(0)
    repaired: bool = True
    labour: Amount
    parts: Annotated[list[StatedPart], Meta(max_length=100)] = []
    parts_cost: Amount
    consumables: Amount
    amount: Amount
    why: Text = ""


class Step(Struct, frozen=True):
    """One step of a sum, in words that a customer can follow."""

    step: Name
    says: Text
    amount: Amount


class StatedIncident(Struct, frozen=True, kw_only=True):
    """A hit with its lines, what of its damage is to be paid after share and excess, and its misuse."""

    incident: Name
    title: Text
    stage: Name | None = None
    km: Decimal | None = None
    driver: Name | None = None
    reported_at_the_time: bool = True
    others_involved: bool = False
    reports: Names = []
    lines: Annotated[list[StatedLine], Meta(max_length=300)] = []
    steps: Annotated[list[Step], Meta(max_length=20)] = []
    to_pay: Amount
    misuse: Amount | None = None


class StatedOther(Struct, frozen=True, kw_only=True):
    """What is charged besides damage: how many at what, how that comes about, and its tax in percent."""

    line: Name
    kind: OtherKind
    says: Text
    qty: Decimal
    unit: Text = ""
    price: Amount
    amount: Amount
    tax_percent: Decimal = Decimal(0)
    why: Text = ""


class NotCharged(Struct, frozen=True, kw_only=True):
    """What is not charged, and why."""

    line: Name
    job: Name | None = None
    says: Text
    why: Text


class StatedTotals(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """damage: all lines; to_pay: after the terms, before tax; misuse, other: what of it is misuse, and what is no
    damage; left out where nothing is.

    now = to_pay + tax − stated_before; rest = to_pay + tax − deposit.
    """

    damage: Amount
    to_pay: Amount
    tax: Amount
    stated_before: Amount
    now: Amount
    deposit: Amount
    rest: Amount
    misuse: Amount | None = None
    other: Amount | None = None


class Letter(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """What makes a statement a letter: who writes to whom about which hire, when it is due, and the terms that applied.

    due_days, object_days: counted from the day of issue. terms: a sentence each. language: of all its sentences,
    English where it is left out.
    """

    sender: Text = ""
    sender_address: Text = ""
    contact: Text = ""
    tax_number: Text = ""
    customer_address: Text = ""
    hire: Annotated[list[Text], Meta(max_length=20)] = []
    terms: Annotated[list[Text], Meta(max_length=30)] = []
    bank: Text = ""
    object_to: Text = ""
    due_days: int = 14
    object_days: int = 14
    language: Text = ""


class StatementContent(Struct, frozen=True, kw_only=True):
    """What a statement says, whole."""

    customer: Text
    currency: Name
    rates: Name
    incidents: Annotated[list[StatedIncident], Meta(max_length=200)] = []
    not_charged: Annotated[list[NotCharged], Meta(max_length=500)] = []
    steps: Annotated[list[Step], Meta(max_length=400)] = []
    other: Annotated[list[StatedOther], Meta(max_length=100)] = []
    totals: StatedTotals
    letter: Letter | None = None


class StatementIssued(Struct, frozen=True, kw_only=True):
    """A statement as it went to the customer, word for word: numbered, supplemented, never edited."""

    number: Annotated[int, Meta(ge=1, le=10_000)]
    supplements: Annotated[int, Meta(ge=1, le=10_000)] | None = None
    agreement: Name
    content: StatementContent


class LineSettled(Struct, frozen=True, kw_only=True):
    """A line of a statement is agreed, disputed or withdrawn; the entry is about the statement's id."""

    line: Name
    standing: Standing
    reason: Text = ""
    replaces: Names = []

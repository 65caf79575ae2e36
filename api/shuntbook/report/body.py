"""A report's body, and the small checked types that all kinds of entries share."""

from decimal import Decimal
from typing import Annotated, Literal

from msgspec import Meta, Struct

from shuntbook.setup.words import UNKNOWN, Condition

Name = Annotated[str, Meta(min_length=1, max_length=200)]
Text = Annotated[str, Meta(max_length=4000)]
Names = Annotated[list[Name], Meta(max_length=500)]
Sha256 = Annotated[str, Meta(pattern="^[0-9a-f]{64}$")]
ZoneName = Annotated[str, Meta(min_length=1, max_length=200, pattern="^[^/]+$")]
Count = Annotated[int, Meta(ge=0, le=1000)]
Where = Literal[
    "stage",
    "road-section",
    "service",
    "recce",
    "shakedown",
    "regroup",
    "recovery",
    "workshop",
    "hand-over",
    "unknown",
]
Cause = Literal[
    "stone",
    "bank",
    "ditch",
    "tree",
    "landing",
    "water",
    "roll",
    "car",
    "recovery",
    "wear",
    "unknown",
]
Direction = Annotated[int, Meta(ge=1, le=12)] | Literal["below"]


def within(what: str, number: Decimal | None, least: int, most: int) -> None:
    """Refuse a number out of bounds; msgspec knows no bounds for Decimal."""
    if number is not None and not (number.is_finite() and least <= number <= most):
        raise ValueError(f"{what} must be a number from {least} to {most}, not {number}")


class ComponentFinding(Struct, frozen=True):
    """One component seen in a condition, in the report's zone."""

    component: ZoneName
    condition: Condition = UNKNOWN


class Position(Struct, frozen=True, kw_only=True):
    """Where a phone was, in degrees of WGS 84, and the radius in metres that it gave for its own error."""

    lat: Decimal
    lon: Decimal
    accuracy_m: Decimal | None = None

    def __post_init__(self) -> None:
        within("lat", self.lat, -90, 90)
        within("lon", self.lon, -180, 180)
        within("accuracy_m", self.accuracy_m, 0, 1_000_000)


class Body(Struct, frozen=True, kw_only=True):
    """A report body; every field may be left out, since a tired person must never be stopped from saving.

    note_page: the page of the crew's pace notes, which they know where they do not know the km.
    """

    stage: Name | None = None
    km: Decimal | None = None
    where: Where = UNKNOWN
    zone: ZoneName | None = None
    direction: Direction | None = None
    cause: Cause = UNKNOWN
    caused_by: Name | None = None
    findings: Annotated[list[ComponentFinding], Meta(max_length=300)] = []
    symptoms: Names = []
    drives: Literal["well", "poorly", "no"] | None = None
    photos: Annotated[list[Sha256], Meta(max_length=100)] = []
    note: Text = ""
    note_page: Count | None = None
    position: Position | None = None

    def __post_init__(self) -> None:
        within("km", self.km, 0, 1000)

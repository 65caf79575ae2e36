"""What on a car runs out: by the day (`[[dated]]`: harness, extinguisher, seals), by use or age (`[[lives]]`)."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal


@dataclass(frozen=True)
class Dated:
    """An item of a car at a place, with the last day that it may be used and the number on its seal."""

    car: str
    item: str
    place: str = ""
    expires: date | None = None
    seal: str = ""


LIMITS = ("events", "stage_km", "days")
"""What the life of a part can be limited in; it is due by the first that is reached."""


@dataclass(frozen=True)
class Life:
    """How long a component lasts; `place` a zone, "" for each zone that has one; `car` "" for all cars."""

    component: str
    place: str = ""
    car: str = ""
    label: str = ""
    events: int | None = None
    stage_km: Decimal | None = None
    days: int | None = None
    must_do: bool = False

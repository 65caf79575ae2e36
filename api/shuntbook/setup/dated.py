"""What on a car runs out or is sealed: harness, seats, extinguisher, seals; from `[[dated]]` of event.toml."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class Dated:
    """An item of a car at a place, with the last day that it may be used and the number on its seal."""

    car: str
    item: str
    place: str = ""
    expires: date | None = None
    seal: str = ""

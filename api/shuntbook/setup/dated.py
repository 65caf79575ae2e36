"""What on a car runs out or is sealed: harness, seats, extinguisher, seals; from `[[dated]]` of event.toml."""

from dataclasses import dataclass
from datetime import date, datetime

from shuntbook.setup.toml_file import Reader


@dataclass(frozen=True)
class Dated:
    """An item of a car at a place, with the last day that it may be used and the number on its seal."""

    car: str
    item: str
    place: str = ""
    expires: date | None = None
    seal: str = ""


def read_dated(reader: Reader, cars: tuple[str, ...]) -> Dated:
    """Read one `[[dated]]` table; `cars` are the event's. Faults name line and key."""
    car = reader.text("car")
    if car and car not in cars:
        reader.fault("car", f"{car!r} is not a car of this event; its cars are {', '.join(cars)}")
    expires = reader.table.get("expires")
    if expires is not None and (isinstance(expires, datetime) or not isinstance(expires, date)):
        reader.fault("expires", "write a day without quotes, such as 2027-05-31")
        expires = None
    return Dated(car, reader.text("item"), reader.text("place", ""), expires, reader.text("seal", ""))

"""The event's way: stages, places of the road book on them, services."""

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from shuntbook.kit.times import within_reach
from shuntbook.setup.toml_file import Reader


@dataclass(frozen=True)
class Stage:
    """A timed stage of the itinerary; km is its length."""

    stage: str
    km: Decimal


@dataclass(frozen=True)
class RoadPlace:
    """A place of the road book on a stage: how far in, and where on the map (degrees of WGS 84)."""

    stage: str
    km: Decimal
    lat: Decimal
    lon: Decimal


@dataclass(frozen=True)
class Service:
    """A service of the itinerary, after stage `after` ("" = before the first); minutes control to control.

    parc_ferme_after: leaving it, the car goes to parc fermé, and nobody works on it until the next service.
    """

    service: str
    after: str
    kind: str
    arrive: datetime | None
    minutes: int
    in_and_out_minutes: Decimal
    parc_ferme_after: bool = False


def read_stage(reader: Reader) -> Stage:
    """Read a stage."""
    return Stage(reader.text("stage"), reader.number("km", 0))


def read_service(reader: Reader, stages: tuple[Stage, ...]) -> Service:
    """Read a service; one after a stage that is not there, or at a time without its offset, is a fault."""
    after = reader.text("after", "")
    if after and after not in [s.stage for s in stages]:
        reader.fault("after", f"{after!r} is not a stage of this event")
    arrive = reader.table.get("arrive")
    if arrive is not None and not (isinstance(arrive, datetime) and arrive.tzinfo):
        reader.fault("arrive", "write a time with its offset, such as 2026-05-16T13:02:00+02:00")
        arrive = None
    return Service(
        reader.text("service"),
        after,
        reader.text("kind", ""),
        # A set-up is read as it was taken; what no clock can show is held to what one can.
        None if arrive is None else within_reach(arrive),
        reader.whole("minutes", least=1),
        reader.number("in_and_out_minutes", 0),
        reader.flag("parc_ferme_after"),
    )


def read_place(reader: Reader, stages: tuple[Stage, ...]) -> RoadPlace:
    """Read a place; a km beyond the stage, or a place that is not on the globe, is a fault."""
    lat, lon = reader.number("lat", least=-90), reader.number("lon", least=-180)
    place = RoadPlace(reader.text("stage"), reader.number("km"), lat, lon)
    stage = next((one for one in stages if one.stage == place.stage), None)
    if stage is None:
        reader.fault("stage", f"{place.stage!r} is not a stage of this event")
    elif place.km > stage.km:
        reader.fault("km", f"{place.km} is not on {stage.stage}, which is {stage.km} km long")
    for key, degrees, most in (("lat", place.lat, 90), ("lon", place.lon, 180)):
        if degrees > most:
            reader.fault(key, f"{degrees} is above {most} degrees")
    return place

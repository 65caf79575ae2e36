"""The event's way: stages, places of the road book on them, services."""

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from shuntbook.setup.lines import Lines
from shuntbook.setup.values import said

USUALLY_IN = Decimal(2)
"""Minutes of driving in, where a service says only how long in and out take together (common practice, no source)."""


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

    in_minutes: of in_and_out_minutes what driving in takes, None where the set-up does not say.
    parc_ferme_after: leaving it, the car goes to parc fermé, and nobody works on it until the next service.
    """

    service: str
    after: str
    kind: str
    arrive: datetime | None
    minutes: int
    in_and_out_minutes: Decimal
    parc_ferme_after: bool = False
    in_minutes: Decimal | None = None

    @property
    def driving_in(self) -> Decimal:
        """Minutes from when the car comes in until work can start: two where the set-up names only the sum."""
        return min(USUALLY_IN, self.in_and_out_minutes) if self.in_minutes is None else self.in_minutes


def check_itinerary(lines: Lines) -> None:
    """Note places that are not on their stage, and services that say twice how long driving in and out takes."""
    lengths = {line["stage"]: line["km"] for line in lines["stages"]}
    for line in lines["places"]:
        length = lengths.get(line["stage"])
        if length is not None and line["km"] > length:
            line.fault("km", f"{said(line['km'])} is not on {line['stage']}, which is {said(length)} km long")
    for line in lines["services"]:
        if line.given & {"in_minutes", "out_minutes"}:
            if "in_and_out_minutes" in line.given:
                line.fault("in_and_out_minutes", "write either this or in_minutes and out_minutes", new=True)
            else:
                line.values["in_minutes"] = line["in_minutes"] or Decimal(0)
                line.values["in_and_out_minutes"] = line["in_minutes"] + (line["out_minutes"] or 0)

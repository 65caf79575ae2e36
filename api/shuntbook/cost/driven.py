"""How far a car drove at stage speed: the itinerary's timed km, without the stages after it stopped."""

from decimal import Decimal

from shuntbook.queue.car import CarLog
from shuntbook.report.kinds import CarRestarts, CarRetired
from shuntbook.setup.event import Event


def stage_km(log: CarLog, event: Event) -> Decimal:
    """Return the km of the stages that the car ran, from the entries that say where it stopped and came back."""
    return sum((stage.km for stage, runs in zip(event.stages, ran(log, event), strict=True) if runs), Decimal(0))


def ran(log: CarLog, event: Event) -> list[bool]:
    """Return for each stage of the itinerary whether the car ran it, as far as the log says where it stopped.

    A stage that it stopped on counts whole: nobody says at which km it is left. Entries that name no stage of the
    itinerary change nothing.
    """
    stopped = {event.stage_index(e.data.stage) for e in log.of_kind("car.retired") if isinstance(e.data, CarRetired)}
    back = {event.stage_index(e.data.stage) for e in log.of_kind("car.restarts") if isinstance(e.data, CarRestarts)}
    found: list[bool] = []
    runs = True
    for place in range(len(event.stages)):
        runs = runs or place in back
        found.append(runs)
        if place in stopped:
            runs = False
    return found

"""How far a car drove at stage speed: the itinerary's timed km, without the stages after it stopped."""

from decimal import Decimal

from shuntbook.queue.car import CarLog
from shuntbook.report.kinds import CarRestarts, CarRetired
from shuntbook.setup.event import Event


def stage_km(log: CarLog, event: Event) -> Decimal:
    """Return the km of the stages that the car ran, from the entries that say where it stopped and came back.

    A stage that it stopped on counts whole: nobody says at which km it is left. Entries that name no stage of the
    itinerary change nothing.
    """
    stopped = {event.stage_index(e.data.stage) for e in log.entries if isinstance(e.data, CarRetired)}
    back = {event.stage_index(e.data.stage) for e in log.entries if isinstance(e.data, CarRestarts)}
    km = Decimal(0)
    runs = True
    for place, stage in enumerate(event.stages):
        runs = runs or place in back
        if runs:
            km += stage.km
        if place in stopped:
            runs = False
    return km

"""Events as the season's stages take them: set-up, cost sheet and entries."""

from collections.abc import Iterable

from making import Json, parsed
from shuntbook.cost.sheet import cost_sheet
from shuntbook.season.rounds import Held
from shuntbook.setup.folder import Setup


def held(setup: Setup, entries: Iterable[Json]) -> Held:
    """Return an event with these entries, as the store would hold it."""
    taken = parsed(entries)
    cars = {car: [entry for entry in taken if entry.car == car] for car in {*setup.event.cars}}
    return Held(setup, cost_sheet(cars, setup, None), taken)

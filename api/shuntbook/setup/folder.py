"""Reads the set-up files of an event (name → bytes) into one checked value, all faults at once."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib.resources import files as resources

from shuntbook.kit.errors import BadSetup
from shuntbook.setup import car_map, event, van
from shuntbook.setup.agreements import too_fine
from shuntbook.setup.car_map import CarMap, read_car_map
from shuntbook.setup.event import Event, read_event
from shuntbook.setup.faults import Faults
from shuntbook.setup.rates import Rates
from shuntbook.setup.rates_files import read_rates
from shuntbook.setup.van import read_van

RATES = "rates/"


@dataclass(frozen=True)
class Setup:
    """Everything fixed beforehand that the fold needs: event, car map, rate table, van stock."""

    event: Event
    car_map: CarMap
    rates: Rates
    van: Mapping[str, Decimal]


@cache
def default_car_map() -> CarMap:
    """Return the package's own car map."""
    faults = Faults()
    read = read_car_map(resources("shuntbook").joinpath("defaults", car_map.FILE).read_bytes(), faults)
    faults.raise_if_any()
    if read is None:
        raise BadSetup([])
    return read.with_fixed_groups_of(read)


def read_setup(files: Mapping[str, bytes]) -> Setup:
    """Read event.toml, rates/*, van.csv and an optional car_map.toml.

    Errors: BadSetup with every fault of all files, named as they lie in the folder.
    """
    faults = Faults()
    if event.FILE not in files:
        faults.add(event.FILE, 0, "", "this file is missing; an event folder starts with it")
    read = read_event(files[event.FILE], faults) if event.FILE in files else None
    the_map = _car_map(files, faults)
    rates = _rates(files, faults)
    _check_terms(read, rates, faults)
    stock = read_van(files[van.FILE], faults) if van.FILE in files else {}
    faults.raise_if_any()
    if read is None or the_map is None:
        raise BadSetup(faults.found)
    return Setup(read, the_map, rates, stock)


def _check_terms(read: Event | None, rates: Rates, faults: Faults) -> None:
    """Note agreements that name money or parts that the rate table cannot know."""
    for index, agreement in enumerate(read.agreements if read else ()):
        named = f"agreement {agreement.agreement!r}"
        for term in too_fine(agreement, rates.currency):
            what = f"{named}: more decimals than {rates.currency.code} has"
            faults.add(event.FILE, 0, f"agreements.{term}", what, index)
        for part in agreement.included:
            if part not in rates.parts:
                what = f"{named}: part {part!r} is not in parts.csv"
                faults.add(event.FILE, 0, "agreements.included", what, index)


def _car_map(files: Mapping[str, bytes], faults: Faults) -> CarMap | None:
    if car_map.FILE not in files:
        return default_car_map()
    read = read_car_map(files[car_map.FILE], faults)
    return read.with_fixed_groups_of(default_car_map()) if read else None


def _rates(files: Mapping[str, bytes], faults: Faults) -> Rates:
    inner = Faults()
    rates = read_rates(
        {n.removeprefix(RATES): d for n, d in files.items() if n.startswith(RATES)},
        inner,
    )
    for fault in inner.found:
        faults.add(RATES + fault.file, fault.row, fault.column, fault.what, fault.index)
    return rates

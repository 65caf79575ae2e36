"""Reads the set-up files of an event (name → bytes) into one checked value, all faults at once."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import cache
from importlib.resources import files as resources

from shuntbook.kit.errors import BadSetup, Fault
from shuntbook.kit.speech import ENGLISH, Speech
from shuntbook.setup import car_map, event, van
from shuntbook.setup.car_map import CarMap, read_car_map
from shuntbook.setup.event import Event, event_lines, event_of
from shuntbook.setup.faults import Faults
from shuntbook.setup.lines import Lines, Rows, check_money, check_references
from shuntbook.setup.rates import Rates
from shuntbook.setup.rates_files import read_rates
from shuntbook.setup.toml_file import TomlFile
from shuntbook.setup.van import read_van

RATES = "rates/"
FILES = (event.FILE, van.FILE, car_map.FILE)
"""The files of an event beside its rate table."""


@dataclass(frozen=True)
class Setup:
    """Everything fixed beforehand that the fold needs: event, car map, rate table, van stock.

    warnings: what was taken and deserves to be told. stock: the rows of van.csv. language: what its papers speak.
    """

    event: Event
    car_map: CarMap
    rates: Rates
    van: Mapping[str, Decimal]
    warnings: tuple[Fault, ...] = ()
    stock: Rows = field(default_factory=dict)
    language: str = ENGLISH

    @property
    def speech(self) -> Speech:
        """What its papers say, in their language."""
        return Speech(self.language)

    def spoken(self, language: str) -> "Setup":
        """Return the same with the labels of the package's own car map in a language, for papers alone."""
        if language == self.language:
            return self
        return replace(self, language=language, car_map=self.car_map.labelled(Speech(language).label))

    @property
    def rows(self) -> Rows:
        """What all files say: rows of values by table."""
        return {**self.event.rows, **self.rates.rows, **self.stock, **self.car_map.rows}


@cache
def default_car_map() -> CarMap:
    """Return the package's own car map."""
    faults = Faults()
    read = read_car_map(resources("shuntbook").joinpath("defaults", car_map.FILE).read_bytes(), faults)
    faults.raise_if_any()
    if read is None:
        raise BadSetup([])
    return read.with_fixed_groups_of(read)


def read_setup(files: Mapping[str, bytes], stored: bool = False) -> Setup:
    """Read event.toml, rates/*, van.csv and an optional car_map.toml.

    stored: they were taken once, and are read as they were: what only came to be a fault since is a warning.
    Errors: BadSetup with every fault of all files, named as they lie in the folder.
    """
    faults = Faults(stored)
    try:
        return _read(files, faults)
    except BadSetup:
        # Where there are too many the reading ends within a file, which knows its own name only.
        raise BadSetup(faults.found) from None


def _read(files: Mapping[str, bytes], faults: Faults) -> Setup:
    if event.FILE not in files:
        faults.add(event.FILE, 0, "", "this file is missing; an event folder starts with it")
    lines = event_lines(files[event.FILE], faults) if event.FILE in files else None
    the_map = _car_map(files, faults)
    rates = _rates(files, faults)
    _check_terms(lines or {}, rates, the_map)
    if car_map.FILE in files:
        _check_inspections(the_map, rates, files[car_map.FILE], faults)
    elif the_map:
        the_map = the_map.opening(rates.access)
    stock = read_van(files.get(van.FILE), faults)
    _tell_unread(files, faults)
    faults.raise_if_any()
    if lines is None or the_map is None:
        raise BadSetup(faults.found)
    loaded = {one["part"]: one["loaded"] for one in stock["van"]}
    return Setup(event_of(lines), the_map, rates, loaded, tuple(sorted(set(faults.warnings))), stock)


def _tell_unread(files: Mapping[str, bytes], faults: Faults) -> None:
    """Tell of files that nothing reads: most likely a name that was mistyped. Unknown ones of rates/ are faults."""
    for name in files:
        if name not in FILES and not name.startswith(RATES):
            faults.warn(name, 0, "", f"is kept, and read by nothing; an event has {', '.join(FILES)} and {RATES}")


def _check_terms(lines: Lines, rates: Rates, the_map: CarMap | None) -> None:
    """Note agreements that name money, parts or components that rate table and car map cannot know."""
    coin = rates.currency
    check_money(lines, coin.code, coin.fits, coin.decimals)
    check_references(lines, {"parts.part": rates.parts})
    if the_map:
        in_rates = {row["component"] for row in rates.rows.get("operations", ())}
        check_references(lines, {"components.component": the_map.names | in_rates})


def _check_inspections(own_map: CarMap | None, rates: Rates, data: bytes, faults: Faults) -> None:
    """Note components whose inspection needs a step open that the rate table does not have. data: the map's file."""
    components = own_map.components.values() if own_map else ()
    lacking = [
        (one.component, step) for one in components for step in one.inspect_access or () if step not in rates.access
    ]
    if not lacking:
        return
    file, key = TomlFile(car_map.FILE, data, Faults(stored=True)), "inspect_access"
    for component, step in lacking:
        header = f"components.{component}"
        what = f"{step!r} is not in rates/access.csv; add it there or correct the name"
        faults.add(file.name, file.line_of(header, 0, key), f"{header}.{key}", what, 0)


def _car_map(files: Mapping[str, bytes], faults: Faults) -> CarMap | None:
    if car_map.FILE not in files:
        return default_car_map()
    read = read_car_map(files[car_map.FILE], faults)
    return read.with_fixed_groups_of(default_car_map()) if read else None


def _rates(files: Mapping[str, bytes], faults: Faults) -> Rates:
    inner = Faults(faults.stored)
    try:
        return read_rates({n.removeprefix(RATES): d for n, d in files.items() if n.startswith(RATES)}, inner)
    finally:
        faults.found += [replace(fault, file=RATES + fault.file) for fault in inner.found]
        faults.warnings += [replace(fault, file=RATES + fault.file) for fault in inner.warnings]

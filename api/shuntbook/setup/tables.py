"""All tables of a set-up, in the order in which they are read and shown."""

from shuntbook.setup.event_keys import EVENT_TABLES
from shuntbook.setup.keys import Table
from shuntbook.setup.map_keys import MAP_TABLES
from shuntbook.setup.rate_keys import RATE_TABLES, STOCK_TABLES

TABLES: tuple[Table, ...] = EVENT_TABLES + RATE_TABLES + STOCK_TABLES + MAP_TABLES


def table_of(name: str) -> Table:
    """Return a table by its name. Errors: KeyError."""
    return next((one for one in TABLES if one.table == name), None) or _unknown(name)


def of_file(file: str, tables: tuple[Table, ...] = TABLES) -> tuple[Table, ...]:
    """Return the tables of a file."""
    return tuple(one for one in tables if one.file == file)


def _unknown(name: str) -> Table:
    raise KeyError(name)

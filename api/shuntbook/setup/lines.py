"""Rows of a set-up's files as values, by what the tables say of their keys; whatever does not fit is a fault."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import fields
from decimal import Decimal
from difflib import get_close_matches
from typing import Any

from shuntbook.setup.keys import Key, Table
from shuntbook.setup.values import Bad, from_cell, from_toml, said, usual

Values = Mapping[str, Any]
Rows = Mapping[str, tuple[Values, ...]]
"""Rows of values by table; every key of a table is in each of its rows."""

Tell = Callable[[str, str, bool], None]
"""Notes something at a key, and whether release 0.1.0 took it."""

_ONE = Decimal(1)
_EXAMPLE = {"text": '"…"', "points": "[best, likely, worst]"}
_STAND_IN = {"text": "", "number": _ONE, "money": _ONE, "whole": 1, "points": (_ONE, _ONE, _ONE)}

MOST_NEAR = 200
"""So many words are looked through for one that is near, so that a thousand faults take no minute."""
UNUSED = "is kept and shown, but nothing follows from it in this version"


class Line:
    """One row: its values by key, which keys it says, and how a fault in it is noted.

    given: the keys that the file fills; faulty: those with a fault; row: its line in a CSV file.
    """

    def __init__(self, table: Table, raw: Mapping[str, Any], fault: Tell, warn: Tell) -> None:
        self.table = table
        self.values: dict[str, Any] = {}
        self.given = frozenset(key for key, value in raw.items() if value not in ("", None))
        self.faulty: set[str] = set()
        self.row = 0
        self._fault = fault
        self._warn = warn

    def fault(self, key: str, what: str, new: bool = False) -> None:
        """Note a fault at `key`; new: release 0.1.0 took what is at fault."""
        self.faulty.add(key)
        self._fault(key, what, new)

    def warn(self, key: str, what: str) -> None:
        """Note what is taken and deserves to be told."""
        self._warn(key, what, False)

    def sound(self, *keys: str) -> bool:
        """Return whether none of these keys has a fault."""
        return self.faulty.isdisjoint(keys)

    def __getitem__(self, key: str) -> Any:
        """Return the value of a key."""
        return self.values[key]


Lines = Mapping[str, list[Line]]


def toml_line(table: Table, raw: Mapping[str, Any], fault: Tell, warn: Tell, named: str | None = None) -> Line:
    """Return the line of one table of a TOML file. named: its own key, where tables go by name."""
    line = Line(table, raw, fault, warn)
    _fill(line, raw if named is None else {**raw, table.columns[0].key: named}, from_toml)
    for key in raw:
        if table.column(key) is None:
            _unknown(line, key)
    return line


def csv_line(table: Table, cells: Mapping[str, str], fault: Tell, warn: Tell) -> Line:
    """Return the line of one row of a CSV file."""
    line = Line(table, cells, fault, warn)
    _fill(line, cells, from_cell)
    return line


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return a question that names the nearest known word, or what the known words are."""
    known = list(known)
    near = get_close_matches(word, known[:MOST_NEAR], n=1)
    listed = ", ".join(sorted(known)[:12]) + (", …" if len(known) > 12 else "")
    return f"did you mean {near[0]}?" if near else f"known are {listed or 'none'}"


def _unknown(line: Line, key: str) -> None:
    what = f"{key!r} is not a key of {line.table.table}; {did_you_mean(key, [one.key for one in line.table.columns])}"
    if line.table.closed:
        line.fault(key, what, new=True)
    else:
        line.warn(key, f"{what} It is kept, and nothing follows from it")


def _fill(line: Line, raw: Mapping[str, Any], read: Callable[[Key, Any], Any]) -> None:
    for key in line.table.columns:
        value = raw.get(key.key)
        if value is None or value == "":
            line.values[key.key] = _absent(line, key)
            continue
        line.values[key.key] = _read(line, key, value, read)
        if not key.used and line.values[key.key] != usual(key):
            line.warn(key.key, f"{key.key} {UNUSED}")


def _absent(line: Line, key: Key) -> Any:
    if key.same:
        return line.values[key.same]
    needed = key.required and usual(key) is None
    if needed or key.filled:
        line.fault(key.key, _missing(line.table, key), key.added)
    return _nothing(key) if needed else usual(key)


def _missing(table: Table, key: Key) -> str:
    if table.shape == "csv":
        return "is empty; it must be filled" if key.kind == "text" else "is empty, which is not a number; fill it"
    if key.filled:
        return f"{key.key} must name something: list zone/component, since it must make the crew check something"
    return f"{key.key} is missing; write {key.key} = {_EXAMPLE.get(key.kind, 'a number')}"


def _read(line: Line, key: Key, value: Any, read: Callable[[Key, Any], Any]) -> Any:
    try:
        found = read(key, value)
    except Bad as bad:
        line.fault(key.key, str(bad), bad.new)
        return _nothing(key) if bad.instead is None else bad.instead
    if key.filled and not found:
        line.fault(key.key, _missing(line.table, key), key.added)
    return found


def _nothing(key: Key) -> Any:
    """Return a value that can be read further, so that one fault is not several."""
    value = usual(key)
    return _STAND_IN.get(key.kind) if value is None and key.required else value


def row_key(table: Table, values: Values) -> str:
    """Return what tells a row from others, as people read it."""
    return " ".join(filter(None, (said(values[key]) for key in table.keys)))


def check_twins(lines: Lines) -> None:
    """Note keys that stand twice in a table where they may not."""
    for table_lines in lines.values():
        for key in table_lines[0].table.unique if table_lines else ():
            seen: set[Any] = set()
            for line in table_lines:
                if line[key] and line[key] in seen:
                    line.fault(key, f"{line[key]!r} stands twice; names must differ")
                seen.add(line[key])


def check_references(lines: Lines, known: Mapping[str, Collection[str]]) -> None:
    """Note names that are not there, where a key has to name a row; known: names by `table.key`."""
    for table_lines in lines.values():
        for key in table_lines[0].table.columns if table_lines else ():
            if key.strict and key.refers in known:
                for line in table_lines:
                    _refer(line, key, known[key.refers])


def known_in(lines: Lines, tables: Iterable[Table]) -> dict[str, Collection[str]]:
    """Return the names in the first column of each of these tables, by `table.key`."""
    firsts = [(table.table, table.columns[0].key) for table in tables]
    return {f"{table}.{key}": {line[key] for line in lines[table]} for table, key in firsts}


def _refer(line: Line, key: Key, known: Collection[str]) -> None:
    value, is_sound = line[key.key], line.sound(key.key)
    for name in value if isinstance(value, tuple | dict) else filter(None, [value]):
        if name not in known and is_sound:
            what = f"{name!r} {_not_there(key.refers.partition('.')[0], line.table)}; {did_you_mean(name, known)}"
            line.fault(key.key, what, key.added or key.stricter)


def _not_there(table: str, own: Table) -> str:
    if own.shape == "csv" or table in ("parts", "access"):
        return f"is not in {table}.csv"
    if table == "components":
        return "is neither in the car map nor in operations.csv"
    one = {"people": "person"}.get(table, table.removesuffix("s"))
    return f"is not {'an' if one.startswith(('a', 'e', 'o')) else 'a'} {one} of this event"


def check_money(lines: Lines, code: str, fits: Callable[[Decimal], bool], decimals: int) -> None:
    """Note amounts with more decimals than the currency has."""
    for table_lines in lines.values():
        for key in table_lines[0].table.columns if table_lines else ():
            for line in table_lines if key.kind == "money" else ():
                amount = line[key.key]
                if amount is not None and not fits(amount):
                    line.fault(key.key, f"{said(amount)} has more decimals than {code} ({decimals}); round it")


def rows_of(lines: Lines) -> Rows:
    """Return the values of lines, table by table."""
    return {table: tuple(line.values for line in found) for table, found in lines.items()}


def picked(kind: type[Any], values: Values) -> dict[str, Any]:
    """Return those values that a dataclass has a field for."""
    return {one.name: values[one.name] for one in fields(kind) if one.name in values}

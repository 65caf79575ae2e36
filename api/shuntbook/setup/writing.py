"""TOML files made from the cells that an app sends: what is not changed stays as it was written, comments too."""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from shuntbook.kit.errors import BadSetup, Fault
from shuntbook.setup.cells import toml_value
from shuntbook.setup.csv_file import MOST_ROWS
from shuntbook.setup.keys import Table
from shuntbook.setup.tables import of_file
from shuntbook.setup.toml_edit import Listed, edited
from shuntbook.setup.toml_file import MOST_BYTES

Raw = dict[str, Any]


@dataclass(frozen=True)
class CellRow:
    """A row as an app holds it: text by key, and what of its table no cell can hold, as TOML."""

    cells: Mapping[str, str]
    rest: str = ""

    @property
    def is_blank(self) -> bool:
        """Whether it says nothing at all."""
        return not self.rest and not any(cell.strip() for cell in self.cells.values())


@dataclass(frozen=True)
class CellFile:
    """A file as an app holds it: the text that was edited ("" for none), its rows by table, and its other keys."""

    base: str
    tables: Mapping[str, tuple[CellRow, ...]]
    rest: str = ""


def written(name: str, file: CellFile) -> bytes:
    """Return the file that these cells say. Errors: BadSetup where what came beside the cells can't be read."""
    tables = tuple(table for table in of_file(name) if table.shape != "csv")
    if not tables:
        raise BadSetup([Fault(name, 0, "", "is not a TOML file of a set-up; send it as a file")])
    if sum(len(rows) for rows in file.tables.values()) > MOST_ROWS:
        raise BadSetup([Fault(name, 0, "", f"more than {MOST_ROWS} rows; take out what no car here has")])
    before, rest = _parsed(name, file.base), _parsed(name, file.rest)
    return edited(file.base, before, _after(name, tables, before, rest, file)).encode()


def _after(name: str, tables: tuple[Table, ...], before: Raw, rest: Raw, file: CellFile) -> Raw:
    """Return what the file is to say, its keys in the order of the text that was edited."""
    zone = next((row.cells.get("timezone", "") for row in file.tables.get("event", ())), "") or "UTC"
    made: Raw = {}
    for table in tables:
        rows = [row for row in file.tables.get(table.table, ()) if not row.is_blank]
        made |= _part(name, table, rows, before, zone)
    for key, value in rest.items():
        both = isinstance(made.get(key), dict) and isinstance(value, dict)
        made[key] = {**value, **made[key]} if both else made.get(key, value)
    order = [key for key in before if key in made] + [key for key in made if key not in before]
    return {key: made[key] for key in order}


def _part(name: str, table: Table, rows: list[CellRow], before: Raw, zone: str) -> Raw:
    old = before if table.shape == "top" else before.get(table.table)
    if table.shape == "rows":
        return _array(name, table, rows, old if isinstance(old, list) else [], zone)
    was = old if isinstance(old, dict) else {}
    if table.shape == "top":
        return _row(name, table, rows[0], was, zone) if rows else {}
    if table.shape == "one":
        return {table.table: _row(name, table, rows[0], was, zone)} if rows else {}
    named = dict(_named(name, table, row, was, zone) for row in rows)
    return {table.table: named} if named else {}


def _array(name: str, table: Table, rows: list[CellRow], old: list[Any], zone: str) -> Raw:
    if not rows:
        return {}
    origins = _origins(table, rows, old)
    made = [_row(name, table, row, {} if at is None else old[at], zone) for row, at in zip(rows, origins, strict=True)]
    return {table.table: Listed(made, origins)}


def _origins(table: Table, rows: list[CellRow], old: list[Any]) -> list[int | None]:
    """Return for each row which of the old ones it was: that of its key, else the one in its place."""
    places: dict[tuple[str, ...], list[int]] = {}
    for at, one in enumerate(one if isinstance(one, dict) else {} for one in old):
        places.setdefault(tuple(_same(one.get(key)) for key in table.keys), []).append(at)
    found: list[int | None] = []
    for row in rows:
        there = places.get(tuple(_same(row.cells.get(key, "")) for key in table.keys), [])
        found.append(there.pop(0) if there else None)
    free = set(range(len(old))) - set(found)
    if len(rows) == len(old):
        return [place if at is None and place in free else at for place, at in enumerate(found)]
    return found


def _same(value: Any) -> str:
    """Return the text by which a value of a file and its cell are the same."""
    text = str("" if value is None else value).strip()
    try:
        return format(Decimal(text).normalize(), "f") if len(text) < 40 and "e" not in text.lower() else text
    except ArithmeticError:
        return text


def _row(name: str, table: Table, row: CellRow, old: Any, zone: str) -> Raw:
    """Return what a row says; what said nothing where it was written stays there."""
    rest = _parsed(name, row.rest)
    values: Raw = {}
    for key in table.columns:
        cell = row.cells.get(key.key, "")
        was = old.get(key.key) if isinstance(old, dict) else None
        if cell.strip():
            values[key.key] = toml_value(key.kind, cell, zone)
        elif key.key not in rest and was in ("", []):
            values[key.key] = was
    more = {key: toml_value("text", cell, zone) for key, cell in row.cells.items() if cell.strip()}
    made = {**rest, **more, **values}
    order = [key for key in old if key in made] if isinstance(old, dict) and table.shape != "top" else []
    return {key: made[key] for key in [*order, *(key for key in made if key not in order)]}


def _named(name: str, table: Table, row: CellRow, was: Raw, zone: str) -> tuple[str, Any]:
    key, value = table.columns[0].key, table.columns[-1].key
    called = row.cells.get(key, "").strip()
    old = was.get(called)
    if table.shape == "values":
        made = _row(name, table, row, {value: old}, zone)
        return called, made.get(value, [])
    made = _row(name, table, row, old, zone)
    return called, {one: made[one] for one in made if one != key}


def _parsed(name: str, text: str) -> Raw:
    try:
        if len(text) > MOST_BYTES:
            raise ValueError(f"has more than {MOST_BYTES} characters")
        return tomllib.loads(text, parse_float=Decimal)
    except (ValueError, RecursionError, ArithmeticError) as error:
        what = f"the text that the app edited can't be read ({str(error)[:80]}); download the draft and load its files"
        raise BadSetup([Fault(name, 0, "", what)]) from error


def cell_file(sent: Mapping[str, Any]) -> CellFile:
    """Return a file as it was sent: {base, rest, tables: {name: [{cells, rest}]}}."""
    tables = {name: tuple(_cell_rows(rows)) for name, rows in sent["tables"].items()}
    return CellFile(sent.get("base", ""), tables, sent.get("rest", ""))


def _cell_rows(rows: Iterable[Mapping[str, Any]]) -> Iterable[CellRow]:
    return (CellRow(row["cells"], row.get("rest", "")) for row in rows)

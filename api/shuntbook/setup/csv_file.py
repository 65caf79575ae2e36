"""Reads a CSV file (RFC 4180, UTF-8, with or without a BOM or CRLF) into lines by its table's columns."""

import csv
import io
from collections.abc import Collection, Iterator
from contextlib import suppress
from itertools import islice, pairwise

from shuntbook.setup.faults import Faults
from shuntbook.setup.keys import Table
from shuntbook.setup.lines import Line, Tell, csv_line, did_you_mean, row_key
from shuntbook.setup.rate_keys import THREE
from shuntbook.setup.values import said

MOST_ROWS = 20_000
"""The most rows of one file: fifty times what a whole car has."""
MOST_COLUMNS = 100
"""The most columns of a header: five times what the widest file has."""
MOST_BYTES = 8 * 1024 * 1024


def read_csv(name: str, data: bytes, table: Table, faults: Faults) -> list[Line]:
    """Return the lines of a CSV file, called `name` in faults; blank lines are passed over.

    A wrong header is one fault per column; where one lacks, the rows are read for what is in the others.
    """
    if len(data) > MOST_BYTES and not faults.stored:
        faults.add(name, 0, "", f"has {len(data)} bytes; a file of this kind has at most {MOST_BYTES}. Make it smaller")
        return []
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        faults.add(name, 0, "", f"not UTF-8 text ({error.reason} at byte {error.start}); save it as UTF-8")
        return []
    lines = [_ascending(line) for line in _rows(name, text, table, faults)]
    _differ(table, lines)
    return lines


def _rows(name: str, text: str, table: Table, faults: Faults) -> Iterator[Line]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        header = [cell.strip() for cell in next(reader, [])]
        missing = _missing(name, header, table, faults)
        if missing is None:
            return
        if not faults.stored and _has_too_many_rows(name, text, faults):
            return
        for cells in filter(_filled, reader):
            row = reader.line_num
            line = csv_line(table, _by_column(name, row, header, cells, faults), *_teller(name, row, faults, missing))
            line.row = row
            yield line
    except csv.Error as error:
        faults.add(name, reader.line_num, "", f"not valid CSV: {error}")


def _has_too_many_rows(name: str, text: str, faults: Faults) -> bool:
    """Note a file of too many rows, before any of them is read."""
    rows = csv.reader(io.StringIO(text, newline=""), strict=True)
    with suppress(csv.Error):
        # The header is a row, too.
        for _ in islice(filter(_filled, rows), MOST_ROWS + 1, None):
            faults.add(name, rows.line_num, "", f"more than {MOST_ROWS} rows; take out what no car here has")
            return True
    return False


def _filled(cells: list[str]) -> bool:
    return any(cell.strip() for cell in cells)


def _missing(name: str, header: list[str], table: Table, faults: Faults) -> Collection[str] | None:
    """Note what is wrong with a header; return which columns lack, None where rows can't be told by it."""
    known = [one.key for one in table.columns]
    if len(header) > MOST_COLUMNS:
        faults.add(name, 1, "", f"has {len(header)} columns; a file has at most {MOST_COLUMNS}. Take out the others")
        return None
    for column in header:
        if column not in known:
            faults.add(name, 1, column, f"unknown column; {did_you_mean(column, known)}")
        if header.count(column) > 1:
            faults.add(name, 1, column, "this column stands twice")
    missing = [one.key for one in table.columns if one.required and one.key not in header]
    for column in missing:
        faults.add(name, 1, column, "this column is missing; add it")
    return missing


def _by_column(name: str, number: int, header: list[str], cells: list[str], faults: Faults) -> dict[str, str]:
    if _filled(cells[len(header) :]):
        faults.add(name, number, "", f"has {len(cells)} cells, the header {len(header)}; a comma too many?")
    return {column: cell.strip() for column, cell in zip(header, cells, strict=False)}


def _teller(name: str, row: int, faults: Faults, missing: Collection[str]) -> tuple[Tell, Tell]:
    def fault(key: str, what: str, new: bool) -> None:
        # The header's fault says it of all rows at once.
        if key not in missing:
            faults.add(name, row, key, what, new=new)

    def warn(key: str, what: str, _: bool) -> None:
        faults.warn(name, row, key, what)

    return fault, warn


def _ascending(line: Line) -> Line:
    """Note minutes that do not ascend, where a file has best, likely and worst in columns."""
    names = [one.key for one in THREE if one.key in line.values and line.sound(one.key)]
    for before, after in pairwise(names):
        if line[after] < line[before]:
            first, second = before.removeprefix("minutes_"), after.removeprefix("minutes_")
            line.fault(after, f"{second} {said(line[after])} is below {first} {said(line[before])}; let them ascend")
    return line


def _differ(table: Table, lines: list[Line]) -> None:
    """Note rows whose keys stand in the file already, as far as their keys can be read."""
    seen: dict[tuple[str, ...], int] = {}
    for line in (one for one in lines if one.sound(*table.keys)):
        key = tuple(said(line[one]) for one in table.keys)
        if key in seen:
            line.fault(table.keys[0], f"{row_key(table, line.values)} stands in row {seen[key]} already; keep one")
        seen.setdefault(key, line.row)

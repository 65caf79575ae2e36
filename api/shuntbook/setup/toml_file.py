"""Reads a TOML file into lines by its tables, and finds the line that a fault is on.

`tomllib` tells no line numbers after parsing, so headers and keys are looked for in the text, once.
"""

import re
import tomllib
from collections.abc import Iterator
from decimal import Decimal
from functools import cached_property
from typing import Any

from shuntbook.setup.faults import Faults
from shuntbook.setup.keys import Table
from shuntbook.setup.lines import Line, Tell, did_you_mean, toml_line

Raw = dict[str, Any]
MOST_BYTES = 512 * 1024
"""The largest TOML file: a hundred times what an event says."""
_HEADER = re.compile(r"\s*\[{1,2}([^\[\]]+)\]{1,2}\s*(#.*)?$")
_KEY = re.compile(r"""\s*(?:"([^"]*)"|'([^']*)'|([^\s"'=\[\]#]+))\s*=""")
_TEXT = re.compile(
    r'"""(?:[^\\]|\\.)*?"""|\'{3}.*?\'{3}|"[^"\n\\]*+(?:\\.[^"\n\\]*+)*+"?+|\'[^\'\n]*+\'?+|#[^\n]*+', re.DOTALL
)
"""A string or a comment: what dots stand in it is nothing."""
MOST_PARTS = 20
_DOTTED = re.compile(rf"(?<![\w-])(?:[\w-]++[ \t]*+\.[ \t]*+){{{MOST_PARTS}}}")
"""A key of more parts than any has. The parser takes minutes for one of tens of thousands."""


class TomlFile:
    """One parsed TOML file: `root` is its tables; faults go to the shared collector with file and line."""

    def __init__(self, name: str, data: bytes, faults: Faults) -> None:
        self.name = name
        self.faults = faults
        self.text = ""
        self.root: Raw = {}
        self.readable = False
        """Whether the text parsed; where it did not, one fault says so and no other check makes sense."""
        if len(data) > MOST_BYTES and not faults.stored:
            what = f"has {len(data)} bytes; a file of this kind has at most {MOST_BYTES}. Make it smaller"
            faults.add(name, 0, "", what)
            return
        self._parse(data)

    def _parse(self, data: bytes) -> None:
        try:
            self.text = data.decode("utf-8-sig")
            if not self.faults.stored and self._has_endless_key():
                return
            self.root = tomllib.loads(self.text, parse_float=Decimal)
            self.readable = True
        except UnicodeDecodeError as error:
            what = f"not UTF-8 text ({error.reason} at byte {error.start}); save it as UTF-8"
            self.faults.add(self.name, 0, "", what)
        except tomllib.TOMLDecodeError as error:
            place = re.search(r"at line (\d+)", str(error))
            self.faults.add(self.name, int(place[1]) if place else 0, "", f"not valid TOML: {error}")
        except RecursionError:
            what = "is nested too deep to be read; write tables inside tables no deeper than two"
            self.faults.add(self.name, 0, "", what)
        except (ValueError, ArithmeticError):
            # Python reads no whole number of more than 4,300 digits.
            what = "has a number too long to be read; write at most 12 digits"
            self.faults.add(self.name, self._long_number(), "", what)

    def _has_endless_key(self) -> bool:
        found = _DOTTED.search(_TEXT.sub(_as_word, self.text))
        if found is None:
            return False
        row = found.string.count("\n", 0, found.start()) + 1
        what = f"a key has more than {MOST_PARTS} parts with dots between them; write tables inside tables"
        self.faults.add(self.name, row, "", f"{what} no deeper than two")
        return True

    def _long_number(self) -> int:
        lines = self.text.splitlines()
        return next((n for n, line in enumerate(lines, start=1) if re.search(r"\d[\d_]{1000}", line)), 0)

    def lines(self, table: Table) -> list[Line]:
        """Return the lines of one of its tables."""
        return list(getattr(self, f"_{table.shape}")(table))

    def _top(self, table: Table) -> Iterator[Line]:
        own = {one.key for one in table.columns}
        yield self._line(table, {key: value for key, value in self.root.items() if key in own}, "", 0)

    def _one(self, table: Table) -> Iterator[Line]:
        yield self._line(table, self._group(table), table.table, 0)

    def _rows(self, table: Table) -> Iterator[Line]:
        rows = self.root.get(table.table, [])
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            self._tell("", table.table, f"write each as a [[{table.table}]] table", table.columns[0].added)
            return
        for index, row in enumerate(rows):
            yield self._line(table, row, table.table, index)

    def _named(self, table: Table) -> Iterator[Line]:
        for name, row in self._group(table).items():
            if isinstance(row, dict):
                yield self._line(table, row, f"{table.table}.{name}", 0, name)
            else:
                self._tell("", table.table, f"{name!r} is not a table; write [{table.table}.{name}]")

    def _values(self, table: Table) -> Iterator[Line]:
        key, value = table.columns
        for name, one in self._group(table).items():
            tell = self._teller(table.table, 0, name)
            yield toml_line(table, {key.key: name, value.key: one}, *tell)

    def _group(self, table: Table) -> Raw:
        group = self.root.get(table.table, {})
        if isinstance(group, dict):
            return group
        name = f"{table.table}.NAME" if table.shape == "named" else table.table
        self._tell("", table.table, f"write it as a [{name}] table", all(one.added for one in table.columns))
        return {}

    def _line(self, table: Table, raw: Raw, header: str, index: int, named: str | None = None) -> Line:
        return toml_line(table, raw, *self._teller(header, index), named)

    def _teller(self, header: str, index: int, always: str = "") -> tuple[Tell, Tell]:
        def fault(key: str, what: str, new: bool) -> None:
            self.faults.add(*self._place(header, index, always or key, what), new)

        def warn(key: str, what: str, _: bool) -> None:
            self.faults.warn(*self._place(header, index, always or key, what))

        return fault, warn

    def _tell(self, header: str, key: str, what: str, new: bool = False) -> None:
        self._teller(header, 0)[0](key, what, new)

    def _place(self, header: str, index: int, key: str, what: str) -> tuple[str, int, str, str, int]:
        column = f"{header}.{key}" if header else key
        return self.name, self.line_of(header, index, key), column, what, index if header else -1

    def warn_of_unknown(self, tables: tuple[Table, ...]) -> None:
        """Note each of the file's own keys and tables that nothing reads."""
        top = {one.key for table in tables if table.shape == "top" for one in table.columns}
        known = sorted(top | {table.table for table in tables if table.shape != "top"})
        for key in self.root:
            if key not in known:
                what = f"{key!r} is not known here; {did_you_mean(key, known)} It is kept, and nothing follows from it"
                self._teller("", 0)[1](key, what, False)

    def line_of(self, header: str, index: int, key: str) -> int:
        """Return the 1-based line of `key` in the index-th table of that header, of its header, or 0."""
        start = self._places.get((header, index, None), 0)
        return self._places.get((header, index, key), start)

    @cached_property
    def _places(self) -> dict[tuple[str, int, str | None], int]:
        """The first line of each header (its key: None) and of each key below; by header, which of it, and key."""
        found: dict[tuple[str, int, str | None], int] = {}
        counts: dict[str, int] = {}
        header, index = "", 0
        for number, line in enumerate(self.text.splitlines(), start=1):
            if match := _HEADER.match(line):
                header = match[1].replace('"', "").replace("'", "").strip()
                index = counts[header] = counts.get(header, -1) + 1
                found[header, index, None] = number
            elif match := _KEY.match(line):
                found.setdefault((header, index, next(filter(None, match.groups()), "")), number)
        return found


def _as_word(text: re.Match[str]) -> str:
    """Return a word in the place of a string or comment, and as many lines as it has."""
    return "x" + "\n" * text.group().count("\n")

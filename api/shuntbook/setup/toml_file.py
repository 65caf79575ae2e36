"""Reads a TOML file into checked values and finds the line that a fault is on.

`tomllib` tells no line numbers after parsing, so `line_of` looks for the header and the key in the text.
"""

import re
import tomllib
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from shuntbook.setup.faults import Faults

Table = dict[str, Any]


class TomlFile:
    """One parsed TOML file: `root` is its tables; faults go to the shared collector with file and line."""

    def __init__(self, name: str, data: bytes, faults: Faults) -> None:
        self.name = name
        self.faults = faults
        self.text = ""
        self.root: Table = {}
        self.readable = False
        """Whether the text parsed; where it did not, one fault says so and no other check makes sense."""
        try:
            self.text = data.decode("utf-8-sig")
            self.root = tomllib.loads(self.text, parse_float=Decimal)
            self.readable = True
        except UnicodeDecodeError as error:
            faults.add(
                name,
                0,
                "",
                f"not UTF-8 text ({error.reason} at byte {error.start}); save it as UTF-8",
            )
        except tomllib.TOMLDecodeError as error:
            place = re.search(r"at line (\d+)", str(error))
            faults.add(name, int(place[1]) if place else 0, "", f"not valid TOML: {error}")

    def fault(self, where: "Place", key: str, what: str) -> None:
        """Note a fault at `key` of the table at `where`."""
        self.faults.add(
            self.name,
            self.line_of(where, key),
            f"{where}.{key}" if where.header else key,
            what,
            where.index if where.header else -1,
        )

    def line_of(self, where: "Place", key: str) -> int:
        """Return the 1-based line of `key` in the table at `where`, of its header, or 0."""
        lines = self.text.splitlines()
        start = 0
        if where.header:
            headers = [n for n, line in enumerate(lines) if _header(line) == where.header]
            if where.index >= len(headers):
                return 0
            start = headers[where.index] + 1
        for number in range(start, len(lines)):
            if _header(lines[number]) is not None:
                break
            if re.match(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=", lines[number]):
                return number + 1
        return start

    def tables(self, name: str) -> Iterator[tuple["Place", Table]]:
        """Yield each table of the array `[[name]]` with its place."""
        rows = self.root.get(name, [])
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            self.fault(Place(), name, f"write each as a [[{name}]] table")
            return
        for index, row in enumerate(rows):
            yield Place(name, index), row

    def named_tables(self, name: str) -> Iterator[tuple["Place", str, Table]]:
        """Yield each table `[name.KEY]` with its place and key."""
        group = self.root.get(name, {})
        if not isinstance(group, dict):
            self.fault(Place(), name, f"write each as a [{name}.NAME] table")
            return
        for key, row in group.items():
            place = Place(f"{name}.{key}")
            if isinstance(row, dict):
                yield place, key, row
            else:
                self.fault(Place(), name, f"{key!r} is not a table; write [{name}.{key}]")


class Place:
    """Which table of a file: its header, and its number among the headers of that name."""

    def __init__(self, header: str = "", index: int = 0) -> None:
        self.header = header
        self.index = index

    def __str__(self) -> str:
        return self.header


def _header(line: str) -> str | None:
    match = re.match(r"\s*\[{1,2}([^\[\]]+)\]{1,2}\s*(#.*)?$", line)
    return match[1].replace('"', "").replace("'", "").strip() if match else None


class Reader:
    """Takes typed values out of one table, noting a fault for each that does not fit."""

    def __init__(self, file: TomlFile, place: Place, table: Table) -> None:
        self.file = file
        self.place = place
        self.table = table

    def fault(self, key: str, what: str) -> None:
        """Note a fault at `key`."""
        self.file.fault(self.place, key, what)

    def text(self, key: str, default: str | None = None) -> str:
        """Return a non-empty string; without a default it must be there."""
        value = self.table.get(key)
        if value is None or value == "":
            if default is None:
                self.fault(key, f'{key} is missing; write {key} = "…"')
            return default or ""
        if not isinstance(value, str):
            self.fault(key, f"{value!r} is not text; put it in quotes")
            return default or ""
        return value

    def one_of(self, key: str, words: Sequence[str]) -> str:
        """Return one of these words; the first where it is absent."""
        value = self.text(key, words[0])
        if value not in words:
            self.fault(key, f"{value!r} is not one of {', '.join(words)}")
            return words[0]
        return value

    def name(self, key: str) -> str:
        """Return a non-empty string without a slash, as zones and components are named."""
        value = self.text(key)
        if "/" in value:
            self.fault(
                key,
                f"{value!r} holds a slash; names go without, since jobs are zone/component",
            )
        return value

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of strings, empty where it is absent."""
        value = self.table.get(key, [])
        if not isinstance(value, list) or not all(isinstance(item, str) and item for item in value):
            self.fault(key, f"{key} must be a list of names in quotes")
            return ()
        return tuple(value)

    def number(self, key: str, default: Decimal | int | None = None, least: int = 0) -> Decimal:
        """Return a number of at least `least`; without a default it must be there."""
        value = self.table.get(key)
        if value is None:
            if default is None:
                self.fault(key, f"{key} is missing; write {key} = a number")
            return Decimal(default or 0)
        if not _is_number(value):
            self.fault(key, f"{value!r} is not a number")
            return Decimal(default or 0)
        if value < least:
            self.fault(key, f"{value} is below {least}")
        return Decimal(value)

    def whole(self, key: str, default: int | None = None, least: int = 0) -> int:
        """Return a whole number of at least `least`; without a default it must be there."""
        value = self.number(key, default, least)
        if value != int(value):
            self.fault(key, f"{value} is not a whole number")
        return int(value)

    def flag(self, key: str, default: bool = False) -> bool:
        """Return true or false."""
        value = self.table.get(key, default)
        if not isinstance(value, bool):
            self.fault(key, f"{value!r} is neither true nor false")
            return default
        return value

    def three_points(self, key: str) -> tuple[Decimal, Decimal, Decimal]:
        """Return [best, likely, worst] minutes, above 0 and in order."""
        value = self.table.get(key)
        numbers = value if isinstance(value, list) else []
        if len(numbers) != 3 or not all(_is_number(number) for number in numbers):
            self.fault(key, f"{key} must be three numbers: [best, likely, worst]")
            return Decimal(1), Decimal(1), Decimal(1)
        best, likely, worst = (Decimal(number) for number in numbers)
        if not 0 < best <= likely <= worst:
            self.fault(
                key,
                f"[{best}, {likely}, {worst}] must be above 0 and ascend: best, likely, worst",
            )
        return best, likely, worst


def _is_number(value: Any) -> bool:
    return isinstance(value, int | Decimal) and not isinstance(value, bool) and Decimal(value).is_finite()

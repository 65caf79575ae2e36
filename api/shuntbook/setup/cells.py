"""A cell of text as the TOML value that it stands for; one that does not read as its kind stays text, for the reader
to name. The app's `setup/values.ts` does the same for a draft that no server is asked about."""

import re
from collections.abc import Callable, Mapping
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from shuntbook.setup.keys import Kind
from shuntbook.setup.rate_keys import YES
from shuntbook.setup.values import pieces

LONGEST = 60
"""The most characters of a number: one that is longer stays text."""
_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?([eE][+-]?\d+)?")
_CLOCK = re.compile(r"(\d{4}-\d\d-\d\d)[ T](\d{1,2}):(\d\d)(?::(\d\d))?")


def toml_value(kind: Kind, cell: str, timezone: str) -> Any:
    """Return the value of a cell that is not empty. timezone: of times without an offset."""
    cell = cell.strip()
    return _time(cell, timezone) if kind == "time" else _VALUES[kind](cell)


def _number(cell: str) -> Decimal | int | str:
    if len(cell) > LONGEST or not _NUMBER.fullmatch(cell):
        return cell
    return int(cell) if cell.lstrip("+-").isdigit() else Decimal(cell)


def _flag(cell: str) -> bool | str:
    word = cell.lower()
    return word in YES[0] if word in YES[0] + YES[1] else cell


def _quantities(cell: str) -> dict[str, Any]:
    found = {}
    for item in pieces(cell):
        part, star, count = (text.strip() for text in item.partition("*"))
        found[part] = _number(count) if star else 1
    return found


def _day(cell: str) -> date | str:
    try:
        return date.fromisoformat(cell) if re.fullmatch(r"\d{4}-\d\d-\d\d", cell) else cell
    except ValueError:
        return cell


def _time(cell: str, timezone: str) -> datetime | str:
    try:
        if re.search(r"([+-]\d\d:\d\d|z)$", cell, re.IGNORECASE):
            return datetime.fromisoformat(cell.upper())
        return _local(cell, timezone)
    except (ValueError, KeyError, OSError, OverflowError):
        return cell


def _local(cell: str, timezone: str) -> datetime | str:
    match = _CLOCK.fullmatch(cell)
    if match is None:
        return cell
    day, hour, minute, second = match.groups(default="00")
    bare = datetime.fromisoformat(f"{day}T{hour.zfill(2)}:{minute}:{second}+00:00")
    # The offset depends on the instant, and the instant on the offset: the second guess holds outside a change.
    first = _offset(timezone, bare)
    offset = _offset(timezone, bare - first)
    return datetime.combine(bare.date(), bare.time(), tzinfo=_fixed(offset))


def _offset(timezone: str, at: datetime) -> timedelta:
    return at.astimezone(ZoneInfo(timezone or "UTC")).utcoffset() or timedelta()


def _fixed(offset: timedelta) -> Any:
    return datetime.strptime(_written(offset), "%z").tzinfo if offset else UTC


def _written(offset: timedelta) -> str:
    minutes = abs(int(offset.total_seconds())) // 60
    return f"{'-' if offset < timedelta() else '+'}{minutes // 60:02}:{minutes % 60:02}"


_VALUES: Mapping[Kind, Callable[[str], Any]] = {
    "text": str,
    "number": _number,
    "whole": _number,
    "money": _number,
    "flag": _flag,
    "list": lambda cell: list(pieces(cell)),
    "points": lambda cell: [_number(one) for one in pieces(cell)],
    "quantities": _quantities,
    "day": _day,
}

"""One value of a set-up: out of TOML, out of a cell, and back to a cell. The one place where numbers get bounds."""

from collections.abc import Callable, Mapping
from datetime import date, datetime
from decimal import Decimal, InvalidOperation, localcontext
from fractions import Fraction
from typing import Any

from shuntbook.kit.times import within_reach
from shuntbook.setup.keys import DECIMALS, MOST, Key
from shuntbook.setup.rate_keys import YES
from shuntbook.setup.words import ROW_CONDITIONS, UNKNOWN, is_job_key


class Bad(ValueError):
    """A value that does not fit its key; the text says what is wrong and what to do.

    instead: what is read in its place. new: release 0.1.0 took it, so a set-up that is stored is read with it.
    """

    def __init__(self, what: str, instead: Any = None, new: bool = False) -> None:
        super().__init__(what)
        self.instead = instead
        self.new = new


def usual(key: Key) -> Any:
    """Return what holds where nothing is said, or nothing that fits."""
    if key.kind == "points":
        return None if key.default is None else tuple(Decimal(one) for one in key.default)
    if key.kind in ("number", "money"):
        return None if key.default is None else Decimal(key.default)
    if key.kind == "quantities":
        return {}
    return key.default


def from_toml(key: Key, value: Any) -> Any:
    """Return the value of a key as TOML has it. Errors: Bad."""
    return _TOML[key.kind](key, value)


def from_cell(key: Key, cell: str) -> Any:
    """Return the value of a cell that is not empty. Errors: Bad."""
    return _CELL[key.kind](key, cell)


def said(value: Any) -> str:
    """Return a value as its cell reads: lists by semicolons, quantities as part*qty, "" for what is not said."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Decimal):
        return plain(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return ";".join(f"{name}*{said(count)}" for name, count in value.items())
    return ";".join(said(one) for one in value) if isinstance(value, tuple) else str(value)


def plain(number: Decimal) -> str:
    """Return a number in digits, without an exponent and without zeros that say nothing."""
    digits = f"{number:f}"
    return digits.rstrip("0").rstrip(".") if "." in digits else digits


def shown(value: Any) -> str:
    """Return a value as a fault quotes it: short, whatever it is."""
    if isinstance(value, int) and value.bit_length() > 64:
        return "a number of that length"
    if isinstance(value, Decimal):
        return str(value)[:40]
    if isinstance(value, dict | list):
        return "that"
    quoted = repr(value)
    return quoted if len(quoted) <= 60 else f"{quoted[:57]}…"


def number(key: Key, value: Decimal | int, whole: bool = False) -> Decimal:
    """Return a number that is within the key's bounds. Errors: Bad; the value held to what can be calculated with."""
    if isinstance(value, int) and value.bit_length() > 64:
        value = Decimal(MOST + 1) if value > 0 else Decimal(-MOST - 1)
    value = Decimal(value)
    if not value.is_finite():
        raise Bad(f"{shown(value)} is not a number to calculate with; write it in digits, such as 12.5")
    if value and value.adjusted() >= len(str(MOST)):
        # Such a number has taken a minute to read, and crashed what was calculated from it.
        held = Decimal(key.most if value > 0 else key.least)
        raise Bad(f"{shown(value)} has more than 12 digits before the point; write at most {key.most}", held, True)
    if _decimals(value) > DECIMALS:
        raise Bad(f"{shown(value)} has more than {DECIMALS} decimals; round it", _rounded(value), True)
    return _bounded(key, value, whole)


def _bounded(key: Key, value: Decimal, whole: bool) -> Decimal:
    if value < key.least:
        raise Bad(f"{shown(value)} is below {key.least}; write {key.least} or more", new=key.added)
    if key.above is not None and value <= key.above:
        raise Bad(f"{shown(value)} is not above {key.above}; write more", new=key.added)
    if whole and value != int(value):
        raise Bad(f"{shown(value)} is not a whole number", new=key.added)
    if value > key.most:
        raise Bad(f"{shown(value)} is above {key.most}; write {key.most} or less", value, True)
    return value


def _rounded(value: Decimal) -> Decimal:
    with localcontext(prec=len(str(MOST)) + DECIMALS):
        return round(value, DECIMALS)


def _decimals(value: Decimal) -> int:
    exponent = value.as_tuple().exponent
    zeros = len(value.as_tuple().digits) - len("".join(map(str, value.as_tuple().digits)).rstrip("0"))
    return -exponent - zeros if isinstance(exponent, int) and value else 0


def _number(key: Key, value: Any) -> Decimal:
    if not isinstance(value, int | Decimal) or isinstance(value, bool):
        raise Bad(f"{shown(value)} is not a number; write digits without quotes", new=key.added)
    return number(key, value)


def _whole(key: Key, value: Any) -> int:
    if not isinstance(value, int | Decimal) or isinstance(value, bool):
        raise Bad(f"{shown(value)} is not a number; write digits without quotes", new=key.added)
    return _as_whole(key, value)


def _as_whole(key: Key, value: Decimal | int) -> int:
    try:
        return int(number(key, value, whole=True))
    except Bad as bad:
        bad.instead = None if bad.instead is None else int(bad.instead)
        raise


def _text(key: Key, value: Any) -> str:
    if not isinstance(value, str):
        raise Bad(f"{shown(value)} is not text; put it in quotes", new=key.added)
    return _worded(key, value)


def _worded(key: Key, value: str) -> str:
    if key.among == ROW_CONDITIONS and value == UNKNOWN:
        raise Bad("a row for 'unknown' cannot be: what is unknown is inspected, at inspect_minutes; take it out")
    if key.among and value not in key.among:
        known = ", ".join(filter(None, key.among))
        raise Bad(f"{shown(value)} is not one of {known}", new=key.added)
    if key.plain and "/" in value:
        raise Bad(f"{shown(value)} holds a slash; names go without, since jobs are zone/component")
    return value


def _flag(key: Key, value: Any) -> bool:
    if not isinstance(value, bool):
        raise Bad(f"{shown(value)} is neither true nor false", new=key.added)
    return value


def _list(key: Key, value: Any) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(item, str) and item for item in value):
        raise Bad(f"{key.key} must be a list of names in quotes", new=key.added)
    return _named(key, tuple(value))


def _named(key: Key, names: tuple[str, ...]) -> tuple[str, ...]:
    for name in names:
        _worded(key, name)
        if key.jobs and not is_job_key(name):
            raise Bad(f"{shown(name)} is not zone/component")
    if key.distinct and len(set(names)) < len(names):
        twice = next(name for place, name in enumerate(names) if name in names[:place])
        raise Bad(f"{shown(twice)} stands twice; keep one")
    return tuple(sorted(names)) if key.unordered else names


def _points(key: Key, value: Any) -> tuple[Decimal, ...]:
    numbers = value if isinstance(value, list) else []
    if len(numbers) != 3 or not all(isinstance(one, int | Decimal) and not isinstance(one, bool) for one in numbers):
        raise Bad(f"{key.key} must be three numbers: [best, likely, worst]", new=key.added)
    return ascending(key, tuple(number(key, one) for one in numbers))


def ascending(key: Key, points: tuple[Decimal, ...]) -> tuple[Decimal, ...]:
    """Return best, likely and worst if they ascend. Errors: Bad."""
    if list(points) != sorted(points):
        raise Bad(f"[{said(points).replace(';', ', ')}] must ascend: best, likely, worst", new=key.added)
    return points


def _quantities(key: Key, value: Any) -> dict[str, Decimal]:
    if not isinstance(value, dict):
        raise Bad(f"write parts and how many of each, such as {key.key} = {{tyre = 4}}", new=key.added)
    return {part: _number(key, count) for part, count in value.items()}


def _day(key: Key, value: Any) -> date:
    if isinstance(value, datetime) or not isinstance(value, date):
        raise Bad("write a day without quotes, such as 2027-05-31")
    return value


def _time(key: Key, value: Any) -> datetime:
    if not (isinstance(value, datetime) and value.tzinfo):
        raise Bad("write a time with its offset, such as 2026-05-16T13:02:00+02:00")
    # A set-up is read as it was taken; what no clock can show is held to what one can.
    return within_reach(value)


def _digits(cell: str) -> Decimal:
    try:
        return Decimal(cell)
    except InvalidOperation:
        raise Bad(f"{shown(cell)} is not a number; write it in digits, such as 12.5") from None


def _flag_cell(key: Key, cell: str) -> bool:
    if cell.lower() not in YES[0] + YES[1]:
        raise Bad(f"{shown(cell)} is neither true nor false")
    return cell.lower() in YES[0]


def pieces(cell: str) -> tuple[str, ...]:
    """Return the names of a cell that separates them by semicolons, in order."""
    return tuple(part.strip() for part in cell.split(";") if part.strip())


def _counted(key: Key, cell: str) -> dict[str, Decimal]:
    """Read `part*qty;part`: alone counts 1, equal parts add up."""
    found: dict[str, Decimal] = {}
    for item in pieces(cell):
        part, star, count = (text.strip() for text in item.partition("*"))
        found[part] = found.get(part, Decimal(0)) + (_count(key, item, count) if star else Decimal(1))
    return found


def _count(key: Key, item: str, count: str) -> Decimal:
    try:
        qty = number(key, _digits(count))
    except Bad as bad:
        what = f"{shown(item)} is not part*quantity with a quantity above 0 and up to {key.most}"
        raise Bad(what, bad.instead, bad.new) from None
    if qty <= 0:
        raise Bad(f"{shown(item)} is not part*quantity with a quantity above 0")
    return qty


_TOML: Mapping[str, Callable[[Key, Any], Any]] = {
    "text": _text,
    "number": _number,
    "money": _number,
    "whole": _whole,
    "flag": _flag,
    "list": _list,
    "points": _points,
    "quantities": _quantities,
    "day": _day,
    "time": _time,
}
_CELL: Mapping[str, Callable[[Key, str], Any]] = {
    "text": _worded,
    "number": lambda key, cell: number(key, _digits(cell)),
    "money": lambda key, cell: number(key, _digits(cell)),
    "whole": lambda key, cell: _as_whole(key, _digits(cell)),
    "flag": _flag_cell,
    "list": lambda key, cell: _named(key, pieces(cell)),
    "quantities": _counted,
}


def fractions(points: tuple[Decimal, ...]) -> tuple[Fraction, Fraction, Fraction]:
    """Return best, likely and worst as exact fractions."""
    best, likely, worst = (Fraction(one) for one in points)
    return best, likely, worst

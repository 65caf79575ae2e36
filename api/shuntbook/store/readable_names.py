"""What can be read of an entry that was not taken: who it says it is, and whose car it holds."""

import json
import re
from typing import Any, NamedTuple

import msgspec
from msgspec import Struct

READABLE = 64 * 1024
"""What is larger and no JSON is not read for its names: an entry has a quarter of it at most."""
LONGEST_ID = 200
"""A longer id is none: queues name what holds a car, and would grow by it."""
_HALVES = re.compile("[\ud800-\udfff]")


class Named(NamedTuple):
    """What can be read of an entry that was not taken; None where it can't be."""

    id: str | None
    event: str | None
    car: str | None


def read_names(raw: bytes) -> Named:
    """Return the id, event and car that the bytes name, as far as they can be read."""
    try:
        name, event, car = map(_text, _read(raw))
        return Named(name if name and len(name) <= LONGEST_ID else None, event, car)
    except (ValueError, RecursionError):
        return Named(None, None, None)


class _Names(Struct):
    """The names of an entry, of whatever kind they are."""

    id: Any = None
    event: Any = None
    car: Any = None


def _read(raw: bytes) -> tuple[Any, Any, Any]:
    try:
        found = msgspec.json.decode(raw, type=_Names)
    except msgspec.ValidationError:
        raise
    except ValueError:
        # Half a character in a note: the phone has still to hear which entry it was, and its car alone is held.
        if len(raw) > READABLE:
            raise
        value = json.loads(raw.decode(errors="surrogateescape"))
        found = _Names(*map(value.get, _Names.__struct_fields__)) if isinstance(value, dict) else _Names()
    return found.id, found.event, found.car


def _text(value: object) -> str | None:
    return value if isinstance(value, str) and value and not _HALVES.search(value) else None

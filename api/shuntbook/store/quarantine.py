"""What was set aside: bytes that could not be taken as entries, kept until a manager has looked."""

import json
import re
from collections.abc import Collection, Sequence
from typing import Any, NamedTuple

import msgspec
from msgspec import Struct

from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import BadEntry, NotFound
from shuntbook.store.connection import Database


class Aside(Struct, frozen=True):
    """An entry that was set aside, byte for byte, with why."""

    sha256: str
    id: str | None
    event: str | None
    car: str | None
    raw: str
    code: str
    what: str
    received_at: str
    brought_by: str | None
    reviewed_at: str | None
    reviewed_by: str | None
    reason: str | None
    verdict: str | None


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


class Waiting(NamedTuple):
    """What waits for a look: its digest and bytes, when it came, the device that brought it."""

    digest: str
    raw: bytes
    received_at: str
    brought_by: str | None


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


def put(db: Database, raw: bytes, fault: BadEntry, received_at: str, brought_by: str | None) -> Named:
    """Set an entry aside byte for byte; the same bytes again change nothing."""
    names = read_names(raw)
    db.conn.execute(
        "INSERT OR IGNORE INTO set_aside (sha256, id, event, car, raw, code, what, received_at, brought_by)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [sha256(raw), *names, raw, fault.code, str(fault), received_at, brought_by],
    )
    return names


def waiting(db: Database, event: str, car: str) -> list[str]:
    """Return what holds this car until a manager has looked: entry ids, or digests where no id can be read.

    An entry that names no car that can be read holds all cars.
    """
    rows = db.conn.execute(
        "SELECT coalesce(id, sha256) FROM set_aside WHERE reviewed_at IS NULL"
        " AND (event IS NULL OR event = ?) AND (car IS NULL OR car = ?)",
        [event, car],
    )
    return [row[0] for row in rows]


def count_waiting(db: Database) -> int:
    """Return how many entries wait for a manager's look."""
    return int(db.conn.execute("SELECT count(*) FROM set_aside WHERE reviewed_at IS NULL").fetchone()[0])


def version(db: Database) -> str:
    """Return a name for what was set aside and what was decided of it: it grows, and nothing of it is taken back."""
    return "{}-{}".format(*db.conn.execute("SELECT count(*), count(reviewed_at) FROM set_aside").fetchone())


def listing(db: Database, without: Collection[str] = ()) -> list[Aside]:
    """Return what was set aside, newest last, its bytes as text where they are UTF-8; without that of some events."""
    rows = (row for row in db.query("SELECT * FROM set_aside ORDER BY received_at, sha256"))
    return [
        Aside(**{**row, "raw": bytes(row["raw"]).decode(errors="replace")})
        for row in rows
        if row["event"] not in without
    ]


def waiting_raws(db: Database, event: str | None) -> list[bytes]:
    """Return the bytes of what waits for a look, of all events or of one and of none that can be read."""
    sql = (
        "SELECT raw FROM set_aside WHERE reviewed_at IS NULL AND (? IS NULL OR event IS NULL OR event = ?)"
        " ORDER BY received_at, sha256"
    )
    return [row[0] for row in db.conn.execute(sql, [event, event])]


def waiting_for(db: Database, codes: Sequence[str]) -> list[Waiting]:
    """Return what waits with one of the reasons, oldest first."""
    marks = ", ".join("?" * len(codes))
    rows = db.conn.execute(
        "SELECT sha256, raw, received_at, brought_by FROM set_aside"
        f" WHERE reviewed_at IS NULL AND code IN ({marks}) ORDER BY received_at, sha256",
        list(codes),
    )
    return [Waiting(*row) for row in rows]


def waits(db: Database, digest: str) -> bool:
    """Return whether nobody has decided yet on what was set aside."""
    sql = "SELECT 1 FROM set_aside WHERE sha256 = ? AND reviewed_at IS NULL"
    return db.conn.execute(sql, [digest]).fetchone() is not None


def get(db: Database, digest: str) -> tuple[bytes, str, str | None]:
    """Return the bytes, the reason's code and the event, if it names one, of what waits. Errors: NotFound."""
    row = db.conn.execute(
        "SELECT raw, code, event FROM set_aside WHERE sha256 = ? AND reviewed_at IS NULL", [digest]
    ).fetchone()
    if row is None:
        raise NotFound(f"nothing with digest {digest} waits for a look; see the list again")
    return row[0], row[1], row[2]


def review(db: Database, digest: str, person: str, verdict: str, reason: str, now: str) -> None:
    """Note what was decided of something set aside, by whom and why; its bytes stay kept. Errors: NotFound."""
    get(db, digest)
    db.conn.execute(
        "UPDATE set_aside SET reviewed_at = ?, reviewed_by = ?, verdict = ?, reason = ? WHERE sha256 = ?",
        [now, person, verdict, reason, digest],
    )


def _text(value: object) -> str | None:
    return value if isinstance(value, str) and value and not _HALVES.search(value) else None

"""What was set aside: bytes that could not be taken as entries, kept until a manager has looked."""

import json
import re
from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass
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


NAMED = 100
"""So many of what holds a car are named in its queue."""
SHOWN = 20
"""So many of what one device brought are shown to whoever decides on it."""
DECIDED = 200
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


class AsideGroup(Struct, frozen=True):
    """What waits of one who brought it (a device; None: a file, or the machine itself), as far as a manager may see it.

    cars: those named, None among them where none can be read; codes: how many wait for each reason.
    """

    brought_by: str | None
    waiting: int
    cars: list[str | None]
    codes: dict[str, int]
    first_at: str
    last_at: str


class Holding(NamedTuple):
    """What holds a car: the first ids (or digests) of it in order, and how many more there are."""

    named: list[str]
    more: int


@dataclass(frozen=True)
class Most:
    """So much that phones brought waits for a look at once: entries and bytes of one device, and of all together."""

    entries: int = 10_000
    size: int = 16 * 1024 * 1024
    entries_in_all: int = 50_000
    size_in_all: int = 128 * 1024 * 1024


MOST = Most()


class Room:
    """How much more of one device can be set aside now; counted when it is first asked."""

    def __init__(self, db: Database, device: str | None) -> None:
        self._db, self._device = db, device
        self._used: list[tuple[int, int]] | None = None

    def take(self, size: int) -> bool:
        """Return whether there is room for one entry of so many bytes more, and count it in.

        What no device brought, out of a file or by the machine's owner, has room always.
        """
        if self._device is None:
            return True
        if self._used is None:
            self._used = [_waiting_size(self._db, self._device), _waiting_size(self._db, None)]
        more = [(entries + 1, taken + size) for entries, taken in self._used]
        (own, own_size), (every, every_size) = more
        if own > MOST.entries or own_size > MOST.size or every > MOST.entries_in_all or every_size > MOST.size_in_all:
            return False
        self._used = more
        return True


def _waiting_size(db: Database, device: str | None) -> tuple[int, int]:
    sql = (
        "SELECT count(*), coalesce(sum(length(raw)), 0) FROM set_aside"
        " WHERE reviewed_at IS NULL AND (? IS NULL OR brought_by = ?)"
    )
    entries, size = db.conn.execute(sql, [device, device]).fetchone()
    return int(entries), int(size)


def is_kept(db: Database, raw: bytes) -> bool:
    """Return whether these very bytes were set aside before."""
    return db.conn.execute("SELECT 1 FROM set_aside WHERE sha256 = ?", [sha256(raw)]).fetchone() is not None


FULL = "set-aside-full"
"""The code of what was not kept, and of what holds the cars in its place."""


def note_full(db: Database, device: str, received_at: str) -> None:
    """Hold every car for what a device brought and nobody keeps, once until a manager has decided on it."""
    sql = "SELECT 1 FROM set_aside WHERE reviewed_at IS NULL AND brought_by = ? AND code = ?"
    if db.conn.execute(sql, [device, FULL]).fetchone() is None:
        raw = json.dumps({"not_kept_of": device, "since": received_at}).encode()
        what = "there is more of this device than is kept; the rest waits on that phone, and comes once this is decided"
        put(db, raw, BadEntry(FULL, what), received_at, device)


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


def holding(db: Database, event: str, car: str) -> Holding:
    """Return what holds this car until a manager has looked: entry ids, or digests where no id can be read.

    An entry that names no car that can be read holds all cars. `NAMED` are named, so that ten thousand pieces of
    nonsense make no queue longer than a signal can carry.
    """
    waits_here = (
        "FROM (SELECT DISTINCT coalesce(id, sha256) AS name FROM set_aside WHERE reviewed_at IS NULL"
        " AND (event IS NULL OR event = ?) AND (car IS NULL OR car = ?))"
    )
    rows = db.conn.execute(f"SELECT name {waits_here} ORDER BY name LIMIT {NAMED}", [event, car]).fetchall()
    count = (
        len(rows) if len(rows) < NAMED else db.conn.execute(f"SELECT count(*) {waits_here}", [event, car]).fetchone()[0]
    )
    return Holding([row[0] for row in rows], count - len(rows))


def count_waiting(db: Database) -> int:
    """Return how many entries wait for a manager's look."""
    return int(db.conn.execute("SELECT count(*) FROM set_aside WHERE reviewed_at IS NULL").fetchone()[0])


def version(db: Database) -> str:
    """Return a name for what was set aside and what was decided of it: it grows, and nothing of it is taken back."""
    return "{}-{}".format(*db.conn.execute("SELECT count(*), count(reviewed_at) FROM set_aside").fetchone())


def listing(db: Database, without: Collection[str] = ()) -> list[Aside]:
    """Return what was set aside, newest last, its bytes as text where they are UTF-8; without that of some events.

    Of what one device brought the oldest `SHOWN` that wait, and of what is decided the last `DECIDED`: a crowd of
    nonsense hides nothing of others, and all of it is in `groups`.
    """
    theirs, events = _not_of(without)
    rows = db.query(
        "SELECT s.* FROM set_aside s JOIN (SELECT sha256, reviewed_at IS NULL AS waits, row_number() OVER"
        " (PARTITION BY reviewed_at IS NULL, CASE WHEN reviewed_at IS NULL THEN brought_by END"
        " ORDER BY CASE WHEN reviewed_at IS NULL THEN received_at END, reviewed_at DESC, sha256) AS place"
        f" FROM set_aside WHERE {theirs}) p ON p.sha256 = s.sha256"
        f" WHERE place <= CASE WHEN waits THEN {SHOWN} ELSE {DECIDED} END ORDER BY s.received_at, s.sha256",
        events,
    )
    return [Aside(**{**row, "raw": bytes(row["raw"]).decode(errors="replace")}) for row in rows]


def groups(db: Database, without: Collection[str] = ()) -> list[AsideGroup]:
    """Return what waits by who brought it, most first; without that of some events."""
    theirs, events = _not_of(without)
    rows = db.conn.execute(
        "SELECT brought_by, car, code, count(*), min(received_at), max(received_at) FROM set_aside"
        f" WHERE reviewed_at IS NULL AND {theirs} GROUP BY brought_by, car, code",
        events,
    ).fetchall()
    found = [_group(bringer, [row for row in rows if row[0] == bringer]) for bringer in {row[0] for row in rows}]
    return sorted(found, key=lambda group: (-group.waiting, group.brought_by or ""))


def _group(bringer: str | None, rows: Sequence[tuple[Any, ...]]) -> AsideGroup:
    codes: Counter[str] = Counter()
    for _, _, code, count, *_ in rows:
        codes[code] += count
    cars = sorted({row[1] for row in rows}, key=lambda car: (car is None, car or ""))
    return AsideGroup(
        brought_by=bringer,
        waiting=codes.total(),
        cars=cars[:SHOWN],
        codes=dict(sorted(codes.items())),
        first_at=min(row[4] for row in rows),
        last_at=max(row[5] for row in rows),
    )


def leave_out_group(
    db: Database, brought_by: str | None, upto: str, person: str, reason: str, now: str, without: Collection[str] = ()
) -> int:
    """Note that all that waits of one who brought it is left out, and why; return how many; bytes stay kept.

    upto: when the last came that was looked at; what came later waits on. without: events that are not the person's.
    """
    theirs, events = _not_of(without)
    done = db.conn.execute(
        "UPDATE set_aside SET reviewed_at = ?, reviewed_by = ?, verdict = 'discarded', reason = ?"
        f" WHERE reviewed_at IS NULL AND brought_by IS ? AND received_at <= ? AND {theirs}",
        [now, person, reason, brought_by, upto, *events],
    )
    return int(done.rowcount)


def _not_of(events: Collection[str]) -> tuple[str, list[str]]:
    """Return a condition that leaves out what names one of some events, and its values."""
    marks = ", ".join("?" * len(events))
    return f"(event IS NULL OR event NOT IN ({marks}))", sorted(events)


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

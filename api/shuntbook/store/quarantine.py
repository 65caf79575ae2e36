"""What was set aside: bytes that could not be taken as entries, kept until a manager has looked.

How much is kept is `quarantine_room`'s, what a manager sees and decides `quarantine_review`'s.
"""

from collections.abc import Sequence
from typing import NamedTuple

from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import BadEntry, NotFound
from shuntbook.store.connection import Database
from shuntbook.store.readable_names import Named, read_names

NAMED = 100
"""So many of what holds a car are named in its queue."""


class Holding(NamedTuple):
    """What holds a car: the first ids (or digests) of it in order, and how many more there are."""

    named: list[str]
    more: int


def is_kept(db: Database, raw: bytes) -> bool:
    """Return whether these very bytes were set aside before."""
    return db.conn.execute("SELECT 1 FROM set_aside WHERE sha256 = ?", [sha256(raw)]).fetchone() is not None


class Waiting(NamedTuple):
    """What waits for a look: its digest and bytes, when it came, the device that brought it."""

    digest: str
    raw: bytes
    received_at: str
    brought_by: str | None


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

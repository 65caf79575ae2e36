"""The log of entries: append once, byte for byte, read by commit sequence, subject or kind."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from shuntbook.report.entry import Entry, held_entry
from shuntbook.report.kinds import EntryVoided
from shuntbook.store.connection import Database

CHUNK = 500
"""Ids asked for in one statement, well below SQLite's limit of variables."""


class Arrived(NamedTuple):
    """An entry as it came in: checked, its bytes, when, how far the device's clock was off, who brought it."""

    entry: Entry
    raw: bytes
    received_at: str
    skew_s: float | None
    brought_by: str | None


def append(db: Database, arrivals: Iterable[Arrived]) -> None:
    """Add entries whose ids the log does not hold yet."""
    rows, voids = [], []
    for entry, raw, received_at, skew_s, brought_by in arrivals:
        place = (entry.event, entry.car, entry.kind, entry.subject)
        rows.append(
            (
                entry.id,
                *place,
                entry.person,
                entry.device,
                entry.seq,
                raw,
                received_at,
                skew_s,
                brought_by,
            )
        )
        if isinstance(entry.data, EntryVoided):
            voids += [(target, entry.id) for target in sorted(set(entry.data.voids))]
    db.conn.executemany(
        "INSERT INTO entry (id, event, car, kind, subject, person, device, seq, raw, received_at, skew_s, brought_by)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        rows,
    )
    db.conn.executemany("INSERT OR IGNORE INTO void VALUES (?, ?)", voids)


def held(db: Database, ids: Sequence[str]) -> dict[str, bytes]:
    """Return the bytes of those of `ids` that the log holds."""
    found: dict[str, bytes] = {}
    for start in range(0, len(ids), CHUNK):
        some = list(ids[start : start + CHUNK])
        found.update(db.conn.execute(f"SELECT id, raw FROM entry WHERE id IN ({_marks(some)})", some).fetchall())
    return found


class Telling(NamedTuple):
    """Which entries something follows from: those of some kinds, and those of others whose bytes hold something."""

    kinds: Collection[str]
    where_said: Mapping[str, bytes]


class Held(NamedTuple):
    """An entry of the log: whose it is, of which kind, and its bytes."""

    id: str
    event: str
    car: str
    kind: str
    raw: bytes


_HELD = ", ".join(Held._fields)


def page(db: Database, cursor: int, most: int, events: Collection[str] | None = None) -> tuple[list[Held], int, bool]:
    """Return up to `most` entries after `cursor`, the new cursor, and whether there are more.

    events: only theirs are returned; the cursor passes over the others.
    """
    rows = db.conn.execute(
        f"SELECT cursor, {_HELD} FROM entry WHERE cursor > ? ORDER BY cursor LIMIT ?",
        [cursor, most + 1],
    ).fetchall()
    more = len(rows) > most
    rows = rows[:most]
    shown = [Held(*row[1:]) for row in rows]
    return [one for one in shown if events is None or one.event in events], rows[-1][0] if rows else cursor, more


def those(db: Database, ids: Sequence[str]) -> list[Held]:
    """Return those of at most CHUNK `ids` that the log holds."""
    return [Held(*row) for row in db.conn.execute(f"SELECT {_HELD} FROM entry WHERE id IN ({_marks(ids)})", list(ids))]


def touched(db: Database, after: int, upto: int) -> list[tuple[str, str, str]]:
    """Return event, car and kind of the entries after one cursor and up to another, each kind of a car once."""
    sql = "SELECT DISTINCT event, car, kind FROM entry WHERE cursor > ? AND cursor <= ?"
    return db.conn.execute(sql, [after, upto]).fetchall()


def after(db: Database, cursor: int, event: str | None = None) -> list[Entry]:
    """Return the entries that were taken in after a cursor, in that order; or those of one event."""
    sql = "SELECT raw FROM entry WHERE cursor > ? AND (? IS NULL OR +event = ?) ORDER BY cursor"
    return _entries(db, sql, [cursor, event, event])


def telling(db: Database, event: str, told: Telling, cursor: int = 0, car: str | None = None) -> list[Entry]:
    """Return the entries of an event, or of one of its cars, that tell something and came in after a cursor."""
    # All of an event is read in the order that it lies in; of a car, by its index.
    whose, values = ("+event = ?", [event]) if car is None else ("event = ? AND car = ?", [event, car])
    kinds, said = sorted(told.kinds), [*told.where_said.items()]
    tells = " OR ".join([f"+kind IN ({_marks(kinds)})", *["+kind = ? AND instr(raw, ?)" for _ in said]])
    sql = f"SELECT raw FROM entry WHERE cursor > ? AND {whose} AND ({tells}) ORDER BY cursor"
    return _entries(db, sql, [cursor, *values, *kinds, *(value for pair in said for value in pair)])


def events_after(db: Database, cursor: int) -> set[str]:
    """Return the events of the entries that were taken in after a cursor."""
    return {row[0] for row in db.conn.execute("SELECT DISTINCT event FROM entry WHERE cursor > ?", [cursor])}


def raws(db: Database, event: str | None) -> Iterator[bytes]:
    """Yield the bytes of all entries, or of one event's, in the order they were taken in."""
    sql = "SELECT raw FROM entry WHERE ? IS NULL OR event = ? ORDER BY cursor"
    return (row[0] for row in db.conn.execute(sql, [event, event]))


def devices_of(db: Database, events: Sequence[str]) -> set[str]:
    """Return the devices that wrote entries of some events."""
    sql = f"SELECT DISTINCT device FROM entry WHERE event IN ({_marks(events)})"
    return {row[0] for row in db.conn.execute(sql, list(events))}


def first_cursor(db: Database, events: Sequence[str]) -> int | None:
    """Return the commit sequence of the first entry of some events, None where there is none."""
    found: int | None = db.conn.execute(
        f"SELECT min(cursor) FROM entry WHERE event IN ({_marks(events)})", list(events)
    ).fetchone()[0]
    return found


def last_cursor(db: Database) -> int:
    """Return the commit sequence of the newest entry, 0 where there is none."""
    return int(db.conn.execute("SELECT coalesce(max(cursor), 0) FROM entry").fetchone()[0])


def newest_received_at(db: Database) -> str | None:
    """Return when the entry that came in last by the clock was received, None where there is none."""
    found: str | None = db.conn.execute("SELECT max(received_at) FROM entry").fetchone()[0]
    return found


def newest_skews_s(db: Database, among: int) -> list[float]:
    """Return how far each device's clock was ahead of this machine's when it last sent, from the newest entries."""
    sql = (
        "SELECT skew_s, max(cursor) FROM entry WHERE skew_s IS NOT NULL AND cursor > ? GROUP BY brought_by"
        " ORDER BY brought_by"
    )
    return [row[0] for row in db.conn.execute(sql, [last_cursor(db) - among])]


def of_car(db: Database, event: str, car: str) -> list[Entry]:
    """Return all entries of one car."""
    return _entries(
        db,
        "SELECT raw FROM entry WHERE event = ? AND car = ? ORDER BY id",
        [event, car],
    )


def of_kinds(db: Database, event: str, car: str, kinds: Sequence[str]) -> list[Entry]:
    """Return the entries of one car that are of one of `kinds`, with the voids that name any of them."""
    where = f"event = ? AND car = ? AND kind IN ({_marks(kinds)})"
    return _with_voids(db, where, [event, car, *kinds])


def about(db: Database, event: str, car: str, subject: str) -> list[Entry]:
    """Return the entries of one car about one report or job, with the voids that name any of them."""
    return _with_voids(db, "event = ? AND car = ? AND subject = ?", [event, car, subject])


def named(db: Database, ids: Sequence[str]) -> list[Entry]:
    """Return those of `ids` that the log holds."""
    return [held_entry(raw) for raw in held(db, ids).values()]


def count(db: Database, event: str, car: str) -> int:
    """Return how many entries of this event and car there are."""
    return int(db.conn.execute("SELECT count(*) FROM entry WHERE event = ? AND car = ?", [event, car]).fetchone()[0])


def cars(db: Database, event: str) -> list[str]:
    """Return the cars of an event that have entries."""
    return [row[0] for row in db.conn.execute("SELECT DISTINCT car FROM entry WHERE event = ?", [event])]


def _with_voids(db: Database, where: str, values: list[str]) -> list[Entry]:
    return _entries(
        db,
        f"SELECT raw FROM entry WHERE {where} UNION ALL SELECT raw FROM entry WHERE id IN"
        f" (SELECT by_entry FROM void WHERE target IN (SELECT id FROM entry WHERE {where}))",
        values * 2,
    )


def _entries(db: Database, sql: str, values: Sequence[str | int | bytes | None]) -> list[Entry]:
    return [held_entry(row[0]) for row in db.conn.execute(sql, values)]


def _marks(items: Sequence[str]) -> str:
    return ", ".join("?" * len(items))

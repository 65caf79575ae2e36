"""Whether a log that was lost is being rebuilt, and what was taken on somebody's word meanwhile."""

from collections.abc import Iterable
from typing import Literal, NamedTuple

from msgspec import Struct

from shuntbook.store.connection import Database

Act = Literal["device", "trusted", "review", "ended"]


class Done(Struct, frozen=True):
    """What somebody did in a rebuild.

    act: brought a device (what: its name), digests of unsigned entries (an event), a review that believes (an entry),
    or ended the rebuild ("").
    """

    at: str
    person: str
    act: Act
    what: str


class Doer(NamedTuple):
    """Who does something, and when."""

    person: str
    now: str


def begin(db: Database) -> None:
    """Begin a rebuild: the log is new, or other than it was."""
    db.conn.execute("INSERT OR REPLACE INTO meta SELECT 'rebuild', value FROM meta WHERE key = 'log_id'")


def is_under_way(db: Database) -> bool:
    """Return whether a rebuild was begun and not ended."""
    return db.conn.execute("SELECT 1 FROM meta WHERE key = 'rebuild'").fetchone() is not None


def end(db: Database) -> None:
    """End the rebuild, if one is under way."""
    db.conn.execute("DELETE FROM meta WHERE key = 'rebuild'")


def note(db: Database, doer: Doer, act: Act, whats: Iterable[str]) -> None:
    """Keep what was done, for everybody to see."""
    rows = [(doer.now, doer.person, act, what) for what in whats]
    db.conn.executemany("INSERT INTO rebuild_act (at, person, act, what) VALUES (?, ?, ?, ?)", rows)


def done(db: Database) -> list[Done]:
    """Return all that was done in rebuilds of this log, oldest first."""
    return [Done(**row) for row in db.query("SELECT at, person, act, what FROM rebuild_act ORDER BY number")]


def version(db: Database) -> str:
    """Return a text that is the same while nothing was done and no rebuild begun or ended."""
    count = db.conn.execute("SELECT count(*) FROM rebuild_act").fetchone()[0]
    return f"{count} {is_under_way(db)}"

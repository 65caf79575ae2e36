"""How the server is: can it write, does its clock agree, is what it holds there, what waits for somebody."""

import shutil
import sqlite3
import statistics
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime, timedelta
from typing import Literal

from msgspec import Struct

from shuntbook import __version__
from shuntbook.kit.errors import StoreUnavailable
from shuntbook.store import diagnostics, log, photos, quarantine
from shuntbook.store.connection import Database
from shuntbook.store.database import FILE, Store

LOW_BYTES = 50 * 1024 * 1024
"""Room for about 150 photos as the app makes them."""
SKEW = timedelta(minutes=5)
RECENT = 1000
"""Entries that the phones' clocks are looked up in."""
FEWEST_PHONES = 3
PATIENCE_MS = 1000


class Health(Struct, frozen=True):
    """How the server is: the log's id, how much it holds, what waits for a look, what is wrong."""

    log_id: str
    entries: int
    waiting_review: int
    status: Literal["ok", "degraded"]
    problems: list[str]
    version: str


def health(store: Store, now: str) -> Health:
    """Return how the server is: the log's id, how much it holds, what waits for a look, what is wrong.

    `degraded` is a server that needs help itself: it can't write, its disk is nearly full, photos are gone from
    it, its clock is wrong. What only waits for somebody is among the problems of an `ok` one.
    """
    if not (store.folder / FILE).exists():
        # The open file may still answer; nothing that is written to it would last.
        return Health(*_counts(store), "degraded", ["the database file is gone from the data folder"], __version__)
    with store.read() as db:
        wrong = [*_room(store), *_gone(store, db), *_clock(db, now)]
        waiting = _waiting(db)
    wrong += _writing(store, now)
    return Health(*_counts(store), "degraded" if wrong else "ok", [*wrong, *waiting], __version__)


def _counts(store: Store) -> tuple[str, int, int]:
    with store.read() as db:
        entries = int(db.conn.execute("SELECT count(*) FROM entry").fetchone()[0])
        return store.log_id, entries, quarantine.count_waiting(db)


def _writing(store: Store, now: str) -> list[str]:
    """Write a word and see it committed: a full or read-only disk and a held lock show in nothing else."""
    try:
        with _impatient(store.db), store.write() as db:
            db.conn.execute("INSERT OR REPLACE INTO meta VALUES ('health_asked_at', ?)", [now])
    except StoreUnavailable as error:
        return [f"nothing can be written: {error}"]
    return []


@contextmanager
def _impatient(db: Database) -> Iterator[None]:
    """Wait for a lock of another process less than a write of entries would: who asks wants an answer."""
    before_ms = db.conn.execute("PRAGMA busy_timeout").fetchone()[0]
    db.conn.execute(f"PRAGMA busy_timeout = {min(before_ms, PATIENCE_MS)}")
    try:
        yield
    finally:
        with suppress(sqlite3.ProgrammingError):  # a write that was refused has closed it
            db.conn.execute(f"PRAGMA busy_timeout = {before_ms}")


def _room(store: Store) -> list[str]:
    free = shutil.disk_usage(store.folder).free
    return [f"the disk has only {free // 2**20} MiB left"] if free < LOW_BYTES else []


def _gone(store: Store, db: Database) -> list[str]:
    gone = sum(not photos.path_of(store, digest).exists() for digest in photos.all_files(db))
    return [f"photos gone from the disk: {gone}; run `shuntbook check`"] if gone else []


def _clock(db: Database, now: str) -> list[str]:
    here = datetime.fromisoformat(now)
    newest = log.newest_received_at(db)
    if newest is not None and here < datetime.fromisoformat(newest) - SKEW:
        return [f"the machine's clock says {now}, and an entry came in at {newest}: the clock went back; set it"]
    skews = log.newest_skews_s(db, RECENT)
    if len(skews) >= FEWEST_PHONES and abs(off_s := statistics.median(skews)) > SKEW.total_seconds():
        side = "ahead of" if off_s > 0 else "behind"
        return [f"most phones' clocks are {abs(off_s) / 60:.0f} minutes {side} the machine's; set the machine's"]
    return []


def _waiting(db: Database) -> list[str]:
    set_aside, awaited = quarantine.count_waiting(db), diagnostics.photos_awaited(db)
    said = []
    if set_aside:
        said.append(f"needs review by a manager: {set_aside}; the cars named are on hold")
    if awaited:
        said.append(f"photos that have not come in: {awaited}; they may still be on the phones that took them")
    return said

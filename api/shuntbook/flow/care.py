"""Care of the store: is everything whole, does what is kept up equal a rebuild, and a copy while it runs."""

import sqlite3
from pathlib import Path

from sqlite_utils import Database

from shuntbook.kit.errors import NotFound, StoreUnavailable
from shuntbook.queue.car import jobs_of_car
from shuntbook.store import aside, derived, log, photos, setups
from shuntbook.store.database import FILE, Store


def check(store: Store) -> list[str]:
    """Return what is wrong with the store, a sentence each; an empty list means nothing was found.

    SQLite's own integrity check, every photo hashed again, and for each car the jobs kept up against a
    rebuild from the log.
    """
    with store.read() as db:
        return [*_database(db), *_photos(store, db), *_kept_up(db)]


def backup(store: Store, target: Path) -> None:
    """Copy the database to a new file while the store is in use. Errors: StoreUnavailable."""
    if target.exists():
        raise StoreUnavailable(f"{target} exists already; name a new file")
    try:
        with sqlite3.connect(target) as copy:
            store.db.conn.backup(copy)
        copy.close()
    except (sqlite3.Error, OSError) as error:
        target.unlink(missing_ok=True)
        raise StoreUnavailable(f"{target}: {error}. No copy was made") from error


def health(store: Store) -> dict[str, object]:
    """Return how the store is: the log's id, how much it holds, what waits for a look, what is wrong."""
    problems: list[str] = []
    if not (store.folder / FILE).exists():
        problems.append("the database file is gone from the data folder")
    with store.read() as db:
        waiting = aside.count_waiting(db)
        entries = int(db.conn.execute("SELECT count(*) FROM entry").fetchone()[0])
    return {
        "status": "degraded" if problems else "ok",
        "log_id": store.log_id,
        "entries": entries,
        "waiting_review": waiting,
        "problems": problems,
    }


def _database(db: Database) -> list[str]:
    rows = db.conn.execute("PRAGMA integrity_check").fetchall()
    return [f"database: {row[0]}" for row in rows if row[0] != "ok"]


def _photos(store: Store, db: Database) -> list[str]:
    wrong = []
    for digest in photos.all_held(db):
        try:
            photos.read(store, digest)
        except NotFound as error:
            wrong.append(str(error))
    return wrong


def _kept_up(db: Database) -> list[str]:
    wrong = []
    for event in setups.events(db):
        setup = setups.get(db, event)
        for car in sorted({*log.cars(db, event), *setup.event.cars}):
            entries = log.of_car(db, event, car)
            if derived.jobs(db, event, car) != jobs_of_car(entries, setup):
                wrong.append(f"{event}, car {car}: the jobs kept up differ from a rebuild; run `shuntbook rebuild`")
    return wrong

"""Copies of the database: made while it is written to, opened as a log of their own."""

import sqlite3
import uuid
from pathlib import Path

from shuntbook.store import rebuilds
from shuntbook.store.connection import Database


def snapshot(db: Database, target: Path) -> None:
    """Copy the database as it stands at one moment to a new file. Errors: sqlite3.Error, OSError."""
    target.touch(mode=0o600, exist_ok=False)
    copy = sqlite3.connect(target)
    try:
        db.conn.backup(copy)
    finally:
        copy.close()


def faults(file: Path) -> list[str]:
    """Return what is wrong with a database file as such; [] where it is whole and a Shuntbook log."""
    connection = sqlite3.connect(file)
    try:
        wrong = [str(row[0]) for row in connection.execute("PRAGMA integrity_check") if row[0] != "ok"]
        if connection.execute("SELECT value FROM meta WHERE key = 'log_id'").fetchone() is None:
            wrong.append("it has no log id")
    except sqlite3.DatabaseError as error:
        return [str(error)]
    finally:
        connection.close()
    return wrong


def begin_new_log(db: Database) -> int:
    """Give the log another id, begin a rebuild and end open invites; return how many those were.

    Phones see the other id and send all they hold. An invite that is open in an older copy may have been used since.
    """
    db.conn.execute("UPDATE meta SET value = ? WHERE key = 'log_id'", [uuid.uuid4().hex])
    rebuilds.begin(db)
    return db.conn.execute("DELETE FROM invite WHERE used_at IS NULL").rowcount

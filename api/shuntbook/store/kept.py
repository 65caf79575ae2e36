"""What the log keeps beside entries: when each was received, and when it was said if typed in later."""

import json
from typing import NamedTuple

from shuntbook.store.connection import Database


class Beside(NamedTuple):
    """When an entry was received; `said_at` "" where it was written at once."""

    received_at: str
    said_at: str


def beside(db: Database, event: str, car: str) -> dict[str, Beside]:
    """Return what is kept beside each entry of a car, by id."""
    sql = "SELECT id, raw, received_at FROM entry WHERE event = ? AND car = ?"
    return {row[0]: Beside(row[2], _said_at(row[1])) for row in db.conn.execute(sql, [event, car])}


def _said_at(raw: bytes) -> str:
    # No field of the checked entry: unknown fields are kept in its bytes alone.
    said = json.loads(raw).get("said_at")
    return said if isinstance(said, str) else ""

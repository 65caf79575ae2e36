"""Up to where a log was folded by the rules of release 0.1: passes that it counted may not count today."""

from shuntbook.store.connection import Database


def keep_upto(db: Database, cursor: int) -> None:
    """Say that what a log held up to a cursor was once folded by those rules."""
    db.conn.execute("INSERT OR REPLACE INTO meta VALUES ('first_rules', ?)", [str(cursor)])


def were_in_force(db: Database) -> bool:
    """Return whether any entry was ever folded by those rules."""
    return _upto(db) > 0


def passes(db: Database, event: str, car: str) -> frozenset[str]:
    """Return the ids of a car's `inspection.passed` entries that were."""
    sql = "SELECT id FROM entry WHERE event = ? AND car = ? AND kind = 'inspection.passed' AND cursor <= ?"
    return frozenset(row[0] for row in db.conn.execute(sql, [event, car, _upto(db)]))


def _upto(db: Database) -> int:
    row = db.conn.execute("SELECT value FROM meta WHERE key = 'first_rules'").fetchone()
    return int(row[0]) if row else 0

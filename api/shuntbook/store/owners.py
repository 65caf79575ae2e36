"""Who owns this log: whoever lets new people in, and ends a rebuild."""

from shuntbook.store.connection import Database

EVERY_MANAGER = "every-manager"
"""In a folder of a release that knew no owner each manager counts as one, until somebody is named."""


def name(db: Database, person: str, now: str) -> None:
    """Name a person as an owner, for good."""
    db.conn.execute("INSERT OR IGNORE INTO owner VALUES (?, ?)", [person, now])


def named(db: Database) -> list[str]:
    """Return who was named as an owner, first come first."""
    return [row[0] for row in db.conn.execute("SELECT person FROM owner ORDER BY since, person")]


def is_every_manager(db: Database) -> bool:
    """Return whether each manager counts as an owner: in a folder of 0.1, while nobody is named."""
    kept = db.conn.execute("SELECT 1 FROM meta WHERE key = 'owners' AND value = ?", [EVERY_MANAGER]).fetchone()
    return kept is not None and not named(db)

"""A connection to SQLite with the two calls that the store needs, and the migrations that lay its tables out."""

import sqlite3
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from typing import Any

Migration = Callable[["Database"], None]


class Database:
    """An open database; `conn` is SQLite's own connection, whose transactions the store begins and ends itself."""

    def __init__(self, conn: sqlite3.Connection) -> None:
        self.conn = conn

    def execute(self, sql: str, values: Sequence[Any] = ()) -> sqlite3.Cursor:
        """Run one statement."""
        return self.conn.execute(sql, values)

    def query(self, sql: str, values: Sequence[Any] = ()) -> Iterator[dict[str, Any]]:
        """Yield each row with its columns' names."""
        rows = self.conn.execute(sql, values)
        names = [column[0] for column in rows.description]
        return (dict(zip(names, row, strict=True)) for row in rows)


class Migrations:
    """Named steps that are applied once each, in their order; the database itself holds which were.

    The table is the one that sqlite-utils makes, with which the first releases laid out their databases.
    """

    def __init__(self, name: str) -> None:
        self._name = name
        self._steps: list[Migration] = []

    def __call__(self, step: Migration) -> Migration:
        """Add a step, named like its function."""
        self._steps.append(step)
        return step

    def apply(self, db: Database) -> None:
        """Apply the steps that were not yet, inside the transaction that is under way."""
        db.execute(
            'CREATE TABLE IF NOT EXISTS "_sqlite_migrations"'
            ' ("id" INTEGER PRIMARY KEY, "migration_set" TEXT, "name" TEXT, "applied_at" TEXT)'
        )
        db.execute(
            'CREATE UNIQUE INDEX IF NOT EXISTS "idx__sqlite_migrations_migration_set_name"'
            ' ON "_sqlite_migrations" ("migration_set", "name")'
        )
        done = {
            row[0] for row in db.execute("SELECT name FROM _sqlite_migrations WHERE migration_set = ?", [self._name])
        }
        for step in self._steps:
            if step.__name__ not in done:
                step(db)
                row = [self._name, step.__name__, str(datetime.now(UTC))]
                db.execute("INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES (?, ?, ?)", row)

"""The least that storing entries can cost: their bytes into a table, nothing read, nothing judged."""

import sqlite3
from pathlib import Path


class PlainTable:
    """A table of bytes in SQLite with the store's own durability; one transaction a batch."""

    def __init__(self, path: Path, held: list[bytes]) -> None:
        self.connection = sqlite3.connect(path, isolation_level=None)
        self.connection.execute("PRAGMA journal_mode = WAL")
        self.connection.execute("PRAGMA synchronous = FULL")
        self.connection.execute("CREATE TABLE entry (cursor INTEGER PRIMARY KEY, raw BLOB NOT NULL) STRICT")
        self.insert(held)

    def insert(self, batch: list[bytes]) -> None:
        """Insert a batch durably."""
        self.connection.execute("BEGIN IMMEDIATE")
        self.connection.executemany("INSERT INTO entry (raw) VALUES (?)", [(raw,) for raw in batch])
        self.connection.execute("COMMIT")

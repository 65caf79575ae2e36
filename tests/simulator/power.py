"""A server's disk whose power can go between any two statements, and that can be full."""

import shutil
import sqlite3
from hashlib import sha256
from pathlib import Path

from shuntbook.store.connection import Database
from shuntbook.store.database import Store


class Power:
    """Counts statements, and keeps the folder as it lies on the disk where the power is to go.

    What the server does after that moment happens on a disk that nobody sees again.
    """

    def __init__(self) -> None:
        self.left: int | None = None
        self.full = False
        self.statements = sha256()
        self._kept: Path | None = None
        self._folder = Path()

    def goes_at(self, statement: int | None, folder: Path) -> None:
        """Have the power go before the so-many-th statement from now on; None: it stays."""
        self.left, self._folder, self._kept = statement, folder, None

    def statement(self, sql: str) -> None:
        """Count a statement that is about to run."""
        # What sqlite-utils says for a migration has names of its own chance in it, and the machine's time.
        if "sqlite_" not in sql:
            self.statements.update(sql.encode())
        if self.left is not None and self._kept is None:
            self.left -= 1
            if self.left <= 0:
                self._keep()

    def lost(self) -> Path:
        """Return the folder as it was when the power went: at the latest, now that the answer is on its way."""
        if self._kept is None:
            self._keep()
        assert self._kept is not None
        return self._kept

    def _keep(self) -> None:
        self._kept = self._folder.with_name(self._folder.name + "-kept")
        shutil.rmtree(self._kept, ignore_errors=True)
        # Not the file of shared memory: what is not on the disk is made again from the log of writes.
        shutil.copytree(self._folder, self._kept, ignore=shutil.ignore_patterns("*-shm"))


class PoweredStore(Store):
    """The product's store, each of its connections under a power that may go."""

    def __init__(self, folder: Path, power: Power) -> None:
        self.power = power
        super().__init__(folder)

    def _connect(self) -> Database:
        connected = super()._connect()
        connected.conn.set_trace_callback(self.power.statement)
        if self.power.full:
            limit(connected.conn, True)
        return connected

    def fill(self, full: bool) -> None:
        """Leave no room for another page, or make room again."""
        self.power.full = full
        limit(self.db.conn, full)


def limit(connection: sqlite3.Connection, full: bool) -> None:
    pages = connection.execute("PRAGMA page_count").fetchone()[0] if full else 2**30
    connection.execute(f"PRAGMA max_page_count = {pages}")

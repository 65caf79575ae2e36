"""One SQLite file, many readers, one writer.

WAL, synchronous=FULL: what was acknowledged is on disk. One process serves; a lock and BEGIN IMMEDIATE
make read-then-write safe from its threads (deferred transactions failed here in nine of ten tries), and
SQLite's own lock keeps other processes, such as `shuntbook load`, in turn.
"""

import sqlite3
import threading
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from shuntbook.kit.errors import StoreUnavailable
from shuntbook.store import rebuilds
from shuntbook.store.connection import Database
from shuntbook.store.permissions import make_file, make_folder
from shuntbook.store.schema import migrations

FILE = "shuntbook.sqlite"
PHOTOS = "photos"
OWN = (FILE, f"{FILE}-wal", f"{FILE}-shm", PHOTOS)
"""What of a data folder is ours; whoever names a folder with other things in it keeps those as they are."""
BUSY_S = 5.0
"""How long a call waits for its turn among this process's writers, and then for other processes'.

Both together stay well below the 20 s after which a phone gives a call up: it must hear that nothing was stored.
"""


class Store:
    """The data folder: the database and, beside it, the folder of photos."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.photos = folder / PHOTOS
        self._writer = threading.Lock()
        self._local = threading.local()
        try:
            make_folder(folder)
            make_folder(self.photos)
            self._migrate()
        except (OSError, sqlite3.OperationalError) as error:
            raise _unavailable(error, folder) from error

    @property
    def db(self) -> Database:
        """Return this thread's connection."""
        if not hasattr(self._local, "db"):
            try:
                self._local.db = self._connect()
            except (OSError, sqlite3.OperationalError) as error:
                raise _unavailable(error, self.folder) from error
        db: Database = self._local.db
        return db

    @contextmanager
    def read(self) -> Iterator[Database]:
        """Give one unchanging view of the store for the length of the block."""
        db = self.db
        try:
            db.conn.execute("BEGIN")
            yield db
        except sqlite3.OperationalError as error:
            raise _unavailable(error, self.folder) from error
        finally:
            if db.conn.in_transaction:
                db.conn.execute("ROLLBACK")

    @contextmanager
    def write(self) -> Iterator[Database]:
        """Run the block as one transaction: all of it is on disk afterwards, or none.

        Errors: StoreUnavailable where the disk is full, read-only or the file stays locked.
        """
        db = self.db
        try:
            with self._turn(), _transaction(db):
                yield db
        except (sqlite3.OperationalError, OSError) as error:
            if _is_read_only(error):
                self.close()
            raise _unavailable(error, self.folder) from error

    def close(self) -> None:
        """Close this thread's connection; the next call of this thread opens another.

        One that is only let go of keeps its files open until Python looks for garbage, which may be long after.
        """
        if hasattr(self._local, "db"):
            self._local.db.conn.close()
            del self._local.db

    @contextmanager
    def _turn(self) -> Iterator[None]:
        """Wait for this process's other writers, not for ever: behind a lock that stays, every thread would wait."""
        if not self._writer.acquire(timeout=BUSY_S):
            raise _unavailable("others have been writing for too long", self.folder)
        try:
            yield
        finally:
            self._writer.release()

    @property
    def log_id(self) -> str:
        """Return the id of this log: another one means that the server was lost or set up again."""
        row = self.db.conn.execute("SELECT value FROM meta WHERE key = 'log_id'").fetchone()
        return str(row[0])

    def _migrate(self) -> None:
        # Two processes may open a new folder at once: one transaction around it all lets one of them make the tables.
        with self.write() as db:
            migrations.apply(db)
            made = db.conn.execute("INSERT OR IGNORE INTO meta VALUES ('log_id', ?)", [uuid.uuid4().hex]).rowcount
            if made:
                rebuilds.begin(db)

    def _connect(self) -> Database:
        # SQLite gives the files that it writes beside the database the database's own mode.
        make_file(self.folder / FILE)
        connection = sqlite3.connect(self.folder / FILE, timeout=BUSY_S, check_same_thread=False)
        connection.isolation_level = None
        _write_ahead(connection)
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA cache_size = -4096")
        return Database(connection)


@contextmanager
def _transaction(db: Database) -> Iterator[None]:
    try:
        db.conn.execute("BEGIN IMMEDIATE")
        yield
        db.conn.execute("COMMIT")
    finally:
        if db.conn.in_transaction:
            db.conn.execute("ROLLBACK")


def _is_read_only(error: Exception) -> bool:
    """Return whether a connection was opened while the file was read-only, and stays so: the next call opens another.

    On a full disk, or behind a lock, it is kept: another one might not open, and what is there is still to be read.
    """
    return getattr(error, "sqlite_errorcode", 0) & 0xFF == sqlite3.SQLITE_READONLY


def _write_ahead(connection: sqlite3.Connection) -> None:
    """Turn WAL on. SQLite does not wait for its lock here (a new file that two processes open), so this does."""
    deadline = time.monotonic() + BUSY_S
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY or time.monotonic() > deadline:
                raise
            time.sleep(0.01)


def _unavailable(error: Exception | str, folder: Path) -> StoreUnavailable:
    return StoreUnavailable(f"{folder}: {error}. Nothing was stored; free the disk or the lock and try again.")

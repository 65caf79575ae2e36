"""Set-ups as their files' bytes: every version kept, one in force per event."""

import json
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache, partial

from shuntbook.kit.canonical import canonical, sha256
from shuntbook.kit.errors import NotFound
from shuntbook.setup.defaults import keeping
from shuntbook.setup.folder import Setup, read_setup
from shuntbook.store.connection import Database

Files = Mapping[str, bytes]


def put(db: Database, setup: Setup, files: Files) -> bool:
    """Put a checked set-up in force for its event; return whether that changed anything."""
    digests = {name: sha256(data) for name, data in files.items()}
    version = sha256(canonical(digests))
    event = setup.event.event
    if in_force(db, event) == version:
        return False
    db.conn.executemany(
        "INSERT OR IGNORE INTO file VALUES (?, ?)",
        [(digests[n], d) for n, d in files.items()],
    )
    db.conn.execute(
        "INSERT OR IGNORE INTO setup VALUES (?, ?, ?, ?)",
        [version, event, setup.rates.version, json.dumps(digests, sort_keys=True)],
    )
    db.conn.execute("INSERT OR REPLACE INTO event VALUES (?, ?)", [event, version])
    return True


def in_force(db: Database, event: str) -> str | None:
    """Return the version of the set-up in force, or None where the event has none."""
    row = db.conn.execute("SELECT version FROM event WHERE event = ?", [event]).fetchone()
    return row[0] if row else None


def events(db: Database) -> list[str]:
    """Return the events that have a set-up."""
    return [row[0] for row in db.conn.execute("SELECT event FROM event ORDER BY event")]


def versions(db: Database) -> str:
    """Return a text that is the same while every event has the set-up that it has now."""
    sql = "SELECT group_concat(event || '=' || version, char(10)) FROM (SELECT * FROM event ORDER BY event)"
    return db.conn.execute(sql).fetchone()[0] or ""


def files_of(db: Database, event: str, version: str) -> dict[str, bytes]:
    """Return the files of one version of an event's set-up."""
    row = db.conn.execute("SELECT files FROM setup WHERE event = ? AND version = ?", [event, version]).fetchone()
    if row is None:
        raise NotFound(f"no set-up {version} of {event!r} is held here")
    digests: dict[str, str] = json.loads(row[0])
    read = db.conn.execute
    return {n: read("SELECT bytes FROM file WHERE sha256 = ?", [d]).fetchone()[0] for n, d in digests.items()}


def following(db: Database, event: str, files: Files) -> dict[str, bytes]:
    """Return set-up files as they are to follow those in force: see `defaults.keeping`."""
    version = in_force(db, event)
    return dict(files) if version is None else keeping(files_of(db, event, version), files)


def find(db: Database, event: str) -> Setup | None:
    """Return the set-up in force, or None where the event has none yet."""
    version = in_force(db, event)
    return None if version is None else _read(_Version(version, partial(files_of, db, event, version)))


def get(db: Database, event: str) -> Setup:
    """Return the set-up in force. Errors: NotFound."""
    setup = find(db, event)
    if setup is None:
        known = ", ".join(events(db)) or "none"
        raise NotFound(f"event {event!r} has no set-up here (held: {known}); load its folder first")
    return setup


def with_rates(db: Database, event: str, rates: str) -> Setup:
    """Return the set-up in force with an older rate table that this event once had. Errors: NotFound."""
    row = db.conn.execute("SELECT version FROM setup WHERE event = ? AND rates = ?", [event, rates]).fetchone()
    if row is None:
        raise NotFound(f"event {event!r} never had the rate table {rates}")
    now = get(db, event)
    old = _read(_Version(row[0], partial(files_of, db, event, row[0])))
    return replace(now, rates=old.rates)


class _Version:
    """Files of a set-up, equal by version, so that they are fetched and read once per version."""

    def __init__(self, version: str, fetch: Callable[[], Files]) -> None:
        self.version = version
        self._fetch: Callable[[], Files] | None = fetch

    def files(self) -> Files:
        """Fetch the files, once: what is kept of it holds no database open."""
        fetch, self._fetch = self._fetch, None
        return fetch() if fetch else {}

    def __hash__(self) -> int:
        return hash(self.version)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Version) and other.version == self.version


@lru_cache(maxsize=16)
def _read(version: _Version) -> Setup:
    return read_setup(version.files(), stored=True)

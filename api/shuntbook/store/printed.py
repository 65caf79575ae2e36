"""Papers that went out, kept byte for byte beside the photos, by the entry that they are of."""

from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import NotFound
from shuntbook.store import photos
from shuntbook.store.connection import Database
from shuntbook.store.database import Store


def find(store: Store, db: Database, entry: str, paper: str) -> bytes | None:
    """Return the paper of an entry on paper of that size; None where none was printed, or its file is damaged."""
    row = db.conn.execute("SELECT sha256 FROM printed WHERE entry = ? AND paper = ?", [entry, paper]).fetchone()
    try:
        return photos.read(store, row[0]) if row else None
    except NotFound:
        return None


def keep(store: Store, entry: str, paper: str, data: bytes) -> None:
    """Keep a paper; what was printed first stays. Errors: StoreUnavailable."""
    digest = sha256(data)
    photos.put_file(store, digest, data)
    with store.write() as db:
        db.conn.execute("INSERT OR IGNORE INTO printed VALUES (?, ?, ?)", [entry, paper, digest])


def all_of(db: Database, event: str | None = None) -> list[tuple[str, str, str]]:
    """Return (entry, paper, SHA-256) of each, of one event or of all."""
    sql = "SELECT printed.entry, paper, sha256 FROM printed"
    of_event = " JOIN entry ON entry.id = printed.entry WHERE entry.event = ?"
    rows = db.conn.execute(f"{sql}{of_event if event else ''} ORDER BY 1, 2", [event] if event else [])
    return [(row[0], row[1], row[2]) for row in rows]

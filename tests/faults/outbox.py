"""What a simulated phone keeps on its disk: its entries and those it heard, photos, how far it is in the log.

Every change is one SQLite transaction, so that a phone killed at any moment finds whole what it had saved.
"""

import json
import sqlite3
import threading
from collections.abc import Iterable
from pathlib import Path
from typing import Any

TABLES = """
CREATE TABLE IF NOT EXISTS entry (id TEXT PRIMARY KEY, raw BLOB, mine INTEGER, sending TEXT, problem TEXT, seq INTEGER);
CREATE TABLE IF NOT EXISTS photo (photo TEXT PRIMARY KEY, bytes BLOB, sending TEXT);
CREATE TABLE IF NOT EXISTS meta (name TEXT PRIMARY KEY, value TEXT);
"""


def compact(entry: dict[str, Any]) -> bytes:
    """Return an entry's bytes as the app writes them: no white space, text as it is."""
    return json.dumps(entry, ensure_ascii=False, separators=(",", ":")).encode()


class Outbox:
    """The phone's disk; each thread has a connection of its own."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self._file = folder / "phone.sqlite"
        self._local = threading.local()
        self.db.execute("PRAGMA journal_mode = WAL")
        self.db.executescript(TABLES)

    @property
    def db(self) -> sqlite3.Connection:
        if not hasattr(self._local, "db"):
            self._local.db = sqlite3.connect(self._file, isolation_level=None, timeout=60)
            # A killed process loses nothing that it wrote; a phone that loses power is not what this stands for.
            self._local.db.execute("PRAGMA synchronous = OFF")
        answer: sqlite3.Connection = self._local.db
        return answer

    def meta(self, name: str) -> object:
        row = self.db.execute("SELECT value FROM meta WHERE name = ?", [name]).fetchone()
        return None if row is None else json.loads(row[0])

    def put_meta(self, **facts: object) -> None:
        rows = [(name, json.dumps(value)) for name, value in facts.items()]
        self.db.executemany("INSERT OR REPLACE INTO meta VALUES (?, ?)", rows)

    def add_own(self, drafts: list[dict[str, Any]], device: str) -> list[dict[str, Any]]:
        """Write entries made here, each with the next number of the device, all or none."""
        self.db.execute("BEGIN IMMEDIATE")
        seq = int(str(self.meta(f"seq {device}") or 0))
        entries = [{**draft, "seq": seq + place} for place, draft in enumerate(drafts, start=1)]
        rows = [(one["id"], compact(one), one["seq"]) for one in entries]
        self.db.executemany("INSERT INTO entry VALUES (?, ?, 1, 'waiting', NULL, ?)", rows)
        self.put_meta(**{f"seq {device}": seq + len(entries)})
        self.db.execute("COMMIT")
        return entries

    def add_photo(self, photo: str, data: bytes) -> None:
        self.db.execute("INSERT OR IGNORE INTO photo VALUES (?, ?, 'waiting')", [photo, data])

    def waiting(self, most: int) -> list[tuple[str, bytes]]:
        """Return (id, bytes) of what is to be sent next, in the order of the device's numbers."""
        found = self.db.execute("SELECT id, raw FROM entry WHERE sending = 'waiting' ORDER BY seq, id LIMIT ?", [most])
        return [(row[0], bytes(row[1])) for row in found]

    def waiting_photos(self) -> list[tuple[str, bytes]]:
        found = self.db.execute("SELECT photo, bytes FROM photo WHERE sending = 'waiting' ORDER BY photo")
        return [(row[0], bytes(row[1])) for row in found]

    def count(self, sending: str) -> int:
        """Return how many entries and photos are `waiting`, `sent` or in `attention`."""
        both = [self.db.execute(f"SELECT count(*) FROM {t} WHERE sending = ?", [sending]) for t in ("entry", "photo")]
        return sum(found.fetchone()[0] for found in both)

    def own(self) -> dict[str, tuple[bytes, str]]:
        """Return (bytes, sending) of each entry written here, by id."""
        found = self.db.execute("SELECT id, raw, sending FROM entry WHERE mine")
        return {row[0]: (bytes(row[1]), row[2]) for row in found}

    def held(self) -> set[str]:
        """Return the ids of all entries here."""
        return {row[0] for row in self.db.execute("SELECT id FROM entry")}

    def settle(self, answer: dict[str, Any], sent: Iterable[str], new_log: bool) -> None:
        """Keep a server's answer in one transaction; only ids that were sent and are listed count."""
        listed = set(sent)
        self.db.execute("BEGIN IMMEDIATE")
        if new_log:
            self.db.execute("UPDATE entry SET sending = 'waiting', problem = NULL")
            self.db.execute("UPDATE photo SET sending = 'waiting'")
        accepted = [(name,) for name in answer["accepted"] if name in listed]
        self.db.executemany("UPDATE entry SET sending = 'sent', problem = NULL WHERE id = ?", accepted)
        refused = [(json.dumps(one["problem"]), one["id"]) for one in answer["rejected"] if one["id"] in listed]
        self.db.executemany("UPDATE entry SET sending = 'attention', problem = ? WHERE id = ?", refused)
        heard = [(one["id"], compact(one), one["seq"]) for one in answer["entries"]]
        self.db.executemany("INSERT OR IGNORE INTO entry VALUES (?, ?, 0, 'sent', NULL, ?)", heard)
        self.put_meta(log_id=answer["log_id"], cursor=answer["cursor"])
        self.db.execute("COMMIT")

    def settle_photo(self, photo: str, sending: str) -> None:
        self.db.execute("UPDATE photo SET sending = ? WHERE photo = ?", [sending, photo])

    def problems(self) -> dict[str, dict[str, Any]]:
        """Return why each entry that needs attention was refused, by id."""
        found = self.db.execute("SELECT id, problem FROM entry WHERE sending = 'attention'")
        return {row[0]: json.loads(row[1]) for row in found}

"""How much of what phones bring is set aside: a phone that floods takes no disk, and hides nothing of the others."""

import json
from dataclasses import dataclass

from shuntbook.kit.errors import BadEntry
from shuntbook.store import quarantine
from shuntbook.store.connection import Database

FULL = "set-aside-full"
"""The code of what was not kept, and of what holds the cars in its place."""


@dataclass(frozen=True)
class Most:
    """So much that phones brought waits for a look at once: entries and bytes of one device, and of all together."""

    entries: int = 10_000
    size: int = 16 * 1024 * 1024
    entries_in_all: int = 50_000
    size_in_all: int = 128 * 1024 * 1024


MOST = Most()


class Room:
    """How much more of one device can be set aside now; counted when it is first asked."""

    def __init__(self, db: Database, device: str | None) -> None:
        self._db, self._device = db, device
        self._used: list[tuple[int, int]] | None = None
        self._is_noted = False

    def take(self, size: int) -> bool:
        """Return whether there is room for one entry of so many bytes more, and count it in.

        What no device brought, out of a file or by the machine's owner, has room always.
        """
        if self._device is None:
            return True
        if self._used is None:
            self._used = [_waiting_size(self._db, self._device), _waiting_size(self._db, None)]
        more = [(entries + 1, taken + size) for entries, taken in self._used]
        (own, own_size), (every, every_size) = more
        if own > MOST.entries or own_size > MOST.size or every > MOST.entries_in_all or every_size > MOST.size_in_all:
            return False
        self._used = more
        return True

    def note_full(self, received_at: str) -> None:
        """Hold every car for what is not kept; looked up once a batch, since that goes through all that waits."""
        if not self._is_noted:
            note_full(self._db, self._device or "", received_at)
            self._is_noted = True


def _waiting_size(db: Database, device: str | None) -> tuple[int, int]:
    sql = (
        "SELECT count(*), coalesce(sum(length(raw)), 0) FROM set_aside"
        " WHERE reviewed_at IS NULL AND (? IS NULL OR brought_by = ?)"
    )
    entries, size = db.conn.execute(sql, [device, device]).fetchone()
    return int(entries), int(size)


def note_full(db: Database, device: str, received_at: str) -> None:
    """Hold every car for what a device brought and nobody keeps, once until a manager has decided on it."""
    sql = "SELECT 1 FROM set_aside WHERE reviewed_at IS NULL AND brought_by = ? AND code = ?"
    if db.conn.execute(sql, [device, FULL]).fetchone() is None:
        raw = json.dumps({"not_kept_of": device, "since": received_at}).encode()
        what = "there is more of this device than is kept; the rest waits on that phone, and comes once this is decided"
        quarantine.put(db, raw, BadEntry(FULL, what), received_at, device)

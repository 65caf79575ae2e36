"""The entries and lines of the cost sheet that was asked for last: after a few more entries the next is there soon."""

import threading
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field

from shuntbook.cost.memory import Memory
from shuntbook.cost.sheet import FOLLOWS_FROM, FOLLOWS_WHERE_SAID
from shuntbook.report.entry import Entry
from shuntbook.store import log, setups
from shuntbook.store.connection import Database

TELLING = log.Telling(FOLLOWS_FROM, FOLLOWS_WHERE_SAID)
"""The entries that costs follow from: of the others none is read."""
MOST = 60_000
"""Entries of a sheet that is kept: about 4 KiB each, so that what is kept stays below 250 MiB."""


@dataclass
class SheetMemory:
    """Of one event and set-up: the entries of its cars up to a place in the log, and what was worked out of them."""

    key: tuple[str, ...]
    cursor: int = 0
    entries: dict[str, list[Entry]] = field(default_factory=lambda: defaultdict(list))
    cars: dict[str, Memory] = field(default_factory=dict)

    @property
    def size(self) -> int:
        """How many entries it holds."""
        return sum(len(entries) for entries in self.entries.values())


class CostMemory:
    """One sheet's memory, brought forward to what the log holds. Who holds it has it alone.

    most: entries of a sheet that is kept; one of more is made from the log each time.
    """

    def __init__(self, most: int = MOST) -> None:
        self.most = most
        self._lock = threading.Lock()
        self._held = SheetMemory(())

    def __enter__(self) -> "CostMemory":
        self._lock.acquire()
        return self

    def __exit__(self, *_: object) -> None:
        if self._held.size > self.most:
            self._held = SheetMemory(())
        self._lock.release()

    @property
    def size(self) -> int:
        """How many entries are kept."""
        return self._held.size

    def at(self, db: Database, log_id: str, event: str, rates: str | None) -> SheetMemory:
        """Return what is known of the entries that an event's costs follow from, all that the log holds among them."""
        key = (log_id, event, setups.in_force(db, event) or "", rates or "")
        last = log.last_cursor(db)
        if self._held.key != key or self._held.cursor > last:
            self._held = SheetMemory(key)
        held = self._held
        for entry in log.telling(db, event, TELLING, held.cursor):
            held.entries[entry.car].append(entry)
        held.cursor = last
        return held


def entries_of(held: SheetMemory, cars: Sequence[str]) -> dict[str, list[Entry]]:
    """Return the entries of some cars."""
    return {car: held.entries.get(car, []) for car in cars}

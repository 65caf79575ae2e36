"""Answers that follow from the log, remembered by what they were made of, so that nothing is made twice."""

import threading
from collections import OrderedDict
from collections.abc import Hashable
from typing import Generic, TypeVar

from flask import current_app

from shuntbook.flow.changes import answer_version, paper_version
from shuntbook.flow.cost_memory import CostMemory
from shuntbook.web.auth import the_store

SHEETS_BYTES = 32 * 2**20
"""Bytes of cost sheets and statements that are kept: one of 50,000 entries has 14 MiB."""
PREVIEWS_BYTES = 16 * 2**20
"""Bytes of papers as pictures: a page has a quarter of a megabyte."""
Value = TypeVar("Value", bytes, str)


class Remembered(Generic[Value]):
    """The newest few of some values, by key. A key names all that its value follows from, so that none is ever old.

    most: how many at most; most_bytes: how many bytes of those that are bytes or text, but for the newest.
    """

    def __init__(self, most: int, most_bytes: int = 2**20) -> None:
        self._most, self._most_bytes, self._bytes = most, most_bytes, 0
        self._held: OrderedDict[Hashable, Value] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, key: Hashable) -> Value | None:
        """Return the value of a key, None where it is not remembered."""
        with self._lock:
            if key in self._held:
                self._held.move_to_end(key)
            return self._held.get(key)

    def put(self, key: Hashable, value: Value) -> Value:
        """Remember a value in the place of the one that was asked for the longest ago; return it."""
        with self._lock:
            self._bytes += len(value) - len(self._held.pop(key, ""))
            self._held[key] = value
            while len(self._held) > self._most or (self._bytes > self._most_bytes and len(self._held) > 1):
                self._bytes -= len(self._held.popitem(last=False)[1])
        return value


class Memory:
    """What a server remembers: the hashes of queues, cost sheets and statements as JSON, costs line by line, pictures
    of papers that somebody turns the pages of."""

    def __init__(self) -> None:
        self.hashes: Remembered[str] = Remembered(256)
        self.sheets: Remembered[bytes] = Remembered(16, SHEETS_BYTES)
        self.costs = CostMemory()
        self.previews: Remembered[bytes] = Remembered(16, PREVIEWS_BYTES)


def the_memory() -> Memory:
    """Return the app's memory of answers."""
    memory: Memory = current_app.extensions["shuntbook.memory"]
    return memory


def version_now(event: str) -> str:
    """Return a name for all that the answers of an event follow from, as it is now."""
    store = the_store()
    with store.read() as db:
        return answer_version(db, store.log_id, event)


def papers_now() -> str:
    """Return a name for all that papers are set from, as it is now."""
    store = the_store()
    with store.read() as db:
        return paper_version(db, store.log_id)

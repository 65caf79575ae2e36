"""Answers that follow from the log, remembered by what they were made of, so that nothing is made twice."""

import threading
from collections import OrderedDict
from collections.abc import Hashable
from typing import Generic, TypeVar

from flask import current_app

from shuntbook.flow.changes import answer_version
from shuntbook.flow.cost_memory import CostMemory
from shuntbook.web.auth import the_store

Value = TypeVar("Value")


class Remembered(Generic[Value]):
    """The newest few of some values, by key. A key names all that its value follows from, so that none is ever old."""

    def __init__(self, most: int) -> None:
        self._most = most
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
            self._held[key] = value
            self._held.move_to_end(key)
            while len(self._held) > self._most:
                self._held.popitem(last=False)
        return value


class Memory:
    """What a server remembers: the hashes of queues, cost sheets and statements as JSON, and costs line by line."""

    def __init__(self) -> None:
        self.hashes: Remembered[str] = Remembered(256)
        self.sheets: Remembered[bytes] = Remembered(16)
        self.costs = CostMemory()


def the_memory() -> Memory:
    """Return the app's memory of answers."""
    memory: Memory = current_app.extensions["shuntbook.memory"]
    return memory


def version_now(event: str) -> str:
    """Return a name for all that the answers of an event follow from, as it is now."""
    store = the_store()
    with store.read() as db:
        return answer_version(db, store.log_id, event)

"""Server-sent events that say only that something changed, never what."""

import itertools
import threading
from collections import Counter
from collections.abc import Iterator

from shuntbook.store import log
from shuntbook.store.database import Store

BEAT_S = 15.0
MOST_STREAMS = 40
"""Each holds one of the server's threads, of which the calls need the rest."""


class News:
    """Wakes every open stream when the log grew or a set-up changed."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._count = 0
        self._closed = False
        self._numbers = itertools.count()
        self._open: dict[int, str] = {}

    def tell(self) -> None:
        """Wake the streams."""
        with self._changed:
            self._count += 1
            self._changed.notify_all()

    def close(self) -> None:
        """End the streams, those open and those to come: the server is about to stop."""
        with self._changed:
            self._closed = True
            self._changed.notify_all()

    def stream(self, store: Store, device: str = "") -> Iterator[str]:
        """Yield an event at once and after each change, and a comment as a beat in between.

        At each beat the log itself is looked at, so that entries loaded by another process are told too. Where there
        are more than MOST_STREAMS, the device with the most loses its oldest: a phone that goes out of reach says no
        goodbye, and its streams hold their threads until their connections end.
        """
        own = self._enter(device)
        try:
            yield from self._events(store, own)
        finally:
            self._open.pop(own, None)

    def _events(self, store: Store, own: int) -> Iterator[str]:
        seen, cursor = self._count, -1
        while self._goes_on(own):
            # Counted before the log is read: what changes in between wakes the next wait.
            count = self._count
            newest = log.last_cursor(store.db)
            changed = newest != cursor or count != seen
            cursor, seen = newest, count
            yield f'event: changed\ndata: {{"cursor": {cursor}}}\n\n' if changed else ": beat\n\n"
            self._wait(own, seen)

    def _enter(self, device: str) -> int:
        with self._changed:
            own = next(self._numbers)
            self._open[own] = device
            if len(self._open) > MOST_STREAMS:
                most = Counter(self._open.values()).most_common(1)[0][0]
                del self._open[min(number for number, whose in self._open.items() if whose == most)]
                self._changed.notify_all()
        return own

    def _goes_on(self, own: int) -> bool:
        return not self._closed and own in self._open

    def _wait(self, own: int, seen: int) -> None:
        with self._changed:
            self._changed.wait_for(lambda: self._count != seen or not self._goes_on(own), BEAT_S)

"""Server-sent events that say only that something changed, never what."""

import threading
from collections.abc import Iterator

from shuntbook.store import log
from shuntbook.store.database import Store

BEAT_S = 15.0


class News:
    """Wakes every open stream when the log grew or a set-up changed."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._count = 0
        self._closed = False

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

    def stream(self, store: Store) -> Iterator[str]:
        """Yield an event at once and after each change, and a comment as a beat in between.

        At each beat the log itself is looked at, so that entries loaded by another process are told too.
        """
        seen, cursor = self._count, -1
        while not self._closed:
            # Counted before the log is read: what changes in between wakes the next wait.
            count = self._count
            newest = log.last_cursor(store.db)
            changed = newest != cursor or count != seen
            cursor, seen = newest, count
            yield f'event: changed\ndata: {{"cursor": {cursor}}}\n\n' if changed else ": beat\n\n"
            self._wait(seen)

    def _wait(self, seen: int) -> None:
        with self._changed:
            self._changed.wait_for(lambda: self._closed or self._count != seen, BEAT_S)

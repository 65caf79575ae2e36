"""Plans beside the requests: one is there at once, the better one comes from a thread of its own.

The solver may take minutes, fail, or be given up for a newer wish. A call does not wait for it: it answers with the
plan made at once, which says nothing of what more minutes need or buy; when the solver is done, the live stream says
that something changed and the next call has its plan.
"""

import logging
import threading
from collections import OrderedDict
from concurrent.futures import Future, ThreadPoolExecutor, wait
from dataclasses import replace

from shuntbook.flow import answers
from shuntbook.flow.planning import Wish, plan
from shuntbook.kit.errors import ShuntbookError
from shuntbook.plan.answer import Json
from shuntbook.store.database import Store
from shuntbook.web.live import News

WAIT_S = 0.2
KEPT = 32

_log = logging.getLogger("shuntbook")

Key = tuple[str, str, str, Wish]


class Planner:
    """Solves one plan at a time, outside the threads that answer phones."""

    def __init__(self, store: Store, news: News) -> None:
        self._store = store
        self._news = news
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix="planner")
        self._lock = threading.Lock()
        self._plans: OrderedDict[Key, Future[Json]] = OrderedDict()

    def plan(self, event: str, car: str, wish: Wish) -> Json:
        """Return the solver's plan where it is there, else the one made at once.

        Errors: as `flow.planning.plan`.
        """
        key = (event, car, self._hash(event, car), wish)
        future = self._future(key)
        at_once = None
        if not future.done():
            at_once = self._at_once(event, car, wish)
            wait([future], WAIT_S)
        found = self._of_solver(key, future) or at_once or self._at_once(event, car, wish)
        return {**found, "stale": found["queue"] != self._hash(event, car)}

    def _at_once(self, event: str, car: str, wish: Wish) -> Json:
        return plan(self._store, event, car, replace(wish, solver=False, beside=False))

    def _hash(self, event: str, car: str) -> str:
        return str(answers.queue(self._store, event, car)["hash"])

    def _of_solver(self, key: Key, future: "Future[Json]") -> Json | None:
        """Return the solver's plan; None where it is not there, was given up, failed, or is of another queue."""
        if not future.done():
            return None
        error = None if future.cancelled() else future.exception()
        if isinstance(error, ShuntbookError):
            self._forget(key)
            raise error
        if error is not None:
            _log.error("the solver failed; the plan made at once stands", exc_info=error)
        found = None if future.cancelled() or error is not None else future.result()
        # The queue changed before the solver's turn came: kept under the older one's name it would stay stale for good.
        if found is None or found["queue"] != key[2]:
            self._forget(key)
        return found

    def _forget(self, key: Key) -> None:
        """Have the next call ask the solver anew."""
        with self._lock:
            self._plans.pop(key, None)

    def _future(self, key: Key) -> "Future[Json]":
        event, car, _, wish = key
        with self._lock:
            if key not in self._plans:
                self._plans[key] = self._pool.submit(self._solve, event, car, wish)
                while len(self._plans) > KEPT:
                    self._plans.popitem(last=False)[1].cancel()
            return self._plans[key]

    def _solve(self, event: str, car: str, wish: Wish) -> Json:
        found = plan(self._store, event, car, wish)
        self._news.tell()
        return found

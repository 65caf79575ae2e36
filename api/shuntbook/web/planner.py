"""Plans beside the requests: one is there at once, the better one comes from a thread of its own.

The solver may take seconds. A call waits for it no longer than it takes to look at a screen, then answers with
the plan made at once; when the solver is done, the live stream says that something changed and the next call has it.
"""

import threading
from collections import OrderedDict
from concurrent.futures import Future, ThreadPoolExecutor
from concurrent.futures import TimeoutError as NotYet
from dataclasses import replace

from shuntbook.flow import answers
from shuntbook.flow.planning import Wish, plan
from shuntbook.plan.answer import Json
from shuntbook.store.database import Store
from shuntbook.web.live import News

WAIT_S = 0.4
KEPT = 32

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
        """Return the solver's plan where it is there within the wait, else the one made at once.

        Errors: as `flow.planning.plan`.
        """
        future = self._future(event, car, wish)
        try:
            found = future.result(WAIT_S)
        except NotYet:
            found = plan(self._store, event, car, replace(wish, solver=False))
        return {**found, "stale": found["queue"] != answers.queue(self._store, event, car)["hash"]}

    def _future(self, event: str, car: str, wish: Wish) -> "Future[Json]":
        key = (event, car, str(answers.queue(self._store, event, car)["hash"]), wish)
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

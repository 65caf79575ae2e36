"""Plans beside the requests: one is there at once, the better one comes from a process of its own.

The same question is solved once, whoever asks it how often: of one car's service, or of several cars at once. The
solver may take seconds, and 87 MB. A call waits for it no longer than it takes to look at a screen, then answers
with the plan made at once; when the solver is done, the live stream says that something changed and the next call has
it. A solver that is killed or falls over costs its plan, not the server.
"""

import logging
import threading
from collections import OrderedDict
from concurrent.futures import Future, ThreadPoolExecutor, wait
from typing import Any

from shuntbook.kit.errors import ShuntbookError
from shuntbook.store.database import Store
from shuntbook.web.live import News
from shuntbook.web.plan_questions import Hashes, Question
from shuntbook.web.solver import Solver

WAIT_S = 0.2
KEPT = 32

_log = logging.getLogger("shuntbook")

Key = tuple[Question, Hashes]


class Planner:
    """Solves one plan at a time, outside the threads that answer phones."""

    def __init__(self, store: Store, news: News) -> None:
        self.solver = Solver()
        self._store = store
        self._news = news
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix="planner")
        self._lock = threading.Lock()
        self._under_way: OrderedDict[Key, Future[None]] = OrderedDict()
        self._best: dict[Key, Any] = {}

    def plan(self, question: Question) -> Any:
        """Return the best plan that is there within the wait, else the one made at once.

        Errors: NotFound; NotPossible where nobody is there, or the question makes no sense.
        """
        key = (question, question.hashes(self._store))
        future = self._asked(key)
        at_once = self._best.get(key)
        if at_once is None:
            at_once = question.at_once(self._store)
            wait([future], WAIT_S)
            self._keep_at_once(key, at_once)
        found = self._best.get(key, at_once)
        return question.marked(found, question.hashes(self._store))

    def stop(self) -> None:
        """Stop planning."""
        self._pool.shutdown(wait=False, cancel_futures=True)
        self.solver.stop()

    def _keep_at_once(self, key: Key, plan: Any) -> None:
        """Keep the plan made at once until the solver's is there: whoever asks the same meanwhile has it, too."""
        with self._lock:
            if key in self._under_way and key[0].made_of(plan) == key[1]:
                self._best.setdefault(key, plan)

    def _asked(self, key: Key) -> "Future[None]":
        with self._lock:
            if key not in self._under_way:
                self._under_way[key] = self._pool.submit(self._solve, key)
                while len(self._under_way) > KEPT:
                    oldest, future = self._under_way.popitem(last=False)
                    future.cancel()
                    self._best.pop(oldest, None)
            return self._under_way[key]

    def _solve(self, key: Key) -> None:
        question, hashes = key
        try:
            # Reports come in one after the other: a solver's time is for the queue as it stands, not for those before.
            if self._is_over(key):
                return
            for found in question.solved(self._store, self.solver):
                # Kept under the older queue's name it would be stale for good.
                if question.made_of(found) == hashes:
                    self._best[key] = found
                    self._news.notify()
                if self._is_over(key):
                    return
        except ShuntbookError:
            # Whoever asked hears the same of the plan made at once.
            self._forget(key)
        except Exception:  # noqa: BLE001 - the outermost edge of this thread
            # The plan made at once stands, and the next call asks again.
            _log.exception("the solver failed; the plan made at once stands")
            self._forget(key)

    def _is_over(self, key: Key) -> bool:
        """Say whether a queue has changed since; what was asked of it is forgotten then."""
        if key[0].hashes(self._store) == key[1]:
            return False
        self._forget(key)
        return True

    def _forget(self, key: Key) -> None:
        with self._lock:
            self._under_way.pop(key, None)
            self._best.pop(key, None)

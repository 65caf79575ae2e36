"""Plans beside the requests: one is there at once, the better one comes from a process of its own.

The solver may take seconds, and 87 MB. A call waits for it no longer than it takes to look at a screen, then answers
with the plan made at once; when the solver is done, the live stream says that something changed and the next call has
it. A solver that is killed or falls over costs its plan, not the server.
"""

import logging
import threading
from collections import OrderedDict
from concurrent.futures import Future, ThreadPoolExecutor, wait

from msgspec.structs import replace

from shuntbook.flow import answers
from shuntbook.flow.planning import plan_at_once, plans
from shuntbook.flow.team import TeamPlanRequest, team_plan
from shuntbook.plan.answer import Plan, TeamPlan
from shuntbook.plan.context import PlanRequest
from shuntbook.plan.problem import Problem, Schedule
from shuntbook.plan.solve import Effort
from shuntbook.store.database import Store
from shuntbook.web.live import News
from shuntbook.web.solver import Solver, SolverGone

WAIT_S = 0.2
KEPT = 32

_log = logging.getLogger("shuntbook")

Key = tuple[str, str, str, PlanRequest]


class Planner:
    """Solves one plan at a time, outside the threads that answer phones."""

    def __init__(self, store: Store, news: News) -> None:
        self.solver = Solver()
        self._store = store
        self._news = news
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix="planner")
        self._lock = threading.Lock()
        self._under_way: OrderedDict[Key, Future[None]] = OrderedDict()
        self._best: dict[Key, Plan] = {}

    def plan(self, event: str, car: str, wish: PlanRequest) -> Plan:
        """Return the best plan that is there within the wait, else the one made at once.

        Errors: as `flow.planning.plans`.
        """
        key = (event, car, self._hash(event, car), wish)
        future = self._asked(key)
        at_once = None if key in self._best else plan_at_once(self._store, event, car, wish)
        if at_once is not None:
            wait([future], WAIT_S)
        found = self._best.get(key) or at_once or plan_at_once(self._store, event, car, wish)
        return replace(found, stale=found.queue != self._hash(event, car))

    def team_plan(self, event: str, wish: TeamPlanRequest) -> TeamPlan:
        """Return the plan of several cars. Errors: as `flow.team.team_plan`."""
        return team_plan(self._store, event, wish, self._or_at_once)

    def _or_at_once(self, problem: Problem, start: Schedule | None, effort: Effort) -> Schedule | None:
        try:
            return self.solver(problem, start, effort)
        except SolverGone:
            _log.exception("the solver failed; the plan made at once stands")
            return start

    def stop(self) -> None:
        """Stop planning."""
        self._pool.shutdown(wait=False, cancel_futures=True)
        self.solver.stop()

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
        try:
            # Reports come in one after the other: a solver's time is for the queue as it stands, not for those before.
            if self._is_over(key):
                return
            for found in plans(self._store, *key[:2], key[3], self.solver):
                # Kept under the older queue's name it would be stale for good.
                if found.queue == key[2]:
                    self._best[key] = found
                    self._news.notify()
                if self._is_over(key):
                    return
        except Exception:  # noqa: BLE001 - the outermost edge of this thread
            # The plan made at once stands, and the next call asks again.
            _log.exception("the solver failed; the plan made at once stands")
            self._forget(key)

    def _is_over(self, key: Key) -> bool:
        """Say whether the queue has changed since; what was asked of it is forgotten then."""
        if self._hash(*key[:2]) == key[2]:
            return False
        self._forget(key)
        self._best.pop(key, None)
        return True

    def _forget(self, key: Key) -> None:
        with self._lock:
            self._under_way.pop(key, None)

    def _hash(self, event: str, car: str) -> str:
        return answers.queue(self._store, event, car).hash

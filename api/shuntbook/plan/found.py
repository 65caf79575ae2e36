"""What a search may take and what it has found: effort, the best plan so far, and reading the solver's answer.

Rule: work is counted in the solver's own deterministic seconds, never by a clock, so that the same question has the
same answer on any machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from shuntbook.plan.model import Model
from shuntbook.plan.problem import Placed, Reached, Schedule

LEAST = 0.05
"""Deterministic seconds that a goal has in any case, or the ends of those after a hard one would be arbitrary."""
DONE = ("OPTIMAL", "FEASIBLE")
"""What the solver says where it has a plan."""

Until = Literal["value", "finish", "work"]


@dataclass(frozen=True)
class Effort:
    """How much the solver may work: deterministic seconds in all, and workers.

    One worker proves the textbook projects faster than eight that take turns, which is what determinism asks of many.
    until: the last goal that is gone for: what is in the plan, that it ends early, or all of them.
    """

    deterministic_s: float = 1.5
    workers: int = 1
    until: Until = "work"

    def less(self, spent: float) -> Effort:
        """Return what is left of it."""
        return replace(self, deterministic_s=max(LEAST, self.deterministic_s - spent))


USUAL = Effort()
"""What a plan may take where nothing else is said."""


@dataclass
class Found:
    """The best plan so far: times by task, groups inside, what each goal reached, and what it took to find.

    first: the choice that was found before it was asked when.
    """

    times: dict[int, tuple[int, int]]
    inside: frozenset[str]
    reached: list[Reached]
    spent: float = 0.0
    first: frozenset[str] = frozenset()

    @property
    def proven(self) -> bool:
        """Whether every goal that was gone for is proven."""
        return all(one.proven for one in self.reached)

    @property
    def finish(self) -> int:
        """When the last task ends."""
        return max((end for _, end in self.times.values()), default=0)


def read(model: Model, solver: Any, reached: Sequence[Reached], spent: float = 0.0) -> Found:
    """Return the plan that the solver has."""
    inside = frozenset(group for group, literal in model.inside.items() if solver.boolean_value(literal))
    times = {
        number: (solver.value(model.start[number]), solver.value(model.end[number]))
        for number in range(len(model.problem.tasks))
        if solver.boolean_value(model.present[number])
    }
    return Found(times, inside, list(reached), spent)


def spent_by(solver: Any) -> float:
    """Return the deterministic seconds that a solver took."""
    return float(solver.response_proto.deterministic_time)


def begun_with(schedule: Schedule | None) -> Found | None:
    """Return a plan to begin with, nothing of which is known to be best."""
    if schedule is None:
        return None
    return Found({item.task: (item.start, item.end) for item in schedule.placed}, schedule.inside, [])


def schedule_of(found: Found, placed: Sequence[Placed]) -> Schedule:
    """Return what was found as a plan, with its people."""
    in_order = tuple(sorted(placed, key=lambda item: (item.start, item.task)))
    return Schedule(in_order, found.proven, "solver", found.inside, tuple(found.reached))

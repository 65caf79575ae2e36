"""Chooses a plan: the levels first, then value as far as the chance to end in time allows, then what idle hands can do.

The chance is a goal by way of a buffer: value is chosen for a time for work that is shorter by it, and the buffer is
made as small as the wanted chance lets it be. Every plan is played out against the true time.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from shuntbook.plan.check import faults
from shuntbook.plan.filling import filled, looks_first
from shuntbook.plan.greedy import greedy
from shuntbook.plan.inside import only
from shuntbook.plan.nearest import SLACK, SLACKS, candidates, kept, shorter
from shuntbook.plan.ontime import share_in_time
from shuntbook.plan.problem import Placed, Problem, Reached, Schedule
from shuntbook.plan.retold import retold, with_levels
from shuntbook.plan.solve import Effort
from shuntbook.plan.tidy import in_order

Solve = Callable[[Problem, Schedule | None, Effort], Schedule | None]

LOWERS_LITTLE = 0.01
"""Where the levels alone do not reach the wanted chance, value may lower it by less than this."""
STEPS = 5
"""How often the buffer is halved: 32nds of the time between the two plans."""
PART = 0.2
"""How much of the effort each of these plans may take."""
ROUNDS = 5
"""How often idle hands look for more to do: what comes in may open a way for what did not fit before."""


@dataclass(frozen=True)
class Chosen:
    """A plan, and those that were looked at on the way.

    everything: the plan without regard to the chance. buffer: units that the chance asked for. shares: by group the
    best chance of a plan with it among those tried.
    """

    schedule: Schedule
    everything: Schedule
    buffer: int = 0
    shares: dict[str, float] = field(default_factory=dict)


def choose(
    problem: Problem,
    percent: float,
    effort: Effort,
    solver: Solve | None,
    last: Mapping[int, Placed] | None = None,
    known: Schedule | None = None,
) -> Chosen:
    """Return the solver's plan with value subject to a chance of `percent` to end in time (0: everything).

    Without a solver it is the plan that is there at once. last: the plan last shown, by task; of plans that are as good
    it takes the nearest. known: a plan of the same tasks; no plan with less of the levels is returned.
    """
    everything = with_levels(problem, _fullest(problem, known))
    if solver is not None:
        everything = with_levels(problem, best_of(problem, effort, solver, everything))
    return _Choice(problem, percent / 100, effort, solver, last or {}).between(everything)


def _fullest(problem: Problem, known: Schedule | None) -> Schedule:
    """Return the plan made at once, or a known one that keeps the rules and has more of the levels in it."""
    at_once = greedy(problem)
    if known is None or _counts(problem, known) <= _counts(problem, at_once) or faults(problem, known):
        return at_once
    return replace(known, proven=False, goals=())


def _counts(problem: Problem, schedule: Schedule) -> tuple[int, ...]:
    """Return how much of each level is in a plan."""
    return tuple(len(level & schedule.inside) for level in problem.levels)


def best_of(problem: Problem, effort: Effort, solver: Solve, start: Schedule | None = None) -> Schedule:
    """Return the solver's plan where it has one that keeps every rule, else the one made at once."""
    start = start or greedy(problem)
    found = solver(problem, start, effort)
    return found if found is not None and not faults(problem, found) else start


class _Choice:
    """The plans between the levels alone and everything."""

    def __init__(
        self, problem: Problem, wanted: float, effort: Effort, solver: Solve | None, last: Mapping[int, Placed]
    ) -> None:
        self.problem = problem
        self.last = last
        self.wanted = wanted
        self.effort = effort
        self.solver = solver
        self.shares: dict[str, float] = {}
        self.least = wanted
        self.value_bound = sum(problem.values.values())

    def between(self, everything: Schedule) -> Chosen:
        """Return the plan of most value that the chance allows."""
        if self._share(everything) >= self.wanted or not self._worth(everything):
            return self._whole(everything, everything, 0)
        base = self._capped(everything, self.problem.horizon, values=False)
        share = self._share(base)
        # Just below: the plan of the levels alone is allowed, and what lowers its chance by less.
        self.least = self.wanted if share >= self.wanted else share - LOWERS_LITTLE + 1e-9
        if self.solver is None:
            return self._whole(base, everything, self.problem.horizon - base.finish)
        best, cap = self._halved(base, everything)
        if best is base and len(self.problem.cars) > 1:
            # Nothing of value keeps the chance: of several cars it takes too long to look for it once more.
            return self._whole(self._again(base, cap), everything, self.problem.horizon - cap)
        last = best_of(self._within(everything, cap), self.effort, self.solver, best)
        is_good = self._share(last) >= self.least and self._counts(last) >= self._counts(everything)
        return self._whole(last if is_good else best, everything, self.problem.horizon - cap)

    def _again(self, base: Schedule, cap: int) -> Schedule:
        """Return the plan of the levels alone with every goal gone for, and what is known of value."""
        asked = replace(self._within(base, cap), values={})
        found = best_of(asked, self.effort, self.solver, base) if self.solver is not None else base
        place = next((n for n, row in enumerate(found.goals) if isinstance(row.goal, str)), len(found.goals))
        value = Reached("value", self._worth_of_all(found), max(self.value_bound, self._worth_of_all(found)))
        goals = (*found.goals[:place], value, *found.goals[place:])
        return replace(found, goals=goals, proven=all(row.proven for row in goals))

    def _worth_of_all(self, schedule: Schedule) -> int:
        """Return the value of what is in a plan, of the levels, too, as the solver counts it."""
        return sum(self.problem.values.get(group, 0) for group in schedule.inside)

    def _halved(self, base: Schedule, everything: Schedule) -> tuple[Schedule, int]:
        """Return the plan with the smallest buffer whose chance is enough, and the end that it was held to."""
        low, high, best = base.finish, everything.finish, base
        for step in range(STEPS + 1):
            # The smallest end first: what fits between the tasks of the levels alone.
            cap = low if not step else (low + high) // 2
            if step and cap == low:
                break
            tried = self._capped(best, cap)
            if not step:
                self.value_bound = next((row.bound for row in tried.goals if row.goal == "value"), self.value_bound)
            if self._share(tried) < self.least or self._counts(tried) < self._counts(everything):
                if not step:
                    break
                high = cap
            else:
                low, best = cap, max(best, tried, key=self._worth)
        return best, low

    def _capped(self, start: Schedule, cap: int, *, values: bool = True) -> Schedule:
        """Return the best plan that ends by `cap`, with or without what is done for its value."""
        problem = self._within(start, cap)
        if not values:
            problem = replace(problem, values={})
        begin = start if values else self._levels_alone(start)
        if self.solver is None:
            return max(greedy(problem), begin, key=self._counts)
        less = replace(self.effort, deterministic_s=self.effort.deterministic_s * PART, until="finish")
        return best_of(problem, less, self.solver, begin)

    def _levels_alone(self, schedule: Schedule) -> Schedule:
        """Return a plan without what it does for value, or the one made at once of the levels."""
        alone = only(self.problem, schedule, schedule.inside & self.problem.musts)
        return alone if not faults(self.problem, alone) else greedy(replace(self.problem, values={}))

    def _counts(self, schedule: Schedule) -> tuple[int, ...]:
        return _counts(self.problem, schedule)

    def _within(self, reached: Schedule, cap: int) -> Problem:
        """Return the problem with an earlier end; of the levels no more can be in than were in with more time."""
        return replace(self.problem, horizon=min(cap, self.problem.horizon), most=self._counts(reached))

    def _near(self, schedule: Schedule, busy: Schedule) -> Schedule:
        """Return the plan nearest to the last shown, of those that are as good and end at most a minute later.

        busy: the plan with what idle hands do in it, by which others are judged: what was shown had that in it, too.
        """
        if not self.last:
            return busy
        for inside in candidates(self.problem, self.last, busy.inside):
            for found in kept(self.problem, inside, self.last):
                whole = self._busy(found)
                if self._is_as_good(whole, busy):
                    return replace(whole, proven=busy.proven, by=busy.by, goals=busy.goals)
        if self.solver is None:
            return busy
        # A minute later may be too uncertain: then the nearest that ends a little sooner, down to the earliest end.
        for slack in SLACKS:
            near = self._nearest(self.solver, schedule, slack)
            if near is not None and self._is_as_good(near, busy):
                return near
        return busy

    def _nearest(self, solver: Solve, schedule: Schedule, slack: int) -> Schedule | None:
        """Return the solver's nearest plan that ends at most so much later, with what idle hands do in it."""
        asked = replace(shorter(self.problem, schedule, slack), last=tuple(self.last.values()))
        less = replace(self.effort, deterministic_s=self.effort.deterministic_s / 2)
        nearest = solver(asked, schedule, less)
        return None if nearest is None or faults(self.problem, nearest) else self._busy(nearest)

    def _is_as_good(self, plan: Schedule, other: Schedule) -> bool:
        """Return whether a plan has as much as another, ends at most a minute after it and keeps the chance."""
        mine, theirs = self._counts(plan), self._counts(other)
        if mine != theirs:
            return mine > theirs
        least = min(self.least, self._core_share(other) - LOWERS_LITTLE)
        if self._worth(plan) < self._worth(other) or self._core_share(plan) < least:
            return False
        is_more = self._worth(plan) > self._worth(other)
        return is_more or self._core(plan).finish <= self._core(other).finish + SLACK

    def _core(self, schedule: Schedule) -> Schedule:
        """Return a plan without what idle hands do in it."""
        inside = frozenset(g for g in schedule.inside if g in self.problem.musts or self.problem.values.get(g))
        return only(self.problem, schedule, inside)

    def _core_share(self, schedule: Schedule) -> float:
        return self._share(self._core(schedule))

    def _whole(self, schedule: Schedule, everything: Schedule, buffer: int) -> Chosen:
        """Let idle hands do what is left, near to the plan last shown."""
        near = self._near(schedule, self._busy(schedule))
        return Chosen(retold(self.problem, near, everything), everything, max(0, buffer), self.shares)

    def _busy(self, schedule: Schedule) -> Schedule:
        """Return a plan in which idle hands do what is left, until nothing more comes in."""
        for _ in range(ROUNDS):
            grown = self._filled(schedule)
            if not self.last:
                # What people work by already keeps its order.
                grown = in_order(self.problem, grown, self._is_as_likely(grown))
            if grown == schedule:
                break
            schedule = grown
        return schedule

    def _is_as_likely(self, schedule: Schedule) -> Callable[[Schedule], bool]:
        """Return what says of another plan whether it ends in time as often as this one, or often enough."""
        least = min(self.wanted, self._core_share(schedule))
        return lambda plan: self._core_share(plan) >= least

    def _filled(self, schedule: Schedule) -> Schedule:
        """Let idle hands do what is left, first what has value."""
        problem = self.problem
        missed = [group for level in problem.levels for group in problem.groups if group in level]
        schedule = filled(problem, schedule, missed, lambda _: True)
        others = [group for group in problem.groups if group not in problem.musts]
        others.sort(key=lambda group: -problem.values.get(group, 0))
        valued = [group for group in others if problem.values.get(group)]
        schedule = filled(problem, schedule, valued, lambda plan: self._share(plan) >= self.least)
        schedule = looks_first(problem, schedule)
        share = self._core_share(schedule)
        least = self.wanted if share >= self.wanted else share - LOWERS_LITTLE
        return filled(problem, schedule, others[len(valued) :], lambda plan: self._share(plan) >= least)

    def _share(self, schedule: Schedule) -> float:
        share = share_in_time(self.problem, schedule) if self.wanted else 1.0
        for group in schedule.inside:
            self.shares[group] = max(share, self.shares.get(group, 0.0))
        return share

    def _worth(self, schedule: Schedule) -> int:
        inside, musts = schedule.inside, self.problem.musts
        return sum(value for group, value in self.problem.values.items() if group in inside and group not in musts)

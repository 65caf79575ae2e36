"""What is told of a plan's goals after its search: what idle hands added counts, and no bound is told that was assumed.

A search for value is told how much of each level can be in at most, from the plan before it. Where that plan is not
proven, it is where the search stops, and no bound.
"""

from collections.abc import Iterator
from dataclasses import replace

from shuntbook.plan.filling import filled
from shuntbook.plan.goals import worth_of
from shuntbook.plan.problem import Problem, Reached, Schedule


def with_levels(problem: Problem, schedule: Schedule) -> Schedule:
    """Return a plan with what still fits of the levels, the first first, and its goals told by that."""
    missed = [group for level in problem.levels for group in problem.groups if group in level - schedule.inside]
    return retold(problem, filled(problem, schedule, missed, lambda _: True), schedule)


def retold(problem: Problem, schedule: Schedule, free: Schedule) -> Schedule:
    """Return a plan with its goals counted again, and of each level the bound that `free` has.

    free: a plan that was searched for without being told what can be in at most.
    """
    goals = tuple(_rows(problem, schedule, {row.goal: row for row in free.goals}))
    return replace(schedule, goals=goals, proven=schedule.proven and all(row.proven for row in goals))


def unbounded(whole: Problem, schedule: Schedule) -> Schedule:
    """Return a plan of a part of a problem, bounded by nothing but what there is of each goal in the whole."""
    *levels, value = worth_of(whole, frozenset(whole.groups))
    most: dict[int | str, int] = {**dict(enumerate(levels)), "value": value}
    goals = tuple(replace(row, bound=most.get(row.goal, 0)) for row in schedule.goals)
    return replace(schedule, goals=goals, proven=all(row.proven for row in goals))


def _rows(problem: Problem, schedule: Schedule, known: dict[int | str, Reached]) -> Iterator[Reached]:
    *levels, value = worth_of(problem, schedule.inside)
    groups, as_known, as_told = frozenset(problem.groups), True, True
    for row in schedule.goals:
        if isinstance(row.goal, int):
            there, other = levels[row.goal], known.get(row.goal)
            # A bound holds as long as all levels before it are what they were where it was found.
            bound = other.bound if other is not None and as_known else len(problem.levels[row.goal] & groups)
            as_known = as_known and other is not None and other.reached == there
            as_told = as_told and row.reached == there
            yield Reached(row.goal, there, max(there, bound))
        elif row.goal == "value":
            most = row.bound if as_told else sum(problem.values.get(group, 0) for group in groups)
            yield Reached(row.goal, value, max(value, most))
        else:
            yield row if as_told else replace(row, bound=0)

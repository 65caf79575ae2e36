"""What follows from which jobs are in a plan: the tasks with their lengths and three-point times."""

from collections.abc import Collection
from dataclasses import replace
from fractions import Fraction
from math import ceil

from shuntbook.plan.problem import Problem, Schedule, Task, exact_units
from shuntbook.setup.rates import ThreePoint


def tasks_in(problem: Problem, inside: Collection[str]) -> set[int]:
    """Return the numbers of the tasks that are in the plan where these groups are."""
    chosen = {n for n, task in enumerate(problem.tasks) if not task.because and _asked_for(task, inside)}
    grown = True
    while grown:
        more = {n for n, task in enumerate(problem.tasks) if n not in chosen and chosen.intersection(task.because)}
        chosen |= more
        grown = bool(more)
    return chosen


def _asked_for(task: Task, inside: Collection[str]) -> bool:
    return any(group in inside for group in task.groups) if task.groups else True


def only(problem: Problem, schedule: Schedule, inside: frozenset[str]) -> Schedule:
    """Return a plan of just these of its groups: the rest taken out, nothing moved."""
    wanted = tasks_in(problem, inside)
    kept = [item for item in schedule.placed if item.task in wanted]
    placed = tuple(replace(i, end=i.start + units_in(problem, i.task, inside, wanted)) for i in kept)
    return replace(schedule, placed=placed, inside=inside)


def units_in(problem: Problem, number: int, inside: Collection[str], tasks: Collection[int]) -> int:
    """Return how many units a task takes where these groups, and so these tasks, are in."""
    task = problem.tasks[number]
    if task.pieces:
        return ceil(exact_in(task, inside))
    return task.shorter.units if task.shorter and is_shorter(task, tasks) else task.units


def exact_in(task: Task, inside: Collection[str]) -> Fraction:
    """Return how long the pieces take that are in, in units, not rounded: the first its own time, the next theirs."""
    found = [piece.exact for piece in task.pieces if piece.group in inside]
    if task.further is None:
        return sum(found, Fraction(0))
    return sum(found[:1], Fraction(0)) + exact_units(task.further.expected) * len(found[1:])


def minutes_in(problem: Problem, number: int, inside: Collection[str], tasks: Collection[int]) -> list[ThreePoint]:
    """Return the three-point times that add up to a task's; none where it has no chance in it."""
    task = problem.tasks[number]
    if task.pieces:
        found = [piece.minutes for piece in task.pieces if piece.group in inside]
        if task.further is not None:
            found[1:] = [task.further] * len(found[1:])
    else:
        found = [task.shorter.minutes if task.shorter and is_shorter(task, tasks) else task.minutes]
    return [points for points in found if points is not None]


def is_shorter(task: Task, tasks: Collection[int]) -> bool:
    """Return whether a task takes only its shorter time beside these."""
    return task.shorter is not None and any(number in tasks for number in task.shorter.because)

"""What idle hands still do: tasks put into a plan where they move nothing, inspections pulled forward."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from shuntbook.plan.board import Board
from shuntbook.plan.check import faults
from shuntbook.plan.greedy import Ways
from shuntbook.plan.inside import tasks_in, units_in
from shuntbook.plan.problem import Placed, Problem, Schedule

Accepts = Callable[[Schedule], bool]


def filled(problem: Problem, schedule: Schedule, groups: Iterable[str], accepts: Accepts) -> Schedule:
    """Return a plan with those of `groups`, in this order, that fit between its tasks or after them.

    accepts: asked of each plan that grows, so that nothing comes in that makes it too likely to end late.
    """
    ways = Ways(problem)
    for group in groups:
        grown = _with(ways, schedule, group)
        if grown is not None and accepts(grown):
            schedule = grown
    return schedule


def looks_first(problem: Problem, schedule: Schedule) -> Schedule:
    """Return a plan whose inspections that wait for no repair start as early as they can, nothing else moved."""
    ways = Ways(problem)
    early = [item for item in schedule.placed if problem.tasks[item.task].early]
    schedule = _all_first(ways, schedule, early)
    early = [item for item in schedule.placed if problem.tasks[item.task].early]
    for item in sorted(early, key=lambda one: (one.start, one.task)):
        rest = tuple(other for other in schedule.placed if other.task != item.task)
        found = _placed_between(ways, replace(schedule, placed=rest), [item.task], item.end)
        moved = None if found is None else _sorted(schedule, (*rest, *found))
        if found and moved is not None and found[0].start < item.start and not faults(problem, moved):
            schedule = moved
    return schedule


def _all_first(ways: Ways, schedule: Schedule, early: Sequence[Placed]) -> Schedule:
    """Return a plan with these tasks put in again, the one that can start first first, where that is sooner in all."""
    problem = ways.problem
    waiting = {item.task for item in early if problem.tasks[item.task].fixed is None}
    rest = tuple(item for item in schedule.placed if item.task not in waiting)
    while waiting:
        begun = replace(schedule, placed=rest)
        tried = [(number, _placed_between(ways, begun, [number], schedule.finish)) for number in sorted(waiting)]
        placed = [found[0] for _, found in tried if found]
        if not placed:
            return schedule
        first = min(placed, key=lambda item: (item.start, item.task))
        rest = (*rest, first)
        waiting.discard(first.task)
    moved = _sorted(schedule, rest)
    return moved if _starts(problem, moved) < _starts(problem, schedule) and not faults(problem, moved) else schedule


def _starts(problem: Problem, schedule: Schedule) -> int:
    return sum(item.start for item in schedule.placed if problem.tasks[item.task].early)


def _with(ways: Ways, schedule: Schedule, group: str) -> Schedule | None:
    problem = ways.problem
    if group in schedule.inside:
        return None
    inside = schedule.inside | {group}
    wanted = tasks_in(problem, inside)
    there = {item.task for item in schedule.placed}
    kept = tuple(
        replace(item, end=item.start + units_in(problem, item.task, inside, wanted)) for item in schedule.placed
    )
    grown = replace(schedule, placed=kept, inside=inside)
    found = _placed_between(ways, grown, sorted(wanted - there), problem.horizon)
    if found is None:
        return None
    whole = _sorted(grown, (*kept, *found))
    return whole if not faults(problem, whole) else None


def _sorted(schedule: Schedule, placed: tuple[Placed, ...]) -> Schedule:
    return replace(schedule, placed=tuple(sorted(placed, key=lambda item: (item.start, item.task))))


def _placed_between(ways: Ways, schedule: Schedule, numbers: list[int], latest: int) -> list[Placed] | None:
    """Return places for tasks between those of a plan, none later than `latest`; None where one finds none."""
    problem = ways.problem
    board, placed = Board(problem), {item.task: item for item in schedule.placed}
    ways.lay(board, schedule.placed)
    wanted = {*placed, *numbers}
    waiting, found = list(numbers), []
    while waiting:
        number = next((n for n in waiting if not ways.before[n].intersection(waiting)), None)
        if number is None:
            return None
        limit = min([latest, *(placed[n].start for n in ways.after[number] if n in placed)])
        long = units_in(problem, number, schedule.inside, wanted)
        if not ways.put(board, placed, number, long, limit):
            return None
        found.append(placed[number])
        waiting.remove(number)
    return found

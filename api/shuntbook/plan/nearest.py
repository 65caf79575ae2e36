"""Keeps to the plan last shown: its people and its order, moved only as far as what happened since makes it."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from shuntbook.plan.board import Board
from shuntbook.plan.check import faults
from shuntbook.plan.greedy import Ways
from shuntbook.plan.inside import tasks_in, units_in
from shuntbook.plan.problem import Placed, Problem, Schedule

SLACK = 4
"""Units by which a plan may end after the earliest end to stay near the one last shown: a minute."""
SLACKS = (SLACK, SLACK // 2, 0)
"""How much of that is tried, the most first: the later the end, the more may stay as it was shown."""
Last = Mapping[int, Placed]
"""The plan last shown, by task."""


class Told(NamedTuple):
    """A task of a plan last shown: its start in units, its people; jobs: those that an inspection was of, if told."""

    name: str
    start: int
    people: Collection[str]
    jobs: Collection[str] = ()
    car: str = ""


def last_of(problem: Problem, shown: Iterable[Told]) -> dict[int, Placed]:
    """Return what of a plan last shown is still to be planned; where no car is told there is only one."""
    numbers = {(task.car, task.name): number for number, task in enumerate(problem.tasks)}
    persons = {worker.person: number for number, worker in enumerate(problem.workers)}
    cars = problem.cars
    found = {}
    for one in shown:
        number = numbers.get((one.car or cars[0], one.name)) if cars else None
        if number is not None:
            workers = tuple(sorted(persons[person] for person in one.people if person in persons))
            prefix = f"{one.car}/" if len(cars) > 1 else ""
            pieces = frozenset(f"{prefix}{job}" for job in one.jobs) or None
            found[number] = Placed(number, one.start, one.start + problem.tasks[number].units, workers, pieces)
    return found


def candidates(problem: Problem, last: Last, otherwise: frozenset[str]) -> list[frozenset[str]]:
    """Return the choices that the plan last shown may have been of, as far as they are still to be planned.

    What an inspection was of is as it was told. Where it was not, it is in as in `otherwise`, or all of it is.
    """
    own: dict[str, list[int]] = {}
    for number, task in enumerate(problem.tasks):
        if task.group:
            own.setdefault(task.group, []).append(number)
    told = frozenset(group for group, numbers in own.items() if last.keys() >= set(numbers))
    looks = {n: frozenset(piece.group for piece in problem.tasks[n].pieces) - own.keys() for n in last}
    known = {n: looks[n] & item.pieces for n, item in last.items() if item.pieces is not None}
    exact = frozenset[str]().union(*known.values())
    open_still = (otherwise - own.keys()) - frozenset[str]().union(*(looks[n] for n in known))
    seen = frozenset[str]().union(*looks.values())
    return list(dict.fromkeys((told | exact | open_still, told | (otherwise - own.keys()), told | seen, otherwise)))


def kept(problem: Problem, inside: frozenset[str], last: Last) -> Iterator[Schedule]:
    """Yield plans of these groups with the people and the order of the last one, that keep every rule.

    First to the letter, then so that nothing starts sooner than it was shown to, then as soon as it can.
    """
    shown = _to_the_letter(problem, inside, last)
    if shown is not None and not faults(problem, shown):
        yield shown
    ways = Ways(problem)
    for as_shown in (True, False):
        found = _laid_out(ways, inside, last, as_shown=as_shown)
        if found is not None and not faults(problem, found):
            yield found


def _to_the_letter(problem: Problem, inside: frozenset[str], last: Last) -> Schedule | None:
    """Return the plan last shown with its starts and people; what is under way is where it is."""
    tasks = tasks_in(problem, inside)
    if not tasks <= last.keys():
        return None
    placed = []
    for number in tasks:
        start = problem.tasks[number].fixed
        start = last[number].start if start is None else start
        end = start + units_in(problem, number, inside, tasks)
        placed.append(Placed(number, start, end, last[number].workers))
    placed.sort(key=lambda item: (item.start, item.task))
    return Schedule(tuple(placed), False, "solver", inside)


def _laid_out(ways: Ways, inside: frozenset[str], last: Last, *, as_shown: bool) -> Schedule | None:
    problem = ways.problem
    tasks = tasks_in(problem, inside)
    board = Board(problem)
    placed: dict[int, Placed] = {}
    ways.open_at_start(board)
    waiting = set(tasks)
    for number in sorted(tasks, key=lambda n: (problem.tasks[n].fixed is None, _place(last, n))):
        if problem.tasks[number].fixed is not None:
            ways.put(board, placed, number, units_in(problem, number, inside, tasks))
            waiting.discard(number)
    while waiting:
        ready = [number for number in waiting if not ways.before[number] & waiting]
        if not ready:
            return None
        number = min(ready, key=lambda n: _place(last, n))
        if not _put(ways, board, placed, number, units_in(problem, number, inside, tasks), last, as_shown):
            return None
        waiting.discard(number)
    found = tuple(sorted(placed.values(), key=lambda item: (item.start, item.task)))
    return Schedule(found, False, "solver", inside)


def _place(last: Last, number: int) -> tuple[int, int, int]:
    shown = last.get(number)
    return (shown.start, shown.end, number) if shown is not None else (10**9, 0, number)


def _put(
    ways: Ways, board: Board, placed: dict[int, Placed], number: int, long: int, last: Last, as_shown: bool
) -> bool:
    shown = last.get(number)
    if shown is None or not _may(ways, placed, number, shown.workers):
        return ways.put(board, placed, number, long)
    mine = [item.end for item in placed.values() if set(item.workers) & set(shown.workers)]
    earliest = max([shown.start if as_shown else 0, *mine])
    if ways.put(board, placed, number, long, workers=shown.workers, earliest=earliest):
        return True
    return ways.put(board, placed, number, long)


def _may(ways: Ways, placed: Mapping[int, Placed], number: int, workers: tuple[int, ...]) -> bool:
    task = ways.problem.tasks[number]
    busy = {worker for other in ways.not_by[number] if other in placed for worker in placed[other].workers}
    fits = len(workers) == task.people and set(workers) <= set(task.may) and not busy & set(workers)
    one_guest = len(set(workers) & set(task.guests)) <= 1
    return fits and one_guest and (not task.skilled or not task.people or bool(set(task.skilled) & set(workers)))


def changes(problem: Problem, last: Last, schedule: Schedule) -> tuple[int, int]:
    """Return how many tasks have other people than they had, and how many pairs of one person's tasks swapped."""
    now = {item.task: item for item in schedule.placed}
    both = [(shown, now[n]) for n, shown in last.items() if n in now and problem.tasks[n].fixed is None]
    people = sum(shown.workers != item.workers for shown, item in both)
    swapped = 0
    for place, (one, one_now) in enumerate(both):
        for other, other_now in both[place + 1 :]:
            same = set(one.workers) & set(other.workers) & set(one_now.workers) & set(other_now.workers)
            swapped += bool(same) and (one.start < other.start) != (one_now.start < other_now.start)
    return people, swapped


def shorter(problem: Problem, schedule: Schedule, slack: int = SLACK) -> Problem:
    """Return the problem of a plan that is as good as this one and ends at most so many units later."""
    counts = tuple(len(level & schedule.inside) for level in problem.levels)
    return replace(problem, horizon=min(problem.horizon, schedule.finish + slack), most=counts)

"""What has to fit into the time, whenever it is: least times before and after, and the work of hands and zones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from shuntbook.plan.problem import Problem, Task

if TYPE_CHECKING:
    from shuntbook.plan.selection import Selection


def what_can_end_in_time(model: Selection) -> None:
    """What cannot end in time, with what surely comes before and after it, is not in."""
    for number, task in enumerate(model.problem.tasks):
        if model.bounds.heads[number] + task.shortest > model.bounds.ends(model.problem, number):
            model.cp.add(model.present[number] == 0)


def what_fits_between(model: Selection) -> None:
    """What hands and zones do between the least time before it and the least time after it has to fit: implied, too.

    While the car moves nobody else touches it, and open fuel stops all: both take everybody, and all of its zones.
    What is under way is where it is, and left out: the rest has to fit all the more.
    """
    problem = model.problem
    free = [n for n, task in enumerate(problem.tasks) if task.fixed is None]
    hands = {frozenset(task.may) for task in problem.tasks if task.people}
    for who in sorted(hands, key=sorted):
        everybody = {n: task.people for n, task in _numbered(problem, free) if task.people and who.issuperset(task.may)}
        at_it = {n: many for n, many in everybody.items() if problem.tasks[n].touches}
        # While one car stops all at it, people go on at another.
        is_one = len(problem.cars) == 1
        for amounts, moving in ((everybody, False), (at_it, True)) if is_one else ((everybody, None),):
            stops = _stops(problem, free, moving=moving) if moving is not None else []
            _fits_between(model, {**amounts, **dict.fromkeys(stops, len(who))}, len(who))
    for resource, capacity in problem.resources.items():
        uses = {n: task.uses[resource] for n, task in _numbered(problem, free) if task.uses.get(resource)}
        cars = {problem.tasks[n].car for n in uses}
        is_zone = any(resource in (task.zone, f"{task.car}/{task.zone}") for _, task in _numbered(problem, uses))
        stops = _stops(problem, free, moving=True) if is_zone and len(uses) > 1 else []
        stops = [n for n in stops if problem.tasks[n].car in cars]
        _fits_between(model, {**uses, **dict.fromkeys(stops, capacity)}, capacity)


def _numbered(problem: Problem, numbers: Iterable[int]) -> Iterator[tuple[int, Task]]:
    return ((n, problem.tasks[n]) for n in numbers)


def _stops(problem: Problem, free: Sequence[int], *, moving: bool) -> list[int]:
    return [n for n, task in _numbered(problem, free) if task.alone or (moving and task.moves)]


def _fits_between(model: Selection, amounts: dict[int, int], capacity: int) -> None:
    heads = {n: model.bounds.heads[n] for n in amounts}
    ends = {n: model.bounds.ends(model.problem, n) for n in amounts}
    seen = set()
    for head in sorted(set(heads.values())):
        for end in sorted(set(ends.values()), reverse=True):
            inner = [n for n in sorted(amounts) if heads[n] >= head and ends[n] <= end]
            room = capacity * max(0, end - head)
            if (key := tuple(inner)) in seen or sum(amounts[n] * model.problem.tasks[n].units for n in inner) <= room:
                continue
            seen.add(key)
            model.cp.add(sum(amounts[n] * work_of(model, n) for n in inner) <= room)


def work_of(model: Selection, number: int) -> Any:
    """Return how long a task goes on, 0 where it is not in."""
    task = model.problem.tasks[number]
    if task.pieces:
        return model.size[number]
    return (task.shorter.units if task.shorter else task.units) * model.present[number]


FITS = (what_can_end_in_time, what_fits_between)
"""One function per rule, in the order in which they are told."""

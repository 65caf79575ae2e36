"""What has to fit into the time, whenever it is: least times before and after, and the work of hands and zones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
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

    What is under way is where it is, and left out: the rest has to fit all the more.
    """
    for load in loads(model.problem):
        _fits_between(model, {**load.amounts, **load.stops}, load.capacity)


@dataclass(frozen=True)
class Load:
    """What takes some hands, or a resource, of which there are `capacity`: how much each task takes, by its number.

    stops: what takes all of it, since nobody works meanwhile.
    """

    amounts: Mapping[int, int]
    capacity: int
    stops: Mapping[int, int]


def loads(problem: Problem) -> Iterator[Load]:
    """Yield what takes hands and resources, what is under way left out.

    While the car moves nobody else touches it, and open fuel stops all: both take everybody, and all of its zones.
    Proof: of a time at which a stop and another of the tasks go on there is none in any plan, so that together they
    never take more than the stop does, which is all.
    """
    free = [n for n, task in enumerate(problem.tasks) if task.fixed is None]
    hands = {frozenset(task.may) for task in problem.tasks if task.people}
    for who in sorted(hands, key=sorted):
        everybody = {n: task.people for n, task in _numbered(problem, free) if task.people and who.issuperset(task.may)}
        if len(problem.cars) > 1:
            # While one car stops all at it, people go on at another.
            yield Load(everybody, len(who), {})
            continue
        at_it = {n: many for n, many in everybody.items() if problem.tasks[n].touches}
        for amounts, moving in ((everybody, False), (at_it, True)):
            yield Load(amounts, len(who), dict.fromkeys(_stops(problem, free, moving=moving), len(who)))
    for resource, capacity in problem.resources.items():
        uses = {n: task.uses[resource] for n, task in _numbered(problem, free) if task.uses.get(resource)}
        cars = {problem.tasks[n].car for n in uses}
        is_zone = any(resource in (task.zone, f"{task.car}/{task.zone}") for _, task in _numbered(problem, uses))
        if is_zone:
            # What is done away from the car goes on while it moves, though it may take a place in it.
            uses = {n: many for n, many in uses.items() if problem.tasks[n].touches}
        stops = _stops(problem, free, moving=True) if is_zone and len(uses) > 1 else []
        yield Load(uses, capacity, {n: capacity for n in stops if problem.tasks[n].car in cars})


def _numbered(problem: Problem, numbers: Iterable[int]) -> Iterator[tuple[int, Task]]:
    return ((n, problem.tasks[n]) for n in numbers)


def _stops(problem: Problem, free: Sequence[int], *, moving: bool) -> list[int]:
    return [n for n, task in _numbered(problem, free) if task.alone or (moving and task.moves)]


def _fits_between(model: Selection, amounts: dict[int, int], capacity: int) -> None:
    heads = {n: model.bounds.heads[n] for n in amounts}
    ends = {n: model.bounds.ends(model.problem, n) for n in amounts}
    most = {n: many * model.problem.tasks[n].units for n, many in amounts.items()}
    last_first = sorted(amounts, key=lambda n: -ends[n])
    seen = set()
    for head in sorted(set(heads.values())):
        later = [n for n in last_first if heads[n] >= head]
        for end in sorted(set(ends.values()), reverse=True):
            later = [n for n in later if ends[n] <= end]
            room = capacity * max(0, end - head)
            if sum(most[n] for n in later) <= room or (key := frozenset(later)) in seen:
                continue
            seen.add(key)
            model.cp.add(sum(amounts[n] * work_of(model, n) for n in sorted(later)) <= room)


def work_of(model: Selection, number: int) -> Any:
    """Return how long a task goes on, 0 where it is not in."""
    task = model.problem.tasks[number]
    if task.pieces:
        return model.size[number]
    return (task.shorter.units if task.shorter else task.units) * model.present[number]


FITS = (what_can_end_in_time, what_fits_between)
"""One function per rule, in the order in which they are told."""

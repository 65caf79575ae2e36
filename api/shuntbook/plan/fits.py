"""What has to fit into the time, whenever it is: least times before and after, and the work of hands and zones."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from shuntbook.plan.problem import Problem

if TYPE_CHECKING:
    from shuntbook.plan.selection import Selection


def what_can_end_in_time(model: Selection) -> None:
    """What cannot end in time, with what surely comes before and after it, is not in."""
    for number, task in enumerate(model.problem.tasks):
        if model.bounds.heads[number] + task.shortest > model.bounds.ends(model.problem, number):
            model.cp.add(model.present[number] == 0)


def what_fits_between(model: Selection) -> None:
    """What hands and zones do between the least time before it and the least time after it has to fit: implied, too.

    While the car moves nobody else touches it, and open fuel stops all: both take everybody.
    """
    problem = model.problem
    if len(problem.cars) != 1 or any(task.fixed is not None for task in problem.tasks):
        return
    hands = {frozenset(task.may) for task in problem.tasks if task.people}
    for who in sorted(hands, key=sorted):
        everybody = {n: task.people for n, task in enumerate(problem.tasks) if task.people and who.issuperset(task.may)}
        at_it = {n: many for n, many in everybody.items() if problem.tasks[n].touches}
        for amounts, stops in ((everybody, _stops(problem)), (at_it, _stops(problem, moving=True))):
            _fits_between(model, {**amounts, **dict.fromkeys(stops, len(who))}, len(who))
    for resource, capacity in problem.resources.items():
        uses = {n: task.uses[resource] for n, task in enumerate(problem.tasks) if task.uses.get(resource)}
        is_zone = any(problem.tasks[n].zone == resource for n in uses)
        stops = _stops(problem, moving=True) if is_zone and len(uses) > 1 else []
        _fits_between(model, {**uses, **dict.fromkeys(stops, capacity)}, capacity)


def _stops(problem: Problem, moving: bool = False) -> list[int]:
    return [n for n, task in enumerate(problem.tasks) if task.alone or (moving and task.moves)]


def _fits_between(model: Selection, amounts: dict[int, int], capacity: int) -> None:
    bounds, seen = model.bounds, set()
    for head in sorted({bounds.heads[n] for n in amounts}):
        for tail in sorted({bounds.tails[n] for n in amounts}):
            inner = [n for n in sorted(amounts) if bounds.heads[n] >= head and bounds.tails[n] >= tail]
            room = capacity * max(0, model.problem.horizon - head - tail)
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

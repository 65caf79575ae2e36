"""What a plan is gone for, as expressions of the CP-SAT model, and plans that it is told to begin with."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from shuntbook.plan.model import Model
from shuntbook.plan.problem import Placed, Schedule


def hint_times(model: Model, times: Mapping[int, tuple[int, int]], inside: Collection[str]) -> None:
    """Tell the solver when the tasks of a plan start, and what is in it."""
    model.cp.clear_hints()  # type: ignore[no-untyped-call]
    for group, literal in model.inside.items():
        model.cp.add_hint(literal, group in inside)
    for number, (start, _) in times.items():
        if model.problem.tasks[number].fixed is None:
            model.cp.add_hint(model.start[number], start)


def hint(model: Model, schedule: Schedule) -> None:
    """Tell the solver a plan that is known to be valid."""
    model.cp.clear_hints()  # type: ignore[no-untyped-call]
    placed = {item.task: item for item in schedule.placed}
    for group, literal in model.inside.items():
        model.cp.add_hint(literal, group in schedule.inside)
    for number, task in enumerate(model.problem.tasks):
        item = placed.get(number)
        if item is not None and task.fixed is None:
            model.cp.add_hint(model.start[number], item.start)
        for crew, count in model.taken[number].items():
            if len(model.taken[number]) > 1:
                model.cp.add_hint(count, 0 if item is None else len(set(crew).intersection(item.workers)))


def far_from(model: Model, last: Sequence[Placed]) -> Any:
    """Return how far a plan with everybody by name is from the last: people changed before pairs swapped."""
    changed, swapped = [], []
    mine = [item for item in last if model.problem.tasks[item.task].fixed is None]
    kept = {item.task: _keeps(model, item) for item in mine}
    for item in mine:
        changed.append(model.present[item.task] - kept[item.task])
    for place, one in enumerate(mine):
        for other in mine[place + 1 :]:
            if set(one.workers) & set(other.workers):
                swapped.append(_swapped(model, one, other, kept))
    return sum(changed) * (len(swapped) + 1) + sum(swapped)


def _keeps(model: Model, item: Placed) -> Any:
    """Return a literal that is true where a task is in with the people that it had."""
    keeps = model.cp.new_bool_var("keeps")
    taken = {crew[0]: count for crew, count in model.taken[item.task].items()}
    model.cp.add_implication(keeps, model.present[item.task])
    if set(item.workers) <= taken.keys() and len(item.workers) == model.problem.tasks[item.task].people:
        for worker in item.workers if len(taken) > 1 else ():
            model.cp.add(taken[worker] >= 1).only_enforce_if(keeps)
    else:
        model.cp.add(keeps == 0)
    return keeps


def _swapped(model: Model, one: Placed, other: Placed, kept: dict[int, Any]) -> Any:
    first, second = (one, other) if (one.start, one.end) <= (other.start, other.end) else (other, one)
    swapped = model.cp.new_bool_var("swapped")
    model.cp.add(model.start[second.task] >= model.start[first.task]).only_enforce_if(
        ~swapped, kept[first.task], kept[second.task]
    )
    return swapped


def looks(model: Model) -> Any | None:
    """Return the sum of when those tasks start that find out what is unknown, None where there are none."""
    starts = []
    for number, task in enumerate(model.problem.tasks):
        if task.early and task.fixed is None:
            start = model.cp.new_int_var(0, model.problem.horizon, "early")
            model.cp.add(start >= model.start[number]).only_enforce_if(model.present[number])
            starts.append(start)
    return sum(starts) if starts else None


def minutes_of_work(model: Model) -> Any:
    """Return worker-units of all that is in the plan, the last goal."""
    work = []
    for number, task in enumerate(model.problem.tasks):
        whole = task.units * model.present[number]
        if task.shorter:
            both = model.cp.new_bool_var("both")
            reason = model.any([model.present[n] for n in task.shorter.because])
            model.cp.add_min_equality(both, [model.present[number], reason])
            whole -= (task.units - task.shorter.units) * both
        work.append(task.people * (model.size[number] if task.pieces else whole))
    return sum(work)

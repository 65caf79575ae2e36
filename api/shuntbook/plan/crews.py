"""Who is interchangeable with whom, and who does what once it is known when."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from shuntbook.plan.problem import Placed, Problem

Crew = tuple[int, ...]
"""Numbers of workers who are alike for every task of a problem, ascending."""


def alike(problem: Problem) -> list[Crew]:
    """Return the workers in crews: any two of one may do the same tasks, with the same skill, from the same moment."""
    crews: dict[object, list[int]] = {}
    for number, worker in enumerate(problem.workers):
        may = tuple((number in t.may, number in t.skilled, number in t.guests) for t in problem.tasks)
        crews.setdefault((may, worker.from_unit), []).append(number)
    return [tuple(crew) for crew in crews.values()]


def each_alone(problem: Problem) -> list[Crew]:
    """Return every worker as a crew of his own."""
    return [(number,) for number in range(len(problem.workers))]


def assign(problem: Problem, times: Mapping[int, tuple[int, int]]) -> list[Placed] | None:
    """Give every task of a plan its people; None where nobody can be found without moving a task."""
    from ortools.sat.python import cp_model

    cp = cp_model.CpModel()
    who = {n: {w: cp.new_bool_var("") for w in problem.tasks[n].may} for n in times if problem.tasks[n].people}
    for number, chosen in who.items():
        task = problem.tasks[number]
        cp.add(sum(chosen.values()) == task.people)
        if task.skilled:
            cp.add_bool_or([chosen[w] for w in task.skilled if w in chosen])
        if task.guests:
            cp.add_at_most_one([chosen[w] for w in task.guests])
        for worker, literal in chosen.items():
            if times[number][0] < problem.workers[worker].from_unit and times[number][1] > times[number][0]:
                cp.add(literal == 0)
    _one_at_a_time(cp, problem, times, who)
    _somebody_else(cp, problem, who)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = 1.0
    if solver.status_name(solver.solve(cp)) not in ("OPTIMAL", "FEASIBLE"):
        return None
    return [
        Placed(n, start, end, tuple(w for w, it in sorted(who.get(n, {}).items()) if solver.boolean_value(it)))
        for n, (start, end) in times.items()
    ]


def _one_at_a_time(cp: Any, problem: Problem, times: Mapping[int, tuple[int, int]], who: Mapping[int, Any]) -> None:
    moments = {start for start, _ in times.values()}
    for worker in range(len(problem.workers)):
        for moment in moments:
            at_once = [who[n][worker] for n in who if worker in who[n] and _runs(times[n], moment)]
            if len(at_once) > 1:
                cp.add_at_most_one(at_once)


def _runs(time: tuple[int, int], moment: int) -> bool:
    return time[0] <= moment < time[1]


def _somebody_else(cp: Any, problem: Problem, who: Mapping[int, Any]) -> None:
    for apart in problem.apart:
        for other in apart.others:
            for worker in _both(who.get(apart.task, {}), who.get(other, {})):
                cp.add_at_most_one([who[apart.task][worker], who[other][worker]])


def _both(one: Collection[int], other: Collection[int]) -> list[int]:
    return [worker for worker in one if worker in other]

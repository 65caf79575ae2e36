"""Solves a problem in stages, each goal fixed before the next: musts, value, earliest finish, least work.

Deterministic: work is bounded by the solver's own deterministic time and a fixed number of workers, not by a clock.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shuntbook.plan.model import Model, hint, minutes_of_work
from shuntbook.plan.problem import Placed, Problem, Schedule


@dataclass(frozen=True)
class Effort:
    """How much the solver may work: deterministic seconds in all, and workers.

    One worker proves the textbook projects faster than eight that take turns, which is what determinism asks of many.
    """

    deterministic_s: float = 6.0
    workers: int = 1


@dataclass(frozen=True)
class Goal:
    """One stage: an expression and whether more of it is better."""

    expression: Any
    more: bool


def solve(problem: Problem, start: Schedule | None = None, effort: Effort = Effort()) -> Schedule | None:
    """Return the best plan found, None where none was; `start` is a valid plan to begin with."""
    model = Model(problem)
    best, left, proven = start, effort.deterministic_s, True
    for goal in _goals(model):
        if best is not None:
            hint(model, best)
        (model.cp.maximize if goal.more else model.cp.minimize)(goal.expression)
        solver, status = _run(model, left, effort.workers)
        if status not in ("OPTIMAL", "FEASIBLE"):
            return None if best is None else Schedule(best.placed, False, best.by)
        left = max(0.05, left - solver.response_proto.deterministic_time)
        best = _read(model, solver)
        proven = proven and status == "OPTIMAL"
        reached = round(solver.objective_value)
        model.cp.add(goal.expression >= reached if goal.more else goal.expression <= reached)
    return None if best is None else Schedule(best.placed, proven, "solver")


def _goals(model: Model) -> list[Goal]:
    problem = model.problem
    musts = [model.inside[group] for group in problem.musts if group in model.inside]
    values = [value * model.inside[group] for group, value in problem.values.items() if value and group in model.inside]
    goals = [Goal(sum(musts), True)] if musts else []
    goals += [Goal(sum(values), True)] if values else []
    goals.append(Goal(model.finish, False))
    work = minutes_of_work(model)
    # Where nothing may be left out, the work is what it is.
    return [*goals, Goal(work, False)] if problem.groups else goals


def _run(model: Model, deterministic_s: float, workers: int) -> tuple[Any, str]:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = deterministic_s
    solver.parameters.num_workers = workers
    solver.parameters.interleave_search = workers > 1
    solver.parameters.random_seed = 1
    return solver, solver.status_name(solver.solve(model.cp))


def _read(model: Model, solver: Any) -> Schedule:
    placed = []
    for number, task in enumerate(model.problem.tasks):
        if solver.boolean_value(model.present[number]):
            start = solver.value(model.start[number])
            workers = tuple(w for w, literal in sorted(model.who[number].items()) if solver.boolean_value(literal))
            placed.append(Placed(number, start, start + task.units, workers))
    return Schedule(tuple(sorted(placed, key=lambda item: (item.start, item.task))), False, "solver")

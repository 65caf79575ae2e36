"""Solves a problem in stages, each goal fixed before the next: musts, value, earliest finish, least work.

Deterministic: work is bounded by the solver's own deterministic time and a fixed number of workers, not by a clock.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from shuntbook.plan.crews import alike, assign, each_alone
from shuntbook.plan.model import Model, hint, minutes_of_work
from shuntbook.plan.problem import Problem, Schedule


@dataclass(frozen=True)
class Effort:
    """How much the solver may work: deterministic seconds in all, and workers.

    One worker proves the textbook projects faster than eight that take turns, which is what determinism asks of many.
    in_full: whether the plan is to end early with little work, or only to hold the most.
    """

    deterministic_s: float = 2.5
    workers: int = 1
    in_full: bool = True


@dataclass(frozen=True)
class Goal:
    """One stage: an expression, and whether more of it is better."""

    expression: Any
    more: bool


@dataclass
class Found:
    """The best plan so far: times by task, groups inside, what each goal reached, whether all of it is proven."""

    times: dict[int, tuple[int, int]]
    inside: frozenset[str]
    reached: list[int]
    proven: bool


def solve(problem: Problem, start: Schedule | None = None, effort: Effort = Effort()) -> Schedule | None:
    """Return the best plan found, `start` where none was: a valid plan to begin with."""
    found = _in_stages(Model(problem, alike(problem)), start, effort)
    schedule = _named(problem, found)
    if found is not None and schedule is None:
        # Counted they would be enough, named they are not: somebody would have to look at his own work. Most often
        # the tasks need only be moved a little, else all is done again with everyone by name.
        named = each_alone(problem)
        schedule = _named(problem, _as_good(Model(problem, named), found, effort))
        schedule = schedule or _named(problem, _in_stages(Model(problem, named), start, effort))
    return schedule or start


def _named(problem: Problem, found: Found | None) -> Schedule | None:
    """Return a plan with everyone named, None where they cannot be."""
    placed = None if found is None else assign(problem, found.times)
    if found is None or placed is None:
        return None
    in_order = tuple(sorted(placed, key=lambda item: (item.start, item.task)))
    return Schedule(in_order, found.proven, "solver", found.inside)


def _in_stages(model: Model, start: Schedule | None, effort: Effort) -> Found | None:
    best: Found | None = None
    left, reached = effort.deterministic_s, []
    if start is not None:
        hint(model, start)
    for goal in _goals(model, effort.in_full):
        (model.cp.maximize if goal.more else model.cp.minimize)(goal.expression)
        solver, status = _run(model, left, effort.workers)
        if status not in ("OPTIMAL", "FEASIBLE"):
            return best and replace(best, proven=False)
        left = max(0.05, left - solver.response_proto.deterministic_time)
        reached.append(round(solver.objective_value))
        best = _read(model, solver, reached, status == "OPTIMAL" and (best is None or best.proven))
        model.cp.add(goal.expression >= reached[-1] if goal.more else goal.expression <= reached[-1])
        _hint_again(model, solver)
    return best


def _as_good(model: Model, found: Found, effort: Effort) -> Found | None:
    """Return a plan that reaches what was reached without names, None where none was found."""
    # Where the time ran out, only the first goals were reached.
    for goal, reached in zip(_goals(model, effort.in_full), found.reached, strict=False):
        model.cp.add(goal.expression >= reached if goal.more else goal.expression <= reached)
    for number, (begins, _) in found.times.items():
        if model.problem.tasks[number].fixed is None:
            model.cp.add_hint(model.start[number], begins)
    for group, literal in model.inside.items():
        model.cp.add_hint(literal, group in found.inside)
    solver, status = _run(model, effort.deterministic_s / 2, effort.workers)
    if status not in ("OPTIMAL", "FEASIBLE"):
        return None
    return _read(model, solver, found.reached, found.proven)


def _goals(model: Model, in_full: bool) -> list[Goal]:
    problem = model.problem
    musts = [model.inside[group] for group in problem.groups if group in problem.musts]
    values = [value * model.inside[group] for group, value in problem.values.items() if value and group in model.inside]
    goals = [Goal(sum(musts), True)] if musts else []
    goals += [Goal(sum(values), True)] if values else []
    if in_full or not goals:
        goals.append(Goal(sum(model.finish.values()), False))
        # Where nothing may be left out, the work is what it is.
        goals += [Goal(minutes_of_work(model), False)] if problem.groups else []
    return goals


def _run(model: Model, deterministic_s: float, workers: int) -> tuple[Any, str]:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = deterministic_s
    solver.parameters.num_workers = workers
    solver.parameters.interleave_search = workers > 1
    solver.parameters.random_seed = 1
    # Choosing what is worth its time is a matter for linear relaxations with cuts (40 jobs: 3 s against 60 s and no
    # proof); a project in which nothing may be left out is proven faster without any (1 of 24 open, against 2).
    solver.parameters.linearization_level = 2 if model.problem.groups else 0
    return solver, solver.status_name(solver.solve(model.cp))


def _hint_again(model: Model, solver: Any) -> None:
    """Tell the solver its own last plan, whole."""
    model.cp.clear_hints()  # type: ignore[no-untyped-call]
    solution = solver.response_proto.solution
    hints = model.cp.proto.solution_hint
    hints.vars.extend(range(len(solution)))
    hints.values.extend(solution)


def _read(model: Model, solver: Any, reached: Sequence[int], proven: bool) -> Found:
    inside = frozenset(group for group, literal in model.inside.items() if solver.boolean_value(literal))
    times = {
        number: (solver.value(model.start[number]), solver.value(model.end[number]))
        for number in range(len(model.problem.tasks))
        if solver.boolean_value(model.present[number])
    }
    return Found(times, inside, list(reached), proven)

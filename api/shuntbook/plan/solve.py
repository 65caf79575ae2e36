"""Solves a problem in stages, each goal fixed before the next: levels, value, earliest finish, early looks, least work.

Deterministic: work is bounded by the solver's own deterministic time and a fixed number of workers, not by a clock.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import ceil, floor
from typing import Any, Literal

from shuntbook.plan.aims import far_from, hint, looks, minutes_of_work
from shuntbook.plan.crews import alike, assign, each_alone
from shuntbook.plan.model import Model
from shuntbook.plan.problem import Placed, Problem, Reached, Schedule

SHARE = 0.7
"""How much of what is left one goal may take, where others come after it."""
SMALL = 1e-6


Until = Literal["value", "finish", "work"]


@dataclass(frozen=True)
class Effort:
    """How much the solver may work: deterministic seconds in all, and workers.

    One worker proves the textbook projects faster than eight that take turns, which is what determinism asks of many.
    until: the last goal that is gone for: what is in the plan, that it ends early, or all of them.
    """

    deterministic_s: float = 2.5
    workers: int = 1
    until: Until = "work"


@dataclass(frozen=True)
class Goal:
    """One stage: an expression, and whether more of it is better.

    weights: what each group counts in it, where it counts groups; most: what can be reached at most, if known.
    """

    name: int | str
    expression: Any
    more: bool
    weights: Mapping[str, int] = field(default_factory=dict)
    most: int | None = None

    def of(self, inside: Collection[str]) -> int | None:
        """Return what these groups reach of it, None where it does not count groups."""
        return sum(self.weights[group] for group in self.weights if group in inside) if self.weights else None


@dataclass
class Found:
    """The best plan so far: times by task, groups inside, what each goal reached."""

    times: dict[int, tuple[int, int]]
    inside: frozenset[str]
    reached: list[Reached]

    @property
    def proven(self) -> bool:
        """Whether every goal that was gone for is proven."""
        return all(one.proven for one in self.reached)


def solve(problem: Problem, start: Schedule | None = None, effort: Effort = Effort()) -> Schedule | None:
    """Return the best plan found, `start` where none was: a valid plan to begin with.

    Where the problem has a plan last shown: the nearest to it with all that `start` has, within the horizon.
    """
    if problem.last and start is not None:
        return _nearest(problem, start, effort)
    found = _in_stages(Model(problem, alike(problem)), start, effort)
    schedule = _named(problem, found)
    if found is not None and schedule is None:
        # Counted they would be enough, named they are not: somebody would have to look at his own work. Most often
        # the tasks need only be moved a little, else all is done again with everyone by name.
        named = each_alone(problem)
        schedule = _named(problem, _as_good(Model(problem, named), found, effort))
        schedule = schedule or _named(problem, _in_stages(Model(problem, named), start, effort))
    return schedule or start


def _nearest(problem: Problem, start: Schedule, effort: Effort) -> Schedule | None:
    """Return the plan with the fewest people changed, then the fewest pairs of one person's tasks in another order."""
    model = Model(problem, each_alone(problem))
    for group, literal in model.inside.items():
        model.cp.add(literal == (group in start.inside))
    hint(model, start)
    model.cp.minimize(far_from(model, problem.last))
    solver, status = _run(model, effort.deterministic_s, effort.workers)
    if status not in ("OPTIMAL", "FEASIBLE"):
        return start
    found = _named_alone(problem, _read(model, solver, start.goals), model, solver)
    return replace(found, proven=start.proven)


def _named_alone(problem: Problem, found: Found, model: Model, solver: Any) -> Schedule:
    """Return a plan of a model in which everybody is a crew of one: who does what is in it."""
    placed = []
    for number, (start, end) in found.times.items():
        counts = model.taken[number]
        who = tuple(sorted(crew[0] for crew, count in counts.items() if solver.value(count)))
        placed.append(Placed(number, start, end, who))
    in_order = tuple(sorted(placed, key=lambda item: (item.start, item.task)))
    return Schedule(in_order, found.proven, "solver", found.inside, tuple(found.reached))


def _named(problem: Problem, found: Found | None) -> Schedule | None:
    """Return a plan with everyone named, None where they cannot be."""
    placed = None if found is None else assign(problem, found.times)
    if found is None or placed is None:
        return None
    in_order = tuple(sorted(placed, key=lambda item: (item.start, item.task)))
    return Schedule(in_order, found.proven, "solver", found.inside, tuple(found.reached))


def _in_stages(model: Model, start: Schedule | None, effort: Effort) -> Found | None:
    best, solved = _begun(start), False
    left = effort.deterministic_s
    if start is not None:
        hint(model, start)
    goals = _goals(model, effort.until)
    for place, goal in enumerate(goals):
        there = None if best is None else goal.of(best.inside)
        if best is not None and there is not None and there == goal.most:
            # Nothing could be better: what is already there needs no search.
            _settle(model, best, goal, there, there)
            continue
        (model.cp.maximize if goal.more else model.cp.minimize)(goal.expression)
        # A stage that finds no end leaves something for those after it, or their ends would be arbitrary.
        solver, status = _run(model, left if place == len(goals) - 1 else left * SHARE, effort.workers)
        if status not in ("OPTIMAL", "FEASIBLE"):
            return _unproven(best, goal) if solved else None
        solved, left = True, max(0.05, left - solver.response_proto.deterministic_time)
        reached = [] if best is None else best.reached
        best = _read(model, solver, reached)
        bound = (
            ceil(solver.best_objective_bound - SMALL) if not goal.more else floor(solver.best_objective_bound + SMALL)
        )
        _settle(model, best, goal, round(solver.objective_value), bound)
        _hint_again(model, solver)
    return best


def _begun(start: Schedule | None) -> Found | None:
    if start is None:
        return None
    return Found({item.task: (item.start, item.end) for item in start.placed}, start.inside, [])


def _unproven(best: Found | None, goal: Goal) -> Found | None:
    """A goal for which the time ran out before anything was found is not proven."""
    return best and replace(best, reached=[*best.reached, Reached(goal.name, 0, 1)])


def _settle(model: Model, best: Found, goal: Goal, reached: int, bound: int) -> None:
    best.reached.append(Reached(goal.name, reached, bound))
    model.cp.add(goal.expression >= reached if goal.more else goal.expression <= reached)


def _as_good(model: Model, found: Found, effort: Effort) -> Found | None:
    """Return a plan that reaches what was reached without names, None where none was found."""
    # Where the time ran out, only the first goals were reached.
    for goal, one in zip(_goals(model, effort.until), found.reached, strict=False):
        model.cp.add(goal.expression >= one.reached if goal.more else goal.expression <= one.reached)
    for number, (begins, _) in found.times.items():
        if model.problem.tasks[number].fixed is None:
            model.cp.add_hint(model.start[number], begins)
    for group, literal in model.inside.items():
        model.cp.add_hint(literal, group in found.inside)
    solver, status = _run(model, effort.deterministic_s / 2, effort.workers)
    return _read(model, solver, found.reached) if status in ("OPTIMAL", "FEASIBLE") else None


def _goals(model: Model, until: Until) -> list[Goal]:
    problem = model.problem
    goals = [_counted(model, place, level) for place, level in enumerate(problem.levels)]
    values = {group: problem.values.get(group, 0) for group in problem.groups if problem.values.get(group)}
    goals.append(_weighed(model, "value", values, sum(values.values())))
    goals = [goal for goal in goals if goal.weights]
    if until != "value" or not goals:
        goals.append(Goal("finish", sum(model.finish.values()), False))
    if until == "work" or not goals:
        early = looks(model)
        goals += [Goal("looks", early, False)] if early is not None else []
        # Where nothing may be left out, the work is what it is.
        goals += [Goal("work", minutes_of_work(model), False)] if problem.groups else []
    return goals


def _counted(model: Model, place: int, level: frozenset[str]) -> Goal:
    known = dict.fromkeys(sorted(level.intersection(model.problem.groups)), 1)
    most = model.problem.most[place] if place < len(model.problem.most) else len(known)
    return _weighed(model, place, known, most)


def _weighed(model: Model, name: int | str, weights: Mapping[str, int], most: int) -> Goal:
    return Goal(name, sum(weight * model.inside[group] for group, weight in weights.items()), True, weights, most)


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


def _read(model: Model, solver: Any, reached: Sequence[Reached]) -> Found:
    inside = frozenset(group for group, literal in model.inside.items() if solver.boolean_value(literal))
    times = {
        number: (solver.value(model.start[number]), solver.value(model.end[number]))
        for number in range(len(model.problem.tasks))
        if solver.boolean_value(model.present[number])
    }
    return Found(times, inside, list(reached))

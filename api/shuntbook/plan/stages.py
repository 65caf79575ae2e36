"""Search in stages: each goal is gone for by itself and held before the next.

Rule: what a goal reached is never given up for one after it. A stage that finds no end leaves something for the rest.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from math import ceil, floor
from typing import Any

from shuntbook.plan.aims import hint_times, looks, minutes_of_work
from shuntbook.plan.found import DONE, LEAST, Effort, Found, Until, read, spent_by
from shuntbook.plan.goals import Goal, choice_goals, total
from shuntbook.plan.model import Model
from shuntbook.plan.problem import Problem, Reached
from shuntbook.plan.run import run

SHARE = 0.7
"""How much of what is left one goal may take, where others come after it."""
SMALL = 1e-6


def in_stages(model: Model, goals: Sequence[Goal], begun: Found | None, effort: Effort) -> Found | None:
    """Return the best plan found of these goals, one after the other; what `begun` reached before stays before it."""
    best, solved = begun, False
    left = effort.deterministic_s
    if begun is not None:
        hint_times(model, begun.times, begun.inside)
    for place, goal in enumerate(goals):
        if best is not None and goal.is_best(best.inside):
            # Nothing could be better: what is already there needs no search.
            best = _settled(model, best, goal, 0, 0)
            continue
        (model.cp.maximize if goal.more else model.cp.minimize)(goal.expression)
        # A stage that finds no end leaves something for those after it, or their ends would be arbitrary.
        solver, status = run(model, left if place == len(goals) - 1 else left * SHARE, effort.workers)
        if status not in DONE:
            return unproven(best, goal) if solved else None
        solved, left = True, max(LEAST, left - spent_by(solver))
        best = read(model, solver, [] if best is None else best.reached, effort.deterministic_s - left)
        best = _settled(model, best, goal, round(solver.objective_value), _bound(goal, solver))
        _hint_again(model, solver)
    return best


def timed_goals(model: Model, until: Until) -> list[Goal]:
    """Return the goals that ask when: the cars' ends, early looks, and least work where there is a choice."""
    goals = [Goal("finish", sum(model.finish.values()), False)]
    if until == "work":
        early = looks(model)
        goals += [Goal("looks", early, False)] if early is not None else []
        goals += [Goal("work", minutes_of_work(model), False)] if model.problem.groups else []
    return goals


def hold(model: Model, rows: Sequence[Reached]) -> None:
    """Ask for as much of each goal that counts groups; where that is proven, for no more."""
    weights = {one.name: one.weights for goal in choice_goals(model) for one in goal.counts}
    for row in rows:
        if row.goal in weights:
            counted = total(model, weights[row.goal])
            model.cp.add(counted == row.reached if row.proven else counted >= row.reached)


def unproven(best: Found | None, goal: Goal) -> Found | None:
    """Return the best plan with a goal that is not proven: the time ran out before anything was found for it."""
    if best is None:
        return None
    rows = [Reached(one.name, one.of(best.inside), one.most) for one in goal.counts] or [Reached(goal.name, 0, 1)]
    return replace(best, reached=[*best.reached, *rows])


def of_less(problem: Problem, rows: Sequence[Reached], inside: Collection[str]) -> list[Reached]:
    """Return what fewer groups reach of the value, what could be reached being as it was; of the levels none is out."""
    value = sum(problem.values.get(group, 0) for group in inside)
    return [replace(row, reached=min(value, row.reached)) if row.goal == "value" else row for row in rows]


def no_better(rows: Sequence[Reached], bounds: Sequence[Reached]) -> list[Reached]:
    """Return what was reached with the bounds of another search, as far as they are tighter.

    bounds: the best that could be reached of the first goal, then of the next with that; they tell of a goal as long
    as those before it are reached.
    """
    known, found = {row.goal: row.reached for row in bounds}, []
    for place, row in enumerate(rows):
        is_known = row.goal in known and all(r.reached == known.get(r.goal) for r in rows[:place])
        found.append(replace(row, bound=max(row.reached, min(row.bound, known[row.goal]))) if is_known else row)
    return found


def _bound(goal: Goal, solver: Any) -> int:
    bound = float(solver.best_objective_bound)
    return floor(bound + SMALL) if goal.more else ceil(bound - SMALL)


def _settled(model: Model, best: Found, goal: Goal, found: int, bound: int) -> Found:
    """Hold what a goal reached, and return the plan with it."""
    rows = goal.reached(found, bound, best.inside)
    if goal.counts:
        hold(model, rows)
    else:
        model.cp.add(goal.expression >= found if goal.more else goal.expression <= found)
    return replace(best, reached=[*best.reached, *rows])


def _hint_again(model: Model, solver: Any) -> None:
    """Tell the solver its own last plan, whole."""
    model.cp.clear_hints()  # type: ignore[no-untyped-call]
    solution = solver.response_proto.solution
    hints = model.cp.proto.solution_hint
    hints.vars.extend(range(len(solution)))
    hints.values.extend(solution)

"""Names for counted people: a plan found with people who are alike counted is given to each of them by name.

Rule: counted they may be enough and named not, since nobody looks at his own work. Most often the tasks need only be
moved a little then.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from shuntbook.plan.aims import far_from, hint, hint_times
from shuntbook.plan.choice import of_choice
from shuntbook.plan.crews import assign, each_alone
from shuntbook.plan.found import DONE, Effort, Found, read, schedule_of
from shuntbook.plan.model import Model
from shuntbook.plan.problem import Placed, Problem, Reached, Schedule
from shuntbook.plan.run import decide, run
from shuntbook.plan.stages import timed_goals


def named(problem: Problem, found: Found | None) -> Schedule | None:
    """Return a plan with everyone named, None where they cannot be."""
    placed = None if found is None else assign(problem, found.times)
    return None if found is None or placed is None else schedule_of(found, placed)


def as_good(problem: Problem, found: Found, effort: Effort) -> Found | None:
    """Return a plan of the same choice that reaches what was reached without names, None where none was found.

    What comes after an end that stayed open may be worse: it was not gone for to its own end either.
    """
    chosen, numbers = of_choice(problem, found.inside)
    model = Model(chosen, each_alone(chosen))
    goals = {goal.name: goal.expression for goal in timed_goals(model, "work")}
    rows: list[Reached] = []
    held = set()
    for row in found.reached:
        # Where the time ran out, only the first goals were reached.
        is_first = all(before.proven for before in rows if before.goal in goals)
        if row.goal in goals and is_first and (row.reached or row.proven):
            model.cp.add(goals[row.goal] <= row.reached)
            held.add(row.goal)
        rows.append(row)
    hint_times(model, {place: found.times[n] for place, n in enumerate(numbers)}, ())
    solver, status, _ = decide(model, effort.deterministic_s / 2)
    if status not in DONE:
        return None
    times = {numbers[n]: time for n, time in read(model, solver, []).times.items()}
    rows = [
        replace(row, reached=solver.value(goals[row.goal])) if row.goal in goals and row.goal not in held else row
        for row in rows
    ]
    return Found(times, found.inside, rows, found.spent)


def nearest(problem: Problem, start: Schedule, effort: Effort) -> Schedule:
    """Return the plan of what `start` has that is nearest to the one last shown, `start` where none was found.

    Nearest: the fewest people changed, then the fewest pairs of one person's tasks in another order.
    """
    model = Model(problem, each_alone(problem))
    for group, literal in model.inside.items():
        model.cp.add(literal == (group in start.inside))
    hint(model, start)
    model.cp.minimize(far_from(model, problem.last))
    solver, status = run(model, effort.deterministic_s, effort.workers)
    if status not in DONE:
        return start
    found = read(model, solver, start.goals)
    return replace(schedule_of(found, _placed(found, model, solver)), proven=start.proven)


def _placed(found: Found, model: Model, solver: Any) -> list[Placed]:
    """Return the tasks of a model in which everybody is a crew of one: who does what is in it."""
    placed = []
    for number, (start, end) in found.times.items():
        counts = model.taken[number]
        who = tuple(sorted(crew[0] for crew, count in counts.items() if solver.value(count)))
        placed.append(Placed(number, start, end, who))
    return placed

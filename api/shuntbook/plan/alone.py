"""One choice by itself, the sub-problem of a plan: whether it can be done in the time, and how soon.

Rule: nothing is optional in it, so its times are mostly proven in hundredths of a second, where all choices at once
take seconds.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, replace

from shuntbook.plan.choice import of_choice
from shuntbook.plan.crews import Crew
from shuntbook.plan.found import DONE, Effort, Found, read
from shuntbook.plan.model import Model
from shuntbook.plan.problem import Problem, Reached
from shuntbook.plan.run import decide
from shuntbook.plan.stages import in_stages, timed_goals

Crews = Callable[[Problem], list[Crew]]


@dataclass(frozen=True)
class Tried:
    """What came of a choice: a plan of it, or that there certainly is none; neither where the time ran out."""

    found: Found | None
    impossible: bool
    spent: float


def tried(
    problem: Problem,
    crews: Crews,
    inside: Collection[str],
    deterministic_s: float,
    whole: Collection[str] | None = None,
) -> Tried:
    """Ask for any plan of just this choice; or of this part of a whole one, no task longer than in that."""
    chosen, numbers = of_choice(problem, inside, whole)
    model = Model(chosen, crews(chosen))
    solver, status, spent = decide(model, deterministic_s)
    if status not in DONE:
        return Tried(None, status == "INFEASIBLE", spent)
    times = {numbers[n]: time for n, time in read(model, solver, []).times.items()}
    return Tried(Found(times, frozenset(inside), [], spent), False, spent)


def early(problem: Problem, crews: Crews, begun: Found, effort: Effort, least: int = 0) -> Found | None:
    """Return the best times of the choice that `begun` is of; the work that it takes is then what it is.

    least: before when it is known not to end.
    """
    chosen, numbers = of_choice(problem, begun.inside)
    model = Model(chosen, crews(chosen))
    places = {place: begun.times[n] for place, n in enumerate(numbers) if n in begun.times}
    if least:
        model.cp.add(sum(model.finish.values()) >= least)
    goals = timed_goals(model, effort.until)
    found = in_stages(model, goals, Found(places, frozenset(), []), effort)
    if found is None:
        return None
    work = sum(task.people * task.units for task in chosen.tasks)
    rows = [*found.reached, *([Reached("work", work, work)] if effort.until == "work" else [])]
    times = {numbers[n]: time for n, time in found.times.items()}
    return replace(found, times=times, inside=begun.inside, reached=[*begun.reached, *rows])

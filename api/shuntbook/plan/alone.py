"""One choice by itself, the sub-problem of a plan: whether it can be done in the time, and how soon.

Rule: nothing is optional in it, so its times are mostly proven in hundredths of a second, where all choices at once
take seconds.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, replace

from shuntbook.plan.choice import of_choice
from shuntbook.plan.crews import Crew
from shuntbook.plan.found import DONE, Effort, Found, read, spent_by
from shuntbook.plan.model import Model
from shuntbook.plan.problem import Problem, Reached
from shuntbook.plan.run import run
from shuntbook.plan.stages import in_stages, timed_goals

Crews = Callable[[Problem], list[Crew]]


GLANCE = 0.002
"""Deterministic seconds for a choice searched as it is, before it is simplified: most are decided in less."""


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
    *,
    probing: bool = True,
) -> Tried:
    """Ask for any plan of just this choice; or of this part of a whole one, no task longer than in that.

    probing: what is impossible is mostly seen in half the time without it, where it is not seen at a glance.
    """
    chosen, numbers = of_choice(problem, inside, whole)
    model = Model(chosen, crews(chosen))
    solver, status = run(model, min(GLANCE, deterministic_s), rounds=0)
    spent = spent_by(solver)
    if status == "UNKNOWN" and deterministic_s > GLANCE:
        solver, status = run(model, deterministic_s, probing=probing)
        spent += spent_by(solver)
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

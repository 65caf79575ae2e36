"""Inspections that are one by one only because of a job that is not in the plan: they are one task, planned again.

What one inspector may do together is known only when it is known what is in the plan. So it is chosen first with all
that is to be inspected; where what made the difference is left out, it is chosen once more without that.
"""

from collections.abc import Callable
from dataclasses import replace

from shuntbook.plan.build import PlanModel
from shuntbook.plan.choose import Chosen
from shuntbook.plan.problem import Problem
from shuntbook.plan.retold import unbounded

Choosing = Callable[[frozenset[str]], tuple[PlanModel, Chosen]]
"""Builds and chooses a plan without these groups."""


def together(built: PlanModel, chosen: Chosen, choosing: Choosing) -> tuple[PlanModel, Chosen]:
    """Return a plan as it is, or the one chosen again in which inspections are one task that one inspector may do.

    Nothing is told as proven of the second: another choice of what is left out may bring others together.
    """
    whole, without = built.problem, frozenset[str]()
    while left := built.kept_apart_by(chosen.schedule.inside):
        without |= left
        built, chosen = choosing(without)
    return (built, _open(whole, chosen)) if without else (built, chosen)


def _open(whole: Problem, chosen: Chosen) -> Chosen:
    return replace(chosen, schedule=unbounded(whole, chosen.schedule), everything=unbounded(whole, chosen.everything))

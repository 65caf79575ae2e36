"""A plan's choice by itself: the problem in which just these groups are in, and whether another choice is as good.

The master of a logic-based Benders decomposition (Hooker & Ottosson, "Logic-based Benders decomposition", Mathematical
Programming 96, 2003): it holds what is in (`Selection`), the sub-problem when it is done (`Model` of one choice).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from typing import Any

from shuntbook.plan.goals import choice_goals, total
from shuntbook.plan.inside import tasks_in, units_in
from shuntbook.plan.problem import Apart, Problem, Reached, Span
from shuntbook.plan.run import run
from shuntbook.plan.selection import Selection


def worthwhile(problem: Problem, inside: Collection[str]) -> frozenset[str]:
    """Return those of the groups that count in a level or have a value: what has none is left to idle hands."""
    return frozenset(g for g in inside if g in problem.musts or problem.values.get(g))


def of_choice(problem: Problem, inside: Collection[str]) -> tuple[Problem, list[int]]:
    """Return the problem in which just these groups are in, and its tasks' numbers in the whole one.

    Nothing is left to choose, so each task has one length, and what comes before and after it is certain.
    """
    tasks = tasks_in(problem, inside)
    numbers = sorted(tasks)
    new = {number: place for place, number in enumerate(numbers)}
    fixed = tuple(
        replace(
            problem.tasks[n], units=units_in(problem, n, inside, tasks), group="", because=(), pieces=(), shorter=None
        )
        for n in numbers
    )
    chosen = Problem(
        fixed,
        problem.workers,
        problem.resources,
        tuple((new[a], new[b]) for a, b in problem.before if a in new and b in new),
        tuple(_span(span, new) for span in problem.spans if span.closes in new),
        tuple(Apart(new[a.task], _known(a.others, new)) for a in problem.apart if a.task in new),
        horizon=problem.horizon,
        last=tuple(replace(item, task=new[item.task]) for item in problem.last if item.task in new),
    )
    return chosen, numbers


def _span(span: Span, new: dict[int, int]) -> Span:
    opens = None if span.opens is None else new[span.opens]
    return replace(
        span, opens=opens, closes=new[span.closes], users=_known(span.users, new), within=_known(span.within, new)
    )


def _known(numbers: Sequence[int], new: dict[int, int]) -> tuple[int, ...]:
    return tuple(new[n] for n in numbers if n in new)


class Master:
    """What could be in a plan, asked again and again: every choice that is no good is cut off."""

    def __init__(self, problem: Problem, deterministic_s: float) -> None:
        self.selection = Selection(problem)
        self.deterministic_s = deterministic_s

    def cut(self, inside: Collection[str]) -> None:
        """Cut one choice off: of the groups that count something is in that is not in it, or the other way round."""
        model = self.selection
        counts = worthwhile(model.problem, model.problem.groups)
        model.cp.add_bool_or([~model.inside[g] if g in inside else model.inside[g] for g in sorted(counts)])

    def hold(self, reached: Sequence[Reached]) -> None:
        """Ask for choices that reach as much of each goal that counts groups."""
        rows = {row.goal: row.reached for row in reached}
        for goal in choice_goals(self.selection):
            for one in goal.counts:
                # Where the time ran out, only the first goals were reached.
                self.selection.cp.add(total(self.selection, one.weights) >= rows.get(one.name, 0))

    def another(self) -> tuple[frozenset[str] | None, bool]:
        """Return a choice that was not cut off, None where none was found; and whether that is certain."""
        self.selection.cp.clear_objective()  # type: ignore[no-untyped-call]
        solver, status = run(self.selection, self.deterministic_s)
        if status in ("OPTIMAL", "FEASIBLE"):
            return _chosen(self.selection, solver), True
        return None, status == "INFEASIBLE"

    def best(self) -> tuple[frozenset[str], list[Reached]] | None:
        """Return the best choice and what it reaches, which no plan betters; None where that is not known."""
        model, rows, inside = self.selection, [], frozenset[str]()
        whole = model.cp
        model.cp = whole.clone()
        try:
            for goal in choice_goals(model):
                model.cp.maximize(goal.expression)
                solver, status = run(model, self.deterministic_s)
                if status != "OPTIMAL":
                    return None
                inside = _chosen(model, solver)
                found = round(solver.objective_value)
                rows += goal.reached(found, found, inside)
                model.cp.add(goal.expression >= found)
        finally:
            model.cp = whole
        return worthwhile(model.problem, inside), rows


def _chosen(model: Selection, solver: Any) -> frozenset[str]:
    inside = [group for group, literal in model.inside.items() if solver.boolean_value(literal)]
    return worthwhile(model.problem, inside)


def idle_hands_matter(problem: Problem) -> bool:
    """Return whether what has no value could shorten something: then a choice is more than what counts in it."""
    idle = frozenset(problem.groups) - worthwhile(problem, problem.groups)
    with_them = tasks_in(problem, idle) - tasks_in(problem, ())
    return any(
        not with_them.isdisjoint(task.shorter.because if task.shorter else ())
        or any(piece.group in idle for piece in task.pieces)
        for task in problem.tasks
    )

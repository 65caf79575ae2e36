"""A plan's choice by itself: the problem in which just these groups are in, and whether another choice is as good.

The master of a logic-based Benders decomposition (Hooker & Ottosson, "Logic-based Benders decomposition", Mathematical
Programming 96, 2003): it holds what is in (`Selection`), the sub-problem when it is done (`Model` of one choice).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from shuntbook.plan.found import DONE
from shuntbook.plan.goals import choice_goals, total
from shuntbook.plan.inside import tasks_in, units_in
from shuntbook.plan.problem import Apart, Problem, Reached, Span, Task, exact_units
from shuntbook.plan.run import run
from shuntbook.plan.selection import Selection


def worthwhile(problem: Problem, inside: Collection[str]) -> frozenset[str]:
    """Return those of the groups that count in a level or have a value: what has none is left to idle hands."""
    return frozenset(g for g in inside if g in problem.musts or problem.values.get(g))


def counting(problem: Problem, inside: Collection[str]) -> frozenset[str]:
    """Return those of the groups that a choice is of: what is worth something, and what can shorten something."""
    return worthwhile(problem, inside).union(g for g in inside if can_shorten(problem, g))


def of_choice(
    problem: Problem, inside: Collection[str], whole: Collection[str] | None = None
) -> tuple[Problem, list[int]]:
    """Return the problem in which just these groups are in, and its tasks' numbers in the whole one.

    Nothing is left to choose, so each task has one length, and what comes before and after it is certain. whole: the
    choice that these are a part of: where a task is shorter in that, it is here, too.
    """
    long = lengths(problem, inside, whole)
    numbers = sorted(long)
    new = {number: place for place, number in enumerate(numbers)}
    fixed = tuple(
        replace(problem.tasks[n], units=long[n], group="", because=(), pieces=(), shorter=None) for n in numbers
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


def lengths(problem: Problem, inside: Collection[str], whole: Collection[str] | None = None) -> dict[int, int]:
    """Return how many units the tasks of these groups take; beside the whole of which they are a part, if shorter."""
    tasks = tasks_in(problem, inside)
    long = {n: units_in(problem, n, inside, tasks) for n in tasks}
    if whole is not None:
        all_tasks = tasks_in(problem, whole)
        long = {n: min(units, units_in(problem, n, whole, all_tasks)) for n, units in long.items()}
    return long


def _span(span: Span, new: dict[int, int]) -> Span:
    opens = None if span.opens is None else new[span.opens]
    return replace(
        span, opens=opens, closes=new[span.closes], users=_known(span.users, new), within=_known(span.within, new)
    )


def _known(numbers: Sequence[int], new: dict[int, int]) -> tuple[int, ...]:
    return tuple(new[n] for n in numbers if n in new)


class Master:
    """What could be in a plan, asked again and again: every choice that is no good is cut off.

    What has no value and can shorten nothing is in none of them: idle hands see to it later.
    """

    def __init__(self, problem: Problem, deterministic_s: float) -> None:
        self.selection = Selection(problem)
        self.deterministic_s = deterministic_s
        self.cuts: list[Mapping[int, int]] = []
        counts, worth = counting(problem, problem.groups), worthwhile(problem, problem.groups)
        self.shorten = sorted(counts - worth)
        self.last: list[int] = []
        for group in problem.groups:
            if group not in counts:
                self.selection.cp.add(self.selection.inside[group] == 0)

    def cut(self, inside: Collection[str], whole: Collection[str] | None = None) -> None:
        """Cut a choice off, and with it all that have its tasks, none of them shorter: no plan of those is sooner done.

        Leave out of such a plan what the choice has not, and it is a plan of the choice. whole: the choice of which
        these groups are the part that is impossible, with tasks no longer than they are in it.
        """
        self.cuts.append(lengths(self.selection.problem, inside, whole))
        cut_off(self.selection, self.cuts[-1])

    def set_aside(self, inside: Collection[str]) -> None:
        """Ask no more for a choice of which it stays open whether it can be done, nor for those that have its tasks."""
        cut_off(self.selection, lengths(self.selection.problem, inside))

    def hold(self, reached: Sequence[Reached]) -> None:
        """Ask for choices that reach as much of each goal that counts groups."""
        rows = {row.goal: row.reached for row in reached}
        for goal in choice_goals(self.selection):
            for one in goal.counts:
                # Where the time ran out, only the first goals were reached.
                self.selection.cp.add(total(self.selection, one.weights) >= rows.get(one.name, 0))

    def another(self) -> tuple[frozenset[str] | None, bool]:
        """Return a choice that was not cut off, None where none was found; and whether that is certain."""
        solver, status = self._fewest_idle(self.selection)
        if status in DONE:
            return _chosen(self.selection, solver), True
        return None, status == "INFEASIBLE"

    def best(self) -> tuple[frozenset[str], list[Reached]] | None:
        """Return the best choice and what it reaches, which no plan betters; None where that is not known."""
        return (self._best(self.last) if self.last else None) or self._best(())

    def _best(self, last: Sequence[int]) -> tuple[frozenset[str], list[Reached]] | None:
        """Return the best choice; last: what the best before reached of each stage, all but the last of which it keeps.

        Choices are only ever cut off, so that nothing reaches more than the best before did.
        """
        model, goals, found = self.selection, choice_goals(self.selection), [*last[:-1]]
        whole = model.cp
        model.cp = whole.clone()
        try:
            for goal, reached in zip(goals, found, strict=False):
                model.cp.add(goal.expression == reached)
            if last:
                model.cp.add(goals[-1].expression <= last[-1])
            inside: frozenset[str] = frozenset()
            for goal in goals[len(found) :]:
                model.cp.maximize(goal.expression)
                solver, status = run(model, self.deterministic_s, rounds=1)
                if status != "OPTIMAL":
                    return None
                inside = _chosen(model, solver)
                found.append(round(solver.objective_value))
                model.cp.add(goal.expression >= found[-1])
            if self.shorten:
                solver, status = self._fewest_idle(model)
                if status not in DONE:
                    return None
                inside = _chosen(model, solver)
        finally:
            model.cp = whole
        self.last = found
        pairs = zip(goals, found, strict=True)
        return inside, [row for goal, reached in pairs for row in goal.reached(reached, reached, inside)]

    def short_of(self, inside: Collection[str], bounds: Sequence[Reached]) -> list[Reached]:
        """Return what a choice reaches of each goal, where no more than in `bounds` could be reached of all of them."""
        rows: list[Reached] = []
        known = {row.goal: row.reached for row in bounds}
        for goal in choice_goals(self.selection):
            terms = list(zip(goal.counts, goal.factors, strict=True))
            is_known = all(row.proven for row in rows)
            bound = sum(factor * (known.get(one.name, one.most) if is_known else one.most) for one, factor in terms)
            rows += goal.reached(sum(factor * one.of(inside) for one, factor in terms), bound, inside)
        return rows

    def _fewest_idle(self, model: Selection) -> tuple[Any, str]:
        model.cp.minimize(sum(model.inside[group] for group in self.shorten))
        return run(model, self.deterministic_s, rounds=1)


def cut_off(model: Selection, long: Mapping[int, int]) -> None:
    """Cut off all choices that have these tasks, none of them shorter than so many units."""
    absent = [~model.present[n] for n in sorted(long) if model.present[n].index != model.always.index]
    model.cp.add_bool_or([*absent, *_shorter(model, long)])


def _shorter(model: Selection, long: Mapping[int, int]) -> Iterator[Any]:
    """Yield for each task whose length depends on the choice a literal under which it is shorter than here."""
    for number, units in sorted(long.items()):
        if not isinstance(model.size[number], int) and units > model.problem.tasks[number].shortest:
            literal = model.cp.new_bool_var("shorter")
            model.cp.add(model.size[number] < units).only_enforce_if(literal)
            yield literal


def _chosen(model: Selection, solver: Any) -> frozenset[str]:
    return frozenset(group for group, literal in model.inside.items() if solver.boolean_value(literal))


def can_shorten(problem: Problem, group: str) -> bool:
    """Return whether a task could be shorter with this group in: then it is a choice even where it has no value."""
    more = tasks_in(problem, {group}) - tasks_in(problem, ())
    return any(
        not more.isdisjoint(task.shorter.because if task.shorter else ()) or _shortens(task, group)
        for task in problem.tasks
    )


def _shortens(task: Task, group: str) -> bool:
    """Return whether pieces take less with this one as their first than they do without it."""
    further = exact_units(task.further.expected) if task.further is not None else None
    mine = [place for place, piece in enumerate(task.pieces) if piece.group == group]
    return further is not None and any(
        task.pieces[place].exact + further < later.exact for place in mine for later in task.pieces[place + 1 :]
    )

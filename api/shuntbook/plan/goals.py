"""The goals of a plan in stages: an expression of the model each, what it reaches, and what no plan could better.

The levels are one stage: so weighed that one of a level counts more than all of the levels after it, they are proven
together in the time that the first of them takes alone.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from shuntbook.plan.problem import Problem, Reached

if TYPE_CHECKING:
    from shuntbook.plan.selection import Selection

LARGE = 10**6
"""What the levels of one stage may come to at most: linear relaxations are exact to so many digits."""
Weights = Mapping[str, int]


@dataclass(frozen=True)
class Counted:
    """A goal that counts groups: what each of them counts in it, and what can be reached at most."""

    name: int | str
    weights: Weights
    most: int

    def of(self, inside: Collection[str]) -> int:
        """Return what these groups reach of it."""
        return sum(weight for group, weight in self.weights.items() if group in inside)


@dataclass(frozen=True)
class Goal:
    """One stage: an expression, and whether more of it is better.

    counts: the goals that are gone for in it, the first before the next, where it counts groups; each of them weighs
    `factors` of the expression, so much that one of it outweighs all of those after it.
    """

    name: int | str
    expression: Any
    more: bool
    counts: tuple[Counted, ...] = ()
    factors: tuple[int, ...] = ()

    def is_best(self, inside: Collection[str]) -> bool:
        """Return whether nothing better is possible than these groups."""
        return bool(self.counts) and all(one.of(inside) == one.most for one in self.counts)

    def reached(self, found: int, bound: int, inside: Collection[str]) -> list[Reached]:
        """Return what is reached of each goal in it, from what is found and the bound of the whole expression.

        With w the factors and r what is reached: of the goal k no more than (bound - sum of w_i r_i, i < k) / w_k
        is possible, as long as the goals before it are proven; nothing but its own most is known otherwise.
        """
        if not self.counts:
            return [Reached(self.name, found, bound)]
        rows: list[Reached] = []
        left = bound
        for one, factor in zip(self.counts, self.factors, strict=True):
            mine = one.of(inside)
            is_known = all(row.proven for row in rows)
            rows.append(Reached(one.name, mine, max(mine, min(one.most, left // factor)) if is_known else one.most))
            left -= factor * mine
        return rows


def choice_goals(model: Selection) -> list[Goal]:
    """Return the goals that count groups: the levels, then value."""
    problem = model.problem
    goals = [_levels(model, levels) for levels in _together(_counted(problem))]
    values = {group: problem.values.get(group, 0) for group in problem.groups if problem.values.get(group)}
    if values:
        worth = Counted("value", values, sum(values.values()))
        goals.append(Goal("value", total(model, values), True, (worth,), (1,)))
    return goals


def total(model: Selection, weights: Weights) -> Any:
    """Return the sum of what the groups that are in count."""
    return sum(weight * model.inside[group] for group, weight in weights.items())


def worth_of(problem: Problem, inside: Collection[str]) -> list[int]:
    """Return what these groups reach of each goal that counts groups, the first first: more is better."""
    value = sum(problem.values.get(group, 0) for group in inside)
    return [*(len(level.intersection(inside)) for level in problem.levels), value]


def _counted(problem: Problem) -> list[Counted]:
    """Return the levels that have groups, in their order."""
    found = []
    for place, level in enumerate(problem.levels):
        known = dict.fromkeys(sorted(level.intersection(problem.groups)), 1)
        most = problem.most[place] if place < len(problem.most) else len(known)
        found += [Counted(place, known, most)] if known else []
    return found


def _together(levels: Sequence[Counted]) -> list[list[Counted]]:
    """Return the levels in lots that one expression can hold in small whole numbers, most often one."""
    lots: list[list[Counted]] = []
    product = LARGE
    for level in levels:
        product *= len(level.weights) + 1
        if product > LARGE:
            lots.append([])
            product = len(level.weights) + 1
        lots[-1].append(level)
    return lots


def _levels(model: Selection, levels: Sequence[Counted]) -> Goal:
    """Return one goal of several levels: in the order of the last each counts more than all of those after it."""
    factors = [1]
    for level in reversed(levels[1:]):
        factors.insert(0, factors[0] * (len(level.weights) + 1))
    terms = [factor * total(model, level.weights) for level, factor in zip(levels, factors, strict=True)]
    return Goal(levels[0].name, sum(terms), True, tuple(levels), tuple(factors))

"""What is in a plan, without when: the variables of a choice, and what it has to keep whatever the times are.

Solved by itself it is a relaxation that takes hundredths of a second: no plan reaches more than it does. The model of
the whole plan (`model`) is the same with times and people added.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, lcm
from typing import Any

from shuntbook.plan.bounds import bounds_of
from shuntbook.plan.fits import FITS
from shuntbook.plan.problem import Problem, Task, exact_units


class Selection:
    """Variables of a choice.

    `inside[group]` and `present[task]` are literals, `size[task]` how many units it takes where it is in.
    """

    def __init__(self, problem: Problem) -> None:
        from ortools.sat.python import cp_model

        self.problem = problem
        self.cp = cp_model.CpModel()
        self.inside: dict[str, Any] = {group: self.cp.new_bool_var(group) for group in problem.groups}
        self.always = self.cp.new_constant(1)
        self.bounds = bounds_of(problem)
        self._ors: dict[frozenset[int], Any] = {}
        self._present: dict[int, Any] = {}
        self.present = [self._presence(n) for n in range(len(problem.tasks))]
        self.size = [self._size(task) for task in problem.tasks]
        for rule in FITS:
            rule(self)

    def _presence(self, number: int) -> Any:
        """A task is in where one that needs it is, or its group; what is of no group is always in."""
        if number not in self._present:
            task = self.problem.tasks[number]
            if task.because:
                self._present[number] = self.any([self._presence(other) for other in task.because])
            else:
                self._present[number] = self.any([self.inside[group] for group in task.groups])
        return self._present[number]

    def any(self, literals: list[Any]) -> Any:
        """Return a literal that is true where one of these is; the same for the same, always where there is none."""
        which = frozenset(literal.index for literal in literals)
        if len(which) <= 1:
            return literals[0] if literals else self.always
        if which not in self._ors:
            self._ors[which] = self.cp.new_bool_var("any")
            self.cp.add_max_equality(self._ors[which], literals)
        return self._ors[which]

    def _size(self, task: Task) -> Any:
        if task.pieces:
            return self._size_together(task)
        if task.shorter is None:
            return task.units
        less = task.units - task.shorter.units
        size = self.cp.new_int_var(min(task.units, task.shorter.units), max(task.units, task.shorter.units), "size")
        self.cp.add(size == task.units - less * self.any([self.present[n] for n in task.shorter.because]))
        return size

    def _size_together(self, task: Task) -> Any:
        """Pieces done in one go: the first that is in takes its own time, the sum is rounded up to the grid once."""
        size = self.cp.new_int_var(0, longest(task), f"size {task.name}")
        literals = [self.inside[piece.group] for piece in task.pieces]
        exact = [piece.exact for piece in task.pieces]
        if task.further is not None:
            further = exact_units(task.further.expected)
            firsts = self._firsts(literals)
            terms = [(further, literal) for literal in literals]
            terms += [(one - further, first) for one, first in zip(exact, firsts, strict=True)]
        else:
            terms = list(zip(exact, literals, strict=True))
        common = lcm(*(factor.denominator for factor, _ in terms))
        scaled = sum(int(factor * common) * literal for factor, literal in terms)
        self.cp.add(size * common >= scaled)
        self.cp.add(size * common <= scaled + common - 1)
        return size

    def _firsts(self, literals: list[Any]) -> list[Any]:
        """Return for each literal one that is true where it is the first that is true."""
        firsts = [literals[0]]
        for place in range(1, len(literals)):
            first = self.cp.new_bool_var("first")
            self.cp.add_bool_and([literals[place], *(~one for one in literals[:place])]).only_enforce_if(first)
            self.cp.add_bool_or([first, ~literals[place], *literals[:place]])
            firsts.append(first)
        return firsts


def longest(task: Task) -> int:
    """Return what the pieces of a task take at most, in units."""
    longest = sum((piece.exact for piece in task.pieces), Fraction(0))
    further = exact_units(task.further.expected) * max(0, len(task.pieces) - 1) if task.further is not None else 0
    return ceil(longest + further)

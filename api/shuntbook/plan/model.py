"""The CP-SAT model of a problem: its variables; `rules` has one function per rule, `aims` what is gone for.

People who are alike are counted, not named: a crew of three is a resource of three, as in a textbook project, and who
does what is settled once it is known when. OR-tools is imported when a model is made and not before: it costs a
quarter of a second and 87 MB.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, lcm
from typing import Any

from shuntbook.plan.bounds import bounds_of
from shuntbook.plan.crews import Crew
from shuntbook.plan.problem import Problem, Task, exact_units
from shuntbook.plan.rules import RULES


class Model:
    """Variables of a problem.

    `inside[group]` and `present[task]` are literals, `taken[task][crew]` how many of a crew are on a task, `alone` an
    interval of that task for a crew where one of them at most can be on it.
    """

    def __init__(self, problem: Problem, crews: Sequence[Crew]) -> None:
        from ortools.sat.python import cp_model

        self.problem = problem
        self.crews = crews
        self.cp = cp_model.CpModel()
        self.inside: dict[str, Any] = {group: self.cp.new_bool_var(group) for group in problem.groups}
        self.always = self.cp.new_constant(1)
        self.bounds = bounds_of(problem)
        self._ors: dict[frozenset[int], Any] = {}
        self._present: dict[int, Any] = {}
        numbers = range(len(problem.tasks))
        self.present = [self._presence(n) for n in numbers]
        self.start = [self._start(n) for n in numbers]
        self.size = [self._size(task) for task in problem.tasks]
        self.end = [self._end(n) for n in numbers]
        self.interval = [
            self.cp.new_optional_interval_var(self.start[n], self.size[n], self.end[n], self.present[n], f"{n}")
            for n in numbers
        ]
        self.taken = [self._taken(n) for n in numbers]
        self.finish = {car: self.cp.new_int_var(0, problem.horizon, f"finish {car}") for car in problem.cars}
        for rule in RULES:
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

    def _start(self, number: int) -> Any:
        task = self.problem.tasks[number]
        if task.fixed is not None:
            return self.cp.new_constant(task.fixed)
        latest = max(task.earliest, self.bounds.ends(self.problem, number) - task.shortest)
        # What has no time left is not in, and may start anywhere.
        return self.cp.new_int_var(min(self.bounds.heads[number], latest), latest, f"start {task.name}")

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
        size = self.cp.new_int_var(0, _longest(task), f"size {task.name}")
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

    def _end(self, number: int) -> Any:
        if isinstance(self.size[number], int):
            return self.start[number] + self.size[number]
        # What is not in may end anywhere: the longer of its two lengths need not fit.
        task = self.problem.tasks[number]
        longest = max(task.units, _longest(task))
        latest = max(self.problem.latest(number), task.earliest, task.fixed or 0) + longest
        end = self.cp.new_int_var(0, latest, f"end {number}")
        self.cp.add(end == self.start[number] + self.size[number])
        return end

    def _taken(self, number: int) -> dict[Crew, Any]:
        """How many of each crew a task takes: a constant where only one crew may, a literal where only one can be."""
        task = self.problem.tasks[number]
        crews = [crew for crew in self.crews if task.people and crew[0] in task.may]
        if len(crews) == 1:
            return {crews[0]: task.people * self.present[number]}
        most = {crew: min(len(crew), task.people) for crew in crews}
        return {
            crew: self.cp.new_bool_var(f"{n} {number}") if most[crew] == 1 else self.cp.new_int_var(0, most[crew], "")
            for n, crew in enumerate(crews)
        }


def _longest(task: Task) -> int:
    """Return what the pieces of a task take at most, in units."""
    longest = sum((piece.exact for piece in task.pieces), Fraction(0))
    further = exact_units(task.further.expected) * max(0, len(task.pieces) - 1) if task.further is not None else 0
    return ceil(longest + further)

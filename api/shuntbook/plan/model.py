"""The CP-SAT model of a problem: a choice with times and people; `rules` has one function per rule, `goals` and `aims`
what is gone for.

People who are alike are counted, not named: a crew of three is a resource of three, as in a textbook project, and who
does what is settled once it is known when. OR-tools is imported when a model is made and not before: it costs a
quarter of a second and 87 MB.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shuntbook.plan.crews import Crew
from shuntbook.plan.problem import Problem
from shuntbook.plan.rules import RULES
from shuntbook.plan.selection import Selection, longest


class Model(Selection):
    """Variables of a plan: beside those of its choice a start and an end for each task.

    `taken[task][crew]` is how many of a crew are on a task.
    """

    def __init__(self, problem: Problem, crews: Sequence[Crew]) -> None:
        super().__init__(problem)
        self.crews = crews
        numbers = range(len(problem.tasks))
        self.start = [self._start(n) for n in numbers]
        self.end = [self._end(n) for n in numbers]
        self.interval = [
            self.cp.new_optional_interval_var(self.start[n], self.size[n], self.end[n], self.present[n], f"{n}")
            for n in numbers
        ]
        self.taken = [self._taken(n) for n in numbers]
        self.finish = {car: self.cp.new_int_var(0, problem.horizon, f"finish {car}") for car in problem.cars}
        for rule in RULES:
            rule(self)

    def _start(self, number: int) -> Any:
        task = self.problem.tasks[number]
        if task.fixed is not None:
            return self.cp.new_constant(task.fixed)
        latest = max(task.earliest, self.bounds.ends(self.problem, number) - task.shortest)
        # What has no time left is not in, and may start anywhere.
        return self.cp.new_int_var(min(self.bounds.heads[number], latest), latest, f"start {task.name}")

    def _end(self, number: int) -> Any:
        if isinstance(self.size[number], int):
            return self.start[number] + self.size[number]
        # What is not in may end anywhere: the longer of its two lengths need not fit.
        task = self.problem.tasks[number]
        most = max(task.units, longest(task))
        latest = max(self.problem.latest(number), task.earliest, task.fixed or 0) + most
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

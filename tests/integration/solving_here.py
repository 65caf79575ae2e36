"""A solver without a process of its own, for tests of what is asked and not of how good a plan is."""

from dataclasses import replace

from shuntbook.plan.problem import Problem, Schedule
from shuntbook.plan.solve import Effort, solve
from shuntbook.web.solver import Solver, SolverGone

ENOUGH = Effort(deterministic_s=0.25)
"""So that a plan of a whole service is the solver's."""


class Here(Solver):
    """Solves in this process and with less effort: that the other one is asked, killed and buried is tested elsewhere
    (`test_solver.py`, `tests/faults`). What minutes and hands buy, asked after the plan, is not worked out.
    """

    def __init__(self, effort: Effort = ENOUGH) -> None:
        super().__init__()
        self.effort_each = effort

    def __call__(self, problem: Problem, start: Schedule | None, effort: Effort) -> Schedule | None:
        if self._stopped:
            raise SolverGone("the test is over")
        if effort.until != "work":
            return None
        return solve(problem, start, replace(effort, deterministic_s=self.effort_each.deterministic_s))

"""The solver's process when planning stops: whatever it was at, nothing of it is left running."""

import subprocess
import sys
import threading

import pytest

from shuntbook.plan.problem import Problem, Schedule, Task
from shuntbook.plan.solve import Effort
from shuntbook.web import solver

DEADLINE_S = 300
"""Guards against hanging; judges no speed."""
LISTENS = [sys.executable, "-S", "-c", "import sys; sys.stdin.buffer.read()"]
"""Takes what it is asked and never answers, as a solver at a long plan."""


def test_a_solver_that_is_being_started_while_planning_stops_does_not_outlive_it(monkeypatch):
    stopped = solver.Solver()
    stopping = threading.Thread(target=stopped.stop)
    started: list[subprocess.Popen[bytes]] = []
    gone: list[solver.SolverGone] = []

    def start() -> subprocess.Popen[bytes]:
        stopping.start()
        # Long enough for a stop that does not wait for the start; one that does goes on once this returns.
        stopping.join(0.2)
        started.append(subprocess.Popen(LISTENS, stdin=subprocess.PIPE, stdout=subprocess.PIPE))
        return started[0]

    def ask() -> None:
        with pytest.raises(solver.SolverGone) as raised:
            stopped(Problem(()), None, Effort())
        gone.append(raised.value)

    monkeypatch.setattr(solver, "_started", start)
    asking = threading.Thread(target=ask, daemon=True)
    asking.start()
    while not started:
        asking.join(0.01)
    stopping.join(DEADLINE_S)
    try:
        assert started[0].poll() is not None, "it was left running"
        asking.join(DEADLINE_S)
        assert len(gone) == 1
    finally:
        started[0].kill()
        started[0].communicate()


def test_a_solver_that_was_stopped_starts_nothing(monkeypatch):
    monkeypatch.setattr(solver, "_started", lambda: pytest.fail("it started a process"))
    stopped = solver.Solver()
    stopped.stop()
    with pytest.raises(solver.SolverGone):
        stopped(Problem(()), None, Effort())


def test_what_was_answered_is_not_solved_again(monkeypatch):
    asked: list[solver.Question] = []
    answer = Schedule((), True, "solver", frozenset())

    def solves(_: object, question: solver.Question) -> Schedule:
        asked.append(question)
        return answer

    monkeypatch.setattr(solver.Solver, "_solved", solves)
    one = solver.Solver()
    two_units, equal = (Problem((Task("look", "inspect", 2),)) for _ in range(2))
    assert one(two_units, None, Effort()) is answer
    assert one(equal, None, Effort()) is answer
    assert len(asked) == 1
    # Anything that differs is another question.
    one(two_units, None, Effort(until="finish"))
    one(Problem((Task("look", "inspect", 3),)), None, Effort())
    one(two_units, answer, Effort())
    assert len(asked) == 4
    assert len(one._answered) <= solver.ANSWERED

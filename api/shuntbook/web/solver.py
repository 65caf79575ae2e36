"""Asks the solver in a process of its own: killed or fallen over, it costs its plan, not the server."""

import pickle
import subprocess
import sys
import threading
from collections import deque

from shuntbook.plan.problem import Problem, Schedule
from shuntbook.plan.solve import Effort

Process = subprocess.Popen[bytes]
Question = tuple[Problem, Schedule | None, Effort]

ANSWERED = 64
"""How many answers are kept: a plan asks a dozen questions, and the one after a tap asks most of them again."""


class SolverGone(Exception):
    """The solver's process did not live to say: it was killed, ran out of memory, or could not start."""


class Solver:
    """Solves in a process that is started when it is first needed, and again where it was killed. One at a time."""

    def __init__(self) -> None:
        self._process: Process | None = None
        self._turn = threading.Lock()
        # Held while a process is started, so that stopping sees it or keeps it from starting.
        self._starting = threading.Lock()
        self._stopped = False
        self._answered: deque[tuple[Question, Schedule | None]] = deque(maxlen=ANSWERED)

    def __call__(self, problem: Problem, start: Schedule | None, effort: Effort) -> Schedule | None:
        """Return what `solve` returns; a question that was answered is not solved again. Errors: SolverGone."""
        question = (problem, start, effort)
        with self._turn:
            for asked, answer in self._answered:
                if asked == question:
                    return answer
            found = self._solved(question)
            self._answered.appendleft((question, found))
            return found

    def _solved(self, question: Question) -> Schedule | None:
        process = self._at_work()
        try:
            return _ask(process, question)
        except (OSError, EOFError, pickle.UnpicklingError) as error:
            self._end(process)
            raise SolverGone(f"the solver's process ended: {error or type(error).__name__}") from error

    @property
    def process_id(self) -> int | None:
        """The process at work, None where there is none."""
        return None if self._process is None else self._process.pid

    def stop(self) -> None:
        """End the process without waiting for a plan that nobody will read."""
        with self._starting:
            self._stopped = True
            process = self._process
        if process is not None:
            process.kill()
            # Whoever waits for it hears at once that it is gone, and gives his turn up.
            with self._turn:
                if self._process is not None:
                    self._end(self._process)

    def _at_work(self) -> Process:
        """Return the process, started where there is none. Errors: SolverGone."""
        with self._starting:
            if self._stopped:
                raise SolverGone("planning has stopped")
            self._process = self._alive() or _started()
            return self._process

    def _alive(self) -> Process | None:
        """Return the process, None where it was killed since it was asked last: no plan was lost with it."""
        if self._process is not None and self._process.poll() is not None:
            self._end(self._process)
        return self._process

    def _end(self, process: Process) -> None:
        process.kill()
        process.communicate()
        self._process = None


def _started() -> Process:
    return subprocess.Popen(
        [sys.executable, "-m", "shuntbook.web.solver_process"], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )


def _ask(process: Process, question: Question) -> Schedule | None:
    if process.stdin is None or process.stdout is None:
        raise OSError("the solver's process has no pipes")
    pickle.dump(question, process.stdin)
    process.stdin.flush()
    found: Schedule | None = pickle.load(process.stdout)  # noqa: S301 - from the process that was just asked
    return found

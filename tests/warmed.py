"""Servers forked from a process that has imported the whole program once: each start spares the second that this takes.

What is forked runs the command's own main function with the words given, as `python -m shuntbook.cli` does; granian
forks its worker from it as it always does. `integration/process.py` keeps the installed command, started from nothing.
"""

import gc
import multiprocessing
import os
import signal
import sys
import time
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from multiprocessing.context import ForkServerProcess
from pathlib import Path
from typing import Protocol

import psutil

_CONTEXT = multiprocessing.get_context("forkserver")
# Imported by the process that is forked from: by name, since it knows nothing of the folder of the tests.
_CONTEXT.set_forkserver_preload(["shuntbook.commands.serve", "shuntbook.app"])

SHARE_OF_EFFORT = 1 / 30
"""How much of its usual effort the solver of such a server has: tests of servers judge no plan by how good it is.

With a tenth of it, some plans are none of the solver's: it finds nothing better than what was made at once.
"""


class Started(Protocol):
    """A process that can be waited for and told to end, as `subprocess.Popen` has it."""

    pid: int

    def poll(self) -> int | None: ...
    def wait(self, timeout: float | None = None) -> int: ...
    def send_signal(self, sig: int) -> None: ...
    def kill(self) -> None: ...


class Forked:
    """A process running `shuntbook WORDS…`; what is not named of its output goes nowhere."""

    def __init__(self, *words: object, out: Path | None = None, err: Path | None = None) -> None:
        said = [str(one or os.devnull) for one in (out, err)]
        line = ["shuntbook", *map(str, words)]
        # A daemon to this process alone: what a test leaves behind ends with it.
        self._process: ForkServerProcess = _CONTEXT.Process(
            target=_run, args=(line, dict(os.environ), str(Path.cwd()), said), daemon=True
        )
        self._process.start()
        assert self._process.pid is not None
        self.pid = self._process.pid

    def poll(self) -> int | None:
        """Return its exit status, None while it runs; minus the signal's number where one ended it."""
        return self._process.exitcode

    def wait(self, timeout: float | None = None) -> int:
        """Return its exit status once it has ended. Errors: TimeoutError."""
        self._process.join(timeout)
        status = self._process.exitcode
        if status is None:
            raise TimeoutError(f"process {self.pid} has not ended within {timeout} s")
        return status

    def send_signal(self, sig: int) -> None:
        """Send it a signal; nothing where it has ended."""
        if self.poll() is None:
            with suppress(ProcessLookupError):
                os.kill(self.pid, sig)

    def kill(self) -> None:
        """Kill it, and not what it started."""
        self.send_signal(signal.SIGKILL)


def end(process: Started, patience_s: float = 60) -> None:
    """Kill a process and all that it started, and wait until it has ended."""
    family: list[psutil.Process] = []
    with suppress(psutil.NoSuchProcess):
        family = psutil.Process(process.pid).children(recursive=True)
    process.kill()
    for member in family:
        with suppress(psutil.NoSuchProcess):
            member.kill()
    process.wait(patience_s)
    until = time.monotonic() + patience_s
    # Dead, not buried: what was left without a parent waits for the machine's first process to do that.
    while not all(map(is_dead, family)):
        assert time.monotonic() < until, f"still running: {family}"
        time.sleep(0.005)


def is_dead(process: psutil.Process) -> bool:
    """Return whether a process runs no more, gone or not yet buried."""
    with suppress(psutil.NoSuchProcess):
        return not process.is_running() or process.status() == psutil.STATUS_ZOMBIE
    return True


def _run(line: list[str], environment: Mapping[str, str], where: str, said: list[str]) -> None:
    """Become the command. In the forked process."""
    # What was imported before stays: looked through for garbage, its pages would be copied for each server.
    gc.freeze()
    for number, name in enumerate(said, start=1):
        opened = os.open(name, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o644)
        os.dup2(opened, number)
        os.close(opened)
    os.environ.clear()
    os.environ.update(environment)
    os.chdir(where)
    # As in a process of its own: it may start a worker, by the way that is this Python's first choice.
    multiprocessing.current_process().daemon = False
    multiprocessing.set_start_method(multiprocessing.get_all_start_methods()[0], force=True)
    sys.argv = line
    _spare_the_solver()
    from shuntbook.cli import main

    main()


def _spare_the_solver() -> None:
    """Have this process, and those that it forks, ask for quick plans, and for one in the place of a dozen."""
    from shuntbook.plan.context import PlanContext
    from shuntbook.plan.problem import Problem, Schedule
    from shuntbook.plan.solve import Effort
    from shuntbook.web.solver import Solver

    ask = Solver.__call__

    def ask_for_less(self: Solver, problem: Problem, start: Schedule | None, effort: Effort) -> Schedule | None:
        return ask(self, problem, start, replace(effort, deterministic_s=effort.deterministic_s * SHARE_OF_EFFORT))

    def any_chance_unless_asked(self: PlanContext) -> float:
        return self.wish.on_time_percent or 0.0

    Solver.__call__ = ask_for_less  # type: ignore[method-assign]
    # What is done for its value is looked for again and again, until the car is likely enough to be out in time.
    PlanContext.percent = property(any_chance_unless_asked)  # type: ignore[assignment, method-assign]

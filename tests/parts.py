"""Writes down what a run of pytest took, for the end of `.ci/run`: only where SHUNTBOOK_PARTS names a folder.

Of each test the seconds that passed, and those of a processor: of this process and of all that it started, browsers and
servers among them. What others of this machine do lengthens the first alone.
"""

import json
import os
import time
from collections.abc import Generator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import psutil
import pytest

PARTS = "SHUNTBOOK_PARTS"
_BEGAN = time.time()
_CPU = "cpu"
_seconds: dict[str, float] = {}
_cpu: dict[str, float] = {}
_outcomes: dict[str, str] = {}


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Give each report of a test what its phase took of a processor: after a teardown, its browser is gone unheard."""
    report = yield
    if os.environ.get(PARTS):
        report.user_properties.append((_CPU, _spent()))
    return report


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    """Add a phase of a test to its seconds; what is worse than passed stays."""
    name = report.nodeid
    _seconds[name] = _seconds.get(name, 0.0) + report.duration
    spent = (float(str(seconds)) for said, seconds in report.user_properties if said == _CPU)
    _cpu[name] = _cpu.get(name, 0.0) + sum(spent)
    if report.outcome != "passed" or name not in _outcomes:
        _outcomes[name] = report.outcome


def write_part(session: pytest.Session) -> None:
    """Write the part of this run, named by its process; the workers of a distributed run leave that to their head."""
    folder = os.environ.get(PARTS)
    if not folder or hasattr(session.config, "workerinput"):
        return
    part = {
        "part": " ".join(["pytest", *session.config.invocation_params.args]),
        "seconds": time.time() - _BEGAN,
        "tests": [[name, _outcomes[name], seconds, _cpu[name]] for name, seconds in _seconds.items()],
    }
    Path(folder, f"pytest-{os.getpid()}.json").write_text(json.dumps(part))


@dataclass(frozen=True)
class Account:
    """What a process has taken of a processor, in seconds, and what its children had that it waited for."""

    parent: int
    own: float
    buried: float


_before: dict[int, Account] = {}


def _spent() -> float:
    """Return what this process and its descendants have taken since it was asked last."""
    now = _tree()
    spent = spent_between(_before, now)
    _before.clear()
    _before.update(now)
    return spent


def spent_between(before: Mapping[int, Account], now: Mapping[int, Account]) -> float:
    """Return the seconds that a tree of processes took from one look to the other.

    What ended meanwhile is in its parent's account if the parent waited for it; else the end of it is not known.
    """
    known = dict.fromkeys(now, 0.0)
    for process, account in before.items():
        heir = process
        while heir in before and heir not in now:
            heir = before[heir].parent
        if process not in now and heir in known:
            known[heir] += account.own + account.buried
    spent = 0.0
    for process, account in now.items():
        was = before.get(process, Account(account.parent, 0.0, 0.0))
        spent += account.own - was.own + max(0.0, account.buried - was.buried - known[process])
    return spent


def _tree() -> dict[int, Account]:
    me = psutil.Process()
    found: dict[int, Account] = {}
    for process in (me, *me.children(recursive=True)):
        with suppress(psutil.NoSuchProcess):
            took = process.cpu_times()
            buried = took.children_user + took.children_system
            found[process.pid] = Account(process.ppid(), took.user + took.system, buried)
    return found

"""Writes down what a run of pytest took, for the end of `.ci/run`: only where SHUNTBOOK_PARTS names a folder."""

import json
import os
import time
from pathlib import Path

import pytest

PARTS = "SHUNTBOOK_PARTS"
_BEGAN = time.time()
_seconds: dict[str, float] = {}
_outcomes: dict[str, str] = {}


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    """Add a phase of a test to its seconds; what is worse than passed stays."""
    name = report.nodeid
    _seconds[name] = _seconds.get(name, 0.0) + report.duration
    if report.outcome != "passed" or name not in _outcomes:
        _outcomes[name] = report.outcome


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Write the part of this run, named by its process; the workers of a distributed run leave that to their head."""
    folder = os.environ.get(PARTS)
    if folder is None or hasattr(session.config, "workerinput"):
        return
    part = {
        "part": " ".join(["pytest", *session.config.invocation_params.args]),
        "seconds": time.time() - _BEGAN,
        "tests": [[name, _outcomes[name], seconds] for name, seconds in _seconds.items()],
    }
    Path(folder, f"pytest-{os.getpid()}.json").write_text(json.dumps(part))

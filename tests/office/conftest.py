"""Tests with LibreOffice are of the longer run; where it is not here, one line at the run's end says so."""

from pathlib import Path

import pytest
from browsers import OFFICE, PACKAGES, missing

from leaving_out import leave_out
from longer import is_longer

LEFT_OUT = pytest.StashKey[int]()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave this folder to the longer run, and out of it where the program is not here."""
    here = [item for item in items if Path(__file__).parent in item.path.parents]
    lacking = is_longer() and missing(OFFICE)
    config.stash[LEFT_OUT] = len(here) if lacking else 0
    if not is_longer() or lacking:
        leave_out(config, items, here)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say in one line how many tests were left out."""
    count = terminalreporter.config.stash.get(LEFT_OUT, 0)
    if count:
        needed = ", ".join(PACKAGES[one] for one in OFFICE)
        terminalreporter.write_line(f"spreadsheets: {count} tests left out, not here: soffice (Debian: {needed})")

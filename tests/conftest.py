"""Fixtures that several kinds of tests share."""

import gc
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Playwright, sync_playwright

from leaving_out import call_good, leave_out
from longer import is_longer
from making import Pen
from parts import (  # noqa: F401  # hooks, found by their names
    pytest_runtest_logreport,
    pytest_runtest_makereport,
    write_part,
)
from shuntbook.setup.folder import Setup
from small_event import small_setup

# A short run goes through the same examples each time, so that none of them fails by chance; a long one looks for more.
# Neither judges how long an example takes, or its making: that says something about the machine.
UNTIMED = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("short", UNTIMED, derandomize=True, database=None)
settings.register_profile("longer", UNTIMED, print_blob=True)
settings.load_profile("longer" if is_longer() else "short")


LONGEST = (
    "browser/test_screens.py",
    "faults/test_planning.py",
    "reader/test_story.py",
    "browser/test_crew.py",
    "integration/test_planning.py",
    "browser/test_plan.py",
    "browser/test_people.py",
    "faults/test_disk.py",
    "faults/test_kills.py",
)
SLOW_FIRST = ("webkit", "browser", "faults", "simulator", "integration")
"""Processes take a file at a time: with the long ones first, none is left alone with one at the end."""


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave what is marked `longer` to the longer run; begin with the files that take longest."""
    later = [] if is_longer() else [item for item in items if item.get_closest_marker("longer")]
    leave_out(config, items, later)
    items.sort(key=_turn)


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Judge a run without a test, and write what its tests took."""
    call_good(session)
    write_part(session)


def pytest_collection_finish() -> None:
    """Have what was imported for the tests looked through by no collection of garbage: all of it stays to the end."""
    gc.freeze()


def _turn(item: pytest.Item) -> int:
    folder = item.path.parent.name
    named = f"{folder}/{item.path.name}"
    if named in LONGEST:
        return LONGEST.index(named)
    return len(LONGEST) + (SLOW_FIRST.index(folder) if folder in SLOW_FIRST else len(SLOW_FIRST))


@pytest.fixture
def setup() -> Setup:
    """The small event's set-up."""
    return small_setup()


@pytest.fixture
def pen() -> Pen:
    """A pen that writes entries of the small event, car 41."""
    return Pen("small-2026")


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """What drives the browsers; a process can have one."""
    with sync_playwright() as started:
        yield started

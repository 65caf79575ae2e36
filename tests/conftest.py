"""Fixtures that several kinds of tests share."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Playwright, sync_playwright

from making import Pen
from parts import pytest_runtest_logreport, pytest_sessionfinish  # noqa: F401  # hooks, found by their names
from shuntbook.setup.folder import Setup
from small_event import small_setup


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

"""Fixtures that unit and integration tests share."""

import pytest

from making import Pen
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

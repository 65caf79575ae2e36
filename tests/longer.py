"""How much of what is alike a test run goes through: a share of it each time, all of it in `make check`."""

import os
from collections.abc import Sequence
from typing import TypeVar

LONGER = "SHUNTBOOK_LONGER"
Case = TypeVar("Case")


def some(cases: Sequence[Case], every: int) -> list[Case]:
    """Return every so-many-th of cases that are alike; all where the environment asks for the longer run."""
    return list(cases) if os.environ.get(LONGER) else list(cases[::every])

"""How much of what is alike a test run goes through: a share of it each time, all of it in `make check`.

SHUNTBOOK_LONGER=1 asks for all of it; random examples are other ones each time then (`conftest.py`).
"""

import os
from collections.abc import Iterable, Sequence
from typing import TypeVar

LONGER = "SHUNTBOOK_LONGER"
Case = TypeVar("Case")
Other = TypeVar("Other")


def is_longer() -> bool:
    """Return whether the environment asks for the longer run."""
    return bool(os.environ.get(LONGER))


def some(cases: Sequence[Case], every: int) -> list[Case]:
    """Return every so-many-th of cases that are alike; all where the environment asks for the longer run."""
    return list(cases) if is_longer() else list(cases[::every])


def in_turn(cases: Iterable[Case], beside: Iterable[Other]) -> list[tuple[Case, Other]]:
    """Return each case with one of the others, which take turns; in the longer run with each of them."""
    others = list(beside)
    if is_longer():
        return [(case, other) for case in cases for other in others]
    return [(case, others[place % len(others)]) for place, case in enumerate(cases)]


def times(short: int, long: int) -> int:
    """Return how many random examples to go through in this run."""
    return long if is_longer() else short

"""The queue that a phone works out is the server's, byte for byte: `make differential` compares many more folders."""

import pytest

import two_hearts
from longer import times

FOLDERS = times(15, 150)


@pytest.fixture(scope="module")
def outcome() -> two_hearts.Outcome:
    """One run over seeds that `make differential` does not begin with."""
    return two_hearts.compare(range(10_000, 10_000 + FOLDERS))


def test_phone_and_server_reckon_the_same_queue(outcome: two_hearts.Outcome) -> None:
    assert outcome.differences == []


def test_the_folders_are_worth_the_comparison(outcome: two_hearts.Outcome) -> None:
    assert (outcome.folders, outcome.queues) == (FOLDERS, 3 * FOLDERS)
    assert outcome.entries > 33 * FOLDERS

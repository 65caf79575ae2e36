"""The yard for every fault's test, and the table at the end of a run."""

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

# The server as a process and phones as real browsers are those of the browser tests.
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from . import tally
from .yard import Yard, prepare


@pytest.fixture(scope="session")
def prepared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder that yards get copies of."""
    return prepare(tmp_path_factory.mktemp("prepared"))


@pytest.fixture
def make_yard(prepared: Path, tmp_path: Path) -> Iterator[Callable[..., Yard]]:
    """Makes yards of this test's own, whose servers are not started yet."""
    yards: list[Yard] = []

    def make(data: Path | None = None) -> Yard:
        yards.append(Yard(tmp_path / f"yard-{len(yards)}", prepared, data))
        return yards[-1]

    yield make
    for made in yards:
        made.close()


@pytest.fixture(scope="module")
def house(prepared: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Yard]:
    made = Yard(tmp_path_factory.mktemp("yard"), prepared)
    yield made
    made.close()


@pytest.fixture
def yard(house: Yard) -> Yard:
    """A yard whose server and log all tests of a module share, with phones of this test's own."""
    house.anew()
    return house


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the table after a long run."""
    if tally.lines and tally.is_long():
        terminalreporter.section("faults")
        terminalreporter.write_line(tally.table())

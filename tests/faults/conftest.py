"""The yard for every fault's test, and the table at the end of a run."""

import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any, Literal

import pytest

# The server as a process and phones as real browsers are those of the browser tests.
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from phones import MOTION, SIZE, Phone, PocketPhone, start_browser
from playwright.sync_api import Browser, Playwright

from . import tally
from .pocket import Pocket
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
    house.again()
    return house


@pytest.fixture(scope="session")
def chromium(playwright: Playwright) -> Iterator[Browser]:
    """One Chromium for the phones that are neither killed nor paused."""
    started = start_browser(playwright)
    yield started
    started.close()


@pytest.fixture
def pocket(yard: Yard, chromium: Browser) -> Iterator[Callable[..., Pocket]]:
    """Makes real phones in the shared Chromium, each a context of its own that shares nothing with another.

    They keep the app itself only where asked to, for tests that cut off the app's files, too: it costs more than the
    rest of joining does.
    """
    phones: list[Phone] = []

    def make(person: str = "p-bodo", car: str = "41", *, keeps_app: bool = False, **options: Any) -> Pocket:
        workers: Literal["allow", "block"] = "allow" if keeps_app else "block"
        context = chromium.new_context(viewport=SIZE, service_workers=workers, reduced_motion=MOTION, **options)
        phones.append(Phone(context, keeps_app=keeps_app))
        return Pocket(yard, phones[-1], person, car)

    yield make
    close(phones)


@pytest.fixture
def own_browser(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[..., PocketPhone]]:
    """Makes phones with a Chromium and a profile of their own, to be killed, paused or damaged; see `pocket`."""
    phones: list[PocketPhone] = []

    def make(profile: Path | None = None, *, keeps_app: bool = False) -> PocketPhone:
        where = profile or tmp_path / f"profile-{len(phones)}"
        phones.append(PocketPhone(playwright, where, keeps_app=keeps_app))
        return phones[-1]

    yield make
    close(phones)


def close(phones: Sequence[Phone]) -> None:
    """Close phones; none may have complained (script errors, content policy)."""
    for made in phones:
        made.close()
    assert [complaint for made in phones for complaint in made.complaints] == []


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the table after a long run."""
    if tally.lines and tally.is_long():
        terminalreporter.section("faults")
        for table in (tally.table(), *tally.tables):
            terminalreporter.write_line(table)

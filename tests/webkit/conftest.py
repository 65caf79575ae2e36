"""A server, phones with WebKit, and one line at the end where this machine has no WebKit to drive.

Deadlines are generous: they guard against hanging, they judge no speed.
"""

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

# The server as a process is that of the browser tests.
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from browsers import WEBKIT, missing
from server import Server, without_entries

from camera_photo import take_photo
from leaving_out import leave_out

from .phone import WebKitPhone
from .screen import Screen, start_screen
from .trusting import Trust, cannot_trust, trusted

CARS = [str(number) for number in range(51, 61)]
"""One for each story, so that none reads another's."""
WORN_OUT = '[[dated]]\ncar = "59"\nitem = "Fire extinguisher"\nexpires = 2026-06-30\n'
SIGNED = '[trust]\nsignatures = "on"\n'

LEFT_OUT = pytest.StashKey[list[str]]()

Pockets = Callable[[str, str], WebKitPhone]
"""(person, car) → that person's phone, which has joined and shows the car."""


def left_out(item: pytest.Item) -> str | None:
    """Return why this machine can't run a test of this folder, or None where it can."""
    if lacking := missing(WEBKIT):
        return f"not here: {', '.join(lacking)} (Debian: {', '.join(WEBKIT[one] for one in lacking)})"
    return cannot_trust() if "trust" in getattr(item, "fixturenames", ()) else None


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what this machine can't run; the end of the run says so."""
    here = Path(__file__).parent
    whys = {item: why for item in items if here in item.path.parents and (why := left_out(item))}
    config.stash[LEFT_OUT] = [*whys.values()]
    leave_out(config, items, whys)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say in one line for each reason how many tests were left out."""
    whys = terminalreporter.config.stash.get(LEFT_OUT, [])
    for why in dict.fromkeys(whys):
        terminalreporter.write_line(f"WebKit: left out {whys.count(why)} tests, {why}", yellow=True)


@pytest.fixture
def trust() -> Trust:
    """Has this machine trust a CA for as long as a block lasts."""
    return trusted


@pytest.fixture(scope="session")
def screen() -> Iterator[Screen]:
    started = start_screen()
    yield started
    started.close()


@pytest.fixture(scope="session")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    folder = tmp_path_factory.mktemp("team")
    server = without_entries(folder / "data", folder / "event", CARS, tables=f"\n{WORN_OUT}\n{SIGNED}")
    yield server
    server.stop()


@pytest.fixture
def team(house: Server) -> Server:
    """A server that takes signed entries alone, up whatever the test before did to it."""
    if house.process is None:
        house.start()
    return house


@pytest.fixture(scope="session")
def phones() -> Iterator[dict[str, WebKitPhone]]:
    made: dict[str, WebKitPhone] = {}
    yield made
    for phone in made.values():
        phone.kill()


@pytest.fixture
def pocket(
    team: Server, phones: dict[str, WebKitPhone], screen: Screen, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Pockets]:
    """Each person's phone; one browser lasts for all tests. No page may have complained at the end of a test."""

    def make(person: str, car: str) -> WebKitPhone:
        if person not in phones:
            phones[person] = WebKitPhone(tmp_path_factory.mktemp(person), screen)
            phones[person].join(team, person, car)
        phone = phones[person]
        phone.go(f"{team.url}/#/me")
        phone.take_car(car)
        return phone

    yield make
    assert {person: said for person, phone in phones.items() if (said := phone.hear())} == {}


@pytest.fixture(scope="session")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A photo of 12 megapixels, turned by EXIF, with GPS in it."""
    return take_photo(tmp_path_factory.mktemp("photo") / "hit.jpg")

"""A real server process and phones in a real browser for the browser tests.

Deadlines are generous: they guard against hanging, they judge no speed.
"""

from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Literal

import pytest
from crew import Crew, Member
from of_0_1 import TODAY, MakePhone, OldServer
from phones import MOTION, SIZE, Phone, PocketPhone, start_browser
from playwright.sync_api import Browser, Playwright
from selecting import pytest_collection_modifyitems, pytest_terminal_summary
from server import Server, running, with_sample, without_entries
from signed import SIGNED, sample_with

__all__ = ["pytest_collection_modifyitems", "pytest_terminal_summary"]

import release_0_1_0
from camera_photo import take_photo

# What it asserts is shown in full when it fails, as a test's own.
pytest.register_assert_rewrite("looking", "cameras")


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the whole sample event."""
    yield from running(with_sample(tmp_path / "data"))


@pytest.fixture
def signed_server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the whole sample event, signatures demanded."""
    yield from running(sample_with(tmp_path / "data", SIGNED))


@pytest.fixture
def empty_server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the sample event's set-up and no entry yet."""
    yield from running(without_entries(tmp_path / "data", tmp_path / "event", []))


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[..., PocketPhone]]:
    """Makes phones by name; at the end none may have complained (script errors, content policy)."""
    phones: dict[str, PocketPhone] = {}

    def make(name: str, *, keeps_app: bool = True) -> PocketPhone:
        if name not in phones:
            phones[name] = PocketPhone(playwright, tmp_path / f"phone-{name}", keeps_app=keeps_app)
        return phones[name]

    yield make
    for made in phones.values():
        made.close()
    assert [complaint for made in phones.values() for complaint in made.complaints] == []


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """One browser for all phones that are never killed."""
    started = start_browser(playwright)
    yield started
    started.close()


@pytest.fixture
def new_phone(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Callable[[], Phone]]:
    """Makes phones of this test's own, each a context in one browser; at the end none may have complained.

    They keep the app itself, for a reload with no server, only where the test is marked `keeps_app`.
    """
    keeps_app = request.node.get_closest_marker("keeps_app") is not None
    phones: list[Phone] = []

    def make() -> Phone:
        workers: Literal["allow", "block"] = "allow" if keeps_app else "block"
        context = browser.new_context(
            viewport=SIZE, timezone_id="Europe/Vienna", service_workers=workers, reduced_motion=MOTION
        )
        phones.append(Phone(context, keeps_app=keeps_app))
        return phones[-1]

    yield make
    for made in phones:
        made.close()
    assert [complaint for made in phones for complaint in made.complaints] == []


@pytest.fixture(scope="session")
def old_app(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the pages that 0.1.0 built."""
    return release_0_1_0.app(tmp_path_factory.mktemp("0.1.0"))


@pytest.fixture(scope="session")
def old_program(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the server's package of 0.1.0."""
    return release_0_1_0.server(tmp_path_factory.mktemp("0.1.0"))


@pytest.fixture
def old_server(tmp_path: Path, old_program: Path) -> Iterator[Server]:
    """The server of 0.1.0 over the folder that it left behind."""
    yield from running(OldServer(tmp_path / "data", old_program))


@pytest.fixture
def old_phone(browser: Browser, old_app: Path) -> Iterator[MakePhone]:
    """Makes phones on which the app is that of 0.1.0; none may have complained at the end."""
    made = MakePhone(browser, old_app)
    yield made
    assert made.closed() == []


@pytest.fixture
def todays_phone(browser: Browser) -> Iterator[MakePhone]:
    """Makes phones on which the app is today's, whatever server they meet; none may have complained at the end."""
    made = MakePhone(browser, TODAY)
    yield made
    assert made.closed() == []


@pytest.fixture
def team(empty_server: Server) -> Server:
    """The server of a crew's story; nothing is logged yet. A module may have its own in this place."""
    return empty_server


@pytest.fixture
def crew(team: Server, new_phone: Callable[[], Phone]) -> Crew:
    """Each person of the story with a phone of their own, at car 41; joins when first asked for."""

    @cache
    def member(person: str) -> Member:
        phone = new_phone()
        phone.join(team, person)
        return Member(team, phone, person, "41")

    return member


@pytest.fixture(scope="session")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A photo as a phone takes it: 12 megapixels, turned by EXIF, with GPS in it."""
    return take_photo(tmp_path_factory.mktemp("photo") / "hit.jpg")

"""A real server process and real Chromium phones for the browser tests.

Deadlines are generous: they guard against hanging, they judge no speed.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from phones import SIZE, Phone, PocketPhone, start_browser
from playwright.sync_api import Browser, Playwright
from server import Server, with_sample, without_entries

# What it asserts is shown in full when it fails, as a test's own.
pytest.register_assert_rewrite("looking")


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the whole sample event."""
    yield from running(with_sample(tmp_path / "data"))


@pytest.fixture
def empty_server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the sample event's set-up and no entry yet."""
    yield from running(without_entries(tmp_path / "data", tmp_path / "event", []))


def running(server: Server) -> Iterator[Server]:
    server.start()
    try:
        yield server
    finally:
        server.stop()


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[[str], PocketPhone]]:
    """Makes phones by name; at the end none may have complained (script errors, content policy)."""
    phones: dict[str, PocketPhone] = {}

    def make(name: str) -> PocketPhone:
        if name not in phones:
            phones[name] = PocketPhone(playwright, tmp_path / f"phone-{name}")
        return phones[name]

    yield make
    for made in phones.values():
        made.close()
    assert [complaint for made in phones.values() for complaint in made.complaints] == []


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """One Chromium for all phones that are never killed."""
    started = start_browser(playwright)
    yield started
    started.close()


@pytest.fixture(scope="module")
def new_phone(browser: Browser) -> Iterator[Callable[[], Phone]]:
    """Makes phones that live as long as the module's tests, each a context of its own in one Chromium."""
    phones: list[Phone] = []

    def make() -> Phone:
        phones.append(Phone(browser.new_context(viewport=SIZE, timezone_id="Europe/Vienna")))
        return phones[-1]

    yield make
    for made in phones:
        made.close()


@pytest.fixture(scope="session")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A photo as a phone takes it: 12 megapixels, turned by EXIF, with GPS in it."""
    from PIL import Image

    path = tmp_path_factory.mktemp("photo") / "hit.jpg"
    image = Image.effect_noise((4000, 3000), 60).convert("RGB")
    exif = Image.Exif()
    exif[0x0112] = 6
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (45.0, 30.0, 0.0)
    image.save(path, "JPEG", quality=70, exif=exif)
    return path

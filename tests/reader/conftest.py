"""A desk with a real browser at it, whose page is in an accessibility tree, and the ears."""

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

# The server as a process and its people are those of the browser tests.
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from engines import FLAGS
from phones import SIZE, Phone
from playwright.sync_api import Playwright
from server import Server, without_entries

from longer import is_longer

from .desk import Desk, missing
from .listening import Listener
from .spoken import Orca
from .story import Reader

LEFT_OUT = pytest.StashKey[str]()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what this machine can't run; one line at the end says which and why."""
    here = [item for item in items if Path(__file__).parent in item.path.parents]
    lacks = missing()
    if not is_longer():
        left = [item for item in here if item.get_closest_marker("orca")]
    else:
        left = [item for item in here if item.get_closest_marker("orca") and shutil.which("orca") is None]
        config.stash[LEFT_OUT] = "Orca was not tried: no orca (Debian: orca)." if left else ""
    if lacks and here:
        left = here
        config.stash[LEFT_OUT] = f"The screen reader's tests were left out: no {', no '.join(lacks)}."
    items[:] = [item for item in items if item not in left]
    if left:
        config.hook.pytest_deselected(items=left)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    if config.stash.get(LEFT_OUT, ""):
        terminalreporter.write_line(config.stash[LEFT_OUT])


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    made = Desk(tmp_path / "desk")
    try:
        made.open()
        yield made
    finally:
        made.close()


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the sample event's set-up and no entry yet."""
    made = without_entries(tmp_path / "data", tmp_path / "event", [])
    made.start()
    try:
        yield made
    finally:
        made.stop()


@pytest.fixture
def ear(desk: Desk) -> Listener:
    return Listener(desk)


@pytest.fixture
def orca(desk: Desk) -> Orca:
    return Orca(desk)


@pytest.fixture
def reader(playwright: Playwright, desk: Desk, server: Server, ear: Listener) -> Iterator[Reader]:
    """A phone that several people use in turn; in sight, since only real windows are in an accessibility tree."""
    flags = [*FLAGS, "--force-renderer-accessibility", "--window-position=0,0", "--window-size=500,1000"]
    chromium = playwright.chromium.launch(
        executable_path=shutil.which("chromium"), args=flags, headless=False, env={**desk.environment}
    )
    phone = Phone(chromium.new_context(viewport=SIZE, timezone_id="Europe/Vienna"))
    made = Reader(server, phone, ear)
    phone.page.goto(server.url)
    made.goes("textbox", "Code")
    ear.waits_for("entry: Code")
    yield made
    chromium.close()
    assert phone.complaints == []

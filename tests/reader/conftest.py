"""A desk with a real browser at it, whose page is in an accessibility tree, and the ears."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

# The server as a process and its people are those of the browser tests.
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from browsers import PACKAGES, READER, missing
from engines import FLAGS, WHOLE
from phones import SIZE, Phone
from playwright.sync_api import Playwright
from server import Server, without_entries

from leaving_out import leave_out
from longer import is_longer

from .desk import Desk
from .listening import Listener
from .spoken import Orca
from .story import Reader

LEFT_OUT = pytest.StashKey[list[str]]()


def left_out(item: pytest.Item) -> str | None:
    """Return why this machine can't run a test of this folder, or None where it can."""
    orca = ["orca"] if item.get_closest_marker("orca") else []
    lacking = missing([*READER, *orca])
    return (
        f"not here: {', '.join(lacking)} (Debian: {', '.join(PACKAGES[one] for one in lacking)})" if lacking else None
    )


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave Orca to the longer run, and leave out what this machine can't run; the end of the run says so."""
    here = [item for item in items if Path(__file__).parent in item.path.parents]
    later = [item for item in here if item.get_closest_marker("orca") and not is_longer()]
    whys = {item: why for item in here if item not in later and (why := left_out(item))}
    config.stash[LEFT_OUT] = [*whys.values()]
    leave_out(config, items, {*later, *whys})


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say in one line for each reason how many tests were left out."""
    whys = terminalreporter.config.stash.get(LEFT_OUT, [])
    for why in dict.fromkeys(whys):
        terminalreporter.write_line(f"screen reader: {whys.count(why)} tests left out, {why}")


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
    chromium = playwright.chromium.launch(executable_path=WHOLE, args=flags, headless=False, env={**desk.environment})
    phone = Phone(chromium.new_context(viewport=SIZE, timezone_id="Europe/Vienna"))
    made = Reader(server, phone, ear)
    phone.page.goto(server.url)
    made.goes("textbox", "Code")
    ear.waits_for("entry: Code")
    yield made
    chromium.close()
    assert phone.complaints == []

"""A real server process and real Chromium phones for the browser tests.

Deadlines are generous: they guard against hanging, they judge no speed.
"""

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import psutil
import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, sync_playwright

from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.serving import sample_folder
from shuntbook.store.database import Store

EVENT = "thornquell-2026"
# Without these, Chromium calls its maker's hosts at every start; a sandbox does not work as root in a container.
FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
    " --disable-component-update --disable-sync"
).split()
PHONE = {"width": 390, "height": 844}
PATIENCE_MS = 30_000


class Server:
    """The server as a process of its own over a data folder, at a port that stays the same when it comes back."""

    def __init__(self, data: Path) -> None:
        self.data = data
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        command = [sys.executable, "-m", "shuntbook.cli", "serve", "--port", str(self.port), "--data", str(self.data)]
        self.process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for _ in range(300):
            with suppress(OSError):
                urllib.request.urlopen(f"{self.url}/api/v1/health", timeout=5).close()
                return
            time.sleep(0.1)
        raise AssertionError("the server did not come up within 30 s")

    def stop(self) -> None:
        if self.process is not None:
            family = [self.process, *psutil.Process(self.process.pid).children(recursive=True)]
            for member in family:
                with suppress(psutil.NoSuchProcess, ProcessLookupError):
                    member.send_signal(signal.SIGKILL)
            self.process.wait(30)
            self.process = None

    def link(self, person: str) -> str:
        return joining.join_link(self.url, joining.invite(Store(self.data), person, now()))

    def token(self, person: str) -> str:
        store = Store(self.data)
        return joining.join(store, joining.invite(store, person, now()), now())[1]

    def get(self, path: str, token: str) -> dict:
        request = urllib.request.Request(f"{self.url}/api/v1{path}", headers={"Authorization": f"Bearer {token}"})
        with urllib.request.urlopen(request, timeout=30) as answer:
            return json.load(answer)

    def entries(self) -> list[dict]:
        rows = Store(self.data).db.conn.execute("SELECT raw FROM entry ORDER BY cursor")
        return [json.loads(row[0]) for row in rows]


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the whole sample event."""
    load(Store(tmp_path / "data"), sample_folder(), now())
    yield from running(Server(tmp_path / "data"))


@pytest.fixture
def empty_server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the sample event's set-up and no entry yet."""
    folder = tmp_path / "event"
    shutil.copytree(sample_folder(), folder)
    (folder / "entries.jsonl").write_bytes(b"")
    shutil.rmtree(folder / "photos")
    load(Store(tmp_path / "data"), folder, now())
    yield from running(Server(tmp_path / "data"))


def running(server: Server) -> Iterator[Server]:
    server.start()
    try:
        yield server
    finally:
        server.stop()


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


class Phone:
    """A Chromium with a profile folder of its own, as large as a phone; it can be killed and opened again."""

    def __init__(self, playwright: Playwright, profile: Path) -> None:
        self.playwright = playwright
        self.profile = profile
        self.complaints: list[str] = []
        self.open()

    def open(self) -> None:
        self.context: BrowserContext = self.playwright.chromium.launch_persistent_context(
            self.profile, executable_path=shutil.which("chromium"), args=FLAGS, viewport=PHONE, headless=True
        )
        self.context.set_default_timeout(PATIENCE_MS)
        self.context.on("page", self._listen)
        self.page: Page = self.context.pages[0]
        self._listen(self.page)

    def kill(self) -> None:
        """Kill the browser's processes at once, as an empty battery would."""
        mine = [
            p
            for p in psutil.process_iter(["cmdline"])
            if f"--user-data-dir={self.profile}" in (p.info["cmdline"] or [])
        ]
        assert mine, "the browser's process was not found"
        for process in mine:
            with suppress(psutil.NoSuchProcess):
                os.kill(process.pid, signal.SIGKILL)
        with suppress(Exception):  # its own goodbye to a browser that is gone
            self.context.close()

    def join(self, server: Server, person: str) -> Page:
        """Join as a person with car 41, and wait until app and set-up are kept for offline use."""
        self.page.goto(server.link(person))
        pick = self.page.get_by_role("button", name="Car 41")
        pick.or_(self.page.get_by_role("combobox", name="Which car")).first.wait_for()
        if pick.count():
            pick.click()
        self.page.get_by_role("heading", level=1).first.wait_for()
        self.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        self.page.wait_for_function("!location.hash.includes('join')")
        return self.page

    def show(self, screen: str) -> Page:
        self.page.evaluate(f"location.hash = '#/{screen}'")
        self.page.get_by_role("heading", level=1).first.wait_for()
        return self.page

    def close(self) -> None:
        with suppress(Exception):  # it may have been killed by the test
            self.context.close()

    def _listen(self, page: Page) -> None:
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("console", self._hear)

    def _hear(self, line) -> None:
        # A server that is away on purpose is no fault of the page.
        if line.type == "error" and "Failed to load resource" not in line.text and "net::ERR" not in line.text:
            self.complaints.append(line.text)


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[[str], Phone]]:
    """Makes phones by name; at the end none may have complained (script errors, content policy)."""
    phones: dict[str, Phone] = {}

    def make(name: str) -> Phone:
        if name not in phones:
            phones[name] = Phone(playwright, tmp_path / f"phone-{name}")
        return phones[name]

    yield make
    for made in phones.values():
        made.close()
    assert [complaint for made in phones.values() for complaint in made.complaints] == []


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

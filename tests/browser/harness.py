"""The screens on a made-up state, built by Vite and served from a folder; no server of ours is in it."""

import json
import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

from node import PWA, find_npm
from phones import Phone
from playwright.sync_api import ConsoleMessage, Page


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Write no line for each request."""


def build(folder: Path, config: str = "harness/vite.config.ts") -> None:
    """Build the harness, or another page beside the app, into a folder."""
    npm, path = find_npm()
    environment = {**os.environ, "PATH": os.pathsep.join([*path, os.environ.get("PATH", "")])}
    vite = ["exec", "--", "vite", "build", "--config", config, "--outDir", str(folder)]
    done = subprocess.run([*npm, *vite], cwd=PWA, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """Serve a folder at a free port of this machine; gives the address."""
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder))) as server:
        Thread(target=server.serve_forever, daemon=True).start()
        try:
            yield f"http://127.0.0.1:{server.server_address[1]}/"
        finally:
            server.shutdown()


class Walker:
    """Somebody who walks through the screens; hears which entries they ask for."""

    def __init__(self, phone: Phone, address: str) -> None:
        self.page: Page = phone.page
        self.address = address
        self.asked: list[dict[str, Any]] = []
        self.page.on("console", self._hear)

    def open(self, path: str) -> Page:
        self.page.goto(self.address + path)
        self.page.get_by_role("heading", level=1).first.wait_for()
        return self.page

    def press(self, name: str) -> None:
        # Forced: a button that says why it can't be pressed yet is aria-disabled, and Playwright would wait for it.
        self.page.get_by_role("button", name=name).first.click(force=True)

    def heard(self, count: int) -> list[dict[str, Any]]:
        """Wait until so many entries were asked for and return them."""
        while len(self.asked) < count:
            self.page.wait_for_event("console")
        assert len(self.asked) == count
        return self.asked

    def _hear(self, line: ConsoleMessage) -> None:
        if line.text.startswith("entry "):
            self.asked.append(json.loads(line.text.removeprefix("entry ")))

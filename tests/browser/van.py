"""The van's network: the server under a name as a LAN has it, over TLS or not, and phones that trust its CA or not."""

import os
import shutil
import socket
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path

from engines import engine
from phones import SIZE, Phone
from playwright.sync_api import Playwright
from server import Server

from leash import leashed

NAME = "van.test"
"""RFC 6761: no name under .test is anybody's. No browser takes it for a secure context as it does localhost."""


class VanServer(Server):
    """The server on the van's network. tls: with HTTPS, a CA of its own, and the page that explains how to trust it."""

    def __init__(self, data: Path, ca: Path, *, tls: bool, name: str = NAME) -> None:
        super().__init__(data)
        self.name = name
        self.ca = ca
        self.tls = tls
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.page_port = probe.getsockname()[1]

    @property
    def url(self) -> str:
        return f"{'https' if self.tls else 'http'}://{self.name}:{self.port}"

    @property
    def page_url(self) -> str:
        """Where the page is that explains how to trust the CA."""
        return f"http://{self.name}:{self.page_port}/"

    def start(self) -> None:
        words = ["serve", "--host", "127.0.0.1", "--port", str(self.port), "--data", str(self.data)]
        if self.tls:
            words += ["--tls", "--name", self.name, "--ca", str(self.ca), "--trust-port", str(self.page_port)]
        command = [sys.executable, "-m", "shuntbook.cli", *words]
        self.process = subprocess.Popen(leashed(command), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for _ in range(300):
            with suppress(OSError), socket.create_connection(("127.0.0.1", self.port), timeout=5):
                return
            time.sleep(0.1)
        raise AssertionError("the server did not come up within 30 s")


class VanPhone(Phone):
    """A phone on the van's network, with a home of its own in which its browser finds the CAs that its owner trusts."""

    def __init__(self, playwright: Playwright, home: Path, trusts: Path | None) -> None:
        profile = home / "profile"
        profile.mkdir(parents=True)
        of = engine()
        if trusts is not None:
            trust(of.trust_store(home, profile), trusts)
        # No flag that looks away: neither --ignore-certificate-errors nor ignore_https_errors.
        environment = {**os.environ, "HOME": str(home)}
        super().__init__(of.open(playwright, profile, NAME, env=environment, viewport=SIZE, headless=True))


def trust(folder: Path, certificate: Path) -> None:
    """Put a CA among those that a browser trusts for websites, as the page says for it on Linux."""
    certutil = shutil.which("certutil")
    assert certutil, (
        "certutil is not here, and without it no CA can be put into a browser's list. `make browser` installs it on"
        " Debian as root (libnss3-tools); elsewhere install nss-tools, then run this test again"
    )
    folder.mkdir(parents=True, exist_ok=True)
    for words in (
        ["-N", "--empty-password"],
        ["-A", "-t", "C,,", "-n", "shuntbook-ca", "-i", str(certificate)],
    ):
        done = subprocess.run(
            [certutil, "-d", f"sql:{folder}", *words], capture_output=True, text=True, timeout=300, check=False
        )
        assert done.returncode == 0, done.stderr

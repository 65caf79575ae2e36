"""The browsers that the tests run in: Chromium, or Firefox where SHUNTBOOK_ENGINE says so."""

import atexit
import os
import shutil
from base64 import b64encode
from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cache
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Literal, Protocol

import psutil
from playwright.sync_api import Browser, BrowserContext, Page, Playwright

VARIABLE = "SHUNTBOOK_ENGINE"

Preferences = Mapping[str, str | float | bool]

# Chromium without its window: the same engine for half of the processor's time. Playwright's own is one by itself.
CHROMIUM = shutil.which("chromium-headless-shell") or shutil.which("chromium")
# The whole of it, for cameras, microphones and the CAs that its owner trusts.
WHOLE = shutil.which("chromium")

# Without these, Chromium calls its maker's hosts at every start; a sandbox does not work as root in a container.
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

PREFERENCES: Preferences = {
    # Firefox calls its maker's hosts, for some things whatever else is set. All that is not for this machine itself
    # goes to a proxy that is not there, and so no further.
    "network.proxy.type": 1,
    "network.proxy.http": "127.0.0.1",
    "network.proxy.http_port": 9,
    "network.proxy.ssl": "127.0.0.1",
    "network.proxy.ssl_port": 9,
    "network.proxy.failover_direct": False,
    "network.proxy.allow_bypass": False,
    "network.trr.mode": 5,
    "network.captive-portal-service.enabled": False,
    "browser.region.update.enabled": False,
    "dom.push.connection.enabled": False,
    "media.gmp-manager.url": "",
    # A phone's scroll bars take no room.
    "ui.useOverlayScrollbars": 1,
    # A PDF is saved and no more; else it opens in a tab of its own as well.
    "pdfjs.disabled": True,
    # Playwright's emulate_media does nothing here, so that movement is off from the start.
    "ui.prefersReducedMotion": 1,
}
_ANSWERED: Preferences = {
    "dom.storageManager.prompt.testing": True,
    "dom.storageManager.prompt.testing.allow": True,
}

# Before a screenshot, Playwright lays this style sheet into the page in Firefox. The app's policy refuses it, and the
# complaint tells its hash.
_FOR_SCREENSHOT = b64encode(sha256(b"body {}").digest()).decode()


class Engine(Protocol):
    """A browser, and how its processes are known by the profile that they were given."""

    name: str
    emulates_media: bool
    """Whether Playwright's emulate_media does anything: dark, print, forced colours."""
    unheard_downloads: Path | None
    """Where it saves files of which Playwright hears nothing; None where that hears of each."""

    def is_here(self) -> bool: ...
    def launch(self, playwright: Playwright) -> Browser: ...
    def launch_with_media(self, playwright: Playwright, film: Path | None) -> Browser:
        """Start with a false camera and microphone that a page may use. film: what the camera sees, where it can."""

    def open(self, playwright: Playwright, profile: Path, here: str = "", **options: Any) -> BrowserContext:
        """Start with a profile. here: a name that is this machine's, as if its network's DNS said so."""

    def trust_store(self, home: Path, profile: Path) -> Path:
        """Return the folder of the NSS store in which the browser finds the CAs that its owner trusts."""

    def has_profile(self, command: Sequence[str], profile: Path) -> bool: ...
    def is_own_doing(self, line: str) -> bool:
        """Say whether an error on the console is the browser's or the driver's own, and no fault of the page."""


class Chromium:
    name = "chromium"
    emulates_media = True
    unheard_downloads: Path | None = None

    def is_here(self) -> bool:
        """Say yes: without one of the machine's own, Playwright has its own, or says what to do."""
        return True

    def launch(self, playwright: Playwright) -> Browser:
        return playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)

    def launch_with_media(self, playwright: Playwright, film: Path | None) -> Browser:
        flags = [*FLAGS, "--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"]
        if film is not None:
            flags.append(f"--use-file-for-fake-video-capture={film}")
        return playwright.chromium.launch(executable_path=WHOLE, args=flags)

    def open(self, playwright: Playwright, profile: Path, here: str = "", **options: Any) -> BrowserContext:
        flags = [*FLAGS, f"--host-resolver-rules=MAP {here} 127.0.0.1"] if here else FLAGS
        path = WHOLE if here else CHROMIUM
        return playwright.chromium.launch_persistent_context(profile, executable_path=path, args=flags, **options)

    def trust_store(self, home: Path, profile: Path) -> Path:
        return home / ".pki" / "nssdb"

    def has_profile(self, command: Sequence[str], profile: Path) -> bool:
        return f"--user-data-dir={profile}" in command

    def is_own_doing(self, line: str) -> bool:
        return "Failed to load resource" in line or "net::ERR" in line


class Firefox:
    """Firefox ESR by WebDriver BiDi: Playwright's other channel needs a Firefox of its own."""

    name = "firefox"
    emulates_media = False

    def __init__(self, *, is_answered: bool = True) -> None:
        """is_answered: somebody says yes when the app asks to keep its store for good; else the question stays open."""
        self.path = shutil.which("firefox-esr") or shutil.which("firefox")
        # Firefox names no navigation for a file that the page made itself, and Playwright hears of no download then.
        self.unheard_downloads: Path | None = _downloads()
        self.preferences = {**PREFERENCES, **(_ANSWERED if is_answered else {})}

    def is_here(self) -> bool:
        return self.path is not None

    def launch(self, playwright: Playwright) -> Browser:
        return playwright.firefox.launch(**self._options({}))

    def launch_with_media(self, playwright: Playwright, film: Path | None) -> Browser:
        media = {"media.navigator.streams.fake": True, "media.navigator.permission.disabled": True}
        return playwright.firefox.launch(**self._options(media))

    def open(self, playwright: Playwright, profile: Path, here: str = "", **options: Any) -> BrowserContext:
        own = self._options({"network.dns.localDomains": here, "network.proxy.no_proxies_on": here})
        return playwright.firefox.launch_persistent_context(profile, **own, **options)

    def trust_store(self, home: Path, profile: Path) -> Path:
        return profile

    def has_profile(self, command: Sequence[str], profile: Path) -> bool:
        return "--profile" in command and str(profile) in command

    def is_own_doing(self, line: str) -> bool:
        return "blocked an inline style (style-src-elem)" in line and _FOR_SCREENSHOT in line

    def _options(self, more: Preferences) -> dict[str, Any]:
        asked = {**self.preferences, **more}
        return {
            "channel": "moz-firefox",
            "executable_path": self.path,
            "firefox_user_prefs": asked,
            "downloads_path": self.unheard_downloads,
        }


@cache
def _downloads() -> Path:
    """Return a folder for all that is saved in this run."""
    made = TemporaryDirectory(prefix="shuntbook-downloads-")
    atexit.register(made.cleanup)
    return Path(made.name)


left_out: Counter[str] = Counter()
"""What could not be looked at in this engine, and how often; the run ends with it."""


def emulates(
    page: Page,
    *,
    media: Literal["print"] | None = None,
    color_scheme: Literal["dark"] | None = None,
    reduced_motion: Literal["reduce"] | None = None,
) -> bool:
    """Have a page shown in another medium; where the engine can't, say no and have it told at the end."""
    if engine().emulates_media:
        page.emulate_media(media=media, color_scheme=color_scheme, reduced_motion=reduced_motion)
        return True
    asked = ", ".join(one for one in (media, color_scheme, reduced_motion) if one)
    left_out[f"checks with {asked}: Playwright can't have it shown so"] += 1
    return False


def engine() -> Engine:
    """Return the engine that the environment asks for; Chromium where it asks for none."""
    made: dict[str, type[Chromium] | type[Firefox]] = {"chromium": Chromium, "firefox": Firefox}
    return made[os.environ.get(VARIABLE, "chromium")]()


def processes_of(profile: Path) -> list[psutil.Process]:
    """Return every process of the browser that has a profile."""
    of, alive = engine(), psutil.process_iter(["cmdline"])
    mains = [one for one in alive if of.has_profile(one.info["cmdline"] or [], profile)]
    assert mains, "the browser's process was not found"
    return list({one.pid: one for main in mains for one in [main, *main.children(recursive=True)]}.values())

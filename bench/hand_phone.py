"""A phone for the bench: Chromium with a profile of its own, its processor slowed down, and what its page noted."""

import json
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import psutil
from playwright.sync_api import BrowserContext, CDPSession, Page, Playwright, ViewportSize

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
SIZE: ViewportSize = {"width": 390, "height": 844}
WATCH = Path(__file__).with_name("hand_watch.js").read_text()
PATIENCE_MS = 90_000
"""A first visit over slow 3G takes its time; this guards against hanging and judges nothing."""


@dataclass(frozen=True)
class Start:
    """One start, in ms from the navigation: first zone there, a tap on it answered; the longest task until then."""

    there_ms: float
    tappable_ms: float
    longest_ms: float


class Phone:
    """One person's phone; closed and opened again it keeps what it kept."""

    def __init__(self, playwright: Playwright, profile: Path) -> None:
        self.playwright, self.profile = playwright, profile
        self.slowed = 1.0
        self.open()

    def open(self) -> None:
        """Start the browser again on the same profile, with an empty page."""
        self.context: BrowserContext = self.playwright.chromium.launch_persistent_context(
            self.profile, executable_path=shutil.which("chromium"), args=FLAGS, viewport=SIZE, headless=True
        )
        self.context.set_default_timeout(PATIENCE_MS)
        self.page: Page = self.context.pages[0]
        self.devtools: CDPSession = self.context.new_cdp_session(self.page)
        self.devtools.send("Page.enable")
        self._before_scripts(WATCH)
        self.slow(self.slowed)

    def close(self) -> None:
        """Close the browser as its owner would."""
        self.context.close()

    def slow(self, times: float) -> None:
        """Slow the page's processor down so many times (Emulation.setCPUThrottlingRate); its workers run on."""
        self.slowed = times
        self.devtools.send("Emulation.setCPUThrottlingRate", {"rate": times})

    def start(self, address: str) -> Start:
        """Load an address in an empty page, tap the first zone as soon as it is painted, wait for the answer."""
        self.page.goto("about:blank")
        put = self._before_scripts("handWatch.tapWhenThere()")
        self.devtools.send("Page.navigate", {"url": address})
        there, answered, tasks = self._told("handWatch.tapped")
        self.devtools.send("Page.removeScriptToEvaluateOnNewDocument", put)
        return Start(there, answered, max((length for at, length in tasks if at < answered), default=0.0))

    def swipe(self, pixels: int, per_s: int) -> list[float]:
        """Scroll down as a finger does; return the times in ms at which frames began meanwhile."""
        self.page.evaluate("() => { globalThis.handStop = handWatch.frames(); }")
        middle = {"x": SIZE["width"] // 2, "y": SIZE["height"] // 2, "gestureSourceType": "touch"}
        gesture = {**middle, "yDistance": -pixels, "speed": per_s, "preventFling": True}
        self.devtools.send("Input.synthesizeScrollGesture", gesture)
        answer: list[float] = self.page.evaluate("() => handStop()")
        return answer

    def find(self, selector: str, text: str = "") -> tuple[float, float]:
        """Wait until it is painted; return the middle of it."""
        x, y = self._told(f"handWatch.find({json.dumps(selector)}, {json.dumps(text)})")
        return x, y

    def tap(self, selector: str, text: str = "") -> None:
        """Tap the first that a selector names and whose label or text begins so; give the page time to answer."""
        x, y = self.find(selector, text)
        for kind in ("mousePressed", "mouseReleased"):
            where = {"x": x, "y": y, "button": "left", "clickCount": 1}
            self.devtools.send("Input.dispatchMouseEvent", {"type": kind, **where})
        self.page.wait_for_timeout(600)

    def settle(self) -> None:
        """Wait until app and log are kept and nothing moves."""
        self.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        self.page.wait_for_timeout(1500)

    def heap_bytes(self) -> int:
        """JavaScript's heap in use after a collection (Performance.getMetrics)."""
        self.devtools.send("HeapProfiler.collectGarbage")
        self.devtools.send("Performance.enable")
        metrics = self.devtools.send("Performance.getMetrics")["metrics"]
        return int(next(one["value"] for one in metrics if one["name"] == "JSHeapUsedSize"))

    def resident_bytes(self) -> dict[str, int]:
        """Memory (PSS) of the browser's processes by type: renderer is the page's."""
        found: dict[str, int] = {}
        for process in self._processes():
            kind = next((one[7:] for one in process.cmdline() if one.startswith("--type=")), "browser")
            found[kind] = found.get(kind, 0) + process.memory_full_info().pss
        return found

    def _told(self, promise: str) -> list[Any]:
        """Wait for a promise of the page, by the browser's own means: Playwright's put a script of theirs into it."""
        asked = {"expression": promise, "awaitPromise": True, "returnByValue": True}
        answer: list[Any] = self.devtools.send("Runtime.evaluate", asked)["result"]["value"]
        return answer

    def _before_scripts(self, source: str) -> dict[str, Any]:
        """Run a script in every new page before its own; the content policy does not hold for it."""
        return self.devtools.send("Page.addScriptToEvaluateOnNewDocument", {"source": source})

    def _processes(self) -> list[psutil.Process]:
        own = f"--user-data-dir={self.profile}"
        named = [one for one in psutil.process_iter(["cmdline"]) if own in (one.info["cmdline"] or [])]
        return list({child for one in named for child in (one, *one.children(recursive=True))})

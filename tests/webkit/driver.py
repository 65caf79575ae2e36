"""A client of WebKitWebDriver (W3C WebDriver, level 2): one driver process, one session, one browser."""

import json
import os
import signal
import subprocess
import time
import urllib.error
import urllib.request
from contextlib import suppress
from pathlib import Path
from typing import Any

import psutil

from leash import leashed
from ports import free_port

from .screen import Screen

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
"""The key under which the protocol names an element."""
BROWSER = Path(__file__).with_name("pocket_browser.py")
CALL_S = 60.0
"""No answer of the driver takes so long, not even that of a browser that starts on a busy machine."""


class Refused(Exception):
    """What the driver said no to: an element that is gone, a page that does not open."""


class Driver:
    """A driver process of its own with a browser on a profile; both die with this process."""

    def __init__(self, profile: Path, screen: Screen, left: int, log: Path) -> None:
        """log: where what the browser prints is added, its pages' consoles among it."""
        self.port = free_port()
        with log.open("ab") as out:
            self.process = subprocess.Popen(
                leashed(["WebKitWebDriver", f"--port={self.port}"]),
                stdout=out,
                stderr=out,
                env=_environment(profile, screen),
                start_new_session=True,  # so that driver, browser and its helpers can be killed as one group
            )
        self._driver = psutil.Process(self.process.pid)
        try:
            self._wait()
            self.session = self._start(profile, left)
        except BaseException:
            self.kill()
            raise

    def call(self, method: str, path: str, body: dict[str, Any] | None = None) -> Any:
        """Call a command of the session; `path` is what follows the session's own. Errors: Refused."""
        return self._http(method, f"/session/{self.session}{path}", body)

    def run(self, script: str, *arguments: object) -> Any:
        """Run the body of a function in the page; return what it returns, a promise awaited."""
        return self.call("POST", "/execute/sync", {"script": script, "args": list(arguments)})

    def busy_s(self) -> float:
        """Return how many seconds of a processor driver, browser and its helpers took so far."""
        taken = 0.0
        for process in [self._driver, *self._driver.children(recursive=True)]:
            with suppress(psutil.NoSuchProcess):
                taken += sum(process.cpu_times()[:2])
        return taken

    def kill(self) -> None:
        """Kill driver, browser and all its processes at once, as an empty battery would."""
        with suppress(ProcessLookupError):
            os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait(30)

    def _wait(self) -> None:
        for _ in range(600):
            assert self.process.poll() is None, f"the driver ended with {self.process.returncode}"
            with suppress(OSError):
                self._http("GET", "/status")
                return
            time.sleep(0.02)
        raise AssertionError("the driver did not come up")

    def _start(self, profile: Path, left: int) -> str:
        options = {"binary": str(BROWSER), "args": [str(profile), str(left)]}
        # Nothing here looks away from a certificate that the machine does not trust (acceptInsecureCerts).
        wanted = {"capabilities": {"alwaysMatch": {"webkitgtk:browserOptions": options}}}
        return str(self._http("POST", "/session", wanted)["sessionId"])

    def _http(self, method: str, path: str, body: dict[str, Any] | None = None) -> Any:
        data = json.dumps(body or {}).encode() if method == "POST" else None
        headers = {"Content-Type": "application/json"}
        request = urllib.request.Request(f"http://127.0.0.1:{self.port}{path}", data, headers, method=method)
        try:
            with urllib.request.urlopen(request, timeout=CALL_S) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            with error:
                said = json.load(error)["value"]
            raise Refused(f"{said['error']}: {said.get('message', '')}") from None


def _environment(profile: Path, screen: Screen) -> dict[str, str]:
    """Return what the browser finds about it: no desktop, no bus, and no home but its profile."""
    kept = {"PATH": os.environ["PATH"], "LANG": "C.UTF-8", "TZ": "Europe/Vienna"}
    homes = {f"XDG_{name}_HOME": str(profile / name.lower()) for name in ("DATA", "CACHE", "CONFIG")}
    drawing = {
        "DISPLAY": screen.name,
        "GDK_BACKEND": "x11",
        "WEBKIT_DISABLE_DMABUF_RENDERER": "1",
        "NO_AT_BRIDGE": "1",
        "DBUS_SESSION_BUS_ADDRESS": "disabled:",
    }
    return {**kept, **homes, **drawing, "HOME": str(profile)}

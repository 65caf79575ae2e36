"""A desk of its own to read at: an X server, a D-Bus session and on it the accessibility bus, seen by no other test."""

import os
import random
import subprocess
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

PYTHON = "/usr/bin/python3"
"""Debian's own, which has what its package python3-gi brings."""


class Desk:
    """The processes that belong to it end with it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._running: list[subprocess.Popen[str]] = []
        for name in ("runtime", "home"):
            (folder / name).mkdir(mode=0o700, parents=True)
        self.environment = {
            **{name: value for name, value in os.environ.items() if name != "NO_AT_BRIDGE"},
            "HOME": str(folder / "home"),
            "XDG_RUNTIME_DIR": str(folder / "runtime"),
            "GSETTINGS_BACKEND": "memory",
            "ACCESSIBILITY_ENABLED": "1",  # else Chromium waits for a screen reader to say that it is there
            "LANG": "C.UTF-8",
        }

    def open(self) -> None:
        self.environment["DISPLAY"] = f":{self._screen()}"
        bus = self.run(["dbus-daemon", "--session", "--nofork", "--print-address"])
        self.environment["DBUS_SESSION_BUS_ADDRESS"] = _line(bus)

    def run(self, command: Sequence[str]) -> subprocess.Popen[str]:
        """Start a program at this desk, its input and output lines of text; what it complains of is in a file."""
        pipe = subprocess.PIPE
        with (self.folder / f"{len(self._running)}-{Path(command[0]).name}.log").open("w") as log:
            process = subprocess.Popen(
                command, env=self.environment, stdin=pipe, stdout=pipe, stderr=log, text=True, bufsize=1
            )
        self._running.append(process)
        return process

    def close(self) -> None:
        """End what was started here, the last first; the bus takes along what it had started by itself."""
        for process in reversed(self._running):
            process.terminate()
            with suppress(subprocess.TimeoutExpired):
                process.wait(5)
            process.kill()
            process.wait(30)
            for pipe in (process.stdin, process.stdout):
                if pipe:
                    pipe.close()

    def _screen(self) -> str:
        """Start the X server; return its number once it listens.

        Numbers that it chooses itself are not its own for certain: where two start at once,
        one removes the other's socket.
        """
        for number in random.sample(range(200, 30_000), 20):
            reads, writes = os.pipe()
            command = [
                "Xvfb",
                f":{number}",
                "-displayfd",
                str(writes),
                "-screen",
                "0",
                "500x1000x24",
                "-nolisten",
                "tcp",
            ]
            server = subprocess.Popen(command, pass_fds=[writes], stderr=subprocess.DEVNULL, text=True)
            self._running.append(server)
            os.close(writes)
            with os.fdopen(reads) as says:
                if says.readline():
                    return str(number)
        raise AssertionError("no X server starts")


def _line(process: subprocess.Popen[str]) -> str:
    assert process.stdout is not None
    return process.stdout.readline().strip()

"""`shuntbook serve` as a process of its own: what it prints, what it writes down, how it stops."""

import http.client
import json
import signal
import socket
import subprocess
import time
from contextlib import suppress
from http.client import HTTPMessage
from pathlib import Path

from command import SCRIPT

from ports import free_port
from warmed import Forked, Started, end

DEADLINE_S = 120
"""Guards against hanging; judges no speed."""


class Serving:
    """The process, forked from a warmed one; `words` are those after `shuntbook serve`."""

    def __init__(self, folder: Path, data: Path, *words: object) -> None:
        self.port = free_port()
        self.out, self.err = folder / "stdout", folder / "stderr"
        self.process = self._started("serve", "--port", self.port, "--data", data, *words)

    def _started(self, *words: object) -> Started:
        return Forked(*words, out=self.out, err=self.err)

    def __enter__(self) -> "Serving":
        end = time.monotonic() + DEADLINE_S
        while True:
            assert self.process.poll() is None, self.err.read_text()
            with suppress(OSError), socket.create_connection(("127.0.0.1", self.port), timeout=5):
                return self
            assert time.monotonic() < end, "the server did not start"
            time.sleep(0.05)

    def __exit__(self, *_: object) -> None:
        end(self.process, DEADLINE_S)

    def stop(self, how: signal.Signals = signal.SIGTERM) -> tuple[int, float]:
        """Tell it to stop; return its exit status and the seconds it took."""
        began = time.monotonic()
        self.process.send_signal(how)
        status = self.process.wait(DEADLINE_S)
        return status, time.monotonic() - began

    def call(
        self, method: str, path: str, headers: dict[str, str] | None = None, body: bytes | None = None
    ) -> tuple[int, HTTPMessage, bytes]:
        """Call the API over plain http; return status, headers and body."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=DEADLINE_S)
        try:
            connection.request(method, path, body, headers or {})
            answer = connection.getresponse()
            return answer.status, answer.headers, answer.read()
        finally:
            connection.close()

    def lines(self) -> list[dict[str, object]]:
        """Return what it wrote down on stderr; every line must be JSON. One that is being written is left out."""
        said = self.err.read_text()
        try:
            return [json.loads(line) for line in said.splitlines(keepends=True) if line.endswith("\n")]
        except json.JSONDecodeError as error:
            raise AssertionError(f"not JSON line by line:\n{said}") from error


class Installed(Serving):
    """The installed command, started from nothing as people do."""

    def _started(self, *words: object) -> Started:
        with self.out.open("w") as out, self.err.open("w") as err:
            return subprocess.Popen([str(SCRIPT), *map(str, words)], stdout=out, stderr=err)

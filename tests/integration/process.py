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

import psutil
from command import SCRIPT

DEADLINE_S = 60
"""Guards against hanging; judges no speed."""


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        answer: int = probe.getsockname()[1]
        return answer


class Serving:
    """The process; `words` are those after `shuntbook serve`."""

    def __init__(self, folder: Path, data: Path, *words: object) -> None:
        self.port = free_port()
        self.out, self.err = folder / "stdout", folder / "stderr"
        line = [str(SCRIPT), "serve", "--port", str(self.port), "--data", str(data), *map(str, words)]
        with self.out.open("w") as out, self.err.open("w") as err:
            self.process = subprocess.Popen(line, stdout=out, stderr=err)

    def __enter__(self) -> "Serving":
        end = time.monotonic() + DEADLINE_S
        while True:
            assert self.process.poll() is None, self.err.read_text()
            with suppress(OSError), socket.create_connection(("127.0.0.1", self.port), timeout=5):
                return self
            assert time.monotonic() < end, "the server did not start"
            time.sleep(0.05)

    def __exit__(self, *_: object) -> None:
        with suppress(psutil.NoSuchProcess):
            family = [psutil.Process(self.process.pid), *psutil.Process(self.process.pid).children(recursive=True)]
            for member in family:
                with suppress(psutil.NoSuchProcess):
                    member.kill()
        self.process.wait(DEADLINE_S)

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
        """Return what it wrote down on stderr; every line must be JSON."""
        return [json.loads(line) for line in self.err.read_text().splitlines()]

"""A real server process over a data folder, with a token to call it."""

import http.client
import json
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import psutil

from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.store.database import Store


class Server:
    """Calls to a server on loopback, over one kept connection."""

    def __init__(self, port: int, token: str, process: subprocess.Popen[bytes]) -> None:
        self.connection = http.client.HTTPConnection("127.0.0.1", port, timeout=120)
        self.token = token
        self.process = process

    def call(self, method: str, path: str, body: bytes | None = None) -> bytes:
        """Return the answer's body; anything but 200 is an error."""
        headers = {"Authorization": f"Bearer {self.token}", "Content-Type": "application/json"}
        self.connection.request(method, f"/api/v1{path}", body, headers)
        answer = self.connection.getresponse()
        data = answer.read()
        if answer.status != 200:
            raise RuntimeError(f"{method} {path}: {answer.status} {data[:300]!r}")
        return data

    def send(self, entries: list[bytes], cursor: int) -> int:
        """Sync a batch; return the new cursor."""
        body = b'{"cursor":%d,"entries":[%b]}' % (cursor, b",".join(entries))
        return int(json.loads(self.call("POST", "/sync", body))["cursor"])

    def resident_mib(self) -> float:
        """Return the memory of the server's processes together, shared pages counted once (PSS)."""
        parent = psutil.Process(self.process.pid)
        processes = [parent, *parent.children(recursive=True)]
        answer: float = sum(process.memory_full_info().pss for process in processes) / 2**20
        return answer


@contextmanager
def serving(folder: Path, person: str) -> Iterator[Server]:
    """Serve a data folder for the length of the block."""
    store = Store(folder)
    code = joining.invite(store, person, now())
    port = free_port()
    command = [sys.executable, "-m", "shuntbook.cli", "serve", "--port", str(port), "--data", str(folder)]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        _wait(port)
        _, token, _ = joining.join(store, code, None, now())
        yield Server(port, token, process)
    finally:
        process.terminate()
        process.wait(20)


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _wait(port: int) -> None:
    for _ in range(200):
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.1)
    raise RuntimeError("the server did not come up within 20 s")

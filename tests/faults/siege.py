"""Requests that never end, written by hand since no client library would, and what they cost the server meanwhile."""

import http.client
import json
import socket
import ssl
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

import psutil
from h2.config import H2Configuration
from h2.connection import H2Connection
from h2.events import ResponseReceived

from shuntbook.store.database import FILE
from shuntbook.web.edge import LANES

DATABASE = f"/{FILE}"

PATIENCE_S = 60.0
"""Guards against hanging; what took how long is reported."""

ANSWERS_WITHIN_S = 10.0
"""The goal is one second; a loaded machine is given more."""

SYNC = "/api/v1/sync"
BEGUN = b'{"entries": ['


@dataclass
class Target:
    """A server, plain or over TLS, and the token of a phone that joined."""

    port: int
    token: str
    trusts: ssl.SSLContext | None = None
    name: str = "localhost"

    def connect(self, source: str = "127.0.0.1", protocol: str = "http/1.1") -> socket.socket:
        """Open a connection from an address of loopback's."""
        raw = self.dial(source)
        if self.trusts is None:
            return raw
        self.trusts.set_alpn_protocols([protocol])
        return self.trusts.wrap_socket(raw, server_hostname=self.name)

    def dial(self, source: str = "127.0.0.1") -> socket.socket:
        """Open a bare TCP connection and say nothing."""
        return socket.create_connection(("127.0.0.1", self.port), PATIENCE_S, (source, 0))

    def call(self, method: str, path: str, body: bytes | None = None) -> int:
        """Make a whole call as a phone does; return its status. Errors: OSError where none comes in time."""
        link: http.client.HTTPConnection
        if self.trusts is None:
            link = http.client.HTTPConnection("127.0.0.1", self.port, timeout=ANSWERS_WITHIN_S)
        else:
            self.trusts.set_alpn_protocols(["http/1.1"])
            link = http.client.HTTPSConnection(self.name, self.port, timeout=ANSWERS_WITHIN_S, context=self.trusts)
        try:
            link.request(method, path, body, {"Authorization": f"Bearer {self.token}"})
            answer = link.getresponse()
            answer.read()
            return answer.status
        finally:
            link.close()


@dataclass
class Watch:
    """Asks for health and syncs all the while; `worst_s` is the longest time that an answer took, by path."""

    target: Target
    worst_s: dict[str, float] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)

    @contextmanager
    def watching(self) -> Iterator["Watch"]:
        """Watch while this is open; each call must have been answered well and in time."""
        done = threading.Event()
        thread = threading.Thread(target=self._ask, args=(done,))
        thread.start()
        try:
            yield self
        finally:
            done.set()
            thread.join()
        assert self.wrong == []
        assert set(self.worst_s) == {"/api/v1/health", SYNC}

    def _ask(self, done: threading.Event) -> None:
        body = json.dumps({"entries": [], "cursor": 0}).encode()
        over = False
        while not over:
            over = done.wait(0.25)
            for path, sent in (("/api/v1/health", None), (SYNC, body)):
                began = time.monotonic()
                try:
                    status = self.target.call("GET" if sent is None else "POST", path, sent)
                    if status != 200:
                        self.wrong.append(f"{path}: {status}")
                except OSError as error:
                    self.wrong.append(f"{path}: {error!r}")
                self.worst_s[path] = max(self.worst_s.get(path, 0.0), time.monotonic() - began)


@dataclass(frozen=True)
class Burden:
    """What a process holds: threads, and handles of sockets and of files, those without a name among them.

    The database's own are left out: each thread that works opens them once, and keeps them.
    """

    threads: int
    handles: int

    @classmethod
    def of(cls, process: psutil.Process) -> "Burden":
        handles = handles_of(process)
        return cls(process.num_threads(), sum(DATABASE not in where for where in handles))

    def with_lanes(self) -> "Burden":
        """Return this with every thread that there is for work: they come as they are needed, and stay."""
        return Burden(self.threads + sum(LANES.values()), self.handles)


def handles_of(process: psutil.Process) -> list[str]:
    """Return where each handle of a process leads."""
    return [_where(handle) for handle in Path(f"/proc/{process.pid}/fd").iterdir()]


def _where(handle: Path) -> str:
    with suppress(FileNotFoundError):
        return str(handle.readlink())
    return DATABASE  # closed since it was listed


def relieved(process: psutil.Process, before: Burden) -> float:
    """Wait until a process holds no more than before; return how many seconds that took."""
    began = time.monotonic()
    while True:
        now = Burden.of(process)
        if now.threads <= before.threads and now.handles <= before.handles:
            return time.monotonic() - began
        assert time.monotonic() - began < PATIENCE_S, f"{before}, and then {now} for good"
        time.sleep(0.05)


def half_a_body(link: socket.socket, sent: bytes = BEGUN, path: str = SYNC, token: str = "") -> None:
    """Send the head of a call over HTTP/1.1, and of its body all but the last 5,000 bytes."""
    method = "PUT" if path != SYNC else "POST"
    head = [f"{method} {path} HTTP/1.1", "Host: van", f"Content-Length: {len(sent) + 5000}"]
    if token:
        head.append(f"Authorization: Bearer {token}")
    link.sendall("\r\n".join([*head, "", ""]).encode() + sent)


def status_of(link: socket.socket) -> int:
    """Return the status that comes in the end, 0 where the connection ends without."""
    with suppress(OSError):
        line = link.recv(64)
        if line:
            return int(line.split()[1])
    return 0


class Streams:
    """Many calls on one HTTP/2 connection, each half sent."""

    def __init__(self, link: socket.socket) -> None:
        self._link = link
        self._spoken = H2Connection(H2Configuration(client_side=True))
        self._spoken.initiate_connection()
        self.statuses: Counter[int] = Counter()

    def half_send(self, count: int, path: str = SYNC, token: str = "") -> None:
        """Begin so many calls and end none."""
        method = "PUT" if path != SYNC else "POST"
        head = [(":method", method), (":path", path), (":scheme", "https"), (":authority", "van")]
        head += [("content-length", "5000"), *([("authorization", f"Bearer {token}")] if token else [])]
        for _ in range(count):
            stream = self._spoken.get_next_available_stream_id()
            self._spoken.send_headers(stream, head)
            self._spoken.send_data(stream, BEGUN)
        self._link.sendall(self._spoken.data_to_send())

    def read_until(self, count: int) -> None:
        """Read until so many calls were answered."""
        while self.statuses.total() < count:
            data = self._link.recv(65_536)
            assert data, f"the connection ended with {self.statuses}"
            for event in self._spoken.receive_data(data):
                if isinstance(event, ResponseReceived):
                    said = {bytes(name): bytes(value) for name, value in event.headers or []}
                    self.statuses[int(said[b":status"])] += 1
            self._link.sendall(self._spoken.data_to_send())

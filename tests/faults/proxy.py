"""A network that misbehaves: a real TCP proxy on loopback that cuts, holds, delays, swallows and lies.

It reads one request from a connection, asks its rule what goes wrong, and passes request and reply on as far as the
rule lets them. What the server acknowledged is noted whether or not the phone hears of it.
"""

import gzip
import json
import select
import socket
import struct
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

PATIENCE_S = 60.0
PIECE = 65536
PORTAL = b"<!doctype html><title>Welcome</title><p>Accept the terms of use to go online.</p>"


@dataclass(frozen=True)
class Request:
    """What a phone asked: method, path, its head and body as they came."""

    method: str
    path: str
    head: bytes
    body: bytes
    whole: bool

    @property
    def is_api(self) -> bool:
        return self.path.startswith("/api/")

    @property
    def is_sync(self) -> bool:
        return self.path == "/api/v1/sync"

    @property
    def is_photo(self) -> bool:
        return self.method == "PUT" and self.path.startswith("/api/v1/photos/")

    @property
    def entries(self) -> list[dict[str, Any]]:
        """The entries of a sync request."""
        return json.loads(self.body)["entries"] if self.is_sync else []


@dataclass(frozen=True)
class Fault:
    """What goes wrong with one request.

    wait_s: it reaches the server so much later; request_bytes: only so much of its body does; forwarded: whether any
    of it does; hold: the reply waits for this; reply_bytes: only so much of the reply comes through (0: cut after the
    server's commit); instead: these bytes come in the reply's place.
    """

    wait_s: float = 0
    request_bytes: int | None = None
    forwarded: bool = True
    hold: threading.Event | None = None
    reply_bytes: int | None = None
    instead: bytes | None = None


NOTHING = Fault()
REFUSED = Fault(forwarded=False)
LOST_REPLY = Fault(reply_bytes=0)
Rule = Callable[[Request], Fault]


def no_api(request: Request) -> Fault:
    """Refuse all but the app's own files: for phones that do not keep these, and would have them in the app's place."""
    return REFUSED if request.is_api else NOTHING


def answer(body: bytes, content_type: str = "text/html", status: str = "200 OK") -> bytes:
    """Return a whole HTTP reply."""
    head = (
        f"HTTP/1.1 {status}\r\nContent-Type: {content_type}\r\nContent-Length: {len(body)}\r\nConnection: close\r\n\r\n"
    )
    return head.encode() + body


CAPTIVE = Fault(forwarded=False, instead=answer(PORTAL))
"""A station's own page in place of every answer; the server hears nothing."""
CAPTIVE_BEHIND = Fault(instead=answer(PORTAL))
"""The server stored it, and the phone gets a page."""


class Proxy:
    """Listens at a port of its own and speaks with the server at another one.

    rule: what goes wrong with a request. up, down: while one is not set nothing passes that way, as behind a hill;
    what was under way comes through later, or the phone has given up by then.
    """

    def __init__(self, server_port: int, on_accepted: Callable[[list[str]], None]) -> None:
        self.server_port = server_port
        self.rule: Rule = lambda request: NOTHING
        self.up, self.down = threading.Event(), threading.Event()
        self.heal()
        self.requests: list[Request] = []
        self.statuses: list[tuple[str, int]] = []
        self._on_accepted = on_accepted
        self._open: set[socket.socket] = set()
        self._listener = socket.create_server(("127.0.0.1", 0), backlog=128)
        self.port: int = self._listener.getsockname()[1]
        threading.Thread(target=self._listen, daemon=True).start()

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def heal(self) -> None:
        """Let everything through again."""
        self.rule = lambda request: NOTHING
        self.up.set()
        self.down.set()

    def close(self) -> None:
        self.heal()
        with suppress(OSError):
            self._listener.shutdown(socket.SHUT_RDWR)
        self._listener.close()

    def cut_open(self) -> None:
        """Cut every connection that a phone has open, whatever is on its way."""
        for phone in list(self._open):
            with suppress(OSError):
                phone.shutdown(socket.SHUT_RDWR)

    def count(self, method: str, start: str) -> int:
        """Return how many requests came with this method and start of path below /api/v1."""
        return sum(one.method == method and one.path.startswith(f"/api/v1{start}") for one in list(self.requests))

    def _listen(self) -> None:
        while self._listener.fileno() >= 0:  # until it is closed at the end of the test
            with suppress(OSError):
                phone, _ = self._listener.accept()
                threading.Thread(target=self._serve, args=(phone,), daemon=True).start()

    def _serve(self, phone: socket.socket) -> None:
        phone.settimeout(PATIENCE_S)
        self._open.add(phone)
        with phone, suppress(OSError, ValueError):  # either side may be killed at any time
            request = _read_request(phone)
            if request is not None:
                self.requests.append(request)
                cut = Fault(request_bytes=len(request.body))
                self._pass_on(phone, request, self.rule(request) if request.whole else cut)
        self._open.discard(phone)

    def _pass_on(self, phone: socket.socket, request: Request, fault: Fault) -> None:
        time.sleep(fault.wait_s)
        self.up.wait(PATIENCE_S)
        if not fault.forwarded:
            _give(phone, fault.instead)
            return
        with socket.create_connection(("127.0.0.1", self.server_port), PATIENCE_S) as server:
            server.sendall(request.head + request.body[: fault.request_bytes])
            if fault.request_bytes is not None:
                time.sleep(0.05)  # what was sent arrives before the cut
                _reset(server)
                _reset(phone)
            elif request.path == "/api/v1/live":
                self._stream(server, phone)
            else:
                self._answer(phone, request, _read_all(server), fault)

    def _answer(self, phone: socket.socket, request: Request, reply: bytes, fault: Fault) -> None:
        self._note(request, reply)
        if fault.hold is not None:
            fault.hold.wait(PATIENCE_S)
        self.down.wait(PATIENCE_S)
        if fault.reply_bytes is not None:
            phone.sendall(reply[: fault.reply_bytes])
            _reset(phone)
        else:
            _give(phone, fault.instead or reply)

    def _stream(self, server: socket.socket, phone: socket.socket) -> None:
        while server in (ready := select.select([server, phone], [], [], PATIENCE_S)[0]):
            piece = server.recv(PIECE)
            self.down.wait(PATIENCE_S)
            phone.sendall(piece)
            if not piece or phone in ready:  # a phone that listens says nothing: this is its goodbye
                return

    def _note(self, request: Request, reply: bytes) -> None:
        head, _, body = reply.partition(b"\r\n\r\n")
        if not head:
            return
        status = int(head.split(None, 2)[1])
        self.statuses.append((f"{request.method} {request.path}", status))
        if request.is_sync and status == 200:
            packed = b"\r\ncontent-encoding: gzip" in head.lower()
            self._on_accepted(json.loads(gzip.decompress(body) if packed else body)["accepted"])


def _read_request(phone: socket.socket) -> Request | None:
    data = b""
    while b"\r\n\r\n" not in data:
        piece = phone.recv(PIECE)
        if not piece:
            return None
        data += piece
    head, _, body = data.partition(b"\r\n\r\n")
    first, *lines = head.split(b"\r\n")
    fields = {name.lower(): value.strip() for name, _, value in (line.partition(b":") for line in lines)}
    length = int(fields.get(b"content-length", 0))
    while len(body) < length and (piece := phone.recv(PIECE)):
        body += piece
    method, path, _ = first.decode().split(" ")
    return Request(method, path, _closing(first, lines), body, len(body) >= length)


def _closing(first: bytes, lines: list[bytes]) -> bytes:
    """Return the head of a connection that serves one request."""
    kept = [line for line in lines if not line.lower().startswith((b"connection:", b"expect:"))]
    return b"\r\n".join([first, *kept, b"Connection: close", b"", b""])


def _read_all(server: socket.socket) -> bytes:
    pieces = []
    server.settimeout(PATIENCE_S)
    while piece := server.recv(PIECE):
        pieces.append(piece)
    return b"".join(pieces)


def _give(phone: socket.socket, reply: bytes | None) -> None:
    if reply is None:
        _reset(phone)
    else:
        phone.sendall(reply)


def _reset(end: socket.socket) -> None:
    """Close at once with a reset, as a link that breaks does."""
    end.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
    end.close()

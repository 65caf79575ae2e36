"""Calls the Flask app for a request that is whole, and gives its answer in portions that no thread has to wait for.

The usual adapters from ASGI to WSGI read a body from the thread that works on it, and keep the thread until the client
has taken the answer: whoever sends or reads slowly holds threads. Here a thread runs the app, and again for each
further portion of a long answer; the event loop does all the waiting.
"""

import sys
from collections.abc import Callable, Iterable, Iterator
from typing import IO, Any
from wsgiref.types import WSGIApplication

from shuntbook.web.asgi import Scope

PORTION = 256 * 1024
"""Bytes of an answer that lie in memory at a time; nearly all answers are one portion."""

Environ = dict[str, Any]


class Answer:
    """What the app answers: a status, headers, and the body in portions."""

    def __init__(self, app: WSGIApplication, environ: Environ) -> None:
        self.status = 500
        self.headers: list[tuple[str, str]] = []
        self.ended = False
        self._body = app(environ, self._start)
        self._parts: Iterator[bytes] = iter(self._body)

    @property
    def content_type(self) -> str:
        """Of the body, "" where there is none."""
        return next((value for name, value in self.headers if name.lower() == "content-type"), "")

    def portion(self) -> bytes:
        """Return the next bytes of the body, and close it at its end. In a thread: this is where the app works."""
        taken: list[bytes] = []
        size = 0
        for part in self._parts:
            taken.append(part)
            size += len(part)
            if size >= PORTION:
                return b"".join(taken)
        self.close()
        return b"".join(taken)

    def close(self) -> None:
        """Let the app close what its answer holds."""
        if not self.ended:
            self.ended = True
            close: Callable[[], None] | None = getattr(self._body, "close", None)
            if close is not None:
                close()

    def _start(self, status: str, headers: list[tuple[str, str]], _: object = None, /) -> Callable[[bytes], object]:
        self.status, self.headers = int(status.split(" ", 1)[0]), headers
        return _no_writing


def environ_of(scope: Scope) -> Environ:
    """Return the environ (PEP 3333) of a request without its body."""
    host, port = scope.get("server") or ("localhost", 0)
    address, from_port = scope.get("client") or ("", 0)
    return {
        "REQUEST_METHOD": scope["method"],
        "SCRIPT_NAME": "",
        "PATH_INFO": scope["path"].encode().decode("latin-1"),
        "QUERY_STRING": scope["query_string"].decode("latin-1"),
        "SERVER_PROTOCOL": f"HTTP/{scope['http_version']}",
        "SERVER_NAME": host,
        "SERVER_PORT": str(port),
        "REMOTE_ADDR": address,
        "REMOTE_PORT": str(from_port),
        "wsgi.version": (1, 0),
        "wsgi.url_scheme": scope.get("scheme", "http"),
        "wsgi.errors": sys.stderr,
        "wsgi.multithread": True,
        "wsgi.multiprocess": False,
        "wsgi.run_once": False,
        **_headers(scope["headers"]),
    }


def put_body(environ: Environ, file: IO[bytes], size: int) -> None:
    """Put a whole body into an environ, with its own length in place of what was announced."""
    environ["wsgi.input"] = file
    environ.pop("HTTP_TRANSFER_ENCODING", None)
    environ["CONTENT_LENGTH"] = str(size)


def _headers(headers: Iterable[tuple[bytes, bytes]]) -> Environ:
    found: Environ = {}
    for raw, value in headers:
        name = raw.decode("latin-1").upper().replace("-", "_")
        key = name if name in ("CONTENT_TYPE", "CONTENT_LENGTH") else f"HTTP_{name}"
        said = value.decode("latin-1")
        # RFC 9110, 5.3: what is said several times is one list. RFC 9113, 8.2.3: pieces of a cookie are the exception.
        between = "; " if name == "COOKIE" else ","
        found[key] = f"{found[key]}{between}{said}" if key in found else said
    return found


def _no_writing(_: bytes) -> object:
    raise NotImplementedError("the app answers with an iterable, not by writing")

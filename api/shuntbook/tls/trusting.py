"""The small plain-http server of the page that explains how to trust the CA; it serves that and nothing else."""

import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from socket import socket

from shuntbook.kit.errors import NotAllowed
from shuntbook.tls.page import Served

POLICY = "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'"
MOST_AT_ONCE = 32
"""Connections; one more is closed at once, so that nobody can fill the laptop's memory from here."""
PATIENCE_S = 10


@contextmanager
def trust_page(host: str, port: int, files: Mapping[str, Served]) -> Iterator[int]:
    """Serve the page from a thread for the length of the block; gives the port. Errors: NotAllowed."""
    try:
        server = _Server((host, port), _handler(files))
    except (OSError, OverflowError) as error:
        raise NotAllowed(f"the page on port {port} can't be served: {error}. Name another --trust-port") from error
    thread = threading.Thread(target=server.serve_forever, name="trust-page", daemon=True)
    thread.start()
    try:
        yield server.server_port
    finally:
        server.shutdown()
        server.server_close()


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    block_on_close = False
    # A whole team that opens the page at once waits in line; with the usual 5, some would wait for seconds.
    request_queue_size = MOST_AT_ONCE

    def __init__(self, *arguments: object) -> None:
        self._slots = threading.BoundedSemaphore(MOST_AT_ONCE)
        super().__init__(*arguments)  # type: ignore[arg-type]

    def process_request(self, request: socket, client_address: object) -> None:  # type: ignore[override]
        if self._slots.acquire(blocking=False):
            super().process_request(request, client_address)
        else:
            self.shutdown_request(request)

    def process_request_thread(self, request: socket, client_address: object) -> None:  # type: ignore[override]
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._slots.release()

    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing: a phone that goes away in the middle is no fault of ours."""


def _handler(files: Mapping[str, Served]) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        """Answers GET and HEAD for the page's few files; every other path is not found."""

        timeout = PATIENCE_S
        server_version = "Shuntbook"
        sys_version = ""

        def do_GET(self) -> None:
            """Serve a file."""
            self._answer(with_body=True)

        def do_HEAD(self) -> None:
            """Say how large a file is."""
            self._answer(with_body=False)

        def _answer(self, *, with_body: bool) -> None:
            served = files.get(self.path.partition("?")[0])
            if served is None:
                self.send_error(HTTPStatus.NOT_FOUND)
                return
            self.send_response(HTTPStatus.OK)
            for name, value in _headers(served).items():
                self.send_header(name, value)
            self.end_headers()
            if with_body:
                self.wfile.write(served.body)

        def log_message(self, *_: object) -> None:
            """Write no line for each request; there is nothing to learn from them."""

    return Handler


def _headers(served: Served) -> dict[str, str]:
    return {
        "Content-Type": served.media_type,
        "Content-Length": str(len(served.body)),
        "Content-Security-Policy": POLICY,
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "no-referrer",
        "Cache-Control": "no-cache",
    }

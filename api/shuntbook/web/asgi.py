"""The few words of ASGI (3.0, HTTP) that the edge speaks with the server."""

from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

Scope = MutableMapping[str, Any]
"""A request: `method`, `path` (decoded), `query_string` and `headers` (bytes, names in small letters), `client`."""

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]

DISCONNECT = "http.disconnect"


def header(scope: Scope, name: bytes) -> str:
    """Return a header's value, the first one where there are several, "" where there is none."""
    return next((value.decode("latin-1") for one, value in scope["headers"] if one == name), "")


def address(scope: Scope) -> str:
    """Return the address that a request came from, "" where the server does not say."""
    client = scope.get("client")
    return str(client[0]) if client else ""


async def start(send: Send, status: int, headers: list[tuple[str, str]]) -> None:
    """Send an answer's status and headers."""
    raw = [(name.lower().encode("latin-1"), value.encode("latin-1")) for name, value in headers]
    await send({"type": "http.response.start", "status": status, "headers": raw})


async def write(send: Send, data: bytes, *, more: bool) -> None:
    """Send a part of an answer's body."""
    await send({"type": "http.response.body", "body": data, "more_body": more})

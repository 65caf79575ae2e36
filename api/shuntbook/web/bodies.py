"""Reads request bodies on the event loop, so that one that never ends holds no thread.

Small ones are kept in memory, large ones in a temporary file that has no name, so that nothing of it is left however
the process ends.
"""

import asyncio
from collections import Counter
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager, suppress
from math import inf
from tempfile import SpooledTemporaryFile
from typing import IO

from werkzeug.exceptions import (
    HTTPException,
    RequestEntityTooLarge,
    RequestTimeout,
    ServiceUnavailable,
    TooManyRequests,
)

from shuntbook.kit.errors import StoreUnavailable
from shuntbook.web.asgi import DISCONNECT, Receive, Scope, address, header
from shuntbook.web.limits import UNKNOWN, Limits, most_bytes

IN_MEMORY = 256 * 1024
RETRY_AFTER_S = 5
BODILESS = ("GET", "HEAD", "OPTIONS", "DELETE")

Admit = Callable[[Scope], Awaitable[None]]
"""Raises what is to be answered where a request is not from a phone that has joined."""


class Gone(Exception):
    """The client went away before its request was whole: there is nobody to answer."""


class Body:
    """A request's body, whole or still coming."""

    def __init__(self, sender: str) -> None:
        self.sender = sender
        self.file: IO[bytes] = SpooledTemporaryFile(IN_MEMORY)  # noqa: SIM115 - closed by `Bodies.read`
        self.size = 0
        self.began = _now()
        self.why: HTTPException | None = None
        self._until = inf
        self._waits: asyncio.Timeout | None = None

    def give_up(self, why: HTTPException, until: float) -> None:
        """Wait for its next part until then and no longer: it has to make room for others, and `why` is told."""
        self.why, self._until = why, until
        if self._waits is not None:
            self._waits.reschedule(until)

    async def part(self, receive: Receive, until: float) -> tuple[bytes, bool]:
        """Return the next part, and whether more follow. Errors: Gone, and why it was given up."""
        if self.why is not None and self._until <= _now():
            raise self.why
        try:
            async with asyncio.timeout_at(min(until, self._until)) as self._waits:
                message = await receive()
        except TimeoutError:
            raise self.why or RequestTimeout(
                "the request's body stopped coming, or came too slowly; nothing of it was taken. Send it again"
            ) from None
        finally:
            self._waits = None
        if message["type"] == DISCONNECT:
            raise Gone
        return message.get("body", b""), message.get("more_body", False)


class Bodies:
    """All bodies under way. Belongs to the event loop: nothing here is called from a thread."""

    def __init__(self, limits: Limits, admit: Admit) -> None:
        self._limits = limits
        self._admit = admit
        self._unfinished: dict[Body, None] = {}
        self._held = 0

    @contextmanager
    def kept(self, scope: Scope) -> Iterator[Body]:
        """Give an empty body, and forget it with all that came of it in the end."""
        body = Body(address(scope))
        try:
            yield body
        finally:
            self._unfinished.pop(body, None)
            self._held -= body.size
            body.file.close()

    async def read(self, body: Body, scope: Scope, receive: Receive) -> None:
        """Read a request's body whole.

        Errors: Gone; HTTPException 408, 413, 429, 503, StoreUnavailable where the disk is full, and what `Admit`
        raises, to be answered instead.
        """
        announced = _announced(scope)
        if announced == 0:
            return
        most = most_bytes(scope["path"])
        _refuse_too_large(announced or 0, most)
        self._enter(body)
        await self._fill(body, scope, receive, most)
        self._unfinished.pop(body, None)
        body.file.seek(0)

    async def drain(self, receive: Receive) -> None:
        """Let the rest of a refused body come, and throw it away.

        A connection that is closed while the other side still sends is reset, and the answer that says why is lost
        with it (RFC 9112, section 9.6).
        """
        with suppress(TimeoutError):
            async with asyncio.timeout(self._limits.drained_s):
                while (await receive()).get("more_body"):
                    pass

    async def _fill(self, body: Body, scope: Scope, receive: Receive, most: int) -> None:
        admitted, more = False, True
        while more:
            if not admitted and max(_announced(scope) or 0, body.size) > UNKNOWN:
                await self._admit(scope)
                admitted = True
            until = min(_now() + self._limits.pause_s, body.began + self._limits.due_s(body.size))
            data, more = await body.part(receive, until)
            _refuse_too_large(body.size + len(data), most)
            self._keep(body, data)

    def _keep(self, body: Body, data: bytes) -> None:
        if self._held + len(data) > self._limits.held:
            raise ServiceUnavailable("the server has no room for more uploads now", retry_after=RETRY_AFTER_S)
        try:
            # Into the page cache at most: a disk takes its time later, and not the loop's.
            body.file.write(data)
        except OSError as error:
            raise StoreUnavailable(f"the server's disk has no room for the upload: {error}") from error
        body.size += len(data)
        self._held += len(data)

    def _enter(self, body: Body) -> None:
        """Take a body among the unfinished; where there are too many, the one that has waited longest is given up.

        It has `moment_s` from its start all the same. A phone's own call is whole by then, however many others are
        begun at its address between two packets of it; without that, it was now and then the oldest of a flood.
        """
        self._unfinished[body] = None
        whose = Counter(one.sender for one in self._unfinished)
        if whose[body.sender] > self._limits.per_address:
            self._give_up_oldest(body.sender, TooManyRequests(_TOO_MANY, retry_after=RETRY_AFTER_S))
        elif len(self._unfinished) > self._limits.in_all:
            busiest = whose.most_common(1)[0][0]
            self._give_up_oldest(busiest, ServiceUnavailable(_TOO_MANY, retry_after=RETRY_AFTER_S))

    def _give_up_oldest(self, sender: str, why: HTTPException) -> None:
        oldest = next(one for one in self._unfinished if one.sender == sender)
        del self._unfinished[oldest]
        oldest.give_up(why, oldest.began + self._limits.moment_s)


_TOO_MANY = "too many requests are half sent; nothing of this one was taken. Send it again"


def _now() -> float:
    return asyncio.get_running_loop().time()


def _announced(scope: Scope) -> int | None:
    """Return how many bytes a body is said to have, None where that is left open."""
    said = header(scope, b"content-length")
    if said.isdecimal():
        return int(said[:20])
    chunked = header(scope, b"transfer-encoding")
    return 0 if scope["method"] in BODILESS and not chunked else None


def _refuse_too_large(size: int, most: int) -> None:
    if size > most:
        raise RequestEntityTooLarge(f"the body has more than the {most} bytes that this call takes; nothing was taken")

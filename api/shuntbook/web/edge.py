"""The edge: what the server hands each request to, on one event loop. Flask is given only requests that are whole.

Threads are for work, never for waiting: bodies come in on the loop with a deadline, event streams are coroutines, and
`/health` and `/sync` have threads that no upload gets.
"""

import asyncio
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import aclosing, suppress
from dataclasses import dataclass
from io import BytesIO
from typing import TypeVar

from flask import Flask, request
from werkzeug.exceptions import HTTPException, RequestTimeout

from shuntbook.kit.errors import ShuntbookError
from shuntbook.kit.heap import give_back
from shuntbook.web.api import PREFIX
from shuntbook.web.asgi import DISCONNECT, Receive, Scope, Send, header, start, write
from shuntbook.web.bodies import Bodies, Gone
from shuntbook.web.limits import Limits
from shuntbook.web.live import DEVICE, STREAM, News, farewell
from shuntbook.web.logs import BEGAN
from shuntbook.web.wsgi import Answer, Environ, environ_of, put_body

T = TypeVar("T")

LANES = {"health": 1, "sync": 8, "photos": 4, "plan": 2, "others": 24}
"""Threads by what they are for. A photo takes some 50 MiB while it is checked, so few of them at a time.

A plan made at once is a second of pure calculation: two at a time leave a processor's turns for all else.
"""

SMALL = ("health", "sync")
"""Lanes whose work takes little memory."""
GIVES_BACK_AFTER_S = 1.0
"""A paper, a photo or a plan takes tens of MiB for a moment; what comes within this time is given back with it."""

REFUSED = "shuntbook.refused"
"""Where the environ holds why a request is refused before the app has seen it."""

TAKES_WITHIN_S = 45.0
"""Who takes nothing of a stream for three beats is gone, though the connection stands."""


class Edge:
    """An ASGI app before the Flask app."""

    def __init__(self, app: Flask, news: News, admit: Callable[[str], object], limits: Limits) -> None:
        self._app = app
        self._news = news
        self._admit = admit
        self._lanes = {name: ThreadPoolExecutor(most, f"{name}-") for name, most in LANES.items()}
        self._bodies = Bodies(limits, self._admitted)
        self._gives_back = False

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        try:
            asked = await self._asked(scope, receive)
        except Gone:
            return
        if asked.answer.status == 200 and asked.answer.content_type.startswith(STREAM):
            await self._listen(asked.answer, asked.device, receive, send)
            return
        await self._reply(_lane(scope["path"]), asked, send)
        if asked.sends_on:
            await self._bodies.drain(receive)

    async def _asked(self, scope: Scope, receive: Receive) -> "_Asked":
        """Read a request whole and have the app answer it, or say why not. Errors: Gone."""
        environ = environ_of(scope)
        sends_on = False
        environ[BEGAN] = time.perf_counter()
        with self._bodies.kept(scope) as body:
            try:
                await self._bodies.read(body, scope, receive)
                put_body(environ, body.file, body.size)
            except (HTTPException, ShuntbookError) as refusal:
                environ[REFUSED] = refusal
                sends_on = not (refusal is body.why or isinstance(refusal, RequestTimeout))
                put_body(environ, BytesIO(), 0)
            answer, first = await self._in(_lane(scope["path"]), _answered, self._app, environ)
        return _Asked(answer, first, str(environ.get(DEVICE, "")), sends_on)

    async def _reply(self, lane: str, asked: "_Asked", send: Send) -> None:
        answer = asked.answer
        try:
            await start(send, answer.status, answer.headers)
            await write(send, asked.first, more=not answer.ended)
            while not answer.ended:
                portion = await self._in(lane, answer.portion)
                await write(send, portion, more=not answer.ended)
        finally:
            answer.close()

    async def _listen(self, answer: Answer, device: str, receive: Receive, send: Send) -> None:
        """Stream the news until the client is gone, the server stops, or the stream is one too many."""
        headers = [(name, value) for name, value in answer.headers if name.lower() != "content-length"]
        await start(send, answer.status, headers)
        either = {asyncio.ensure_future(self._pump(device, send)), asyncio.ensure_future(_gone(receive))}
        try:
            await asyncio.wait(either, return_when=asyncio.FIRST_COMPLETED)
        finally:
            for task in either:
                task.cancel()
            await asyncio.gather(*either, return_exceptions=True)

    async def _pump(self, device: str, send: Send) -> None:
        with suppress(TimeoutError):
            async with aclosing(self._news.stream(device)) as parts:
                async for part in parts:
                    async with asyncio.timeout(TAKES_WITHIN_S):
                        await write(send, part, more=True)
            async with asyncio.timeout(TAKES_WITHIN_S):
                await write(send, farewell(), more=False)

    async def _admitted(self, scope: Scope) -> None:
        await self._in("health", self._admit, header(scope, b"authorization"))

    async def _in(self, lane: str, work: Callable[..., T], *args: object) -> T:
        loop = asyncio.get_running_loop()
        try:
            return await loop.run_in_executor(self._lanes[lane], work, *args)
        finally:
            if lane not in SMALL and not self._gives_back:
                self._gives_back = True
                loop.call_later(GIVES_BACK_AFTER_S, self._give_back)

    def _give_back(self) -> None:
        self._gives_back = False
        self._lanes["others"].submit(give_back)


@dataclass(frozen=True)
class _Asked:
    """What the app answers: its first portion is made; `sends_on` where the client still sends what was refused."""

    answer: Answer
    first: bytes
    device: str
    sends_on: bool


def refuse_at_the_edge(app: Flask) -> None:
    """Have the app answer what the edge refused as it answers everything else: as a problem, and with a line."""

    @app.before_request
    def refuse() -> None:
        refusal = request.environ.get(REFUSED)
        if refusal is not None:
            raise refusal


def _answered(app: Flask, environ: Environ) -> tuple[Answer, bytes]:
    answer = Answer(app, environ)
    return answer, answer.portion()


def _lane(path: str) -> str:
    if path.startswith(f"{PREFIX}/events/") and path.endswith("/plan"):
        return "plan"
    name = path.removeprefix(f"{PREFIX}/").partition("/")[0] if path.startswith(PREFIX) else ""
    return name if name in LANES else "others"


async def _gone(receive: Receive) -> None:
    while (await receive())["type"] != DISCONNECT:
        pass

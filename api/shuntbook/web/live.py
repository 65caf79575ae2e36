"""Server-sent events that say only that something changed, never what."""

import asyncio
import itertools
import json
import random
from collections.abc import AsyncGenerator, Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress

BEAT_S = 15.0
MOST_STREAMS = 1000
MOST_OF_A_DEVICE = 24
"""A phone has one, or one for each tab in an old browser; more are those that it left without a goodbye."""

STREAM = "text/event-stream"
DEVICE = "shuntbook.device"
"""Where the environ of a request says whose stream it is."""

AT_ONCE, PORTION_EACH_S = 30, 0.2
"""So many phones are told at once, the next ones so much later: each that hears of a change asks for it, and what a
whole rally's phones ask for in one moment takes the server seconds. A team is one portion, and waits for nothing."""

BACK_WITHIN_MS = (2_000, 10_000)
"""Between these a phone whose stream ended comes back, each at a moment of its own: all at once are a crowd."""

State = dict[str, object]
"""What an event says, as JSON."""


class _Stream:
    """One open stream, as the news sees it."""

    def __init__(self, device: str) -> None:
        self.device = device
        self.is_open = True
        self._woken = asyncio.Event()

    def wake(self) -> None:
        self._woken.set()

    def end(self) -> None:
        self.is_open = False
        self.wake()

    async def wait(self) -> None:
        """Wait for news, or for the time of a beat."""
        with suppress(TimeoutError):
            async with asyncio.timeout(BEAT_S):
                await self._woken.wait()
        self._woken.clear()


class News:
    """Wakes every open stream when the log grew or a set-up changed.

    `read` says what is told, from the log itself; it runs in a thread, once for all streams. `tell` and `close` may be
    called from any thread, all else belongs to the event loop.
    """

    def __init__(self, read: Callable[[], State]) -> None:
        self._read = read
        self._reader = ThreadPoolExecutor(1, "news-")
        self._loop: asyncio.AbstractEventLoop | None = None
        self._changed = asyncio.Event()
        self._closed = False
        self._numbers = itertools.count()
        self._open: dict[int, _Stream] = {}
        self._watch: asyncio.Task[None] | None = None
        self._count = 0
        self._told: State = {}

    def notify(self) -> None:
        """Wake the streams."""
        self._on_loop(self._changed.set)

    def close(self) -> None:
        """End the streams, those open and those to come: the server is about to stop."""
        self._closed = True
        self._on_loop(self._end_all)

    async def stream(self, device: str = "") -> AsyncGenerator[bytes, None]:
        """Yield an event at once and after each change, and a comment as a beat in between.

        At each beat the log itself is asked, so that entries loaded by another process are told too. A device that has
        more than MOST_OF_A_DEVICE loses its oldest: a phone that goes out of reach says no goodbye.
        """
        number, own = self._enter(device)
        try:
            # Counted before the log is read: what changes in between is told once more.
            seen = self._count
            yield _event(await self._asked())
            while await self._goes_on(own):
                yield _event(self._told) if self._count != seen else b": beat\n\n"
                seen = self._count
        finally:
            self._open.pop(number, None)

    async def _goes_on(self, own: _Stream) -> bool:
        if own.is_open:
            await own.wait()
        return own.is_open and not self._closed

    def _enter(self, device: str) -> tuple[int, _Stream]:
        number, own = next(self._numbers), _Stream(device)
        self._open[number] = own
        of_device = [number for number, one in self._open.items() if one.device == device]
        if len(of_device) > MOST_OF_A_DEVICE:
            self._open.pop(of_device[0]).end()
        elif len(self._open) > MOST_STREAMS:
            self._open.pop(next(iter(self._open))).end()
        self._loop = asyncio.get_running_loop()
        if self._watch is None or self._watch.done():
            self._watch = self._loop.create_task(self._watch_log())
        return number, own

    async def _watch_log(self) -> None:
        """Read what is to be told after each change and at each beat, while anybody listens."""
        self._told = await self._asked()
        while self._open and not self._closed:
            with suppress(TimeoutError):
                async with asyncio.timeout(BEAT_S):
                    await self._changed.wait()
            changed = self._changed.is_set()
            self._changed.clear()
            told = await self._asked()
            if changed or told != self._told:
                await self._wake_all(told)

    async def _wake_all(self, told: State) -> None:
        """Wake the streams, portion by portion; what changes meanwhile is told in the next round."""
        self._told = told
        self._count += 1
        streams = list(self._open.values())
        for first in range(0, len(streams), AT_ONCE):
            if first:
                await asyncio.sleep(PORTION_EACH_S)
            for one in streams[first : first + AT_ONCE]:
                one.wake()

    def _end_all(self) -> None:
        self._changed.set()
        for one in self._open.values():
            one.end()

    async def _asked(self) -> State:
        return await asyncio.get_running_loop().run_in_executor(self._reader, self._read)

    def _on_loop(self, act: Callable[[], object]) -> None:
        # Nobody has listened yet where there is no loop; a loop that is closed has nobody left.
        if self._loop is not None:
            with suppress(RuntimeError):
                self._loop.call_soon_threadsafe(act)


def farewell() -> bytes:
    """Return a stream's last words: when to come back. By chance, so that many phones come one after the other."""
    return b"retry: %d\n\n" % random.randint(*BACK_WITHIN_MS)  # noqa: S311 - spreads, keeps no secret


def _event(told: State) -> bytes:
    return f"event: changed\ndata: {json.dumps(told)}\n\n".encode()

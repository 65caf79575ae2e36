"""A line between phone and server: as fast as the machine allows, or slow 3G; it counts what passes, both ways.

A relay and not the browser's own emulation, which slows the page but not the service worker that fetches the app. Slow
3G: 400 kbit/s each way, 400 ms there and back, as WebPageTest's profile of that name (from memory). Chromium's own
developer tools have the same rate under that name.
"""

import asyncio
import threading
import time
from contextlib import suppress
from dataclasses import dataclass

PIECE = 1460
"""Bytes read at once: a TCP segment's payload on Ethernet (1500 less 40 of headers)."""
AHEAD_S = 0.5
"""How much may be under way on the line before the sender has to wait."""


@dataclass(frozen=True)
class Speed:
    """Bytes per second each way, and seconds that they take in one direction."""

    bytes_per_s: float
    one_way_s: float


SLOW_3G = Speed(400_000 / 8, 0.2)


class Lane:
    """One direction of the line, shared by all connections: says when what comes in now comes out."""

    def __init__(self) -> None:
        self.speed: Speed | None = None
        self.passed = 0
        self._free_at = 0.0

    def take(self, size: int) -> float:
        """Count bytes in; return when (monotonic) their last comes out."""
        self.passed += size
        if self.speed is None:
            return 0.0
        self._free_at = max(self._free_at, time.monotonic()) + size / self.speed.bytes_per_s
        return self._free_at + self.speed.one_way_s

    def behind_s(self) -> float:
        """How long what came in before still takes to go out onto the line."""
        return max(0.0, self._free_at - time.monotonic()) if self.speed else 0.0


class Line:
    """Listens at a port of its own; while `speed` is None nothing is slowed."""

    def __init__(self, server_port: int) -> None:
        self.server_port = server_port
        self.down, self.up = Lane(), Lane()
        self._loop = asyncio.new_event_loop()
        self._open: set[asyncio.StreamWriter] = set()
        threading.Thread(target=self._loop.run_forever, daemon=True).start()
        started = asyncio.run_coroutine_threadsafe(asyncio.start_server(self._serve, "127.0.0.1", 0), self._loop)
        self._listening = started.result(10)
        self.port: int = self._listening.sockets[0].getsockname()[1]

    @property
    def url(self) -> str:
        """Where the phone finds the app."""
        return f"http://127.0.0.1:{self.port}"

    def set(self, speed: Speed | None) -> None:
        """Slow the line down, or let it run free."""
        self.down.speed = self.up.speed = speed

    def passed(self) -> tuple[int, int]:
        """Bytes that came down to the phone and went up from it so far."""
        return self.down.passed, self.up.passed

    def cut(self) -> None:
        """Refuse every connection from now on, and cut those that are open: the server is dead."""
        self._listening.close()
        self._loop.call_soon_threadsafe(self._abort_all)

    def _abort_all(self) -> None:
        for one in self._open:
            one.transport.abort()

    async def _serve(self, phone_reads: asyncio.StreamReader, phone: asyncio.StreamWriter) -> None:
        if self.up.speed:
            await asyncio.sleep(2 * self.up.speed.one_way_s)  # the handshake's way there and back
        with suppress(OSError):
            server_reads, server = await asyncio.open_connection("127.0.0.1", self.server_port)
            self._open |= {phone, server}
            await asyncio.gather(_pump(phone_reads, server, self.up), _pump(server_reads, phone, self.down))
            self._open -= {phone, server}
        phone.close()


async def _pump(source: asyncio.StreamReader, target: asyncio.StreamWriter, lane: Lane) -> None:
    """Pass on what comes, each piece when the lane lets it out."""
    pieces: asyncio.Queue[tuple[float, bytes]] = asyncio.Queue()
    out = asyncio.create_task(_let_out(pieces, target))
    with suppress(OSError):
        while data := await source.read(PIECE if lane.speed else PIECE * 40):
            pieces.put_nowait((lane.take(len(data)), data))
            await asyncio.sleep(max(0.0, lane.behind_s() - AHEAD_S))
    pieces.put_nowait((0.0, b""))
    await out


async def _let_out(pieces: asyncio.Queue[tuple[float, bytes]], target: asyncio.StreamWriter) -> None:
    with suppress(OSError):
        while (piece := await pieces.get())[1]:
            await asyncio.sleep(max(0.0, piece[0] - time.monotonic()))
            target.write(piece[1])
            await target.drain()
    target.close()

"""Many phones on one server: the app's own calls over TLS and HTTP/2, and how long each takes.

    python -m bench.crowd [phones …]

Six phones a car, as the app behaves: each keeps a stream of news open; who hears of a change syncs, one call at a time,
and whoever has that car's queue on screen (four of six) asks for it where the answer says that the car changed. Each
car's co-driver saves a hit a minute, which is a car in a bad stage all day. The phones are one process on the same
cores as the server, so that what is measured is the worse for it.
"""

import asyncio
import json
import random
import ssl
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import psutil
from h2.config import H2Configuration
from h2.connection import H2Connection
from h2.events import DataReceived, ResponseReceived, StreamEnded, StreamReset

from bench.entries import EVENT, event_folder
from bench.server import free_port
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.kit.ids import uuid7
from shuntbook.store.database import Store

CROWDS = (30, 150, 300, 600)
OF_A_CAR = 6
WITH_A_QUEUE = 4
EACH_S = 60.0
"""A car's co-driver saves a hit this often."""
COME_WITHIN_S = 10.0
FOR_S = 60.0
WANTED_MS = 500
PEOPLE = ("p-toma", "p-rens", "p-bodo", "p-kasp", "p-odil", "p-vera")


@dataclass
class Times:
    """What calls took, in ms by what they were, and which answers were no good ones."""

    took: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    wrong: list[str] = field(default_factory=list)


class Link:
    """One phone's connection: HTTP/2 over TLS, calls and a stream of news beside each other."""

    def __init__(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter, token: str) -> None:
        self._reader, self._writer, self._token = reader, writer, token
        self._spoken = H2Connection(H2Configuration(client_side=True))
        self._spoken.initiate_connection()
        self._ends: dict[int, asyncio.Future[tuple[int, bytes]]] = {}
        self._status: dict[int, int] = {}
        self._bodies: dict[int, bytearray] = defaultdict(bytearray)
        self._stream = 0
        self.news = asyncio.Event()

    def listen(self) -> None:
        """Open the stream of news; `news` is set at each of its events."""
        self._stream = self._begin("GET", "/live", None)

    async def call(self, method: str, path: str, body: bytes | None = None) -> tuple[int, bytes]:
        """Make a call; return status and body."""
        stream = self._begin(method, path, body)
        self._ends[stream] = asyncio.get_running_loop().create_future()
        return await self._ends[stream]

    async def read(self) -> None:
        """Read what comes, until the connection ends."""
        # What the server still sends when a phone hangs up is nothing to it.
        with suppress(ssl.SSLError, ConnectionError):
            while data := await self._reader.read(65_536):
                for event in self._spoken.receive_data(data):
                    self._take(event)
                self._send()
        for end in self._ends.values():
            if not end.done():
                end.set_result((0, b"the connection ended"))

    def close(self) -> None:
        """Hang up."""
        self._writer.close()

    def _take(self, event: object) -> None:
        if isinstance(event, ResponseReceived):
            self._status[event.stream_id] = next(
                int(value) for name, value in event.headers or [] if name == b":status"
            )
        elif isinstance(event, DataReceived):
            self._spoken.acknowledge_received_data(event.flow_controlled_length, event.stream_id)
            if event.stream_id != self._stream:
                self._bodies[event.stream_id] += event.data
            elif b"changed" in event.data:
                self.news.set()
        elif isinstance(event, StreamEnded | StreamReset) and event.stream_id in self._ends:
            end = self._ends.pop(event.stream_id)
            end.set_result((self._status.pop(event.stream_id, 0), bytes(self._bodies.pop(event.stream_id, b""))))

    def _begin(self, method: str, path: str, body: bytes | None) -> int:
        stream = self._spoken.get_next_available_stream_id()
        head = [(":method", method), (":path", f"/api/v1{path}"), (":scheme", "https"), (":authority", "localhost")]
        head.append(("authorization", f"Bearer {self._token}"))
        if body is not None:
            head += [("content-type", "application/json"), ("content-length", str(len(body)))]
        self._spoken.send_headers(stream, head, end_stream=body is None)
        if body is not None:
            self._spoken.send_data(stream, body, end_stream=True)
        self._send()
        return stream

    def _send(self) -> None:
        self._writer.write(self._spoken.data_to_send())


@dataclass
class Phone:
    """One phone of a car."""

    place: int
    car: str
    device: str
    person: str
    token: str
    times: Times
    cursor: int = 0
    log_id: str | None = None
    seq: int = 0
    waiting: list[dict[str, object]] = field(default_factory=list)

    @property
    def shows_the_queue(self) -> bool:
        """Whether it has the car's queue on screen."""
        return self.place % OF_A_CAR < WITH_A_QUEUE and self.place % OF_A_CAR > 0

    async def live(self, port: int, trusts: ssl.SSLContext, until: float) -> None:
        """Listen, sync, ask; and save where it is the co-driver's."""
        await asyncio.sleep(random.uniform(0, COME_WITHIN_S))
        # Each has an address of its own, as in a service park: what one may have under way is bounded.
        own = (f"127.0.{1 + self.place // 250}.{1 + self.place % 250}", 0)
        reader, writer = await asyncio.open_connection(
            "127.0.0.1", port, ssl=trusts, server_hostname="localhost", local_addr=own
        )
        link = Link(reader, writer, self.token)
        reading = asyncio.create_task(link.read())
        await self.sync(link)
        link.listen()
        saving = asyncio.create_task(self.save(link, until)) if self.place % OF_A_CAR == 0 else None
        while (left := until - time.monotonic()) > 0:
            try:
                async with asyncio.timeout(left):
                    await link.news.wait()
            except TimeoutError:
                break
            link.news.clear()
            await self.sync(link)
        if saving:
            saving.cancel()
        link.close()
        await asyncio.wait([reading], timeout=10)

    async def save(self, link: Link, until: float) -> None:
        """Save a hit each minute, the first at a moment of its own; it goes with the next sync, which is at once."""
        await asyncio.sleep(random.uniform(0, EACH_S))
        while time.monotonic() < until:
            self.waiting.append(self.hit())
            link.news.set()
            await asyncio.sleep(EACH_S)

    def hit(self) -> dict[str, object]:
        """Return an entry: a bent wheel."""
        self.seq += 1
        name = uuid7(int(time.time() * 1000), random.getrandbits(74))
        who = {"device": self.device, "seq": self.seq, "person": self.person, "car": self.car, "event": EVENT}
        finding = {"component": "wheel", "condition": "bent"}
        data = {"stage": f"SS{1 + self.seq % 8}", "where": "stage", "zone": "front-left", "findings": [finding]}
        return {"id": name, "v": 1, "kind": "report.filed", "subject": name, "at": now(), "data": data, **who}

    async def sync(self, link: Link) -> None:
        """Send what waits, fetch what is new, page by page; then the queue where it changed."""
        changed = False
        while True:
            sent, self.waiting = self.waiting, []
            body = {"cursor": self.cursor, "log_id": self.log_id, "entries": sent}
            what = "POST /sync" if self.log_id else "the first POST /sync"
            answer = await self.timed(link, what, "POST", "/sync", json.dumps(body).encode())
            if answer is None:
                return
            self.cursor, self.log_id = answer["cursor"], answer["log_id"]
            changed |= any(one["car"] == self.car for one in (*answer["entries"], *sent))
            if not answer["more"]:
                break
        if changed and self.shows_the_queue:
            await self.timed(link, "GET queue", "GET", f"/events/{EVENT}/cars/{self.car}/queue")

    async def timed(self, link: Link, what: str, *call: Any) -> dict[str, Any] | None:
        """Make a call, and note what it took; None where it was no good answer."""
        began = time.monotonic()
        status, body = await link.call(*call)
        self.times.took[what].append((time.monotonic() - began) * 1000)
        if status != 200:
            self.times.wrong.append(f"{what}: {status} {body[:120]!r}")
            return None
        found: dict[str, Any] = json.loads(body)
        return found


def main() -> None:
    """Measure with each number of phones."""
    for phones in [int(one) for one in sys.argv[1:]] or CROWDS:
        with tempfile.TemporaryDirectory() as folder:
            measure(Path(folder), phones)


def measure(folder: Path, phones: int) -> None:
    """Serve an event with as many cars as the phones have, and say what their calls took."""
    times, store, cars = Times(), Store(folder / "data"), [str(100 + n) for n in range(-(-phones // OF_A_CAR))]
    load(store, with_cars(event_folder(folder / "event"), cars), now())
    crowd = []
    for place in range(phones):
        person = PEOPLE[place % OF_A_CAR]
        device, token, _ = joining.join(store, joining.invite(store, person, now()), None, now())
        crowd.append(Phone(place, cars[place // OF_A_CAR], device.device, person, token, times))
    store.db.conn.close()
    port = free_port()
    words = ["--tls", "--ca", str(folder / "ca"), "--host", "127.0.0.1", "--name", "localhost"]
    ports = ["--port", str(port), "--trust-port", str(free_port())]
    command = [sys.executable, "-m", "shuntbook.cli", "serve", "--data", str(folder / "data"), *words, *ports]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        asyncio.run(rally(crowd, port, folder / "ca" / "authority" / "certificate.pem"))
        family = [psutil.Process(process.pid), *psutil.Process(process.pid).children(recursive=True)]
        cpu_s = sum(sum(one.cpu_times()[:2]) for one in family)
    finally:
        process.terminate()
        process.wait()
    said = f"{phones} phones, {len(cars)} cars, {len(cars) / EACH_S:.1f} saves a second"
    for what, took in sorted(times.took.items()):
        took.sort()
        p95 = took[int(len(took) * 0.95)]
        print(f"{said}: {what} {len(took)} times, {took[len(took) // 2]:.0f} ms, p95 {p95:.0f} ms ({WANTED_MS} wanted)")
    print(
        f"{said}: {len(times.wrong)} not answered well {times.wrong[:3]}; "
        f"the server took {cpu_s:.0f} s of CPU in {COME_WITHIN_S + FOR_S:.0f} s"
    )


def with_cars(event: Path, cars: list[str]) -> Path:
    """Add cars to an event's folder, and leave out its log."""
    file = event / "event.toml"
    more = "".join(f'[[cars]]\ncar = "{car}"\n\n' for car in cars)
    file.write_text(file.read_text().replace("[[people]]", more + "[[people]]", 1))
    (event / "entries.jsonl").write_bytes(b"")
    return event


async def rally(crowd: list[Phone], port: int, ca: Path) -> None:
    """Have all phones come within some seconds, and stay for a while."""
    while not ca.exists():
        await asyncio.sleep(0.1)
    trusts = ssl.create_default_context(cafile=str(ca))
    trusts.set_alpn_protocols(["h2"])
    for _ in range(600):
        try:
            _, writer = await asyncio.open_connection("127.0.0.1", port, ssl=trusts, server_hostname="localhost")
            writer.close()
            break
        except OSError:
            await asyncio.sleep(0.1)
    until = time.monotonic() + COME_WITHIN_S + FOR_S
    await asyncio.gather(*(phone.live(port, trusts, until) for phone in crowd))


if __name__ == "__main__":
    main()

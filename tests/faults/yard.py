"""The yard: a real server process, a bad network before it, phones on that, and what each of them said."""

import json
import re
import shutil
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Callable, Iterable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Any, Protocol

import psutil
from server import EVENT, Server, without_entries

from ports import free_port
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import Store
from warmed import Forked

from .phone import Identity, Phone, right_time
from .proxy import Proxy

PATIENCE_S = 90.0
CARS = range(43, 53)
"""Cars beside the sample event's own."""
PEOPLE = ["p-ilka", "p-toma", "p-rens", "p-jule", "p-bodo", "p-anni", "p-kasp", "p-odil", "p-vera"]
KEYS = [
    "front-left/wheel", "front-right/track-rod-end", "rear-left/brake-hose", "front-end/headlamp", "cabin/harness",
    "front-end/grille", "rear-right/tyre", "front-left/lower-arm",
]  # fmt: skip


class Client(Protocol):
    """A phone, simulated or real, as the checks see it."""

    def waiting(self) -> int:
        """Return how many entries and photos it still has to send."""

    def own(self) -> dict[str, tuple[bytes, str]]:
        """Return (bytes, waiting | sent | attention) of what was written on it, by id."""

    def queue_hash(self, car: str) -> str:
        """Return the hash of the queue that it would show."""


class Simulated(Phone):
    """A simulated phone as a client."""

    def waiting(self) -> int:
        return self.outbox.count("waiting")

    def own(self) -> dict[str, tuple[bytes, str]]:
        return self.outbox.own()

    def queue_hash(self, car: str) -> str:
        answer: str = self.queue(car)["hash"]
        return answer


class Ledger:
    """What was said: what phones told their people is kept, what the server told phones is stored."""

    def __init__(self) -> None:
        self.written: dict[str, bytes] = {}
        self.acknowledged: set[str] = set()
        self._lock = threading.Lock()

    def note_written(self, name: str, raw: bytes) -> None:
        with self._lock:
            self.written[name] = raw

    def note_accepted(self, names: list[str]) -> None:
        with self._lock:
            self.acknowledged.update(names)

    def forget(self, names: Iterable[str]) -> None:
        """Expect these nowhere any more: a lost phone took them with it, as the test meant."""
        for name in names:
            self.written.pop(name, None)


def prepare(folder: Path) -> Path:
    """Make a data folder with the sample event's set-up, unsigned entries taken, no entry yet; return it."""
    data = without_entries(folder / "data", folder / "event", [str(car) for car in CARS]).data
    take_unsigned(folder / "event" / "event.toml")
    load(Store(data), folder / "event", now())
    return data


def take_unsigned(event: Path) -> None:
    """Have an event say that it takes unsigned entries: simulated phones have no key."""
    text = event.read_text()
    if "[trust]" in text:
        text = re.sub(r'(?m)^signatures = "\w+"', 'signatures = "off"', text)
    else:
        text += '\n[trust]\nsignatures = "off"\n'
    event.write_text(text)


class Process(Server):
    """The server's process, which may be killed before it is up, and started under limits."""

    def __init__(self, data: Path) -> None:
        super().__init__(data)
        # Servers are down for a while here: none may lose its port meanwhile.
        self.port = free_port()
        self.more: list[str] = []
        """Further words of the command."""

    wrapped: Callable[[list[str]], list[str]] | None = None
    """Makes the command to start in the place of the command given; None forks the server from a warmed process."""

    def spawn(self) -> None:
        """Start the process and do not wait for it."""
        words = ["serve", "--port", str(self.port), "--data", str(self.data), *self.more]
        if self.wrapped is None:
            self.process = Forked(*words, err=self.log)
            return
        with self.log.open("a") as log:
            command = self.wrapped([sys.executable, "-m", "shuntbook.cli", *words])
            self.process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=log)

    @property
    def log(self) -> Path:
        """What the process said on standard error."""
        return self.data.with_name(f"{self.data.name}.log")

    def wait(self) -> None:
        """Wait until it answers."""
        began = time.monotonic()
        while time.monotonic() - began < PATIENCE_S:
            with suppress(OSError):
                urllib.request.urlopen(f"{self.url}/api/v1/health", timeout=5).close()
                return
            time.sleep(0.05)
        raise AssertionError(f"the server did not come up within {PATIENCE_S} s")

    def start(self) -> None:
        self.spawn()
        self.wait()

    def worker(self) -> psutil.Process:
        """Return the process that serves."""
        assert self.process is not None
        below = psutil.Process(self.process.pid).children(recursive=True)
        return [one for one in below if "shuntbook.web.solver_process" not in one.cmdline()][-1]

    def kill_worker(self) -> None:
        """Kill the process that serves alone, as a machine short of memory does; its parent must then end."""
        assert self.process is not None
        self.worker().kill()
        self.process.wait(PATIENCE_S)
        self.process = None


class Yard:
    """A server over a copy of the prepared data, its proxy, its phones."""

    def __init__(self, folder: Path, prepared: Path, data: Path | None = None) -> None:
        self.folder = folder
        self.data = data or folder / "data"
        shutil.copytree(prepared, self.data, dirs_exist_ok=True)
        self.server = Process(self.data)
        self.ledger = Ledger()
        self.proxy = Proxy(self.server.port, self.ledger.note_accepted)
        self.clients: list[Client] = []
        self.made = 0

    @property
    def simulated(self) -> list[Simulated]:
        return [one for one in self.clients if isinstance(one, Simulated)]

    def identity(self, person: str) -> Identity:
        """Join over HTTP as the app does."""
        code = self.server.link(person).rsplit("/", 1)[1]
        body = json.dumps({"code": code}).encode()
        _, data = Phone(self.folder / "joining", self.server.port, Identity("", "", ""), EVENT).call(
            "POST", "/join", body
        )
        joined = json.loads(data)
        return Identity(joined["person"], joined["device"], joined["token"])

    def phone(
        self, person: str = "p-toma", clock: Callable[[], datetime] = right_time, identity: Identity | None = None
    ) -> Simulated:
        """Return a phone that joined, behind the proxy."""
        self.made += 1
        who = identity or self.identity(person)
        folder = self.folder / f"phone-{self.made}"
        made = Simulated(folder, self.proxy.port, who, EVENT, self.ledger.note_written, clock)
        self.clients.append(made)
        return made

    def phones(self, count: int) -> list[Simulated]:
        return [self.phone(PEOPLE[place % len(PEOPLE)]) for place in range(count)]

    def again(self) -> None:
        """Begin another test: the server runs, the network is whole, all phones went home."""
        self.proxy.heal()
        self.proxy.statuses.clear()
        self.clients = []
        if self.server.process is None:
            self.server.start()

    def settle(self, patience_s: float = PATIENCE_S) -> float:
        """Wait until no phone has anything to send, none being touched; return how many seconds that took."""
        for phone in self.simulated:
            phone.start()
        began = time.monotonic()
        try:
            while any(one.waiting() for one in self.clients):
                left = {type(one).__name__: one.waiting() for one in self.clients if one.waiting()}
                assert time.monotonic() - began < patience_s, f"still waiting after {patience_s} s: {left}"
                time.sleep(0.05)
            return time.monotonic() - began
        finally:
            for phone in self.simulated:
                phone.stop()

    def close(self) -> None:
        for phone in self.simulated:
            phone.stop()
        self.proxy.close()
        self.server.stop()


class Peak:
    """The most memory that a process had while this was open, in MiB, beyond what it had before."""

    def __init__(self, process: psutil.Process) -> None:
        self._process = process
        self._done = threading.Event()
        self.before = self.most = process.memory_info().rss

    def __enter__(self) -> "Peak":
        self._thread = threading.Thread(target=self._watch, daemon=True)
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._done.set()
        self._thread.join()

    def _watch(self) -> None:
        while not self._done.wait(0.005):
            self.most = max(self.most, self._process.memory_info().rss)

    @property
    def grown_mib(self) -> float:
        answer: float = (self.most - self.before) / 2**20
        return answer


def problem_code(body: bytes | dict[str, Any]) -> str:
    """Return the last part of a problem's type."""
    problem = body if isinstance(body, dict) else json.loads(body)
    found = re.search(r"[^/]+$", problem["type"])
    return found.group() if found else ""

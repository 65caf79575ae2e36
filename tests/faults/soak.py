"""Real minutes of a real server with a crew of phones: killed again and again, and read whenever all are quiet."""

import random
import sqlite3
import sys
import time
from collections import Counter
from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

import psutil

from sample_event import event_folder
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import FILE, Store

from .at_rest import LEAST, Held, Reading, await_hung_up, await_sleep, row, wal_mib
from .crew import MANAGER, SHOWN, Beat, Someone
from .proxy import LOST_REPLY, NOTHING, REFUSED, Fault, Request
from .yard import PATIENCE_S, Yard

SOLVER = "shuntbook.web.solver_process"
TO_SOLVER = 2
"""Handles of the server's pipes to its solver, which is started by the first plan that is asked for."""


@dataclass(frozen=True)
class Length:
    """How long a soak is, in seconds: in all, from kill to kill, from rest to rest, of the last life at least.

    each_s, away_s: as `Beat` has them. awaits_solver: whether a rest waits for the plan that is being made, or leaves
    the solver out. more_mib: of the server's memory and of the solver's, how much more a life may have in its end.
    """

    all_s: float
    kill_s: tuple[float, float]
    rest_s: float
    last_s: float
    each_s: float
    away_s: tuple[float, float]
    awaits_solver: bool
    more_mib: tuple[float, float]
    phones: int = 30


def whole_sample(folder: Path) -> Path:
    """Make a data folder with the whole sample event, and a car more; it takes unsigned entries: phones have no key."""
    data = folder / "data"
    event = event_folder(folder / "event", "off") / "event.toml"
    event.write_text(event.read_text().replace("[[people]]", f'[[cars]]\ncar = "{SHOWN}"\n\n[[people]]', 1))
    store = Store(data)
    load(store, event.parent, now())
    joining.name_owner(store, MANAGER, now())
    store.db.conn.close()
    return data


@dataclass
class Soak:
    """A soak of a yard, from a seed; real processes take their own time, so that no two are alike in all.

    readings, drained_s: what came of it: after each kill, how long it took until nothing waited.
    """

    yard: Yard
    length: Length
    chance: random.Random
    readings: list[Reading] = field(default_factory=list)
    drained_s: list[float] = field(default_factory=list)
    done: Counter[str] = field(default_factory=Counter)

    def run(self) -> None:
        """Go through all of it; afterwards the server stands, and no phone does anything any more."""
        self.yard.server.start()
        self.beat = Beat(self.length.each_s, self.length.away_s)
        phones = self.yard.phones(self.length.phones)
        self.crew = [Someone(phone, random.Random(self.chance.random()), self.beat) for phone in phones]
        self.yard.proxy.rule = self._bad_network
        self._began = self._life_began = time.monotonic()
        for one in self.crew:
            one.start()
        try:
            self._go_on()
        finally:
            self.beat.over.set()
            self.yard.proxy.cut_open()  # who listens would hear of it at the next beat
            for one in self.crew:
                one.join()
                self.done += one.done
        self.yard.proxy.heal()

    def _go_on(self) -> None:
        kill_at, rest_at = time.monotonic() + self.chance.uniform(*self.length.kill_s), 0.0
        while not self._is_over():
            time.sleep(0.1)
            if time.monotonic() >= rest_at:
                self._rest()
                rest_at = time.monotonic() + self.length.rest_s
            if kill_at <= time.monotonic() < self._last_begins:
                self._kill()
                kill_at = time.monotonic() + self.chance.uniform(*self.length.kill_s)

    @property
    def _last_begins(self) -> float:
        return self._began + self.length.all_s - self.length.last_s

    def _is_over(self) -> bool:
        """Whether all the time is over, and the last life was long enough to say something, however slow all was."""
        now_s = time.monotonic()
        of_last = sum(one.life == self._life for one in self.readings)
        long_enough = now_s - self._life_began >= self.length.last_s and of_last >= LEAST
        return now_s - self._began >= self.length.all_s and long_enough

    @property
    def _life(self) -> int:
        return len(self.drained_s) + 1

    def _bad_network(self, request: Request) -> Fault:
        """Lose one reply in fifty, tear or refuse as many calls."""
        self._forget()
        luck = self.chance.random()
        if request.path == "/api/v1/live" or luck > 0.06:
            return NOTHING
        torn = Fault(request_bytes=int(len(request.body) * self.chance.random()))
        return LOST_REPLY if luck < 0.02 else torn if luck < 0.04 else REFUSED

    def _forget(self) -> None:
        """Keep nothing of what went through: half an hour of photos is much."""
        self.yard.proxy.requests.clear()

    def _kill(self) -> None:
        """Kill the server at this moment, at times the process that serves alone; start it again a moment later."""
        if self.chance.random() < 0.3:
            self.yard.server.kill_worker()
        else:
            self.yard.server.stop()
        time.sleep(self.chance.uniform(0, 3))
        self.yard.server.start()
        self._life_began = time.monotonic()
        with self.beat.silence():
            self._await_idle()
        self.drained_s.append(time.monotonic() - self._life_began)

    def _rest(self) -> None:
        """Have all be quiet, and read what the server holds once it is at rest."""
        with self.beat.silence():
            self._await_idle()
            self.yard.proxy.cut_open()
            server, solver = self._processes()
            await_hung_up(server)
            await_sleep([server, *(solver if self.length.awaits_solver else [])])
            ours = Held.of(server, apart=TO_SOLVER * len(solver))
            theirs = Held.of(solver[0]) if solver and self.length.awaits_solver else None
            at_s, size = time.monotonic() - self._began, wal_mib(self.yard.data)
            self.readings.append(Reading(at_s, self._life, self._entries(), size, ours, theirs))
        # Whoever watches half an hour sees how it goes on.
        sys.stdout.write(f"{row(self.readings[-1])}\n")
        sys.stdout.flush()

    def _processes(self) -> tuple[psutil.Process, list[psutil.Process]]:
        """Return the process that serves, and its solver where it runs."""
        server = self.yard.server.worker()
        return server, [one for one in server.children() if SOLVER in one.cmdline()]

    def _await_idle(self) -> None:
        began = time.monotonic()
        while not all(one.is_idle() for one in self.crew):
            assert time.monotonic() - began < 4 * PATIENCE_S, "phones go on sending though nobody does anything"
            time.sleep(0.05)

    def _entries(self) -> int:
        with closing(sqlite3.connect(self.yard.data / FILE)) as db:
            count: int = db.execute("SELECT count(*) FROM entry").fetchone()[0]
            return count


def told(done: Counter[str]) -> str:
    """Return how often each thing was done."""
    return ", ".join(f"{what} {count}" for what, count in sorted(done.items()))


def statuses(yard: Yard) -> Counter[int]:
    """Return how often the phones of a yard heard each status."""
    return Counter(status for phone in yard.simulated for status in phone.statuses)


def unexpected(found: Counter[int], expected: Sequence[int]) -> dict[int, int]:
    """Return the statuses that nobody should have heard."""
    return {status: count for status, count in found.items() if status not in expected}

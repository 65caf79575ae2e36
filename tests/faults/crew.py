"""A crew with simulated phones: they log, take photos, hear the news, and ask for what the app asks for."""

import http.client
import json
import random
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field

from server import EVENT

from .pictures import jpeg
from .yard import KEYS, PATIENCE_S, Simulated

HIT, SHOWN = "41", "43"
"""The car that most is logged for, and the one that papers are made of: of that one's photos there are soon no more,
since a paper with ever more photos takes ever more memory while it is set."""
MOST_SHOWN = 25
PLANNED, SERVICE, MINUTES = "42", "D", (15, 45)
"""Another car is planned, with as many minutes as chance has it: the first one's queue is never the same for long, and
the solver would never rest."""
PAPERS = ("job-sheet", "hand-over", "record", "parts-order", "restart-sheet")
DOCUMENTS = f"/events/{EVENT}/cars/{SHOWN}/documents"
ON_THE_ROAD = {"p-ilka", "p-toma", "p-rens", "p-jule"}
MANAGER = "p-vera"
TICK_S = 0.2
RETRIES_AFTER_S, LONGEST_WAIT_S = 0.25, 4.0
NOTHING_DUE = float("inf")
PLAN_ASKED_AGAIN = 3
SILENT_S = 45.0
"""How long a stream of news may say nothing, which has a beat each 15 s."""


@dataclass
class Beat:
    """What the whole crew goes by: how often each does something, and whether all are to be quiet.

    each_s: mean seconds between two deeds of one person; away_s: how long somebody is out of reach, from and to.
    """

    each_s: float
    away_s: tuple[float, float]
    shown: list[str] = field(default_factory=list)
    """Photos of the car that papers are made of."""
    quiet: threading.Event = field(default_factory=threading.Event)
    over: threading.Event = field(default_factory=threading.Event)

    @contextmanager
    def silence(self) -> Iterator[None]:
        """Have nobody begin anything, no phone listen, and whoever is out of reach come back."""
        self.quiet.set()
        try:
            yield
        finally:
            self.quiet.clear()


class Someone:
    """One person with one phone, who does one thing after the other by chance; the phone sends by itself.

    done: how often each thing came to an answer.
    """

    def __init__(self, phone: Simulated, chance: random.Random, beat: Beat) -> None:
        self.phone, self.chance, self.beat = phone, chance, beat
        self.phone.timeout_s = PATIENCE_S
        self.done: Counter[str] = Counter()
        self._deeds = self._deeds_of(phone.identity.person)
        self._news = threading.Event()
        self._turn = threading.Lock()
        self._acts_at = time.monotonic() + chance.uniform(0, beat.each_s)
        self._sends_at, self._wait_s = time.monotonic(), RETRIES_AFTER_S
        self._back_at = 0.0
        self._tag = ""
        self._photos: list[str] = []
        self._threads = [threading.Thread(target=act, daemon=True) for act in (self._live, self._listen)]

    def start(self) -> None:
        """Begin, until the crew's day is over."""
        for thread in self._threads:
            thread.start()

    def join(self) -> None:
        """Wait for the end of what is under way. Errors: AssertionError where it does not end."""
        for thread in self._threads:
            thread.join(2 * PATIENCE_S)
            assert not thread.is_alive(), "a phone waits for ever"

    def is_idle(self) -> bool:
        """Return whether nothing waits and, once all are quiet, nothing is under way any more. Waits for what is."""
        with self._turn:
            return self._sends_at == NOTHING_DUE and not self.phone.waiting()

    def _deeds_of(self, person: str) -> list[Callable[[], object]]:
        deeds: list[Callable[[], object]] = [self._log, self._log, self._photograph, self._see_photo, self._drive_off]
        if person not in ON_THE_ROAD:
            deeds += [self._finish, self._plan, self._read_paper]
        if person == MANAGER:
            deeds += [self._leaf_through, self._ask_costs]
        return deeds

    def _live(self) -> None:
        while not self.beat.over.is_set():
            heard = self._news.wait(TICK_S)
            self._news.clear()
            with self._turn:
                if heard:
                    self._sends_at = min(self._sends_at, time.monotonic())
                if time.monotonic() >= self._acts_at and not self.beat.quiet.is_set():
                    self._act()
                if time.monotonic() >= self._sends_at and not self._is_away():
                    self._send()

    def _is_away(self) -> bool:
        return time.monotonic() < self._back_at and not self.beat.quiet.is_set()

    def _act(self) -> None:
        with _no_answer():
            self.chance.choice(self._deeds)()
        self._acts_at = time.monotonic() + self.chance.expovariate(1 / self.beat.each_s)
        self._sends_at = time.monotonic()

    def _send(self) -> None:
        if self.phone.round():
            self._sends_at, self._wait_s = NOTHING_DUE, RETRIES_AFTER_S
            with _no_answer():
                self._look_at_queue()
        else:
            self._wait_s = min(2 * self._wait_s, LONGEST_WAIT_S)
            self._sends_at = time.monotonic() + self.chance.uniform(0.75, 1) * self._wait_s

    def _listen(self) -> None:
        while not self.beat.over.wait(self.chance.uniform(0.2, 1.5)):
            if not self.beat.quiet.is_set() and not self._is_away():
                with _no_answer():
                    self._hear()

    def _hear(self) -> None:
        link = http.client.HTTPConnection("127.0.0.1", self.phone.port, timeout=SILENT_S)
        try:
            link.request("GET", "/api/v1/live", headers={"Authorization": f"Bearer {self.phone.identity.token}"})
            said = link.getresponse()
            while (line := said.readline()) and not (self._is_away() or self.beat.over.is_set()):
                if line.startswith(b"data:") and self._is_news(json.loads(line.removeprefix(b"data:"))):
                    self.done["hear news"] += 1
                    self._news.set()
        finally:
            link.close()

    def _is_news(self, told: dict[str, object]) -> bool:
        """Return whether a phone has to ask: what is current is not asked for."""
        return told["cursor"] != self.phone.outbox.meta("cursor")

    def _get(self, what: str, path: str, **headers: str) -> bytes:
        """Ask for something; return the answer, empty where it is none."""
        status, data = self.phone.call("GET", path, None, **headers)
        self.done[what] += status in (200, 304)
        return data if status == 200 else b""

    def _look_at_queue(self) -> None:
        if self._get("look at a queue", f"/events/{EVENT}/cars/{HIT}/queue", **{"If-None-Match": self._tag}):
            self._tag = self.phone.headers.get("etag", "")

    def _log(self) -> None:
        self.phone.report(self.chance.choice(KEYS), car=HIT if self.chance.random() < 0.9 else SHOWN)
        self.done["log"] += 1

    def _photograph(self) -> None:
        photo = self.phone.add_photo(jpeg(self.chance.randrange(2**16)))
        self._photos.append(photo)
        is_shown = len(self.beat.shown) < MOST_SHOWN
        if is_shown:
            self.beat.shown.append(photo)
        self.phone.report(self.chance.choice(KEYS), car=SHOWN if is_shown else HIT, photos=[photo])
        self.done["log with a photo"] += 1

    def _see_photo(self) -> None:
        if self._photos:
            self._get("see a photo", f"/photos/{self.chance.choice(self._photos)}?width=320")

    def _finish(self) -> None:
        queue = json.loads(self._get("look at a queue", f"/events/{EVENT}/cars/{HIT}/queue") or '{"jobs": []}')
        jobs = [job for job in queue["jobs"] if job["state"] == "open"]
        if jobs:
            job = self.chance.choice(jobs)
            covers = {"covers": job["findings"]}
            self.phone.write(self.phone.draft("job.finished", job["job"], covers, HIT))
            self.done["finish a job"] += 1

    def _plan(self) -> None:
        minutes = self.chance.randint(*MINUTES)
        asked = json.dumps({"service": SERVICE, "minutes": minutes, "on_time_percent": 0}).encode()
        for _ in range(PLAN_ASKED_AGAIN):
            status, data = self.phone.call("POST", f"/events/{EVENT}/cars/{PLANNED}/plan", asked)
            self.done["ask for a plan"] += status == 200
            if status != 200 or json.loads(data)["by"] == "solver" or self.beat.quiet.wait(1):
                return

    def _read_paper(self) -> None:
        self._get("read a paper", f"{DOCUMENTS}/{self.chance.choice(PAPERS)}.pdf")

    def _leaf_through(self) -> None:
        self._get("leaf through a paper", f"{DOCUMENTS}/{self.chance.choice(PAPERS)}.png?page=1")

    def _ask_costs(self) -> None:
        what = self.chance.choice(("costs.json", "costs.csv", "costs.xlsx", f"costs.pdf?car={SHOWN}"))
        self._get("ask for costs", f"/events/{EVENT}/{what}")

    def _drive_off(self) -> None:
        self._back_at = time.monotonic() + self.chance.uniform(*self.beat.away_s)
        self.done["drive out of reach"] += 1


@contextmanager
def _no_answer() -> Iterator[None]:
    """Go on where a call has no answer, or a torn one: the server is gone, or the network."""
    with suppress(OSError, http.client.HTTPException, ValueError):
        yield

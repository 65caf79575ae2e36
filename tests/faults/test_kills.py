"""F5 and F21: the server killed with SIGKILL at any moment, its start-up included, while phones send."""

import random
import shutil
import sqlite3
import subprocess
import threading
import time
from collections.abc import Callable
from pathlib import Path

from shuntbook.flow import diagnostics
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.kit.canonical import sha256
from shuntbook.store.database import FILE, Store

from .invariants import check
from .pictures import jpeg
from .proxy import NOTHING, Fault, Request
from .tally import tries
from .yard import KEYS, PATIENCE_S, Simulated, Yard

SMALL = (160, 120)


class Batches:
    """The batches that each device sent, in order, so that half of one can be told from all of an earlier one."""

    def __init__(self) -> None:
        self.sent: dict[str, list[frozenset[str]]] = {}

    def note(self, request: Request) -> Fault:
        """The proxy's rule: nothing goes wrong, but what was sent is noted."""
        entries = request.entries
        if entries:
            names = frozenset(entry["id"] for entry in entries)
            self.sent.setdefault(entries[0]["device"], []).append(names)
        return NOTHING

    def halves(self, stored: set[str]) -> list[frozenset[str]]:
        """Return the batches of which a part is stored that no earlier whole one brought."""
        half = []
        for batches in list(self.sent.values()):
            whole: set[str] = set()
            for names in list(batches):
                here = names & stored
                if here == names:
                    whole |= names
                elif here - whole:
                    half.append(names)
        return half


class Writers:
    """People who log hits and take photos all the time, each on a phone that sends by itself."""

    def __init__(self, phones: list[Simulated], chance: random.Random) -> None:
        self.phones, self.chance = phones, chance
        self.pause, self._stop = threading.Event(), threading.Event()
        self._thread = threading.Thread(target=self._write, daemon=True)

    def __enter__(self) -> "Writers":
        for phone in self.phones:
            phone.start()
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._stop.set()
        self._thread.join()
        for phone in self.phones:
            phone.stop()

    def _write(self) -> None:
        while not self._stop.wait(0.03):
            if self.pause.is_set():
                continue
            phone = self.chance.choice(self.phones)
            photos = [phone.add_photo(jpeg(self.chance.randrange(200), SMALL))] if self.chance.random() < 0.3 else []
            phone.report(self.chance.choice(KEYS), photos=photos)

    def drained_s(self) -> float:
        """Stop writing for a while and return how long it took until nothing waited."""
        began = time.monotonic()
        self.pause.set()
        while any(phone.waiting() for phone in self.phones):
            time.sleep(0.02)
            assert time.monotonic() - began < 60
        self.pause.clear()
        return time.monotonic() - began


def wreck(yard: Yard, copy: Path) -> sqlite3.Connection:
    """Return the store as the killed server left it, on a copy, so that looking fixes nothing."""
    shutil.rmtree(copy, ignore_errors=True)
    copy.mkdir()
    # By another process: to close a file that SQLite has open here, too, gives up this process's locks on it, and its
    # next connection reads a log that is no more (sqlite.org/howtocorrupt.html, section 2.2).
    files = [yard.data / name for name in (FILE, f"{FILE}-wal") if (yard.data / name).exists()]
    subprocess.run(["cp", *files, copy], check=True)
    return sqlite3.connect(copy / FILE)


def look_at_wreck(yard: Yard, acknowledged: set[str], batches: Batches) -> None:
    store = wreck(yard, yard.folder / "wreck")
    assert store.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    stored = {row[0] for row in store.execute("SELECT id FROM entry")}
    store.close()
    assert acknowledged <= stored, "what was acknowledged is on the disk"
    assert batches.halves(stored) == [], "no half batch"
    assert torn_photos(yard) == []


def torn_photos(yard: Yard) -> list[str]:
    """Return the photos whose bytes are not those of their name; what begins with a dot was never finished."""
    files = [file for file in (yard.data / "photos").glob("*/*") if not file.name.startswith(".")]
    return [file.name for file in files if sha256(file.read_bytes()) != file.name]


def test_f05_the_server_is_killed_at_random_points_its_start_included(make_yard: Callable[..., Yard]) -> None:
    yard, chance, times = make_yard(), random.Random(5), tries(8, 220)
    began = time.monotonic()
    yard.server.start()
    start_s, recovered_s = time.monotonic() - began, []
    batches = Batches()
    yard.proxy.rule = batches.note
    with Writers(yard.phones(4), chance) as writers:
        for turn in range(times):
            if yard.server.process is None:
                yard.server.spawn()
            if turn % 2:
                time.sleep(chance.uniform(0.2, 1.1) * start_s)
            else:
                yard.server.wait()
                if turn % 8 == 0:
                    recovered_s.append(writers.drained_s())
                time.sleep(chance.uniform(0, 0.5))
            kill(yard, only_worker=turn % 6 == 2)
            look_at_wreck(yard, set(yard.ledger.acknowledged), batches)
        yard.server.start()
        recovered_s.append(writers.drained_s())
    yard.settle()
    check(yard, "F5", "SIGKILL of the server, every other one in its start", tries=times, recovered_s=recovered_s)


def kill(yard: Yard, only_worker: bool) -> None:
    if only_worker:
        yard.server.kill_worker()
    else:
        yard.server.stop()


def test_f05_the_first_start_of_all_is_killed(make_yard: Callable[..., Yard], prepared: Path) -> None:
    chance, times, made = random.Random(55), tries(3, 30), 0
    for turn in range(times):
        yard = make_yard()
        shutil.rmtree(yard.data)
        yard.server.spawn()
        if turn % 3:  # within the making of the store, however long the start took before
            until = time.monotonic() + PATIENCE_S
            while not (yard.data / FILE).exists() and time.monotonic() < until:
                time.sleep(0.001)
            time.sleep(chance.uniform(0, 0.06))
        else:
            time.sleep(chance.uniform(0.3, 1.4))
        made += (yard.data / FILE).exists()
        yard.server.stop()
        store = Store(yard.data)
        assert (diagnostics.check(store), len(store.log_id)) == ([], 32)
        load(store, prepared.parent / "event", now())
    yard.server.start()
    yard.phone().report()
    yard.settle()
    check(yard, "F5", "SIGKILL in the first start on an empty folder", tries=times, note=f"{made} had begun a store")


def test_f21_one_photo_comes_twice_at_once_and_the_server_is_killed_while_it_writes(
    make_yard: Callable[..., Yard],
) -> None:
    yard, chance, times = make_yard(), random.Random(21), tries(3, 25)
    yard.server.start()
    phones = yard.phones(2)
    for turn in range(times):
        data = jpeg(turn, (2000, 1500))
        for phone in phones:
            phone.report(KEYS[turn % 8], photos=[phone.add_photo(data)])
            phone.start()
        time.sleep(chance.uniform(0, 0.08))
        yard.server.stop()
        assert torn_photos(yard) == []
        yard.server.start()
        yard.settle()
        assert (yard.data / "photos" / sha256(data)[:2] / sha256(data)).read_bytes() == data
    left = len(list((yard.data / "photos").glob("*/.*")))
    note = f"{left} unfinished files left beside the whole ones"
    check(yard, "F21", "a photo of 2 MB by two at once, SIGKILL while it is written", tries=times, note=note)

"""F10 and F11: phones whose clocks are wrong, jump, or stand in another zone; a commit slower than a pull."""

import json
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

from making import CHECKED
from shuntbook.store.database import Store

from .invariants import check
from .phone import right_time
from .yard import CARS, KEYS, Simulated, Yard

Clock = Callable[[], datetime]


def off_by(**wrong: float) -> Clock:
    return lambda: datetime.now(UTC) + timedelta(**wrong)


def stopped_at(year: int, month: int, day: int, hour: int = 0, minute: int = 0, second: int = 0) -> Clock:
    at = datetime(year, month, day, hour, minute, second, tzinfo=UTC)
    return lambda: at


def jumping() -> Clock:
    """A clock that is an hour on, then a year back, then right, each time that it is read."""
    steps: Iterator[float] = iter([])

    def read() -> datetime:
        nonlocal steps
        hours = next(steps, None)
        if hours is None:
            steps = iter([-8760.0, 0.0, 26280.0])
            hours = 1.0
        return datetime.now(UTC) + timedelta(hours=hours)

    return read


def over_the_change() -> Clock:
    """A phone in Vienna as summer time ends: 02:30 comes twice (25 October 2026, EU Directive 2000/84)."""
    zone = ZoneInfo("Europe/Vienna")
    times = [datetime(2026, 10, 25, 2, 30, tzinfo=zone, fold=fold) for fold in (0, 1, 0, 1)]
    count = iter(range(10**6))
    return lambda: times[next(count) % 4]


CLOCKS: dict[str, Clock] = {
    "an hour fast": off_by(hours=1),
    "an hour slow": off_by(hours=-1),
    "1970": stopped_at(1970, 1, 1),
    "2099": stopped_at(2099, 12, 31, 23, 59, 59),
    "jumping": jumping(),
    "another zone": lambda: datetime.now(timezone(timedelta(hours=-9, minutes=-30))),
    "summer time ends": over_the_change(),
}


def tell_a_story(phone: Simulated, car: str) -> dict[str, str]:
    """Log the same story whatever the clock says; returns a name for each id."""
    hit = phone.report(KEYS[0], "bent", car)
    hose = phone.report(KEYS[2], "cracked", car)
    body = {**hit["data"], "replaces": [hit["id"]], "km": 7.5}
    amended = phone.write(phone.draft("report.amended", hit["id"], body, car))[0]
    entered = phone.write(phone.draft("service.entered", None, {"service": "A"}, car))[0]
    cover = {"covers": [amended["id"]], "action": "replace", "minutes": 4, "mechanics": 1}
    finished = phone.write(phone.draft("job.finished", KEYS[0], cover, car))[0]
    looked = phone.write(phone.draft("inspection.passed", KEYS[2], {"covers": [hose["id"]], "checks": CHECKED}, car))[0]
    entries = {"hit": hit, "hose": hose, "amended": amended, "in": entered, "done": finished, "look": looked}
    return {entry["id"]: name for name, entry in entries.items()}


def without_ids(queue: dict, names: dict[str, str]) -> dict:
    """Return a queue with each id as its name, the lists in the order of the names: ids hold their clock's time."""
    text = json.dumps({name: value for name, value in queue.items() if name not in ("hash", "car")})
    for one, name in names.items():
        text = text.replace(one, name)
    return json.loads(text, object_hook=_sorted)


def _sorted(value: dict) -> dict:
    ids = ("findings", "uncovered", "entries", "reports")
    return {name: sorted(one) if name in ids and isinstance(one, list) else one for name, one in value.items()}


def test_f10_a_wrong_clock_changes_no_result_and_the_skew_is_kept(yard: Yard) -> None:
    right: dict = {}
    for car, (what, clock) in zip(CARS, {"right": right_time, **CLOCKS}.items(), strict=False):
        phone = yard.phone("p-odil", clock)
        names = tell_a_story(phone, str(car))
        yard.settle()
        queue = without_ids(phone.queue(str(car)), names)
        right = right or queue
        assert queue == right, what
        if what not in ("jumping", "summer time ends"):  # theirs differs from call to call
            wrong_s = (clock() - datetime.now(UTC)).total_seconds()
            assert all(abs(skew_s - wrong_s) < 60 for skew_s in skews(yard, str(car))), what
    check(yard, "F10", "clocks: ±1 h, 1970, 2099, jumping, another zone, end of summer time", tries=len(CLOCKS))


def skews(yard: Yard, car: str) -> list[float]:
    """Return how far off the server found the clock of those who sent each entry."""
    found = Store(yard.data).db.conn.execute("SELECT skew_s FROM entry WHERE car = ?", [car]).fetchall()
    assert len(found) == 6
    return [row[0] for row in found]


SLOW = """
import sys, time
from pathlib import Path
from shuntbook.flow.ingest import Batch, take
from shuntbook.store.database import Store
store = Store(Path(sys.argv[1]))
raws = sys.stdin.buffer.read().splitlines()
with store.write() as db:
    taken = take(db, Batch(raws, 0, None, None, "2026-06-13T08:00:00Z", None), None)
    print(taken.added, flush=True)
    time.sleep(float(sys.argv[2]))
"""


def test_f11_a_slow_commit_that_ends_after_a_pull_is_not_skipped(yard: Yard) -> None:
    phones, slow = yard.phones(4), yard.phone("p-jule")
    early = [slow.report(key) for key in KEYS]
    raws = b"\n".join(raw for raw, _ in slow.own().values())
    command = [sys.executable, "-c", SLOW, str(yard.data), "1.5"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
        assert process.stdin and process.stdout
        process.stdin.write(raws)
        process.stdin.close()
        assert process.stdout.readline().strip() == b"8"
        for phone in phones:  # written and pulled while the other commit is under way
            phone.report(KEYS[3])
            phone.start()
        reader = yard.phone("p-ilka")
        while process.poll() is None:
            reader.round()
            time.sleep(0.02)
    yard.settle()
    written = {entry["id"] for entry in early} | {name for phone in phones for name in phone.own()}
    for phone in [*phones, reader]:
        assert phone.round()
        assert written <= phone.outbox.held(), "every pull goes on where the log's own order left it"
    yard.settle()
    check(yard, "F11", "a commit of another process that ends after pulls passed its time")

"""What taking entries in and reading the queue cost while the log already holds many: processor time, side by side.

    python -m bench.held [entries held …]

The same batches go through the server's own code and into a bare SQLite table that holds as many rows, in one process
and turn by turn, so that both meet the same noise. Without HTTP: that is `python -m bench`.
"""

import gc
import resource
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from bench.entries import CARS, EVENT, event_folder, log
from bench.plain import PlainTable
from shuntbook.app import create_app
from shuntbook.flow import answers, ingest, joining
from shuntbook.flow.clock import now
from shuntbook.flow.cost_memory import MOST, CostMemory
from shuntbook.flow.diagnostics import check
from shuntbook.flow.load import load
from shuntbook.kit.canonical import json_text
from shuntbook.store.database import Store

HELD = (10_000, 50_000)
BATCH, TIMES, FEW = 100, 15, 5


def main() -> None:
    """Measure with each number of entries held."""
    for held in [int(one) for one in sys.argv[1:]] or HELD:
        with tempfile.TemporaryDirectory() as folder:
            measure(Path(folder), held)


def measure(folder: Path, held: int) -> None:
    """Say what a batch costs, what the first read after each costs, and whether the store is whole afterwards."""
    entries = log(held + TIMES * BATCH)
    store, plain = filled(folder, entries[:held]), PlainTable(folder / "plain.sqlite", entries[:held])
    ours, bare, reads = [], [], []
    for start in range(held, len(entries), BATCH):
        batch = entries[start : start + BATCH]
        bare.append(cpu_s(lambda batch=batch: plain.insert(batch)))
        ours.append(cpu_s(lambda batch=batch, at=start: ingest.ingest(store, new(batch, at))))
        reads.append(cpu_s(lambda: answers.queue(store, EVENT, CARS[0])))
    ratio = median(ours) / median(bare)
    print(f"{held} held: 100 entries {ms(ours)}, bare insert {ms(bare)}: {ratio:.1f} times (at most 10 wanted)")
    print(f"{held} held: the first queue after them {ms(reads)} (at most 300 ms wanted)")
    sheets(store, held)
    after_a_few(store, held)
    print(f"{held} held: check says {check(store) or 'nothing'}")


def sheets(store: Store, held: int) -> None:
    """Say what an event's costs cost when they are made, when they are asked for again, and when they are held."""
    made = [cpu_s(lambda: json_text(answers.costs(store, EVENT))) for _ in range(3)]
    print(f"{held} held: costs of the event made {ms(made)} (at most 1000 ms wanted)")
    app = create_app(store, folder_of_no_pages())
    code = joining.invite(store, "p-vera", now())
    client = app.test_client()
    token = client.post("/api/v1/join", json={"code": code}).get_json()["token"]
    headers = {"Authorization": f"Bearer {token}"}
    for name, path in {"costs": f"/events/{EVENT}/costs", "queue": f"/events/{EVENT}/cars/{CARS[0]}/queue"}.items():
        first = client.get(f"/api/v1{path}", headers=headers)
        again = [cpu_s(lambda path=path: client.get(f"/api/v1{path}", headers=headers)) for _ in range(TIMES)]
        named = {**headers, "If-None-Match": first.headers["ETag"]}
        known = [
            cpu_s(lambda path=path, named=named: client.get(f"/api/v1{path}", headers=named)) for _ in range(TIMES)
        ]
        print(f"{held} held: {name} asked for again {ms(again)}, held by who asks {ms(known)} (at most 20 ms wanted)")
    app.extensions["shuntbook.planner"].stop()


def after_a_few(store: Store, held: int) -> None:
    """Say what the costs cost after five more entries, and how much memory what is kept for that takes."""
    memory, before = CostMemory(), resident_mib()
    json_text(answers.costs(store, EVENT, memory=memory))
    gc.collect()
    kept = resident_mib() - before
    more, again = log(held + TIMES * (BATCH + FEW))[held + TIMES * BATCH :], []
    for start in range(0, len(more), FEW):
        ingest.ingest(store, new(more[start : start + FEW], held + TIMES * BATCH + start))
        again.append(cpu_s(lambda: json_text(answers.costs(store, EVENT, memory=memory))))
    print(f"{held} held: costs after {FEW} more entries {ms(again)}, {ms([max(again)])} at most (1000 ms wanted)")
    print(f"{held} held: what is kept for that takes {kept:.0f} MiB; more than {MOST} entries of an event are not kept")


def resident_mib() -> float:
    """Return how much memory this process has now."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * resource.getpagesize() / 2**20


def folder_of_no_pages() -> Path:
    """Return a folder that is not there: no pages are asked for."""
    return Path("/nonexistent")


def filled(folder: Path, entries: list[bytes]) -> Store:
    """Return a store that holds the sample event and these entries, all brought forward."""
    store = Store(folder / "store")
    load(store, event_folder(folder / "event"), now())
    for start in range(0, len(entries), 500):
        ingest.ingest(store, new(entries[start : start + 500], start))
    answers.queue(store, EVENT, CARS[0])
    return store


def new(entries: list[bytes], cursor: int) -> ingest.Batch:
    """Return a batch from a phone that has everything else."""
    return ingest.Batch(entries, cursor, None, "d-bench", now(), None)


def cpu_s(work: object) -> float:
    """Return the processor time of this process, in seconds, that a call took."""
    began = time.process_time()
    work()  # type: ignore[operator]
    return time.process_time() - began


def ms(seconds: list[float]) -> str:
    """Return the median in words."""
    return f"{median(seconds) * 1000:.1f} ms"


if __name__ == "__main__":
    main()

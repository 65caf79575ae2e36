"""F30: the queue changes while it is read. A phone that names the hash it holds is told when that is stale."""

import hashlib
import http.client
import json
import random
import threading

import rfc8785

from .invariants import check
from .tally import tries
from .yard import EVENT, KEYS, Simulated, Yard

PATH = f"/events/{EVENT}/cars/41/queue"


def read(phone: Simulated, etag: str | None) -> tuple[int, str, dict | None]:
    """Ask for the queue, naming the one held; return (status, ETag, queue)."""
    named = {"If-None-Match": etag} if etag else {}
    status, data = phone.call("GET", PATH, None, **named)
    return status, phone.headers["etag"], json.loads(data) if status == 200 else None


def reads_on(phone: Simulated, stop: threading.Event, wrong: list[str], seen: list[str]) -> None:
    etag = None
    while not stop.is_set():
        try:
            status, now, queue = read(phone, etag)
        except (OSError, http.client.HTTPException) as error:
            wrong.append(repr(error))
            return
        if status == 200 and queue is not None:
            # RFC 8785 and SHA-256 by themselves, not by the product: an answer is one state, never half of two.
            bare = {name: value for name, value in queue.items() if name != "hash"}
            right = hashlib.sha256(rfc8785.dumps(bare)).hexdigest()
            if not (now.strip('"') == queue["hash"] == right) or now == etag:
                wrong.append(f"{now} {queue['hash']} {right}")
            seen.append(now)
        elif status != 304 or now != etag:
            wrong.append(f"{status} {now} {etag}")
        etag = now


def test_f30_the_queue_changes_while_it_is_read(yard: Yard) -> None:
    writer, readers = yard.phone("p-toma"), yard.phones(3)
    stop, chance, times = threading.Event(), random.Random(30), tries(25, 120)
    wrong: list[str] = []
    seen: list[list[str]] = [[] for _ in readers]
    threads = [
        threading.Thread(target=reads_on, args=(phone, stop, wrong, own))
        for phone, own in zip(readers, seen, strict=True)
    ]
    for thread in threads:
        thread.start()
    held = read(writer, None)[1]
    for _ in range(times):
        writer.report(chance.choice(KEYS), chance.choice(["bent", "broken", "cracked"]))
        assert writer.round()
        status, etag, _ = read(writer, held)
        assert (status, etag != held) == (200, True), "after an acknowledged change the old hash is stale"
        assert read(writer, etag)[0] == 304
        held = etag
    stop.set()
    for thread in threads:
        thread.join()
    assert wrong == []
    assert all(len(own) == len(set(own)) for own in seen), "no reader was ever taken back to an older queue"
    yard.settle()
    check(
        yard, "F30", "queue changed while three read it", tries=times, note=f"{sum(map(len, seen))} reads of a new one"
    )

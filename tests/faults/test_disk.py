"""F23: the server's disk is full, locked by another process, or read-only."""

import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack
from pathlib import Path

import pytest

from . import disk
from .invariants import check
from .pictures import jpeg
from .tally import tries
from .yard import KEYS, Simulated, Yard, problem_code

SMALL_MIB = 12
PHONES = 4


def write_on(phones: list[Simulated], stop: threading.Event) -> None:
    """Log hits with photos, one phone after the other, until told to stop."""
    turn = 0
    while not stop.wait(0.02):
        phone = phones[turn % len(phones)]
        phone.report(KEYS[turn % 8], photos=[phone.add_photo(jpeg(turn % 40, (320, 240)))], note="x" * 2000)
        turn += 1


def ride_out(yard: Yard, trouble: AbstractContextManager[None], statuses: int) -> float:
    """Write through a trouble until the phones have heard so many 503; return how long the draining took after it."""
    *phones, prober = yard.simulated
    stop = threading.Event()
    writer = threading.Thread(target=write_on, args=(phones, stop))
    writer.start()
    for phone in phones:
        phone.start()
    try:
        with trouble:
            began = time.monotonic()
            look_at_refusal(prober)
            while refused(yard) < statuses:
                assert time.monotonic() - began < 120, Counter(yard.proxy.statuses)
                time.sleep(0.05)
    finally:
        stop.set()
        writer.join()
    took_s = yard.settle()
    assert {status for _, status in yard.proxy.statuses} <= {200, 201, 422, 503}
    return took_s


def refused(yard: Yard) -> int:
    return sum(status == 503 for _, status in list(yard.proxy.statuses))


def look_at_refusal(phone: Simulated) -> None:
    """A 503 says when to come again (RFC 9110, section 10.2.3), and what happened in a sentence."""
    # Writers wait in turn, five seconds each, before they are refused: longer than a phone on the road waits.
    phone.timeout_s = 60.0
    for _ in range(100):
        photo = jpeg(99, (1200, 900))
        name = phone.add_photo(photo)
        phone.outbox.settle_photo(name, "sent")  # the test sends it by itself
        status, body = phone.call("PUT", f"/photos/{name}", photo, **{"Content-Type": "image/jpeg"})
        if status == 503:
            assert int(phone.headers["retry-after"]) > 0
            assert problem_code(body) == "store-unavailable"
            return
    raise AssertionError("no call was refused")


@pytest.fixture
def on_small_disk(make_yard: Callable[..., Yard], tmp_path: Path) -> Iterator[tuple[Yard, bool]]:
    """A yard whose data lies on a file system of a few MiB, and whether the machine could make one."""
    with ExitStack() as stack:
        mounted = stack.enter_context(disk.small_disk(tmp_path / "small", SMALL_MIB))
        yard = make_yard(tmp_path / "small" / "data")
        stack.callback(yard.close)
        yield yard, mounted


def test_f23_the_disk_is_full(on_small_disk: tuple[Yard, bool]) -> None:
    yard, mounted = on_small_disk
    yard.server.start()
    yard.phones(PHONES)
    recovered_s = []
    for _ in range(tries(1, 8)):
        worker = yard.server.worker()
        trouble = disk.filled(yard.data.parent) if mounted else disk.no_larger_files(worker, 64 * 1024)
        recovered_s.append(ride_out(yard, trouble, refused(yard) + 3))
    what = "disk full (small file system)" if mounted else "disk full (limit on the size of files)"
    check(yard, "F23", what, tries=len(recovered_s), recovered_s=recovered_s, note=f"{refused(yard)} calls refused")


def test_f23_files_may_not_grow(make_yard: Callable[..., Yard]) -> None:
    yard = make_yard()
    yard.server.start()
    yard.phones(PHONES)
    recovered_s = []
    for turn in range(tries(1, 8)):
        most_bytes = [4096, 100_000, 600_000][turn % 3]
        trouble = disk.no_larger_files(yard.server.worker(), most_bytes)
        recovered_s.append(ride_out(yard, trouble, refused(yard) + 3))
    note = f"{refused(yard)} calls refused"
    check(yard, "F23", "files that may not grow", tries=len(recovered_s), recovered_s=recovered_s, note=note)


def test_f23_another_process_holds_the_lock(make_yard: Callable[..., Yard]) -> None:
    yard = make_yard()
    yard.server.start()
    yard.phones(PHONES)
    recovered_s = [ride_out(yard, disk.locked(yard.data), refused(yard) + 2) for _ in range(tries(1, 4))]
    note = f"{refused(yard)} calls refused"
    check(yard, "F23", "store locked by a process", tries=len(recovered_s), recovered_s=recovered_s, note=note)


@pytest.mark.longer
def test_f23_the_folder_becomes_read_only(make_yard: Callable[..., Yard]) -> None:
    yard = make_yard()
    yard.server.wrapped = disk.bound_by_modes
    yard.server.start()
    yard.phones(PHONES)
    recovered_s = []
    for _ in range(tries(1, 5)):
        recovered_s.append(ride_out(yard, disk.read_only(yard.data), refused(yard) + 2))
        yard.server.stop()
        with disk.read_only(yard.data):
            yard.simulated[0].report()
            yard.server.spawn()
            assert yard.server.process is not None
            assert yard.server.process.wait(60) == 1, "it says why it can't serve, and ends"
            assert "Nothing was stored" in yard.server.log.read_text()
        yard.server.start()
        recovered_s.append(yard.settle())
    note = f"{refused(yard)} calls refused"
    check(yard, "F23", "folder read-only", tries=len(recovered_s), recovered_s=recovered_s, note=note)

"""F24, F29, F36, F39: ten phones that send all at once, batches that no phone would send, and floods of them."""

import http.client
import json
import socket
import statistics
import threading
import time
from collections.abc import Callable

import pytest

from shuntbook.store.database import Store
from shuntbook.store.quarantine_room import FULL, MOST

from .invariants import check
from .outbox import compact
from .siege import Target, Watch
from .tally import tries
from .yard import EVENT, KEYS, Peak, Simulated, Yard, problem_code

BATCH = 25


def test_f24_ten_phones_send_five_hundred_entries_each_at_once(yard: Yard) -> None:
    phones, each = yard.phones(10), tries(100, 500)
    for phone in phones:
        drafts = [
            phone.draft("report.filed", None, {"zone": "front-end", "note": f"hit {number} " + "gravel " * 20})
            for number in range(each)
        ]
        phone.write(*drafts)
        phone.most, phone.timeout_s = BATCH, 120.0
    took_s: list[float] = []
    began = time.monotonic()
    with Peak(yard.server.worker()) as peak:
        senders = [threading.Thread(target=send_all, args=(phone, took_s)) for phone in phones]
        for sender in senders:
            sender.start()
        for sender in senders:
            sender.join()
    total_s = time.monotonic() - began
    statuses = [status for _, status in yard.proxy.statuses]
    assert set(statuses) == {200}
    middle, high = statistics.median(took_s), sorted(took_s)[int(len(took_s) * 0.99) - 1]
    note = (
        f"{len(took_s)} calls of {BATCH} in {total_s:.1f} s, p50 {middle * 1000:.0f} ms, p99 {high * 1000:.0f} ms, "
        f"memory grew by {peak.grown_mib:.0f} MiB, 0 refused"
    )
    yard.settle()
    check(yard, "F24", f"10 phones × {each} entries at once", tries=len(took_s), note=note)


def send_all(phone: Simulated, took_s: list[float]) -> None:
    while phone.outbox.waiting(1):
        began = time.monotonic()
        phone._send_entries()
        took_s.append(time.monotonic() - began)


def nested(depth: int) -> bytes:
    return b'{"a":' * depth + b"1" + b"}" * depth


def envelope(*raws: bytes) -> bytes:
    return b'{"log_id":null,"cursor":0,"entries":[' + b",".join(raws) + b"]}"


def with_data(entry: dict, data: bytes) -> bytes:
    """Return an entry whose `data` are these very bytes."""
    return compact({**entry, "data": "HERE"}).replace(b'"HERE"', data)


def bodies(phone: Simulated) -> dict[str, bytes]:
    """Return what no phone sends, by what it is: whole bodies that can't be read, or entries that can't be taken."""
    entry = {**phone.draft("report.filed", None, {}), "seq": 1}
    note = b'{"note":"%s"}'
    return {
        "10 MB in one entry": envelope(with_data(entry, note % (b"x" * 10_000_000))),
        "10 MB of entries": envelope(*[with_data(entry, note % (b"y" * 100_000))] * 100),
        "13 MB": envelope(with_data(entry, note % (b"z" * 13_000_000))),
        "501 entries": envelope(*[b"{}"] * 501),
        "bad UTF-8": envelope(with_data(entry, note % b"\xff\xfe\x80")),
        "a lone surrogate": envelope(with_data(entry, note % rb"\ud800")),
        "nested 100 000 deep": envelope(with_data(entry, nested(100_000))),
        "nested 40 deep": envelope(with_data(entry, nested(40))),
        "the body itself nested": nested(100_000),
        "NaN": envelope(with_data(entry, b'{"km":NaN}')),
        "Infinity": envelope(with_data(entry, b'{"km":-Infinity}')),
        "1e400": envelope(with_data(entry, b'{"km":1e400}')),
        "a number of 100 000 digits": envelope(with_data(entry, b'{"km":' + b"9" * 100_000 + b"}")),
        "a sequence beyond all": envelope(compact({**entry, "seq": 10**30})),
        "a cursor beyond all": b'{"cursor":' + b"9" * 40 + b',"entries":[]}',
        "a negative cursor": b'{"cursor":-1,"entries":[]}',
        "not an object": b"[1,2,3]",
        "nothing": b"",
        "half a body": envelope(compact(entry))[:-30],
        "a byte order mark": b"\xef\xbb\xbf" + envelope(),
        "UTF-16": envelope().decode().encode("utf-16"),
    }


WHAT = [
    "10 MB in one entry", "10 MB of entries", "13 MB", "501 entries", "bad UTF-8", "a lone surrogate",
    "nested 100 000 deep", "nested 40 deep", "the body itself nested", "NaN", "Infinity", "1e400",
    "a number of 100 000 digits", "a sequence beyond all", "a cursor beyond all", "a negative cursor", "not an object",
    "nothing", "half a body", "a byte order mark", "UTF-16",
]  # fmt: skip


@pytest.mark.parametrize("what", WHAT)
def test_f29_what_no_phone_would_send_is_refused_and_the_server_lives(yard: Yard, what: str) -> None:
    phone, other = yard.phone("p-toma"), yard.phone("p-bodo")
    body = bodies(phone)[what]
    with Peak(yard.server.worker()) as peak:
        for _ in range(tries(1, 10)):
            look_at_answer(*send(phone, body))
    assert peak.grown_mib < 300
    good = other.report(KEYS[0])
    yard.settle()
    assert good["id"] in yard.ledger.acknowledged
    check(yard, "F29", "bodies that no phone would send", tries=tries(1, 10), note=grown(what, peak))


def send(phone: Simulated, body: bytes) -> tuple[int, bytes]:
    try:
        return phone.call("POST", "/sync", body)
    except (OSError, http.client.HTTPException):
        # Refused by its length while the rest is still on its way: the link is cut before the answer was read.
        assert len(body) > 12_000_000
        return 413, b'{"detail": "cut"}'


def look_at_answer(status: int, data: bytes) -> None:
    answer = json.loads(data)
    if status == 200:
        assert answer["accepted"] == []
        assert all(one["problem"]["detail"] for one in answer["rejected"])
    else:
        assert 400 <= status < 500
        assert answer["detail"]


def grown(what: str, peak: Peak) -> str:
    return f"{what}: memory grew by {peak.grown_mib:.0f} MiB" if peak.grown_mib >= 10 else ""


def test_f29_fields_that_this_version_does_not_know_are_kept_and_passed_on(yard: Yard) -> None:
    writer, reader = yard.phone("p-toma"), yard.phone("p-bodo")
    draft = writer.draft("report.filed", None, {"zone": "cabin", "smell": ["oil", 1.5, None]})
    entry = writer.write({**draft, "weather": {"rain": "heavy"}})[0]
    yard.settle()
    reader.round()
    heard = reader.outbox.db.execute("SELECT raw FROM entry WHERE id = ?", [entry["id"]]).fetchone()
    assert bytes(heard[0]) == compact(entry)
    check(yard, "F29", "unknown fields")


def test_f29_bodies_that_never_end_leave_room_for_others(yard: Yard) -> None:
    phone, open_calls = yard.phone(), []
    head = f"POST /api/v1/sync HTTP/1.1\r\nHost: van\r\nAuthorization: Bearer {phone.identity.token}\r\n"
    for _ in range(40):  # of a phone that joined; what nobody who joined may do is F31
        call = socket.create_connection(("127.0.0.1", yard.server.port), 30)
        call.sendall(head.encode() + b'Content-Length: 5000\r\n\r\n{"entries": [')
        open_calls.append(call)
    phone.report()
    yard.settle()
    for call in open_calls:
        call.close()
    check(yard, "F29", "bodies that never end", tries=len(open_calls))


def test_f36_one_phone_brings_ten_thousand_pieces_of_nonsense(make_yard: Callable[..., Yard]) -> None:
    yard, many = make_yard(), tries(1_000, 10_000)
    yard.server.start()
    sender, other, manager = yard.phone("p-bodo"), yard.phone("p-toma"), yard.phone("p-vera")
    other.report()
    assert other.round()
    before = len(sender.call("GET", f"/events/{EVENT}/cars/41/queue")[1])
    body = b'{"log_id": null, "cursor": 0, "entries": [%s]}'
    with Watch(Target(yard.server.port, sender.identity.token)).watching() as watch:
        for start in range(0, many, 500):
            # No car can be read in it, so that it holds all of them.
            some = b",".join(b'{"id": "nonsense-%05d", "kind": "%s"}' % (start + one, b"x" * 64) for one in range(500))
            status, _ = sender.call("POST", "/sync", body % some)
            assert status == 200
    status, data = other.call("GET", f"/events/{EVENT}/cars/41/queue")
    (review,) = [reason for reason in json.loads(data)["hold_reasons"] if reason["needs"] == "review"]
    assert len(review["entries"]) + review["more"] == many
    # A hundred ids of 14 characters: whatever was brought, a signal can carry it.
    assert len(data) < before + 100 * 20 + 200
    (group,) = json.loads(manager.call("GET", "/set-aside/groups")[1])
    assert (group["brought_by"], group["waiting"]) == (sender.identity.device, many)
    assert len(json.loads(manager.call("GET", "/set-aside")[1])) == 20
    decision = {"brought_by": group["brought_by"], "upto": group["last_at"], "reason": "nobody wrote this"}
    status, data = manager.call("POST", "/set-aside/groups", json.dumps(decision).encode())
    assert (status, json.loads(data)) == (200, {"left_out": many})
    queue = json.loads(other.call("GET", f"/events/{EVENT}/cars/41/queue")[1])
    assert [reason for reason in queue["hold_reasons"] if reason["needs"] == "review"] == []
    good = other.report()
    yard.settle()
    assert good["id"] in yard.ledger.acknowledged
    kept = Store(yard.data).db.conn.execute("SELECT count(*) FROM set_aside").fetchone()
    assert kept == (many,), "kept byte for byte"
    note = f"slowest answer of health or sync meanwhile {max(watch.worst_s.values()):.1f} s"
    check(yard, "F36", "nonsense from one phone, left out by one decision", tries=many, note=note)


def full_of(phone: Simulated, first: int, count: int, size: int) -> int:
    """Send pieces of nonsense of so many bytes; return how many the server did not keep."""
    refused, at_once = 0, min(500, 1_000_000 // size)
    for start in range(first, first + count, at_once):
        names = range(start, min(start + at_once, first + count))
        some = b",".join(b'{"id": "%s-%05d", "kind": "%s"}' % (b"more", one, b"x" * size) for one in names)
        status, data = phone.call("POST", "/sync", b'{"log_id": null, "cursor": 0, "entries": [%s]}' % some)
        assert status == 200
        rejected = json.loads(data)["rejected"]
        assert len(rejected) == len(names), "each is answered"
        refused += sum(problem_code(one["problem"]) == FULL for one in rejected)
    return refused


def test_f39_phones_bring_more_nonsense_than_is_kept(make_yard: Callable[..., Yard]) -> None:
    yard = make_yard()
    yard.server.start()
    other, manager, size = yard.phone("p-toma"), yard.phone("p-vera"), 15_000
    senders = [yard.phone("p-bodo") for _ in range(tries(1, 6))]
    for sender in senders:
        sender.timeout_s = 120.0  # megabytes at once, on a machine that does other things, too
    first = MOST.size // size + 50  # more bytes than one device may have waiting
    with Watch(Target(yard.server.port, other.identity.token)).watching() as watch:
        refused = full_of(senders[0], 0, first, size)
        sent = first
        for place, sender in enumerate(senders[1:], 1):  # more entries than one may have, and then than all may
            refused += full_of(sender, place * 20_000, MOST.entries + 100, 20)
            sent += MOST.entries + 100
    with Store(yard.data).read() as db:
        kept, taken = db.conn.execute("SELECT count(*), sum(length(raw)) FROM set_aside").fetchone()
        by_device = db.conn.execute("SELECT max(n) FROM (SELECT count(*) n FROM set_aside GROUP BY brought_by)")
        assert by_device.fetchone()[0] <= MOST.entries + 1
    # For each device that was refused something, one row holds every car in the place of all that was not kept.
    assert kept <= MOST.entries_in_all + len(senders)
    assert taken <= MOST.size_in_all
    assert kept - len(senders) <= sent - refused <= kept
    assert refused >= 50
    for car in ("41", "42"):
        queue = json.loads(other.call("GET", f"/events/{EVENT}/cars/{car}/queue")[1])
        assert [reason for reason in queue["hold_reasons"] if reason["needs"] == "review"], (
            "what is not kept holds, too"
        )
    assert full_of(senders[0], 0, 3, size) == 0, "what is kept already is not refused when it comes again"
    good = other.report()
    yard.settle()
    assert good["id"] in yard.ledger.acknowledged
    for group in json.loads(manager.call("GET", "/set-aside/groups")[1]):
        decision = {"brought_by": group["brought_by"], "upto": group["last_at"], "reason": "nobody wrote this"}
        assert manager.call("POST", "/set-aside/groups", json.dumps(decision).encode())[0] == 200
    assert full_of(senders[0], first - 3, 3, size) == 0, "there is room again"
    note = f"{kept} kept, {refused} left on their phones; slowest health or sync {max(watch.worst_s.values()):.1f} s"
    check(yard, "F39", "more nonsense than is kept", tries=sent, note=note)

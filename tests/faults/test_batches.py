"""F1 to F4: batches sent again, at once by many, with an id used twice, with bad ones among the good."""

import hashlib
import json
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest

from shuntbook.store.database import Store

from .invariants import check
from .outbox import compact
from .proxy import Fault
from .tally import tries
from .yard import KEYS, Simulated, Yard, problem_code


def stored(yard: Yard) -> tuple[int, int]:
    """Return how many entries the store holds and the newest one's place in the log."""
    found = Store(yard.data).db.conn.execute("SELECT count(*), coalesce(max(cursor), 0) FROM entry").fetchone()
    return int(found[0]), int(found[1])


def sync_body(*raws: bytes) -> bytes:
    return b'{"log_id": null, "cursor": 0, "entries": [' + b",".join(raws) + b"]}"


def test_f01_the_connection_is_cut_after_the_commit_and_before_the_reply(yard: Yard) -> None:
    phone, times = yard.phone(), tries(4, 60)
    for turn in range(times):
        for key in KEYS[: 1 + turn % 8]:
            phone.report(key)
        yard.proxy.rule = lambda request, cut=turn * 7: Fault(reply_bytes=cut if request.is_sync else None)
        assert not phone.round()
        before, hash_before = stored(yard), yard.server.queue("41")["hash"]
        yard.proxy.heal()
        assert phone.round()
        assert stored(yard) == before, "the second sending stores nothing more"
        assert phone.queue_hash("41") == hash_before
    check(yard, "F1", "reply cut after the commit, the batch sent again", tries=times)


def test_f02_the_same_batch_is_posted_by_eight_threads_at_once(yard: Yard) -> None:
    phone, times = yard.phone(), tries(3, 40)
    for _ in range(times):
        entries = [phone.report(key) for key in KEYS for _ in range(4)]
        body = sync_body(*(compact(entry) for entry in entries))
        with ThreadPoolExecutor(8) as threads:
            answers = list(threads.map(lambda body: phone.call("POST", "/sync", body), [body] * 8))
        assert [status for status, _ in answers] == [200] * 8
        names = [entry["id"] for entry in entries]
        assert all(json.loads(data)["accepted"] == names for _, data in answers)
    yard.settle()
    check(yard, "F2", "the same batch by 8 threads at once", tries=times)


def test_f03_one_id_with_different_bytes_is_a_conflict_and_both_are_kept(yard: Yard) -> None:
    first, second = yard.phone("p-toma"), yard.phone("p-bodo")
    entry = first.report()
    yard.settle()
    other = {**entry, "data": {**entry["data"], "note": "not the same"}}
    before = yard.server.job("41", KEYS[0])
    # Written past the second phone's own numbering: an id that came up twice.
    row = [other["id"], compact(other), 99]
    second.outbox.db.execute("INSERT OR REPLACE INTO entry VALUES (?, ?, 1, 'waiting', NULL, ?)", row)
    good = [second.report(key) for key in KEYS[1:5]]
    yard.settle()
    problem = second.outbox.problems()[other["id"]]
    assert problem_code(problem) == "conflict"
    hashes = [hashlib.sha256(compact(one)).hexdigest() for one in (entry, other)]
    assert all(digest in problem["detail"] for digest in hashes)
    assert {one["id"] for one in good} <= yard.ledger.acknowledged
    queue = yard.server.queue("41")
    assert queue["release"] == "hold", "the car is on hold until a manager has looked"
    held = [reason["entries"] for reason in queue["hold_reasons"] if reason["needs"] == "review"]
    assert any(other["id"] in entries for entries in held)
    assert yard.server.job("41", KEYS[0]) == before, "nothing was overwritten"
    check(yard, "F3", "one id with different bytes")


BAD: list[dict[str, Any]] = [
    {"kind": "report.imagined"}, {"v": 2}, {"at": "noon"}, {"id": "7"}, {"seq": -3}, {"data": None},
    {"data": {"findings": "bent"}}, {"subject": "someone else's"}, {"data": {"note": "x" * 17_000}},
]  # fmt: skip


def spoiled(entry: dict, place: int) -> dict:
    return {**entry, **BAD[place % len(BAD)]}


def write_raw(phone: Simulated, entries: list[dict]) -> None:
    rows = [(one["id"] if one["id"] != "7" else f"7-{place}", compact(one), place) for place, one in enumerate(entries)]
    phone.outbox.db.executemany("INSERT INTO entry VALUES (?, ?, 1, 'waiting', NULL, ?)", rows)


@pytest.mark.parametrize("bad", [1, 99])
def test_f04_some_of_a_hundred_are_bad(yard: Yard, bad: int) -> None:
    phone = yard.phone()
    drafts = [phone.draft("report.filed", None, {"zone": "cabin"}) for _ in range(100)]
    entries = [{**draft, "seq": place + 1} for place, draft in enumerate(drafts)]
    mixed = [spoiled(one, place) if place < bad else one for place, one in enumerate(entries)]
    # An id that can't be one is sent under its own name, as the phone would find it in its list.
    mixed = [{**one, "id": f"7-{place}"} if one["id"] == "7" else one for place, one in enumerate(mixed)]
    write_raw(phone, mixed)
    yard.settle()
    assert phone.outbox.count("attention") == bad
    assert all(problem["detail"] and problem["type"] for problem in phone.outbox.problems().values())
    good = {one["id"] for one in mixed[bad:]}
    assert good <= yard.ledger.acknowledged
    sent = [entry["id"] for request in yard.proxy.requests for entry in request.entries]
    assert all(sent.count(one["id"]) == 1 for one in mixed), "no bad entry is sent again and again"
    after = phone.report()
    yard.settle()
    assert after["id"] in yard.ledger.acknowledged, "the next batch goes out"
    check(yard, "F4", "1 and 99 bad entries of 100", tries=bad)


# A note that was cut in the middle of a character, and texts that no decoder takes: what a phone can come to hold.
UNREADABLE = [rb'"cut \ud83d"', rb'"\udc00"', b'"not \xff UTF-8"', b"NaN", rb'{"\ud800": 1}']


def test_f32_one_entry_cannot_be_read_and_those_beside_it_are_taken(yard: Yard) -> None:
    phone, times = yard.phone(), tries(1, 10)
    for _ in range(times):
        for spoilt in UNREADABLE:
            before, bad = phone.report(KEYS[0]), phone.draft("report.filed", None, {"zone": "cabin", "note": "here"})
            raw = compact(bad).replace(b'"here"', spoilt)
            row = [bad["id"], raw, 10_000 + phone.outbox.count("attention")]
            phone.outbox.db.execute("INSERT INTO entry VALUES (?, ?, 1, 'waiting', NULL, ?)", row)
            after = phone.report(KEYS[1])
            yard.settle()
            assert {before["id"], after["id"]} <= yard.ledger.acknowledged
            assert problem_code(phone.outbox.problems()[bad["id"]]) == "not-json", spoilt
            held = yard.server.queue("41")["hold_reasons"]
            assert any(bad["id"] in reason["entries"] for reason in held if reason["needs"] == "review")
            kept = Store(yard.data).db.conn.execute("SELECT raw FROM set_aside WHERE id = ?", [bad["id"]]).fetchall()
            assert kept == [(raw,)], "kept byte for byte"
    check(yard, "F32", "an entry that no decoder takes between good ones", tries=times * len(UNREADABLE))

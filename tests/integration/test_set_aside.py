"""What was set aside holds its car until a manager has looked; shut-out devices; nothing is thrown away."""

import hashlib
from collections import Counter
from dataclasses import replace

import pytest
import rfc8785

from making import raw
from other_event import OTHER, other_files
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.flow.uploads import put_setup
from shuntbook.store import quarantine_room


def review_reasons(reader, car="41"):
    return [reason for reason in reader.queue(car)["hold_reasons"] if reason["needs"] == "review"]


def digest_of(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def test_a_bad_entry_holds_the_car_that_it_names_and_no_other(phone, pen):
    sender = phone()
    bad = {**pen.filed(), "kind": "report.shouted"}
    sender.sync(bad)
    assert review_reasons(sender) == [{"job": None, "needs": "review", "entries": [bad["id"]]}]
    assert sender.queue()["release"] == "hold"
    assert review_reasons(sender, "42") == []


def test_an_entry_of_another_event_holds_no_car_of_this_one(phone, pen):
    sender = phone()
    sender.sync({**pen.filed(), "event": "other-2026", "v": 9})
    assert review_reasons(sender) == []


@pytest.mark.parametrize("spoil", [lambda e: b'{"id": "', lambda e: {**e, "car": 41}, lambda e: {**e, "car": ""}])
def test_an_entry_that_names_no_car_that_can_be_read_holds_all(phone, pen, spoil, sample_store):
    sender = phone()
    bad = spoil(pen.filed())
    if isinstance(bad, bytes):
        # A request is one JSON value, so bytes that are none reach the store by a request of their own only.
        ingest(sample_store, Batch([bad], 0, None, None, "2026-06-13T08:00:00Z", None))
        name = digest_of(bad)
    else:
        sender.sync(bad)
        name = bad["id"]
    for car in ("41", "42"):
        assert review_reasons(sender, car) == [{"job": None, "needs": "review", "entries": [name]}]


def test_a_manager_sees_it_byte_for_byte_and_ends_the_hold_with_a_reason(phone, pen):
    manager = phone("manager")
    bad = raw({**pen.filed(note="Tür"), "kind": "report.shouted"})
    manager.sync(bad)
    (shown,) = manager.get("/set-aside").get_json()
    assert (shown["raw"].encode(), shown["sha256"], shown["code"]) == (bad, digest_of(bad), "unknown-kind")
    assert (shown["car"], shown["reviewed_at"], shown["reviewed_by"]) == ("41", None, None)
    path = f"/api/v1/set-aside/{digest_of(bad)}/review"
    done = manager.client.post(path, json={"reason": "an old app"}, headers=manager.headers)
    assert done.status_code == 204
    assert review_reasons(manager) == []
    (kept,) = manager.get("/set-aside").get_json()
    assert (kept["reviewed_by"], kept["reason"], kept["raw"].encode()) == ("p-vera", "an old app", bad)


def test_the_same_bytes_after_the_review_hold_nothing_again(phone, pen):
    manager = phone("manager")
    bad = raw({**pen.filed(), "kind": "report.shouted"})
    manager.sync(bad)
    path = f"/api/v1/set-aside/{digest_of(bad)}/review"
    manager.client.post(path, json={"reason": "seen"}, headers=manager.headers)
    assert manager.sync(bad)["rejected"] != []
    assert review_reasons(manager) == []


def test_a_review_needs_a_reason_and_something_that_waits(phone, pen):
    manager = phone("manager")
    bad = raw({**pen.filed(), "kind": "report.shouted"})
    manager.sync(bad)
    path = f"/api/v1/set-aside/{digest_of(bad)}/review"
    send = manager.client.post
    assert send(path, json={"reason": ""}, headers=manager.headers).status_code == 422
    assert send(path, json={"reason": "seen"}, headers=manager.headers).status_code == 204
    assert send(path, json={"reason": "again"}, headers=manager.headers).status_code == 404
    nothing = f"/api/v1/set-aside/{'0' * 64}/review"
    assert send(nothing, json={"reason": "x"}, headers=manager.headers).status_code == 404


@pytest.mark.parametrize("role", ["driver", "co-driver", "mechanic", "inspector"])
def test_only_a_manager_looks(phone, pen, role):
    bad = raw({**pen.filed(), "kind": "report.shouted"})
    someone = phone(role)
    someone.sync(bad)
    assert someone.get("/set-aside").status_code == 403
    path = f"/api/v1/set-aside/{digest_of(bad)}/review"
    assert someone.client.post(path, json={"reason": "x"}, headers=someone.headers).status_code == 403
    assert review_reasons(someone) != []


def device_of(phone_, sample_store) -> str:
    token = phone_.headers["Authorization"].removeprefix("Bearer ")
    hashed = hashlib.sha256(token.encode()).hexdigest()
    return sample_store.db.execute("SELECT device FROM device WHERE token_hash = ?", [hashed]).fetchone()[0]


def test_a_shut_out_device_is_refused_and_its_entries_are_set_aside_by_whomever_they_come(phone, pen, sample_store):
    lost, manager = phone(), phone("manager")
    device = device_of(lost, sample_store)
    before, after = pen.filed(device=device), pen.filed(device=device)
    lost.sync(before)
    gone = manager.client.delete(f"/api/v1/devices/{device}", headers=manager.headers)
    assert gone.status_code == 204
    assert lost.send(after).status_code == 401
    answer = manager.sync(after, before)
    # What was taken before stays taken; what comes later waits for a look and holds the car.
    assert answer["accepted"] == [before["id"]]
    assert answer["rejected"][0]["problem"]["type"].endswith("/shut-out")
    assert answer["rejected"][0]["problem"]["status"] == 403
    assert review_reasons(manager)[0]["entries"] == [after["id"]]


def test_shutting_out_a_device_that_never_joined_is_not_found(phone):
    manager = phone("manager")
    assert manager.client.delete("/api/v1/devices/d-none", headers=manager.headers).status_code == 404


def test_health_counts_what_waits_for_a_look(phone, pen, client):
    assert client.get("/api/v1/health").get_json()["waiting_review"] == 0
    phone().sync({**pen.filed(), "kind": "report.shouted"})
    health = client.get("/api/v1/health").get_json()
    assert (health["waiting_review"], health["status"]) == (1, "ok")


def nonsense(pen, count):
    return [{**pen.filed(), "kind": "report.shouted"} for _ in range(count)]


def leave_out(manager, brought_by, upto, reason="nobody wrote this"):
    body = {"brought_by": brought_by, "upto": upto, "reason": reason}
    return manager.client.post("/api/v1/set-aside/groups", json=body, headers=manager.headers)


def groups_of(manager):
    answer = manager.get("/set-aside/groups")
    assert answer.status_code == 200, answer.text
    return answer.get_json()


def test_a_hundred_of_what_holds_a_car_are_named_and_the_rest_are_counted(phone, pen, sample_store):
    sender = phone()
    bad = sorted(nonsense(pen, 100), key=lambda entry: entry["id"])
    sender.sync(*bad)
    (all_named,) = review_reasons(sender)
    assert all_named == {"job": None, "needs": "review", "entries": [entry["id"] for entry in bad]}
    sender.sync(*nonsense(pen, 400))
    (some,) = review_reasons(sender)
    assert (some["entries"], some["more"]) == (all_named["entries"], 400)
    # The same bytes again, and another text under an id that waits already, are no more than before.
    sender.sync(bad[0], {**bad[1], "v": 9})
    assert review_reasons(sender) == [some]
    queue = {name: value for name, value in sender.queue().items() if name != "hash"}
    # RFC 8785 and SHA-256 by themselves, not by the product.
    assert hashlib.sha256(rfc8785.dumps(queue)).hexdigest() == sender.queue()["hash"]


def test_what_waits_is_grouped_by_who_brought_it_and_one_decision_ends_the_hold(phone, pen, sample_store):
    manager, sender, other = phone("manager"), phone("mechanic"), phone()
    sender.sync(*nonsense(pen, 300), {**pen.filed(), "car": 41, "v": 2})
    mine = nonsense(pen, 1)
    other.sync(*mine)
    first, second = groups_of(manager)
    assert (first["waiting"], first["cars"]) == (301, ["41", None])
    assert first["codes"] == {"unknown-kind": 300, "wrong-shape": 1}
    assert second["waiting"] == 1
    shown = Counter(one["brought_by"] for one in manager.get("/set-aside").get_json())
    assert shown == {first["brought_by"]: 20, second["brought_by"]: 1}
    done = leave_out(manager, first["brought_by"], first["last_at"])
    assert (done.status_code, done.get_json()) == (200, {"left_out": 301})
    assert groups_of(manager) == [second]
    assert review_reasons(manager) == [{"job": None, "needs": "review", "entries": [mine[0]["id"]]}]
    read = sample_store.db.execute
    assert read("SELECT count(*) FROM set_aside").fetchone() == (302,), "kept byte for byte"
    decided = read("SELECT DISTINCT verdict, reviewed_by, reason FROM set_aside WHERE reviewed_at NOT NULL").fetchall()
    assert decided == [("discarded", "p-vera", "nobody wrote this")]
    assert leave_out(manager, first["brought_by"], first["last_at"]).status_code == 404


def test_what_came_after_the_manager_looked_waits_on(phone, pen, sample_store):
    manager, sender = phone("manager"), phone()
    sender.sync(*nonsense(pen, 3))
    (group,) = groups_of(manager)
    sample_store.db.conn.execute("UPDATE set_aside SET received_at = '2026-01-01T00:00:00Z'")
    sender.sync(*nonsense(pen, 1))
    assert leave_out(manager, group["brought_by"], "2026-01-01T00:00:00Z").get_json() == {"left_out": 3}
    assert [one["waiting"] for one in groups_of(manager)] == [1]


def test_a_group_holds_nothing_of_events_that_are_not_the_managers(phone, pen, sample_store):
    manager, sender = phone("manager"), phone()
    put_setup(sample_store, OTHER, other_files(), "2026-06-13T08:00:00Z")
    sender.sync(*nonsense(pen, 2), *({**entry, "event": OTHER} for entry in nonsense(pen, 5)))
    (group,) = groups_of(manager)
    assert group["waiting"] == 2
    assert leave_out(manager, group["brought_by"], group["last_at"]).get_json() == {"left_out": 2}
    left = sample_store.db.execute("SELECT count(*) FROM set_aside WHERE reviewed_at IS NULL").fetchone()
    assert left == (5,)


@pytest.mark.parametrize("role", ["mechanic", "co-driver", "inspector"])
def test_groups_are_for_managers(phone, role):
    one = phone(role)
    assert one.get("/set-aside/groups").status_code == 403
    assert leave_out(one, None, "2026").status_code == 403


FEW = quarantine_room.Most(entries=3, size=1_000, entries_in_all=5, size_in_all=10_000)


def pieces(*names: str, size: int = 10) -> list[bytes]:
    return [raw({"id": name, "kind": "x" * size}) for name in names]


@pytest.mark.parametrize(("most", "kept"), [(FEW, 3), (replace(FEW, size=80), 2)], ids=["entries", "bytes"])
def test_what_is_beyond_the_room_of_a_device_stays_on_its_phone_and_holds_every_car(
    phone, sample_store, monkeypatch, most, kept
):
    monkeypatch.setattr(quarantine_room, "MOST", most)
    sender, manager = phone(), phone("manager")
    answer = sender.sync(*pieces("a", "b", "c", "d", "e"))
    codes = [one["problem"]["type"].rpartition("/")[2] for one in answer["rejected"]]
    assert codes == ["wrong-shape"] * kept + ["set-aside-full"] * (5 - kept)
    full = answer["rejected"][-1]
    assert (full["id"], full["problem"]["status"], full["problem"]["title"]) == ("e", 507, "The entry was not kept")
    assert "waits for a manager's look" in full["problem"]["detail"]
    # Sent again, what is kept is what it was, and one line stands for all the rest.
    assert sender.sync(*pieces("a", "e"))["rejected"][0]["problem"]["type"].endswith("/wrong-shape")
    assert Counter(one["code"] for one in manager.get("/set-aside").get_json()) == {
        "wrong-shape": kept,
        "set-aside-full": 1,
    }
    for car in ("41", "42"):
        assert len(review_reasons(manager, car)[0]["entries"]) == kept + 1
    (group,) = manager.get("/set-aside/groups").get_json()
    decision = {"brought_by": group["brought_by"], "upto": group["last_at"], "reason": "nobody wrote this"}
    manager.client.post("/api/v1/set-aside/groups", json=decision, headers=manager.headers)
    assert review_reasons(manager) == []
    # The phone sends the rest again, and there is room.
    assert [one["problem"]["status"] for one in sender.sync(*pieces("d", "e"))["rejected"]] == [422, 422]
    assert review_reasons(manager)[0]["entries"] == ["d", "e"]


def test_all_devices_together_have_a_bound_and_a_good_entry_needs_no_room(phone, pen, monkeypatch):
    monkeypatch.setattr(quarantine_room, "MOST", replace(FEW, entries_in_all=4))
    one, other = phone(), phone("mechanic")
    one.sync(*pieces("a", "b", "c"))
    good = pen.filed("front-left/wheel bent")
    answer = other.sync(*pieces("d", "e"), good)
    assert answer["accepted"] == [good["id"]]
    assert [one["problem"]["status"] for one in answer["rejected"]] == [422, 507]


def test_what_no_phone_brought_is_always_kept(sample_store, monkeypatch):
    monkeypatch.setattr(quarantine_room, "MOST", replace(FEW, entries=0, entries_in_all=0))
    taken = ingest(sample_store, Batch(pieces("a", "b"), 0, None, None, "2026-06-13T08:00:00Z", None))
    assert [fault.code for _, fault in taken.rejected] == ["wrong-shape"] * 2

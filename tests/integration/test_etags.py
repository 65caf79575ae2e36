"""Answers that phones ask for again and again: an ETag, and 304 while nothing changed (RFC 9110, 8.8.3 and 13.1.2)."""

import pytest

from sample_event import event_files
from shuntbook.flow import answers, uploads

QUEUE = "/events/thornquell-2026/cars/41/queue"


@pytest.mark.parametrize("path", [QUEUE, "/events/thornquell-2026/cars/41/release", "/setup"])
def test_an_answer_that_did_not_change_is_not_sent_again(phone, path):
    reader = phone()
    first = reader.get(path)
    tag = first.headers["ETag"]
    for known in (tag, f'"other", {tag}', f"W/{tag}", "*"):
        again = reader.get(path, headers={"If-None-Match": known})
        assert (again.status_code, again.data) == (304, b"")
        assert again.headers["ETag"] == tag
    assert reader.get(path, headers={"If-None-Match": '"other"'}).data == first.data
    assert "no-cache" in first.headers["Cache-Control"]


def test_the_queues_etag_is_its_hash_and_changes_with_it(phone, pen):
    reader = phone()
    first = reader.get(QUEUE)
    assert first.headers["ETag"] == f'"{first.get_json()["hash"]}"'
    reader.sync(pen.filed("front-end/grille missing"))
    changed = reader.get(QUEUE, headers={"If-None-Match": first.headers["ETag"]})
    assert changed.status_code == 200
    assert changed.get_json()["hash"] != first.get_json()["hash"]


def test_the_release_carries_the_queues_hash(phone):
    reader = phone()
    release = reader.get("/events/thornquell-2026/cars/41/release").get_json()
    queue = reader.queue()
    assert release == {name: queue[name] for name in release}
    assert set(release) == {
        "event", "car", "entries", "rates", "hash", "release", "hold_reasons", "released_unseen",
    }  # fmt: skip


def test_the_set_ups_etag_changes_with_the_set_up(phone, sample_store):
    reader = phone()
    tag = reader.get("/setup").headers["ETag"]
    files = event_files("off")
    files["event.toml"] = files["event.toml"].replace(b"Thornquell Gravel Days", b"Thornquell Mud Days")
    uploads.put_setup(sample_store, "thornquell-2026", files, "2026-05-16T10:00:00Z")
    changed = reader.get("/setup", headers={"If-None-Match": tag})
    assert changed.status_code == 200
    assert changed.get_json()["events"][0]["name"] == "Thornquell Mud Days"


def test_the_set_up_is_what_a_phone_needs_offline(phone, sample_store):
    answer = phone().get("/setup").get_json()
    assert answer["log_id"] == sample_store.log_id
    (event,) = answer["events"]
    assert [car["car"] for car in event["cars"]] == ["41", "42"]
    assert event["car_map"]["components"]["brake-hose"]["group"] == "brake"
    assert event["regulations"]["late_limit_minutes"] == 15
    listed = {name for zone in event["car_map"]["zones"].values() for name in zone["components"]}
    assert listed <= set(event["car_map"]["components"])
    assert len(event["rates"]) == 64


COSTS = "/events/thornquell-2026/costs"
STATEMENTS = "/events/thornquell-2026/cars/41/statements"
MADE = {QUEUE: "queue", COSTS: "costs", STATEMENTS: "statements"}


@pytest.mark.parametrize("path", MADE)
def test_whoever_holds_an_answer_is_told_so_before_anything_is_made(phone, pen, path, monkeypatch):
    reader = phone("manager")
    first = reader.get(path)
    tag = first.headers["ETag"]
    monkeypatch.setattr(answers, MADE[path], lambda *_: pytest.fail("it was made again"))
    again = reader.get(path, headers={"If-None-Match": tag})
    assert (again.status_code, again.data, again.headers["ETag"]) == (304, b"", tag)
    monkeypatch.undo()
    reader.sync(pen.filed("front-end/grille missing"))
    changed = reader.get(path, headers={"If-None-Match": tag})
    assert (changed.status_code, changed.headers["ETag"] != tag) == (200, True)


@pytest.mark.parametrize("path", [COSTS, STATEMENTS])
def test_a_sheet_is_made_once_for_all_who_ask_and_anew_once_something_changed(phone, pen, path, monkeypatch):
    reader, made = phone("manager"), []
    real = getattr(answers, MADE[path])

    def making(*of):
        made.append(of)
        return real(*of)

    monkeypatch.setattr(answers, MADE[path], making)
    first, second = reader.get(path), reader.get(path)
    assert (first.data, len(made)) == (second.data, 1)
    reader.sync(pen.filed("front-end/grille missing"))
    changed = reader.get(path)
    assert (changed.status_code, len(made)) == (200, 2)


def test_costs_follow_the_set_up_the_car_and_the_rates_that_are_asked_for(phone, sample_store):
    reader = phone("manager")
    whole, one = reader.get(COSTS), reader.get(f"{COSTS}?car=41")
    assert whole.headers["ETag"] != one.headers["ETag"]
    assert one.get_json()["car"] == "41"
    rates = whole.get_json()["rates"]
    files = event_files("off")
    files["rates/rates.toml"] = files["rates/rates.toml"].replace(b"labour_per_hour = ", b"labour_per_hour = 1")
    uploads.put_setup(sample_store, "thornquell-2026", files, "2026-05-16T10:00:00Z")
    dearer = reader.get(COSTS, headers={"If-None-Match": whole.headers["ETag"]})
    assert dearer.status_code == 200
    assert dearer.get_json()["totals"] != whole.get_json()["totals"]
    old = reader.get(f"{COSTS}?rates={rates}").get_json()
    assert old["totals"] == whole.get_json()["totals"]
    assert reader.get(f"{COSTS}?car=nobody", headers={"If-None-Match": "*"}).status_code == 404


def test_the_queues_tag_follows_what_is_set_aside_and_what_is_decided_of_it(phone, pen):
    reader, manager = phone(), phone("manager")
    first = reader.get(QUEUE).headers["ETag"]
    reader.sync({**pen.filed(), "kind": "report.shouted"})
    held = reader.get(QUEUE, headers={"If-None-Match": first})
    assert held.status_code == 200
    (group,) = manager.get("/set-aside/groups").get_json()
    decision = {"brought_by": group["brought_by"], "upto": group["last_at"], "reason": "seen"}
    manager.client.post("/api/v1/set-aside/groups", json=decision, headers=manager.headers)
    assert reader.get(QUEUE, headers={"If-None-Match": held.headers["ETag"]}).headers["ETag"] == first

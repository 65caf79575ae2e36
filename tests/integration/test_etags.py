"""Answers that phones ask for again and again: an ETag, and 304 while nothing changed (RFC 9110, 8.8.3 and 13.1.2)."""

import pytest

from sample_event import event_files
from shuntbook.flow import uploads

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

"""What a sync says has changed is what has: whatever it does not name is the same as before."""

import random

import pytest

from longer import some
from phone import EVENT, Phone
from sample_event import event_files
from shuntbook.app import put_over
from shuntbook.flow import answers, clock, joining, uploads
from shuntbook.flow.changes import versions
from shuntbook.serving import sample_folder
from shuntbook.store import keys, people
from shuntbook.store.database import Store
from signer import Signer

CARS = ("41", "42")


def derived(store: Store) -> dict[str, tuple[object, object]]:
    """Return what a phone may hold of each car: the queue by its hash, and the costs."""
    return {car: (answers.queue(store, EVENT, car).hash, answers.costs(store, EVENT, car)) for car in CARS}


@pytest.fixture
def fresh(tmp_path, made_app):
    """A store that knows the sample event and holds no entry, and a phone of it."""
    store = Store(tmp_path / "fresh")
    uploads.put_setup(store, EVENT, event_files("off"), "2026-05-16T10:00:00Z")
    put_over(made_app, store)
    token = joining.join(store, joining.invite(store, "p-bodo", clock.now()), None, clock.now())[1]
    yield store, Phone(made_app.test_client(), {"Authorization": f"Bearer {token}"})
    made_app.extensions["shuntbook.planner"].stop()


@pytest.mark.parametrize("seed", some(range(3), 3))
def test_a_car_that_is_not_named_has_the_queue_and_the_costs_that_it_had(fresh, seed):
    store, phone = fresh
    todo = (sample_folder() / "entries.jsonl").read_bytes().splitlines()
    random.Random(seed).shuffle(todo)
    before, spared = derived(store), 0
    for raw in todo:
        named = {one["car"] for one in phone.sync(raw)["cars"] if one["event"] == EVENT}
        now = derived(store)
        unnamed = [car for car in CARS if car not in named]
        assert [car for car in unnamed if now[car] != before[car]] == [], raw
        spared += len(unnamed)
        before = now
    assert spared > len(todo) / 10, "all cars named each time would say nothing"


def test_a_phone_that_has_been_away_hears_of_each_car_that_changed_and_of_none_twice(phone, pen):
    away, other = phone(), phone("mechanic")
    away.pull()
    other.sync(pen.filed("front-end/grille missing", car="42"))
    assert away.sync()["cars"] == [{"event": EVENT, "car": "42"}]
    assert away.sync()["cars"] == []


def test_the_set_ups_version_is_the_tag_of_the_set_up_and_moves_with_devices_and_files(phone, join, sample_store):
    reader = phone()

    def told() -> str:
        version = reader.sync()["setup"]
        assert reader.get("/setup").headers["ETag"] == f'"{version}"'
        # The news tell everybody the same; behind the point stands how much of it this person is shown.
        assert versions(sample_store).setup == version.partition(".")[0] != version
        return version

    first = told()
    assert told() == first
    join("mechanic")
    second = told()
    device = sample_store.db.execute("SELECT device FROM device ORDER BY rowid DESC").fetchone()[0]
    joining.shut_out(sample_store, device, clock.now())
    third = told()
    with sample_store.write() as db:
        # Another phone brings a higher number for the last one believed of the same device.
        keys.put(db, keys.all_of(db)[device]._replace(last_seq=40))
    fourth = told()
    files = {**event_files("off"), "van.csv": b"part,loaded\n"}
    uploads.put_setup(sample_store, EVENT, files, clock.now())
    assert len({first, second, third, fourth, told()}) == 5


def test_the_set_ups_version_moves_with_the_key_of_a_pin(sample_store):
    code, first, second = joining.invite(sample_store, "p-odil", clock.now()), Signer().jwk, Signer().jwk
    _, token, _ = joining.join(sample_store, code, first, clock.now())
    device, before = people.who(sample_store.db, token).device, versions(sample_store).setup
    with sample_store.write() as db:
        keys.put_second(db, device, second)
    after, held = versions(sample_store).setup, keys.find(sample_store.db, device)
    assert (after == before, held.key, held.second_key) == (False, first, second)


def test_what_is_set_aside_or_decided_on_is_another_version(phone, pen):
    reader, manager = phone(), phone("manager")
    first = reader.sync()["set_aside"]
    bad = {**pen.filed(), "kind": "report.shouted"}
    second = reader.sync(bad)["set_aside"]
    assert reader.sync(bad)["set_aside"] == second, "the same bytes again change nothing"
    digest = manager.get("/set-aside").get_json()[-1]["sha256"]
    body = {"verdict": "discarded", "reason": "nothing of ours"}
    answer = manager.client.post(f"/api/v1/set-aside/{digest}/review", json=body, headers=manager.headers)
    assert answer.status_code == 204
    assert len({first, second, reader.sync()["set_aside"]}) == 3


def test_a_job_that_takes_the_last_parts_of_the_van_names_the_other_cars_too(fresh, pen):
    store, phone = fresh
    phone.sync(pen.filed("front-left/tyre flat", car="42"), pen.filed("front-left/tyre flat"))
    before = derived(store)
    parts = [{"part": "tyre-gravel-15", "qty": 1000}]
    said = {"covers": [], "minutes": 9, "mechanics": 1, "temporary": False, "parts": parts, "repairers": ["p-bodo"]}
    answer = phone.sync(pen.entry("job.finished", "front-left/tyre", person="p-bodo", device="d-2", **said))
    assert answer["rejected"] == []
    assert derived(store)["42"][0] != before["42"][0], "else the parts were not the last"
    assert [one["car"] for one in answer["cars"]] == ["41", "42"]

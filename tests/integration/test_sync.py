"""Sync: the same entries in any batches give one queue; pages, cursors, other logs."""

import json
import random

import pytest

from making import Pen, ids, raw
from phone import Phone, sync_body
from sample_event import ENTRIES, event_files
from shuntbook.app import create_app
from shuntbook.flow import answers, clock, diagnostics, joining, uploads
from shuntbook.serving import sample_folder
from shuntbook.store import log
from shuntbook.store.database import Store
from shuntbook.wire import sight
from signing_phone import codes

EVENT = "thornquell-2026"
CARS = ("41", "42")


def sample_entries() -> list[bytes]:
    return sample_folder().joinpath("entries.jsonl").read_bytes().splitlines()


def hashes(store: Store) -> list[str]:
    return [answers.queue(store, EVENT, car).hash for car in CARS]


def empty_with_set_up(folder, pages) -> tuple[Store, list[Phone]]:
    """A store that knows the event but holds no entry, and three phones that joined."""
    store = Store(folder)
    uploads.put_setup(store, EVENT, event_files("off"), "2026-05-16T10:00:00Z")
    client = create_app(store, pages).test_client()
    phones = []
    for person in ("p-toma", "p-bodo", "p-odil"):
        code = joining.invite(store, person, clock.now())
        token = client.post("/api/v1/join", json={"code": code}).get_json()["token"]
        phones.append(Phone(client, {"Authorization": f"Bearer {token}"}))
    return store, phones


@pytest.mark.parametrize("seed", range(6))
def test_random_batches_from_several_phones_sent_twice_give_the_queue_of_a_load(tmp_path, pages, sample_store, seed):
    chance = random.Random(seed)
    store, phones = empty_with_set_up(tmp_path / "synced", pages)
    todo = sample_entries() * 2
    chance.shuffle(todo)
    while todo:
        size = chance.choice([1, 2, 7, 40])
        batch, todo = todo[:size], todo[size:]
        answer = chance.choice(phones).sync(*batch)
        assert answer["rejected"] == []
        assert len(answer["accepted"]) == len(batch)
    assert hashes(store) == hashes(sample_store), f"seed {seed}"
    assert diagnostics.check(store) == []


def test_every_phone_ends_with_every_entry_byte_for_byte(tmp_path, pages):
    _, phones = empty_with_set_up(tmp_path / "synced", pages)
    lines = sample_entries()
    for place, phone in enumerate(phones):
        phone.sync(*lines[place::3])
    for place, phone in enumerate(phones):
        brought = set(lines[place::3])
        response = phone.post(sync_body((), 0, phone.log_id))
        # The three are no managers: what managers alone are sent is in `test_sight.py`.
        theirs = {line for line in lines if sight.ENTRIES[json.loads(line)["kind"]] is not sight.Sight.MANAGER}
        assert all(line in response.data for line in theirs - brought)


def test_a_batch_sent_again_is_acknowledged_again_and_stored_once(phone, pen, sample_store):
    sender = phone()
    batch = [pen.filed("front-end/grille missing") for _ in range(20)]
    first = sender.sync(*batch)
    before = sample_store.db.execute("SELECT count(*), max(cursor) FROM entry").fetchone()
    again = sender.sync(*batch)
    assert first["accepted"] == again["accepted"] == ids(batch)
    assert sample_store.db.execute("SELECT count(*), max(cursor) FROM entry").fetchone() == before


def test_one_entry_twice_in_one_batch_is_stored_once(phone, pen, sample_store):
    entry = pen.filed("front-end/grille missing")
    answer = phone().sync(entry, entry)
    assert answer["accepted"] == ids([entry, entry])
    assert sample_store.db.execute("SELECT count(*) FROM entry WHERE id = ?", [entry["id"]]).fetchone() == (1,)


def test_an_answer_never_holds_what_the_same_request_sent(phone, pen):
    entry = pen.filed("front-end/grille missing")
    answer = phone().sync(entry)
    assert entry["id"] not in ids(answer["entries"])
    assert len(answer["entries"]) == len(sample_entries())


def test_a_phone_pulls_page_by_page_until_there_is_no_more(phone, pen):
    for _ in range(2):
        phone().sync(*(pen.filed("front-end/badge missing") for _ in range(250)))
    reader = phone()
    first = reader.sync()
    assert (len(first["entries"]), first["more"]) == (500, True)
    second = reader.sync()
    assert (len(second["entries"]), second["more"]) == (len(sample_entries()), False)
    assert reader.sync()["entries"] == []


def test_a_page_that_holds_all_that_is_left_says_that_there_is_no_more(sample_store):
    size = len(sample_entries())
    rows, cursor, more = log.page(sample_store.db, 0, size)
    assert (len(rows), cursor, more) == (size, log.last_cursor(sample_store.db), False)
    assert log.page(sample_store.db, 0, size - 1)[2] is True


def test_what_others_sent_comes_once_in_the_order_of_the_log(phone, pen):
    reader, writer = phone(), phone("mechanic")
    reader.pull()
    batch = [pen.filed("front-end/badge missing") for _ in range(3)]
    writer.sync(*batch)
    assert ids(reader.pull()) == ids(batch)
    assert reader.pull() == []


@pytest.mark.parametrize(
    ("log_id", "cursor"), [("another log", 5), ("another log", 0), (None, 10**9), ("same", 10**9)], ids=str
)
def test_a_cursor_of_another_log_or_ahead_of_this_one_starts_from_nothing(phone, log_id, cursor):
    reader = phone()
    whole = reader.sync()
    response = reader.post(sync_body((), cursor, whole["log_id"] if log_id == "same" else log_id))
    answer = response.get_json()
    assert answer["log_id"] == whole["log_id"]
    assert ids(answer["entries"]) == ids(whole["entries"])
    assert answer["cursor"] == whole["cursor"]


def test_a_server_that_was_lost_is_rebuilt_from_what_a_phone_holds(phone, tmp_path, pages, sample_store):
    held = [raw(entry) for entry in phone("manager").pull()]
    store, phones = empty_with_set_up(tmp_path / "new", pages)
    survivor = phones[0]
    survivor.log_id, survivor.cursor = sample_store.log_id, ENTRIES
    answer = survivor.sync(*held)
    assert answer["log_id"] == store.log_id != sample_store.log_id
    assert answer["entries"] == []
    assert hashes(store) == hashes(sample_store)


def test_the_clock_of_a_phone_is_noted_and_changes_nothing(phone, pen, sample_store):
    entry = pen.filed("front-end/badge missing")
    body = sync_body((entry,)).replace(b"2026-06-13T08:00:00Z", b"2099-01-01T00:00:00Z")
    assert phone().post(body).get_json()["accepted"] == ids([entry])
    (skew,) = sample_store.db.execute("SELECT skew_s FROM entry WHERE id = ?", [entry["id"]]).fetchone()
    assert skew > 10 * 365 * 86400


def test_entries_of_an_event_without_a_set_up_wait_for_it(phone, sample_store):
    early = Pen("early-2026", start=30_000)
    entries = [early.filed("front-end/grille missing"), early.filed("cabin/harness marked")]
    manager = phone("manager")
    # Whether that event demands signatures is not known yet: unsigned entries wait beside the log until it is.
    assert codes(manager.sync(*entries)) == ["unsigned", "unsigned"]
    assert manager.get("/events/early-2026/cars/41/queue").status_code == 404
    files = {name: data.decode() for name, data in event_files("off").items()}
    files["event.toml"] = files["event.toml"].replace(EVENT, "early-2026")
    taken = manager.client.put("/api/v1/events/early-2026", json={"files": files}, headers=manager.headers)
    assert taken.status_code == 200
    keys = {job["job"] for job in manager.queue(event="early-2026")["jobs"]}
    assert {"front-end/grille", "cabin/harness"} <= keys
    assert diagnostics.check(sample_store) == []


def test_an_undo_counts_whether_it_comes_before_or_after_what_it_undoes(phone, pen):
    writer = phone()
    report = pen.filed("cabin/harness marked")
    look = pen.passed("cabin/harness", report)
    out = pen.entry("car.released", person="p-odil", service="A")
    undone = [pen.voided(look, "p-odil"), pen.voided(out, "p-vera")]
    writer.sync(report)
    uncovered = writer.queue()["hold_reasons"]
    writer.sync(*undone)
    writer.sync(look, out)
    answer = writer.queue()
    assert answer["hold_reasons"] == uncovered
    assert out["id"] not in [item["released"] for item in answer["released_unseen"]]


def test_what_is_undone_later_is_worked_out_anew(phone, pen, sample_store):
    writer = phone("manager")
    lamp, harness = pen.filed("front-end/headlamp broken"), pen.filed("cabin/harness marked")
    repair = pen.finished("front-end/headlamp", lamp)
    look, came_in = pen.passed("cabin/harness", harness, until="B"), pen.entry("service.entered", service="B")

    def standing(*entries):
        writer.sync(*entries)
        jobs = {job["job"]: job for job in writer.queue("41")["jobs"]}
        assert diagnostics.check(sample_store) == []
        return jobs["front-end/headlamp"]["state"], harness["id"] in jobs["cabin/harness"]["uncovered"]

    # The sample's car was in service B and later ones already: the pass has run out before it comes.
    assert standing(lamp, harness, repair, look, came_in) == ("finished", True)
    entered = [e["id"] for e in phone().pull() if e.get("kind") == "service.entered" and e["car"] == "41"]
    undo = pen.entry("entry.voided", person="p-vera", voids=entered, reason="they were of another car")
    assert standing(undo) == ("finished", False)
    assert standing(pen.voided(repair, "p-vera")) == ("open", False)


@pytest.mark.parametrize(("beside", "starts_again"), [("known", False), ("unknown", True), (None, True)], ids=str)
def test_who_joins_on_a_phone_that_has_the_log_goes_on_from_there(client, sample_store, beside, starts_again):
    """Driver and co-driver share the car's phone: the second one must not make it fetch all of the log again."""
    device, token, _ = joining.join(
        sample_store, joining.invite(sample_store, "p-toma", clock.now()), None, clock.now()
    )
    first = Phone(client, {"Authorization": f"Bearer {token}"})
    first.pull()
    names = {"known": device.device, "unknown": "d-nobodys", None: None}[beside]
    code = joining.invite(sample_store, "p-ilka", clock.now())
    joined = client.post("/api/v1/join", json={"code": code, "beside": names}).get_json()
    second = Phone(client, {"Authorization": f"Bearer {joined['token']}"})
    second.log_id, second.cursor = first.log_id, first.cursor
    answer = second.sync()
    assert (answer["cursor"] < ENTRIES) is starts_again
    assert answer["entries"] == []

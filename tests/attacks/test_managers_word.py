"""A manager writes the inspector's word: three ways that are open only in a rebuild, and one that never is."""

import json

import pytest

from other_event import OTHER, as_texts, other_files
from phone import EVENT, NOW
from sample_event import event_files
from shuntbook.app import create_app
from shuntbook.flow import backups, diagnostics, joining, uploads
from shuntbook.flow.load import load
from shuntbook.kit.canonical import digest_of
from shuntbook.store import owners, rebuilds
from shuntbook.store.database import Store
from signer import Signer
from signing_phone import Signing, aside, codes, decide, review

HOSE = "front-left/brake-hose"


@pytest.fixture
def day(signing, pen, sample_store):
    """Vera, who manages and owns; Toma, whose report waits for an inspection; no rebuild is under way."""
    with sample_store.write() as db:
        owners.name(db, "p-vera", NOW)
        rebuilds.end(db)
    vera, toma = signing("manager"), signing()
    report = toma.by(pen.filed(f"{HOSE} marked"))
    toma.sync(report)
    return vera, toma, report


def inspection(reader: Signing) -> str:
    """Return what the queue says of the hose's inspection."""
    found: str = {job["job"]: job["inspection"] for job in reader.queue()["jobs"]}[HOSE]
    return found


def test_a_review_of_an_unsigned_pass_is_refused_and_the_car_stays_on_hold(day, pen):
    vera, toma, report = day
    forged = pen.passed(HOSE, report, person="p-odil")
    assert codes(vera.sync(forged)) == ["unsigned"]
    assert decide(vera, aside(vera)["sha256"], "accepted") == 409
    assert inspection(toma) == "needed"
    assert review(toma) == [[forged["id"]]]


def test_not_even_in_a_rebuild_does_a_review_make_an_inspection_count(day, pen, sample_store):
    vera, toma, report = day
    with sample_store.write() as db:
        rebuilds.begin(db)
    vera.sync(pen.passed(HOSE, report, person="p-odil"))
    digest = aside(vera)["sha256"]
    assert decide(vera, digest, "accepted") == 409
    assert decide(vera, digest, "discarded") == 204, "it may be left out"
    assert inspection(toma) == "needed"


def test_nor_is_an_unsigned_report_taken_on_a_managers_word(day, pen):
    vera, _, _ = day
    vera.sync(pen.filed("front-left/wheel bent"))
    assert decide(vera, aside(vera)["sha256"], "accepted") == 409


def test_what_its_author_signed_and_only_a_clock_makes_odd_is_taken_at_any_time(day, pen):
    vera, toma, _ = day
    odd = toma.by({**pen.filed("front-left/wheel bent"), "at": "9999-01-01T00:00:00+00:00"})
    assert codes(toma.sync(odd)) == ["odd-time"]
    assert decide(vera, aside(vera)["sha256"], "accepted") == 204
    assert "front-left/wheel" in {job["job"] for job in toma.queue()["jobs"]}


def test_digests_of_unsigned_entries_come_with_no_set_up(day, pen):
    vera, toma, report = day
    forged = pen.passed(HOSE, report, person="p-odil")
    trusted = {forged["id"]: digest_of(json.dumps(forged).encode())}
    body = {"files": as_texts(event_files("on")), "trusted": trusted}
    assert vera.client.put(f"/api/v1/events/{EVENT}", json=body, headers=vera.headers).status_code == 409
    assert codes(vera.sync(forged)) == ["unsigned"]
    assert inspection(toma) == "needed"


def test_what_was_trusted_before_may_come_with_it_as_a_phone_of_0_1_sends_it(day, sample_store, signed_folder):
    vera, _, _ = day
    load(sample_store, signed_folder, NOW)
    files = vera.get(f"/events/{EVENT}/files").get_json()
    assert files["trusted"]
    body = {"files": files["files"], "trusted": files["trusted"]}
    assert vera.client.put(f"/api/v1/events/{EVENT}", json=body, headers=vera.headers).status_code == 200


def test_no_new_device_speaks_for_the_inspector(day, pen):
    vera, toma, report = day
    thief = Signer()
    device = {"device": "d-new", "person": "p-odil", "key": thief.jwk, "shut_out_at": None}
    put = vera.client.put("/api/v1/devices", json={"devices": [device]}, headers=vera.headers)
    assert put.status_code == 409
    assert "rebuild" in put.get_json()["detail"]
    forged = thief.sign({**pen.passed(HOSE, report), "person": "p-odil", "device": "d-new"})
    assert codes(vera.sync(forged)) == ["unknown-device"]
    assert inspection(toma) == "needed"


def test_no_higher_number_makes_a_shut_out_phone_believed(day, signing, pen):
    vera, _, _ = day
    odil = signing("inspector")
    vera.client.delete(f"/api/v1/devices/{odil.device}", headers=vera.headers)
    out = {"device": odil.device, "person": "p-odil", "key": None, "shut_out_at": NOW, "last_seq": 99}
    assert vera.client.put("/api/v1/devices", json={"devices": [out]}, headers=vera.headers).status_code == 409
    assert codes(vera.sync(odil.by(pen.passed(HOSE)))) == ["shut-out"]


def test_an_owner_ends_a_rebuild_for_good_and_everybody_sees_it_and_what_was_done(signing, sample_store, pen):
    toma, vera = signing(), signing("manager")
    joining.name_owner(sample_store, "p-vera", NOW)
    assert toma.get("/setup").get_json()["rebuild"] is True
    device = {"device": "d-of-old", "person": "p-odil", "key": Signer().jwk, "shut_out_at": None}
    assert vera.client.put("/api/v1/devices", json={"devices": [device]}, headers=vera.headers).status_code == 200
    vera.sync(pen.filed())
    assert decide(vera, aside(vera)["sha256"], "accepted") == 204
    assert toma.client.delete("/api/v1/rebuild", headers=toma.headers).status_code == 403
    assert vera.client.delete("/api/v1/rebuild", headers=vera.headers).status_code == 204
    assert toma.get("/setup").get_json()["rebuild"] is False
    shown = toma.get("/rebuild").get_json()
    done = [(one["person"], one["act"]) for one in shown["done"]]
    assert (shown["under_way"], done) == (False, [("p-vera", "device"), ("p-vera", "review"), ("p-vera", "ended")])
    device = {**device, "device": "d-later"}
    assert vera.client.put("/api/v1/devices", json={"devices": [device]}, headers=vera.headers).status_code == 409
    assert vera.client.delete("/api/v1/rebuild", headers=vera.headers).status_code == 409


def test_a_rebuild_begins_with_an_empty_disk_and_with_a_restored_copy_and_with_nothing_else(
    sample_store, fresh, signed_folder, tmp_path
):
    assert rebuilds.is_under_way(fresh.db)
    load(fresh, signed_folder, NOW)
    assert not rebuilds.is_under_way(fresh.db), "who loads a folder begins a log"
    backups.backup(fresh, tmp_path / "copy.zip")
    backups.restore(tmp_path / "copy.zip", tmp_path / "restored")
    assert rebuilds.is_under_way(Store(tmp_path / "restored").db)


def test_two_managers_bring_two_events_back_whole(signing, pen, sample_store, fresh, pages, client):
    """Each holds an event of the two: both come from their phones alone, with inspections and who was shut out."""
    uploads.put_setup(sample_store, OTHER, other_files(), NOW)
    vera, odil, toma, zed = signing("manager"), signing("inspector"), signing(), Signing(client, sample_store, "p-zed")
    report = toma.by(pen.filed(f"{HOSE} marked"))
    toma.sync(report)
    odil.sync(odil.by(pen.passed(HOSE, report)))
    vera.client.delete(f"/api/v1/devices/{odil.device}", headers=vera.headers)
    own = zed.by({**pen.filed("front-left/wheel bent"), "event": OTHER})
    zed.sync(own)
    held = {vera: (vera.get("/setup").get_json(), vera.pull()), zed: (zed.get("/setup").get_json(), [own])}
    before = {(e, c): one.queue(c, e)["hash"] for one, e in ((vera, EVENT), (zed, OTHER)) for c in ("41", "42")}

    again = create_app(fresh, pages).test_client()
    phones = [Signing(again, fresh, one.person) for one in (vera, zed)]
    for new, old, event, files in zip(
        phones, (vera, zed), (EVENT, OTHER), (event_files("on"), other_files()), strict=True
    ):
        setup, entries = held[old]
        assert [one["event"] for one in setup["events"]] == [event]
        brought = again.put("/api/v1/devices", json={"devices": setup["devices"]}, headers=new.headers)
        assert brought.status_code == 200, brought.text
        put = again.put(f"/api/v1/events/{event}", json={"files": as_texts(files)}, headers=new.headers)
        assert put.status_code == 200, put.text
        assert codes(new.sync(*entries)) == []
    after = {
        (event, car): one.queue(car, event)["hash"]
        for one, event in zip(phones, (EVENT, OTHER), strict=True)
        for car in ("41", "42")
    }
    assert after == before
    assert owners.named(fresh.db) == ["p-vera"]
    assert diagnostics.check(fresh) == []

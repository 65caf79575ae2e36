"""A phone is shut out late in the day: what it wrote before stays, rebuilt, in a bundle, in an old folder."""

import json
import sqlite3
from pathlib import Path

import pytest

from phone import EVENT, NOW
from sample_event import event_files
from shuntbook.app import create_app
from shuntbook.flow import bundle_export, bundle_import, diagnostics, members, uploads
from shuntbook.flow.bundle_import import Choice
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.store import keys, log
from shuntbook.store.database import FILE, Store
from shuntbook.store.keys import DeviceKey
from signing_phone import Signing, codes, review

HOSE = "front-left/brake-hose"


@pytest.fixture
def day(signing, pen):
    """A report and the pass on it, whose inspector's phone is shut out after both; the inspector, the manager."""
    toma, odil, vera = signing(), signing("inspector"), signing("manager")
    report = toma.by(pen.filed(f"{HOSE} marked"))
    looked = odil.by({**pen.passed(HOSE, report), "seq": 7})
    toma.sync(report)
    odil.sync(looked)
    assert vera.client.delete(f"/api/v1/devices/{odil.device}", headers=vera.headers).status_code == 204
    return [report, looked], odil, vera


def rebuilt(fresh: Store, pages: Path) -> Signing:
    """Return the manager's phone on a server that lost everything."""
    return Signing(create_app(fresh, pages).test_client(), fresh, "p-vera")


def test_a_shut_out_names_the_last_number_believed_and_tells_every_phone(day, signing):
    _, odil, _ = day
    devices = {one["device"]: one for one in signing().get("/setup").get_json()["devices"]}
    assert devices[odil.device]["last_seq"] == 7
    assert [one["last_seq"] for name, one in devices.items() if name != odil.device] == [None, None, None]


def test_a_rebuilt_server_keeps_what_a_phone_wrote_before_it_was_shut_out(day, fresh, pages):
    entries, _, vera = day
    before, devices = vera.queue(), vera.get("/setup").get_json()["devices"]
    files = {name: data.decode() for name, data in event_files("on").items()}
    again = rebuilt(fresh, pages)
    again.client.put("/api/v1/devices", json={"devices": devices}, headers=again.headers)
    again.client.put(f"/api/v1/events/{EVENT}", json={"files": files}, headers=again.headers)
    answer = again.sync(*entries)
    assert codes(answer) == []
    assert again.queue()["hash"] == before["hash"]
    assert diagnostics.check(fresh) == []


def test_what_it_wrote_afterwards_is_set_aside_there_as_here_and_holds_the_car(day, pen):
    _, odil, vera = day
    late = odil.by({**pen.passed(HOSE), "seq": 8})
    assert codes(vera.sync(late)) == ["shut-out"]
    assert review(vera) == [[late["id"]]]


def test_an_entry_of_before_that_another_phone_still_carries_counts(day, pen):
    _, odil, vera = day
    carried = odil.by({**pen.filed("front-left/wheel bent"), "seq": 6})
    assert vera.sync(carried)["accepted"] == [carried["id"]]


def test_what_came_before_the_number_counts_by_itself_once_the_number_is_here(day, fresh, pages):
    entries, odil, vera = day
    devices = vera.get("/setup").get_json()["devices"]
    again = rebuilt(fresh, pages)
    uploads.put_setup(fresh, EVENT, event_files("on"), NOW)
    # A phone that heard of the shut-out from a server that kept no number brings it first.
    bare = [{**one, "last_seq": None} for one in devices]
    again.client.put("/api/v1/devices", json={"devices": bare}, headers=again.headers)
    assert codes(again.sync(*entries)) == ["shut-out"]
    brought = again.client.put("/api/v1/devices", json={"devices": devices}, headers=again.headers)
    assert brought.get_json()["believed"] == 1
    assert review(again) == []
    assert keys.all_of(fresh.db)[odil.device].last_seq == 7


def test_of_two_numbers_the_higher_counts_in_whatever_order_they_come(fresh):
    for first, second in ((3, 9), (9, 3)):
        for number in (first, second):
            with fresh.write() as db:
                keys.put(db, DeviceKey(f"d-{first}", "p-odil", None, NOW, number))
        assert keys.all_of(fresh.db)[f"d-{first}"].last_seq == 9


def test_a_bundle_carries_the_number(day, sample_store, fresh, tmp_path):
    bundle_export.export_bundle(sample_store, tmp_path / "b.zip", None, NOW)
    taken = bundle_import.import_bundle(fresh, tmp_path / "b.zip", Choice(), NOW)
    assert (taken.new, taken.set_aside) == (2, [])


def test_a_bundle_of_a_release_without_numbers_takes_the_highest_that_it_holds(day, sample_store, fresh, tmp_path):
    _, odil, _ = day
    with sample_store.write() as db:
        db.conn.execute("UPDATE device_key SET last_seq = NULL")
    bundle_export.export_bundle(sample_store, tmp_path / "b.zip", None, NOW)
    taken = bundle_import.import_bundle(fresh, tmp_path / "b.zip", Choice(), NOW)
    assert (taken.new, taken.set_aside) == (2, [])
    assert keys.all_of(fresh.db)[odil.device].last_seq == 7


def test_a_folder_of_a_release_without_numbers_takes_the_highest_that_its_log_holds(day, sample_store, tmp_path):
    entries, odil, _ = day
    folder = sample_store.folder
    sample_store.db.conn.close()
    with sqlite3.connect(folder / FILE) as old:
        old.execute("ALTER TABLE device_key DROP COLUMN last_seq")
        old.execute("DELETE FROM _sqlite_migrations WHERE name LIKE '%last_numbers%'")
    opened = Store(folder)
    assert keys.all_of(opened.db)[odil.device].last_seq == 7
    late = odil.by({**entries[1], "id": entries[1]["id"][:-4] + "ffff", "seq": 8, "sig": None})
    del late["sig"]
    late = odil.by(late)
    taken = ingest(opened, Batch([json.dumps(late).encode()], 0, None, None, NOW, None))
    assert [fault.code for _, fault in taken.rejected] == ["shut-out"]
    assert log.count(opened.db, EVENT, "41") == 2


def test_shutting_out_twice_moves_no_number(day, sample_store, pen):
    _, odil, vera = day
    late = odil.by({**pen.filed("front-left/wheel bent"), "seq": 9})
    uploads.put_setup(sample_store, EVENT, event_files("on"), NOW)
    with sample_store.write() as db:
        keys.shut_out(db, odil.device, "2026-06-14T13:00:00Z")
    assert codes(vera.sync(late)) == ["shut-out"]
    assert members.caller(sample_store, vera.headers["Authorization"].split()[1])

"""A server that lost everything: set-ups, devices' keys and what was trusted come back from a manager's phone."""

import json

import pytest
from flask import Flask

from phone import EVENT, NOW
from sample_event import event_files
from shuntbook.app import create_app
from shuntbook.flow import diagnostics, uploads
from shuntbook.flow.load import load
from shuntbook.serving import sample_folder
from shuntbook.store.database import Store
from signer import Signer
from signing_phone import Signing, codes, review

LOADED = len((sample_folder() / "entries.jsonl").read_text().splitlines())


@pytest.fixture
def sample_store(signed_store: Store) -> Store:
    """The app of these tests holds the event with signatures demanded."""
    return signed_store


def test_what_an_unknown_device_signed_is_believed_by_itself_once_a_manager_brings_its_key(signing, pen, sample_store):
    """As on a rebuilt server: the key was known to the one that was lost, and travels in the set-up."""
    vera, toma, lost = signing("manager"), signing(), Signer()
    entry = lost.sign({**pen.filed("front-left/wheel bent"), "person": toma.person, "device": "d-of-old"})
    assert codes(toma.sync(entry)) == ["unknown-device"]
    device = {"device": "d-of-old", "person": toma.person, "key": lost.jwk, "shut_out_at": None}
    assert toma.client.put("/api/v1/devices", json={"devices": [device]}, headers=toma.headers).status_code == 403
    brought = vera.client.put("/api/v1/devices", json={"devices": [device]}, headers=vera.headers)
    assert brought.get_json() == {"devices": 1, "believed": 1}
    assert review(toma) == []
    assert vera.pull() == [entry]
    # The phone that was told no hears of it, too.
    assert toma.pull() == [entry]
    assert diagnostics.check(sample_store) == []


def test_a_key_that_is_brought_makes_no_forgery_good_and_replaces_no_key(signing, pen):
    vera, toma, thief = signing("manager"), signing(), Signer()
    forged = thief.sign({**pen.filed(), "person": toma.person, "device": toma.device})
    later = thief.sign({**pen.filed(), "person": toma.person, "device": "d-new"})
    assert codes(vera.sync(forged, later)) == ["bad-signature", "unknown-device"]
    other = Signer()
    devices = [
        {"device": toma.device, "person": toma.person, "key": thief.jwk, "shut_out_at": None},
        {"device": "d-new", "person": toma.person, "key": other.jwk, "shut_out_at": None},
    ]
    brought = vera.client.put("/api/v1/devices", json={"devices": devices}, headers=vera.headers)
    assert brought.get_json()["believed"] == 0
    again = thief.sign({**pen.filed(), "person": toma.person, "device": toma.device})
    assert codes(vera.sync(again)) == ["bad-signature"]


def test_the_set_up_tells_every_phone_the_keys_and_who_was_shut_out(signing):
    toma, vera = signing(), signing("manager")
    vera.client.delete(f"/api/v1/devices/{toma.device}", headers=vera.headers)
    setup = vera.get("/setup").get_json()
    devices = {one["device"]: one for one in setup["devices"]}
    assert devices[vera.device] == {
        "device": vera.device,
        "person": "p-vera",
        "key": vera.signer.jwk,
        "shut_out_at": None,
        "last_seq": None,
        "second_key": None,
    }
    assert devices[toma.device]["shut_out_at"] is not None
    assert devices[toma.device]["last_seq"] == 0
    assert setup["events"][0]["trust"] == {"signatures": "on", "pin": False}


def test_what_load_brings_from_a_folder_is_trusted_as_it_is_and_only_that(signing, sample_store, signed_folder, pen):
    load(sample_store, signed_folder, NOW)
    toma = signing()
    assert len(toma.pull()) == LOADED
    entry = json.loads((sample_folder() / "entries.jsonl").read_text().splitlines()[0])
    assert toma.sync(entry)["accepted"] == [entry["id"]], "the same again is no news"
    assert codes(toma.sync({**entry, "car": "42" if entry["car"] == "41" else "41"})) == ["conflict"]
    assert codes(toma.sync(pen.filed())) == ["unsigned"]


def test_the_set_ups_files_come_back_byte_for_byte(sample_store, signing):
    """A spreadsheet puts a byte order mark before its CSV; the rate table's version is of the bytes with it."""
    files = event_files("on")
    files["rates/parts.csv"] = b"\xef\xbb\xbf" + files["rates/parts.csv"]
    uploads.put_setup(sample_store, EVENT, files, NOW)
    vera = signing("manager")
    answer = vera.get(f"/events/{EVENT}/files").get_json()
    assert {name: text.encode() for name, text in answer["files"].items()} == files
    before = vera.get("/setup").get_json()["events"][0]["rates"]
    body = {"files": answer["files"], "trusted": answer["trusted"]}
    taken = vera.client.put(f"/api/v1/events/{EVENT}", json=body, headers=vera.headers)
    assert taken.get_json()["rates"] == before


def test_a_rebuilt_server_trusts_what_the_lost_one_did_and_no_other_unsigned_entry(
    signing, pen, sample_store, signed_folder, tmp_path, pages
):
    load(sample_store, signed_folder, NOW)
    vera = signing("manager")
    files = vera.get(f"/events/{EVENT}/files").get_json()
    entries = vera.pull()
    before = {car: vera.queue(car)["hash"] for car in ("41", "42")}

    fresh = Store(tmp_path / "fresh")
    app: Flask = create_app(fresh, pages)
    again = Signing(app.test_client(), fresh, "p-vera")
    # The entries may well come first: they wait, and are believed by themselves.
    assert set(codes(again.sync(*entries[:500]))) <= {"unsigned"}
    body = {"files": files["files"], "trusted": files["trusted"]}
    assert again.client.put(f"/api/v1/events/{EVENT}", json=body, headers=again.headers).status_code == 200
    again.sync(*entries[500:])
    assert {car: again.queue(car)["hash"] for car in ("41", "42")} == before
    assert again.get(f"/events/{EVENT}/files").get_json() == files
    assert codes(again.sync(pen.filed())) == ["unsigned"]
    assert diagnostics.check(fresh) == []

"""Whoever holds the phone, and not its inspector's PIN, passes nothing and lets no car go that is on hold."""

import pytest

from phone import EVENT, NOW
from sample_event import event_files
from shuntbook.flow import bundle_export, bundle_import, uploads
from shuntbook.flow.bundle_import import Choice
from shuntbook.store import keys
from signer import Signer
from signing_phone import Signing, aside, codes, decide

HOSE = "front-left/brake-hose"


@pytest.fixture
def odil(signing) -> Signing:
    """The inspector's phone, whose person set a PIN at joining."""
    phone: Signing = signing("inspector", pin=True)
    return phone


def inspection(reader: Signing) -> str:
    """Return what the queue says of the hose's inspection."""
    found: str = {job["job"]: job["inspection"] for job in reader.queue()["jobs"]}[HOSE]
    return found


def test_the_phones_own_key_passes_nothing_the_key_of_the_pin_does(odil, signing, pen):
    toma = signing()
    report = toma.by(pen.filed(f"{HOSE} marked"))
    toma.sync(report)
    assert codes(odil.sync(odil.by(pen.passed(HOSE, report)))) == ["bad-signature"]
    assert inspection(toma) == "needed"
    looked = odil.by_pin(pen.passed(HOSE, report))
    assert odil.sync(looked)["accepted"] == [looked["id"]]
    assert inspection(toma) == "passed"


@pytest.mark.parametrize("kind", ["inspection.passed", "inspection.failed"])
def test_no_inspection_is_signed_by_the_phones_own_key(odil, pen, kind):
    assert codes(odil.sync(odil.by(pen.entry(kind, HOSE, covers=[])))) == ["bad-signature"]


def test_a_release_on_hold_has_a_reason_and_asks_for_the_pin_another_does_not(odil, pen):
    on_hold = pen.entry("car.released", None, service="A", covers=[], reason="the chief says so")
    assert codes(odil.sync(odil.by(on_hold))) == ["bad-signature"]
    assert odil.sync(odil.by_pin(on_hold))["accepted"] == [on_hold["id"]]
    other = odil.by(pen.entry("car.released", None, service="A", covers=[]))
    assert odil.sync(other)["accepted"] == [other["id"]]


def test_a_report_needs_no_pin(odil, pen):
    report = odil.by(pen.filed("front-left/wheel bent"))
    assert odil.sync(report)["accepted"] == [report["id"]]
    assert codes(odil.sync(odil.by_pin(pen.filed()))) == ["bad-signature"], "and the other key writes none"


def test_no_second_key_comes_to_a_device_that_is_known(odil, signing, pen, sample_store):
    vera, thief = signing("manager"), Signer()
    device = {"device": odil.device, "person": "p-odil", "key": odil.signer.jwk, "shut_out_at": None}
    put = {"devices": [{**device, "second_key": thief.jwk}]}
    assert vera.client.put("/api/v1/devices", json=put, headers=vera.headers).status_code == 200
    assert keys.all_of(sample_store.db)[odil.device].second_key == odil.second.jwk
    forged = thief.sign({**pen.passed(HOSE), "person": "p-odil", "device": odil.device})
    assert codes(vera.sync(forged)) == ["bad-signature"]


def test_it_comes_back_with_the_device_in_the_set_up_and_in_a_bundle(odil, signing, pen, sample_store, fresh, tmp_path):
    report = odil.by(pen.filed(f"{HOSE} marked"))
    odil.sync(report, odil.by_pin(pen.passed(HOSE, report)))
    devices = signing().get("/setup").get_json()["devices"]
    assert next(one for one in devices if one["device"] == odil.device)["second_key"] == odil.second.jwk
    bundle_export.export_bundle(sample_store, tmp_path / "b.zip", None, NOW)
    taken = bundle_import.import_bundle(fresh, tmp_path / "b.zip", Choice(), NOW)
    assert (taken.new, taken.set_aside) == (2, [])


def test_an_event_that_demands_a_pin_takes_no_inspection_of_a_device_that_has_none(signing, pen, sample_store):
    toma, without = signing(), signing("inspector")
    report = toma.by(pen.filed(f"{HOSE} marked"))
    toma.sync(report)
    put_trust(sample_store, "pin = true")
    assert codes(without.sync(without.by(pen.passed(HOSE, report)))) == ["no-pin"]
    on_hold = pen.entry("car.released", None, service="A", covers=[], reason="the chief says so")
    assert codes(without.sync(without.by(on_hold))) == ["no-pin"]
    assert inspection(toma) == "needed"
    later = without.by(pen.filed("rear-right/mud-flap bent"))
    assert without.sync(later)["accepted"] == [later["id"]], "a report needs none"
    joined_again = signing("inspector", pin=True)
    looked = joined_again.by_pin(pen.passed(HOSE, report))
    assert joined_again.sync(looked)["accepted"] == [looked["id"]]
    assert inspection(toma) == "passed"


def test_a_manager_makes_no_inspection_count_that_has_no_pin(signing, pen, sample_store):
    vera, without = signing("manager"), signing("inspector")
    report = vera.by(pen.filed(f"{HOSE} marked"))
    vera.sync(report)
    put_trust(sample_store, "pin = true")
    without.sync(without.by(pen.passed(HOSE, report)))
    assert decide(vera, aside(vera)["sha256"], "accepted") == 409
    assert inspection(vera) == "needed"


def test_that_an_event_demands_a_pin_later_undoes_no_inspection(signing, pen, sample_store, fresh, tmp_path):
    toma, without = signing(), signing("inspector")
    report = toma.by(pen.filed(f"{HOSE} marked"))
    toma.sync(report)
    passed = without.by(pen.passed(HOSE, report))
    assert without.sync(passed)["accepted"] == [passed["id"]]
    put_trust(sample_store, "pin = true")
    assert inspection(toma) == "passed"
    assert toma.sync(passed)["accepted"] == [passed["id"]], "sent once more it is the same"
    bundle_export.export_bundle(sample_store, tmp_path / "b.zip", None, NOW)
    taken = bundle_import.import_bundle(fresh, tmp_path / "b.zip", Choice(), NOW)
    assert (taken.new, taken.set_aside) == (2, [])


def put_trust(store, line: str) -> None:
    """Set a key of the event's [trust]."""
    files = event_files("on")
    uploads.put_setup(store, EVENT, {**files, "event.toml": files["event.toml"] + f"{line}\n".encode()}, NOW)


def test_where_signatures_are_off_none_is_asked_for(odil, pen, sample_store):
    uploads.put_setup(sample_store, EVENT, event_files("off"), NOW)
    assert codes(odil.sync(odil.by(pen.passed(HOSE)))) == []


def put_second(phone: Signing, key: Signer) -> int:
    """Say which key the PIN of a phone's person unlocks, and return the answer's status."""
    return phone.client.put("/api/v1/second-key", json=key.jwk, headers=phone.headers).status_code


def test_a_pin_is_chosen_just_after_joining_and_once(signing, pen):
    odil, later = signing("inspector"), Signer()
    odil.second = Signer()
    assert put_second(odil, odil.second) == 204
    assert put_second(odil, later) == 409, "whoever has the phone then chooses no other"
    assert codes(odil.sync(odil.by(pen.passed(HOSE)))) == ["bad-signature"]
    assert codes(odil.sync(odil.by_pin(pen.passed(HOSE)))) == []


def test_whoever_holds_the_shared_phone_later_chooses_no_first_pin(signing, sample_store):
    odil = signing("inspector")
    long_ago = "UPDATE device SET joined_at = '2026-01-01T00:00:00Z' WHERE device = ?"
    sample_store.db.conn.execute(long_ago, [odil.device])
    assert put_second(odil, Signer()) == 409
    assert keys.all_of(sample_store.db)[odil.device].second_key is None


def test_a_key_that_is_none_is_refused(signing):
    odil = signing("inspector")
    bad = {"kty": "EC", "crv": "P-256", "x": "A" * 43, "y": "A" * 43}
    assert odil.client.put("/api/v1/second-key", json=bad, headers=odil.headers).status_code == 422

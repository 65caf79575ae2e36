"""What the server believes: an entry signed by the device on which its author joined, whoever carries it."""

import json

import pytest

from making import raw
from phone import EVENT, NOW, PEOPLE
from sample_event import event_files
from shuntbook.flow import clock, joining, uploads
from shuntbook.store.database import Store
from signer import Signer
from signing_phone import aside, codes, decide, review

HOSE = "front-left/brake-hose"


@pytest.fixture
def sample_store(signed_store: Store) -> Store:
    """The app of these tests holds the event with signatures demanded."""
    return signed_store


def test_a_good_signature_is_believed_and_passed_on_with_it(signing, pen):
    toma, bodo = signing(), signing("mechanic")
    entry = toma.by(pen.filed("front-left/wheel bent"))
    assert toma.sync(entry)["accepted"] == [entry["id"]]
    assert bodo.pull() == [entry]
    assert review(bodo) == []


def test_neither_white_space_nor_the_order_of_names_is_a_change(signing, pen):
    toma = signing()
    entry = toma.by(pen.filed("front-left/wheel bent", note="Tür, € 12", km=6.10))
    turned = dict(reversed(entry.items()))
    assert toma.sync(json.dumps(turned, indent=2).encode())["accepted"] == [entry["id"]]


CHANGES = {
    "another car": lambda e: {**e, "car": "42"},
    "another time": lambda e: {**e, "at": "2026-06-13T09:00:00+02:00"},
    "another number": lambda e: {**e, "seq": e["seq"] + 1},
    "a finding taken out": lambda e: {**e, "data": {**e["data"], "findings": []}},
    "a word added": lambda e: {**e, "data": {**e["data"], "note": "looked at, fine"}},
    "a field that nobody knows": lambda e: {**e, "later": True},
    "a signature of zeros": lambda e: {**e, "sig": "A" * 86},
    "half a signature": lambda e: {**e, "sig": e["sig"][:43]},
    "no base64url": lambda e: {**e, "sig": "!" * 86},
    "an empty signature": lambda e: {**e, "sig": ""},
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_what_was_changed_or_forged_is_set_aside_and_holds_the_car(signing, pen, change):
    toma = signing()
    forged = change(toma.by(pen.filed("front-left/wheel bent")))
    assert codes(toma.sync(forged)) == ["bad-signature"]
    reader = signing("mechanic")
    assert reader.pull() == []
    car = "42" if forged["car"] == "42" else "41"
    assert [r["entries"] for r in reader.queue(car)["hold_reasons"]] == [[forged["id"]]]


def test_a_signature_of_another_device_is_none(signing, pen):
    toma, bodo = signing(), signing("mechanic")
    forged = bodo.signer.sign({**pen.filed("front-left/wheel bent"), "person": toma.person, "device": toma.device})
    assert codes(bodo.sync(forged)) == ["bad-signature"]


def test_nobody_signs_for_another_on_his_own_device(signing, pen):
    bodo = signing("mechanic")
    entry = bodo.signer.sign({**pen.passed(HOSE, person=PEOPLE["inspector"]), "device": bodo.device})
    assert codes(bodo.sync(entry)) == ["wrong-author"]


def test_an_unsigned_entry_and_one_of_a_device_without_a_key_are_set_aside(signing, pen):
    toma, old = signing(), signing("mechanic", key=False)
    unsigned = {**toma.by(pen.filed()), "sig": None}
    assert codes(toma.sync(unsigned)) == ["unsigned"]
    assert codes(old.sync(old.by(pen.filed()))) == ["unknown-device"]
    assert len(review(toma)[0]) == 2


def test_a_bad_entry_holds_up_none_of_its_batch(signing, pen):
    toma = signing()
    good, bad, last = toma.by(pen.filed()), pen.filed(), toma.by(pen.filed())
    answer = toma.sync(good, bad, last)
    assert answer["accepted"] == [good["id"], last["id"]]
    assert codes(answer) == ["unsigned"]


def test_a_sign_off_relayed_by_another_phone_counts_only_with_the_inspectors_good_signature(signing, pen):
    toma, odil = signing(), signing("inspector")
    report = toma.by(pen.filed(f"{HOSE} marked"))
    looked = odil.by(pen.passed(HOSE, report))
    forged = {**odil.by(pen.passed(HOSE, report)), "sig": looked["sig"]}

    def inspection() -> str:
        return {job["job"]: job["inspection"] for job in toma.queue()["jobs"]}[HOSE]

    toma.sync(report, forged)
    assert inspection() == "needed"
    assert toma.queue()["release"] == "hold"
    assert decide(signing("manager"), aside(signing("manager"))["sha256"], "discarded") == 204
    assert inspection() == "needed", "left out, it counts for nothing"
    toma.sync(looked)
    assert inspection() == "passed"


def test_a_good_signature_of_a_shut_out_device_is_set_aside(signing, pen):
    toma, vera = signing(), signing("manager")
    entry = toma.by(pen.filed())
    assert vera.client.delete(f"/api/v1/devices/{toma.device}", headers=vera.headers).status_code == 204
    assert codes(vera.sync(entry)) == ["shut-out"]


def test_a_key_that_is_no_point_of_the_curve_is_refused_and_the_code_is_not_spent(client, sample_store):
    code = joining.invite(sample_store, "p-toma", clock.now())
    bad = {"kty": "EC", "crv": "P-256", "x": "A" * 43, "y": "A" * 43}
    assert client.post("/api/v1/join", json={"code": code, "key": bad}).status_code == 422
    assert client.post("/api/v1/join", json={"code": code, "key": Signer().jwk}).status_code == 200


def test_where_signatures_are_off_unsigned_entries_count_and_forgeries_are_not_asked_for(signing, pen, sample_store):
    toma = signing()
    uploads.put_setup(sample_store, EVENT, event_files("off"), NOW)
    assert toma.get("/setup").get_json()["events"][0]["trust"] == {"signatures": "off", "pin": False}
    plain = pen.filed("front-left/wheel bent")
    changed = {**toma.by(pen.filed()), "car": "42"}
    assert toma.sync(plain, changed)["accepted"] == [plain["id"], changed["id"]]


def test_what_was_taken_while_signatures_were_off_stays_when_they_come_on(signing, pen, sample_store):
    toma = signing()
    uploads.put_setup(sample_store, EVENT, event_files("off"), NOW)
    before = pen.filed("front-left/wheel bent")
    toma.sync(before)
    uploads.put_setup(sample_store, EVENT, event_files("on"), NOW)
    assert toma.sync(before)["accepted"] == [before["id"]]
    assert codes(toma.sync(pen.filed())) == ["unsigned"]
    assert len(signing("mechanic").pull()) == 1


def test_a_shut_out_device_stays_out_where_signatures_are_off(signing, pen, sample_store):
    toma, vera = signing(), signing("manager")
    uploads.put_setup(sample_store, EVENT, event_files("off"), NOW)
    vera.client.delete(f"/api/v1/devices/{toma.device}", headers=vera.headers)
    assert codes(vera.sync({**pen.filed(), "device": toma.device})) == ["shut-out"]


def test_raw_bytes_are_what_others_get(signing, pen):
    toma, bodo = signing(), signing("mechanic")
    sent = raw(toma.by(pen.filed(note="Tür")))
    toma.sync(sent)
    assert sent in bodo.send().data

"""A test day's manager of last month, in no other event: reads, changes and signs nothing of the rally."""

from collections.abc import Callable

import pytest

from other_event import OTHER, PEOPLE, as_texts, other_files
from phone import EVENT, NOW
from sample_event import event_files
from shuntbook.flow import joining, uploads
from shuntbook.flow.members import member
from shuntbook.store import owners, people, rebuilds, setups
from shuntbook.store.database import Store
from signing_phone import Signing, codes

HOSE = "front-left/brake-hose"


@pytest.fixture
def zed(client, sample_store: Store) -> Signing:
    """The phone of the other event's manager; nobody rebuilds anything, and p-vera owns the log."""
    uploads.put_setup(sample_store, OTHER, other_files(), NOW)
    with sample_store.write() as db:
        rebuilds.end(db)
        owners.name(db, "p-vera", NOW)
    return Signing(client, sample_store, "p-zed")


READING = [
    f"/events/{EVENT}/cars/41/queue",
    f"/events/{EVENT}/cars/41/release",
    f"/events/{EVENT}/costs",
    f"/events/{EVENT}/costs.csv",
    f"/events/{EVENT}/costs.xlsx",
    f"/events/{EVENT}/costs.pdf",
    f"/events/{EVENT}/cars/41/statements",
    f"/events/{EVENT}/cars/41/documents/record.pdf",
    f"/events/{EVENT}/cars/41/documents/parts-order.csv",
    f"/events/{EVENT}/files",
    f"/events/{EVENT}/rates/observed",
    f"/events/{EVENT}/spares",
]


@pytest.mark.parametrize("path", READING)
def test_he_reads_nothing_of_the_rally(zed, path):
    assert zed.get(path).status_code == 403


def test_neither_set_up_nor_entries_nor_what_was_set_aside_reach_him(zed, signing, pen):
    toma = signing()
    toma.sync(toma.by(pen.filed("front-left/wheel bent")), pen.filed())
    told = zed.get("/setup").get_json()
    assert [event["event"] for event in told["events"]] == [OTHER]
    assert {one["person"] for one in told["devices"]} == {"p-zed"}
    answer = zed.sync()
    assert (answer["entries"], answer["cars"], answer["cursor"]) == ([], [], 1)
    assert zed.get("/set-aside").get_json() == []
    assert EVENT not in zed.get("/season").text


WRITING = [
    ("PUT", f"/events/{EVENT}", {"files": {name: data.decode() for name, data in event_files("on").items()}}),
    ("POST", f"/events/{EVENT}/files/check", {"files": {}}),
    ("POST", f"/events/{OTHER}/files/check", {"files": {}, "against": EVENT}),
    ("POST", f"/events/{EVENT}/plan", {"visits": [{"car": "41", "service": "A"}]}),
    ("POST", f"/events/{EVENT}/cars/41/plan", {"service": "A"}),
    ("POST", "/invites", {"person": "p-odil"}),
]


@pytest.mark.parametrize(("method", "path", "body"), WRITING)
def test_he_changes_nothing_of_it(zed, method, path, body):
    answer = zed.client.open(f"/api/v1{path}", method=method, json=body, headers=zed.headers)
    assert answer.status_code == 403, answer.text


def test_his_rate_table_reaches_his_own_events_only(zed, sample_store):
    before = setups.in_force(sample_store.db, EVENT)
    rates = {name.removeprefix("rates/"): data.decode() for name, data in event_files("on").items() if "rates/" in name}
    rates["rates.toml"] = rates["rates.toml"].replace("labour_per_hour = 58", "labour_per_hour = 1")
    taken = zed.client.put("/api/v1/rates", json={"files": rates}, headers=zed.headers)
    assert taken.get_json()["events"] == [OTHER]
    assert setups.in_force(sample_store.db, EVENT) == before


def test_he_shuts_out_nobody_of_the_rally(zed, signing, pen):
    toma = signing()
    assert zed.client.delete(f"/api/v1/devices/{toma.device}", headers=zed.headers).status_code == 403
    out = {"device": toma.device, "person": toma.person, "key": toma.signer.jwk, "shut_out_at": NOW}
    put = zed.client.put("/api/v1/devices", json={"devices": [out]}, headers=zed.headers)
    assert put.status_code == 403
    assert toma.sync(toma.by(pen.filed()))["rejected"] == []


def test_he_passes_no_brake_though_he_is_inspector_elsewhere(zed, signing, pen):
    toma = signing()
    report = toma.by(pen.filed(f"{HOSE} marked"))
    toma.sync(report)
    zed.sync(zed.by(pen.passed(HOSE, report)))
    jobs = {job["job"]: job["inspection"] for job in toma.queue()["jobs"]}
    assert jobs[HOSE] == "needed"


def test_he_reviews_nothing_of_it(zed, signing, pen, sample_store):
    toma = signing()
    toma.sync(pen.filed())
    (digest,) = [row[0] for row in sample_store.db.conn.execute("SELECT sha256 FROM set_aside")]
    body = {"verdict": "discarded", "reason": "so what"}
    answer = zed.client.post(f"/api/v1/set-aside/{digest}/review", json=body, headers=zed.headers)
    assert answer.status_code == 403


@pytest.mark.parametrize(
    "more",
    [
        PEOPLE + '[[people]]\nperson = "p-new"\nname = "New"\nroles = ["inspector"]\n',
        PEOPLE + '[[people]]\nperson = "p-bodo"\nname = "Bodo"\nroles = ["inspector"]\n',
    ],
    ids=["a person whom nobody knows", "an inspector of his making"],
)
def test_he_makes_nobody_an_inspector_which_is_for_an_owner(zed, more):
    files = as_texts(other_files(more))
    refused = zed.client.put(f"/api/v1/events/{OTHER}", json={"files": files}, headers=zed.headers)
    assert refused.status_code == 403
    assert "owner" in refused.get_json()["detail"]
    taken = zed.client.put(f"/api/v1/events/{OTHER}", json={"files": as_texts(other_files())}, headers=zed.headers)
    assert taken.status_code == 200


def test_an_owner_adds_people_of_the_own_event(zed, signing):
    vera = signing("manager")
    files = as_texts(event_files("on"))
    files["event.toml"] = files["event.toml"].replace(
        "[[stages]]", '[[people]]\nperson = "p-new"\nname = "New"\nroles = ["inspector"]\n\n[[stages]]', 1
    )
    assert vera.client.put(f"/api/v1/events/{EVENT}", json={"files": files}, headers=vera.headers).status_code == 200
    invited = vera.client.post("/api/v1/invites", json={"person": "p-new"}, headers=vera.headers)
    assert invited.status_code == 201


def test_who_comes_into_an_event_later_is_sent_all_of_it_also_where_the_answer_is_lost(zed, signing, pen, sample_store):
    toma = signing()
    entries = [toma.by(pen.filed("front-left/wheel bent")) for _ in range(3)]
    toma.sync(*entries)
    assert zed.pull() == []
    toml = event_files("on")["event.toml"].replace(b"[[stages]]", PEOPLE.encode() + b"\n[[stages]]", 1)
    uploads.put_setup(sample_store, EVENT, {**event_files("on"), "event.toml": toml}, NOW)
    lost, again = zed.send().get_json(), zed.sync()
    assert lost["cursor"] == again["cursor"] == 0, "behind the phone's own: it starts again"
    assert zed.pull() == entries
    assert zed.sync()["entries"] == []


def test_the_first_who_joins_an_empty_server_owns_it_and_the_next_does_not(fresh):
    for person in ("p-vera", "p-zed"):
        joining.join(fresh, joining.invite(fresh, person, NOW), None, NOW)
    assert owners.named(fresh.db) == ["p-vera"]


def test_in_a_folder_of_0_1_every_manager_owns_it_until_somebody_is_named(sample_store):
    with sample_store.write() as db:
        db.conn.execute("INSERT INTO meta VALUES ('owners', 'every-manager')")
    assert member(sample_store.db, "p-vera").is_owner
    assert not member(sample_store.db, "p-odil").is_owner
    joining.name_owner(sample_store, "p-odil", NOW)
    assert not member(sample_store.db, "p-vera").is_owner
    assert member(sample_store.db, "p-odil").is_owner


# --- A manager joins as the inspector ---


@pytest.fixture
def second(signing: Callable[..., Signing], sample_store: Store) -> tuple[Signing, Signing, str]:
    """The inspector's phone, the manager's, and a code for the inspector that the manager made for himself."""
    with sample_store.write() as db:
        rebuilds.end(db)
    odil, vera = signing("inspector"), signing("manager")
    made = vera.client.post("/api/v1/invites", json={"person": "p-odil"}, headers=vera.headers)
    return odil, vera, made.get_json()["code"]


def told(reader: Signing) -> list[tuple[str, str, bool]]:
    """Return whom the invites are for that are told to a phone, who made them, and whether one was used."""
    invites = reader.get("/setup").get_json()["second_invites"]
    return [(one["person"], one["invited_by"], one["device"] is not None) for one in invites]


def test_an_invite_for_somebody_who_has_a_device_is_told_to_that_device_and_everybody(second, signing, client):
    odil, vera, code = second
    assert told(odil) == told(signing()) == told(vera) == [("p-odil", "p-vera", False)]
    assert client.post("/api/v1/join", json={"code": code}).status_code == 200
    assert told(odil) == [("p-odil", "p-vera", True)]


def test_neither_the_manager_nor_the_new_phone_says_that_it_is_known_only_the_old_one(second, client, sample_store):
    odil, vera, code = second
    token = client.post("/api/v1/join", json={"code": code}).get_json()["token"]
    (invite,) = (one.invite for one in people.second_invites(sample_store.db))
    for headers in (vera.headers, {"Authorization": f"Bearer {token}"}):
        assert client.post(f"/api/v1/invites/{invite}/known", headers=headers).status_code == 403
    assert client.post(f"/api/v1/invites/{invite}/known", headers=odil.headers).status_code == 204
    assert told(odil) == []


def test_the_version_of_the_set_up_moves_with_it_so_that_phones_ask(second, signing):
    odil, vera, _ = second
    before = odil.sync()["setup"]
    vera.client.post("/api/v1/invites", json={"person": "p-odil"}, headers=vera.headers)
    assert odil.sync()["setup"] != before


def test_a_first_invite_is_told_to_nobody(signing, sample_store):
    vera = signing("manager")
    vera.client.post("/api/v1/invites", json={"person": "p-bodo"}, headers=vera.headers)
    assert told(vera) == []


def test_codes_are_those_of_the_signatures(second, pen):
    """What the attack is for: the manager's phone signs in the inspector's name, and everybody is told."""
    odil, vera, _ = second
    assert codes(vera.sync(odil.signer.sign({**pen.passed(HOSE), "person": "p-odil", "device": vera.device}))) == [
        "wrong-author"
    ]

"""Who may be believed of a bundle: what its signatures and the machine's owner say, never the file itself."""

import json
from pathlib import Path

import pytest
from command import printed, run

from bundles import event_toml, lines, packed, with_manifest
from making import Pen, raw
from phone import EVENT, NOW, PEOPLE
from sample_event import ENTRIES, event_files
from shuntbook.flow import answers, diagnostics, joining, members, uploads
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.flow.load import setup_files
from shuntbook.serving import sample_folder
from shuntbook.store import keys, log, quarantine, setups
from shuntbook.store.database import Store
from shuntbook.store.keys import DeviceKey
from signer import Signer

CARS = ("41", "42")


@pytest.fixture
def bundle(data_folder: Path, tmp_path: Path) -> Path:
    """A bundle of the whole sample event."""
    path = tmp_path / "event.zip"
    assert run("bundle", "export", path, data=data_folder).returncode == 0
    return path


@pytest.fixture
def there(tmp_path: Path) -> Path:
    """The data folder of another machine, which holds nothing yet."""
    return tmp_path / "there"


@pytest.fixture
def signed_store(there: Path) -> Store:
    """Another machine that holds the event's set-up, where signatures are demanded, and no entry."""
    store = Store(there)
    uploads.put_setup(store, EVENT, event_files("on"), NOW)
    return store


def joined(store: Store, role: str) -> tuple[str, Signer]:
    """Let a phone with a key in; return its device and what signs for it."""
    signer = Signer()
    device, _, _ = joining.join(store, joining.invite(store, PEOPLE[role], NOW), signer.jwk, NOW)
    return device.device, signer


def test_a_phones_bundle_is_taken_by_its_signatures(signed_store: Store, there: Path, tmp_path: Path) -> None:
    device, signer = joined(signed_store, "co-driver")
    entry = signer.sign(Pen(EVENT).entry("report.filed", device=device, zone="front-left"))
    path = packed(tmp_path / "phone.zip", with_manifest({"entries.jsonl": lines(entry)}))
    taken = printed("bundle", "import", path, data=there)
    assert (taken["new"], taken["set_aside"], taken["untrusted"]) == (1, [], 0)
    assert [json.loads(one) for one in log.raws(signed_store.db, EVENT)] == [entry]


def test_a_new_machine_believes_the_devices_that_the_lost_one_knew(
    signed_store: Store, there: Path, tmp_path: Path
) -> None:
    device, signer = joined(signed_store, "co-driver")
    pen = Pen(EVENT)
    one, later = (signer.sign(pen.entry("report.filed", device=device, zone="front-left")) for _ in range(2))
    ingest(signed_store, Batch([raw(one)], 0, None, None, NOW, None))
    printed("bundle", "export", tmp_path / "b.zip", data=there)
    new = tmp_path / "new"
    taken = printed("bundle", "import", tmp_path / "b.zip", data=new)
    assert (taken["new"], taken["devices"], taken["set_aside"]) == (1, 1, [])
    assert ingest(Store(new), Batch([raw(later)], 0, None, None, NOW, None)).rejected == []


def test_a_forged_entry_inside_is_set_aside_with_its_reason(signed_store: Store, there: Path, tmp_path: Path) -> None:
    device, signer = joined(signed_store, "inspector")
    pen, person = Pen(EVENT), PEOPLE["inspector"]
    write = {"person": person, "device": device}
    good = signer.sign(pen.entry("inspection.passed", "front-left/brake-hose", covers=[], **write))
    changed = {**signer.sign(pen.entry("inspection.failed", "front-left/hub", **write)), "kind": "inspection.passed"}
    forged = Signer().sign(pen.entry("inspection.passed", "front-left/hub", covers=[], **write))
    bare = pen.entry("inspection.passed", "front-left/hub", covers=[], **write)
    as_other = signer.sign(pen.entry("inspection.passed", "front-left/hub", **{**write, "person": PEOPLE["driver"]}))
    strange = Signer().sign(pen.entry("report.filed", device="d-strange", zone="roof"))
    files = {"entries.jsonl": lines(good, changed, forged, bare, as_other, strange)}
    path = packed(tmp_path / "phone.zip", with_manifest(files))
    done = run("bundle", "import", path, "--json", data=there)
    assert done.returncode == 0
    taken = json.loads(done.stdout)
    codes = {one["id"]: one["code"] for one in taken["set_aside"]}
    assert codes == {
        changed["id"]: "bad-signature",
        forged["id"]: "bad-signature",
        bare["id"]: "unsigned",
        as_other["id"]: "wrong-author",
        strange["id"]: "unknown-device",
    }
    assert [json.loads(one)["id"] for one in log.raws(signed_store.db, EVENT)] == [good["id"]]
    assert quarantine.count_waiting(signed_store.db) == 5


def test_a_file_cannot_bring_its_own_witness_unless_the_owner_says_so(
    signed_store: Store, there: Path, tmp_path: Path
) -> None:
    """Whoever makes a file can write any key into its list of devices."""
    signer = Signer()
    entry = signer.sign(
        Pen(EVENT).entry("inspection.passed", "cabin/door-bars", person=PEOPLE["inspector"], device="d-x", covers=[])
    )
    device = {"device": "d-x", "person": PEOPLE["inspector"], "key": signer.jwk, "shut_out_at": None}
    files = {"entries.jsonl": lines(entry), "devices.json": json.dumps([device]).encode()}
    path = packed(tmp_path / "phone.zip", with_manifest(files))
    said = run("bundle", "import", path, data=there)
    assert "--trust" in said.stdout
    assert list(log.raws(signed_store.db, EVENT)) == []
    again = printed("bundle", "import", path, data=there)
    assert [one["code"] for one in again["set_aside"]] == ["unknown-device"]
    assert (again["devices"], again["untrusted"]) == (0, 1)
    trusting = printed("bundle", "import", path, "--trust", data=there)
    assert (trusting["devices"], trusting["new"]) == (1, 1)
    assert quarantine.count_waiting(signed_store.db) == 0, "what waited for the key is believed now"


def test_a_device_that_is_known_keeps_its_key_whatever_a_bundle_says(
    signed_store: Store, there: Path, tmp_path: Path
) -> None:
    device, signer = joined(signed_store, "inspector")
    other = {"device": device, "person": PEOPLE["driver"], "key": Signer().jwk, "shut_out_at": None}
    files = {"entries.jsonl": b"", "devices.json": json.dumps([other]).encode()}
    printed("bundle", "import", packed(tmp_path / "b.zip", with_manifest(files)), "--trust", data=there)
    assert keys.all_of(signed_store.db)[device] == DeviceKey(device, PEOPLE["inspector"], signer.jwk, None)


def test_a_set_up_that_is_held_is_replaced_only_when_asked(bundle: Path, there: Path, tmp_path: Path) -> None:
    store = Store(there)
    files = setup_files(sample_folder())
    files["event.toml"] = files["event.toml"].replace(b'name = "', b'name = "Another ', 1)
    uploads.put_setup(store, EVENT, files, NOW)
    mine = setups.in_force(store.db, EVENT)
    kept = printed("bundle", "import", bundle, "--trust", data=there)
    assert (kept["setups"], kept["new"]) == ([], ENTRIES)
    assert setups.in_force(store.db, EVENT) == mine
    replaced = printed("bundle", "import", bundle, "--setup", data=there)
    assert replaced["setups"] == [EVENT]
    assert setups.in_force(store.db, EVENT) != mine
    assert diagnostics.check(store) == []


def test_a_new_events_set_up_is_refused_where_other_events_are_held(
    signed_store: Store, there: Path, tmp_path: Path
) -> None:
    """Whoever writes a set-up says who its manager is: where events are held only the owner takes a new one."""
    device, signer = joined(signed_store, "co-driver")
    pen = Pen("other-2026")
    signed = signer.sign(pen.entry("report.filed", device=device, zone="front-left"))
    bare = pen.entry("report.filed", zone="roof")
    everybody = event_toml("other-2026", "on").replace(b'roles = ["co-driver"]', b'roles = ["manager"]')
    files = {f"setup/other-2026/{name}": data for name, data in {**event_files("on"), "event.toml": everybody}.items()}
    path = packed(tmp_path / "b.zip", with_manifest({**files, "entries.jsonl": lines(signed, bare)}))
    said = run("bundle", "import", path, data=there)
    assert said.returncode == 0
    assert "Set-up of other-2026 refused" in said.stdout
    assert "import it again with --setup" in said.stdout
    assert setups.events(signed_store.db) == [EVENT]
    assert "manager" not in members.member(signed_store.db, PEOPLE["co-driver"]).roles
    assert [json.loads(one) for one in log.raws(signed_store.db, "other-2026")] == [signed], "the entries are kept"
    assert quarantine.count_waiting(signed_store.db) == 1

    trusting = printed("bundle", "import", path, "--trust", data=there)
    assert (trusting["setups"], trusting["setups_refused"]) == ([], ["other-2026"]), "a list of devices is no set-up"
    asked = printed("bundle", "import", path, "--setup", data=there)
    assert (asked["setups"], asked["setups_refused"]) == (["other-2026"], [])
    keys_of_jobs = [job.job for job in answers.queue(signed_store, "other-2026", "41").jobs]
    assert keys_of_jobs, "what waited counts now"
    assert diagnostics.check(signed_store) == []


def test_a_machine_that_holds_nothing_takes_every_set_up_of_a_bundle(
    sample_store: Store, data_folder: Path, tmp_path: Path
) -> None:
    other = {**event_files("off"), "event.toml": event_toml("other-2026", "off")}
    uploads.put_setup(sample_store, "other-2026", other, NOW)
    printed("bundle", "export", tmp_path / "two.zip", data=data_folder)
    taken = printed("bundle", "import", tmp_path / "two.zip", data=tmp_path / "new")
    assert (taken["setups"], taken["setups_refused"]) == (["other-2026", EVENT], [])

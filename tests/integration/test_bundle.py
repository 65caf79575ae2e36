"""A bundle carries all that a machine holds, brings it once, and believes no entry that the wire would not believe."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from command import printed, run

from bundles import lines, packed, unpacked, with_manifest
from making import Pen, raw
from phone import EVENT, NOW, PEOPLE
from shuntbook.flow import care, joining, uploads
from shuntbook.flow.answers import queue
from shuntbook.flow.bundle_export import export_bundle
from shuntbook.flow.load import load, setup_files
from shuntbook.flow.receive import Batch, receive
from shuntbook.report.entry import parse_entry
from shuntbook.serving import sample_folder
from shuntbook.store import aside, keys, log, setups
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
    uploads.put_setup(store, EVENT, {**setup_files(sample_folder()), "event.toml": event_toml(EVENT, "on")}, NOW)
    return store


def event_toml(event: str, signatures: str) -> bytes:
    """Return the sample event's file under another name, with signatures demanded or not."""
    text = setup_files(sample_folder())["event.toml"].decode().split("[trust]")[0]
    return f'{text.replace(EVENT, event)}\n[trust]\nsignatures = "{signatures}"\n'.encode()


def joined(store: Store, role: str) -> tuple[str, Signer]:
    """Let a phone with a key in; return its device and what signs for it."""
    signer = Signer()
    device, _, _ = joining.join(store, joining.invite(store, PEOPLE[role], NOW), signer.jwk, NOW)
    return device.device, signer


def rows(folder: Path) -> list[tuple[object, ...]]:
    """Return every row of the tables that entries, set-ups and photos lie in."""
    db = Store(folder).db
    tables = ("entry", "set_aside", "file", "event", "setup", "photo", "trusted", "device_key", "job", "finding")
    return [row for table in tables for row in db.conn.execute(f"SELECT '{table}', * FROM {table} ORDER BY 2, 3")]


def test_a_new_machine_comes_back_to_the_same_queues_set_up_and_photos(
    bundle: Path, data_folder: Path, there: Path
) -> None:
    taken = printed("bundle", "import", bundle, data=there)
    assert (taken["new"], taken["held"], taken["set_aside"]) == (109, 0, [])
    one, other = Store(data_folder), Store(there)
    for car in CARS:
        assert queue(one, EVENT, car)["hash"] == queue(other, EVENT, car)["hash"]
    assert setups.in_force(one.db, EVENT) == setups.in_force(other.db, EVENT)
    assert list(log.raws(one.db, None)) == list(log.raws(other.db, None))
    assert care.check(other) == []
    assert taken["photos"] == len(list((sample_folder() / "photos").iterdir()))


def test_the_same_bundle_again_changes_nothing(bundle: Path, there: Path) -> None:
    printed("bundle", "import", bundle, data=there)
    before = rows(there)
    again = printed("bundle", "import", bundle, data=there)
    assert (again["new"], again["held"], again["photos"], again["setups"]) == (0, 109, 0, [])
    assert rows(there) == before


def test_what_waits_for_a_manager_is_handed_over_and_still_holds_the_car(
    sample_store: Store, data_folder: Path, tmp_path: Path, there: Path
) -> None:
    odd = b'{\n "kind": "report.shouted",\r\n "car": "42", "event": "' + EVENT.encode() + b'"}'
    first = json.loads(next(log.raws(sample_store.db, EVENT)))
    conflict = raw({**first, "at": "2026-06-13T09:00:00Z"})
    receive(sample_store, Batch([odd, conflict], 0, None, None, NOW, None))
    assert aside.count_waiting(sample_store.db) == 2
    printed("bundle", "export", tmp_path / "b.zip", data=data_folder)
    printed("bundle", "import", tmp_path / "b.zip", data=there)
    assert aside.waiting_raws(Store(there).db, None) == aside.waiting_raws(sample_store.db, None)
    for car in CARS:
        assert queue(Store(there), EVENT, car)["hash"] == queue(sample_store, EVENT, car)["hash"]


def test_one_event_leaves_the_other_out(sample_store: Store, data_folder: Path, tmp_path: Path, pen: Pen) -> None:
    load_other(sample_store)
    others = {**pen.filed("front-left/wheel bent"), "event": "other-2026"}
    receive(sample_store, Batch([raw(others)], 0, None, None, NOW, None))
    one = printed("bundle", "export", tmp_path / "one.zip", "--event", EVENT, data=data_folder)
    every = printed("bundle", "export", tmp_path / "all.zip", data=data_folder)
    assert (one["events"], every["events"]) == ([EVENT], ["other-2026", EVENT])
    assert (one["entries"], every["entries"]) == (109, 110)
    assert "other-2026" not in "".join(unpacked(tmp_path / "one.zip"))
    unknown = run("bundle", "export", tmp_path / "no.zip", "--event", "never", data=data_folder)
    assert (unknown.returncode, (tmp_path / "no.zip").exists()) == (1, False)
    assert "never" in unknown.stderr


def load_other(store: Store) -> None:
    """Put another event beside the sample's: its like, with signatures off."""
    files = {**setup_files(sample_folder()), "event.toml": event_toml("other-2026", "off")}
    uploads.put_setup(store, "other-2026", files, NOW)


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
    receive(signed_store, Batch([raw(one)], 0, None, None, NOW, None))
    printed("bundle", "export", tmp_path / "b.zip", data=there)
    new = tmp_path / "new"
    taken = printed("bundle", "import", tmp_path / "b.zip", data=new)
    assert (taken["new"], taken["devices"], taken["set_aside"]) == (1, 1, [])
    assert receive(Store(new), Batch([raw(later)], 0, None, None, NOW, None)).rejected == []


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
    assert aside.count_waiting(signed_store.db) == 5


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
    assert aside.count_waiting(signed_store.db) == 0, "what waited for the key is believed now"


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
    assert (kept["setups"], kept["new"]) == ([], 109)
    assert setups.in_force(store.db, EVENT) == mine
    replaced = printed("bundle", "import", bundle, "--setup", data=there)
    assert replaced["setups"] == [EVENT]
    assert setups.in_force(store.db, EVENT) != mine
    assert care.check(store) == []


def test_a_faulty_set_up_inside_refuses_the_whole_and_names_file_and_row(there: Path, tmp_path: Path) -> None:
    files = {f"setup/{EVENT}/{name}": data for name, data in setup_files(sample_folder()).items()}
    parts = f"setup/{EVENT}/rates/parts.csv"
    files[parts] = files[parts].replace(b"210.00", b"-210.00", 1)
    entries = (sample_folder() / "entries.jsonl").read_bytes()
    path = packed(tmp_path / "b.zip", with_manifest({**files, "entries.jsonl": entries}))
    before = rows(there)
    done = run("bundle", "import", path, data=there)
    assert done.returncode == 1
    assert f"{parts}, row " in done.stderr
    assert rows(there) == before


def test_export_keeps_an_older_bundle_or_another_file_where_it_fails(data_folder: Path, tmp_path: Path) -> None:
    other = tmp_path / "letter.zip"
    other.write_text("dear team")
    refused = run("bundle", "export", other, data=data_folder)
    assert (refused.returncode, other.read_text()) == (1, "dear team")
    path = tmp_path / "event.zip"
    printed("bundle", "export", path, data=data_folder)
    first = path.read_bytes()
    assert run("bundle", "export", path, "--event", "never", data=data_folder).returncode == 1
    assert path.read_bytes() == first
    assert sorted(one.name for one in tmp_path.iterdir() if one.name.startswith(".")) == []
    nowhere = run("bundle", "export", tmp_path / "no" / "b.zip", data=data_folder)
    assert (nowhere.returncode, "No bundle was made" in nowhere.stderr) == (1, True)


def test_a_server_that_is_writing_is_not_waited_for_and_half_a_batch_is_not_in_it(
    sample_store: Store, data_folder: Path, tmp_path: Path
) -> None:
    with sample_store.write() as db:
        log.append(db, [next(arrivals(Pen(EVENT, start=50_000)))])
        during = export_bundle(Store(data_folder), tmp_path / "b.zip", None, NOW)
    after = export_bundle(Store(data_folder), tmp_path / "b.zip", None, NOW)
    assert (during.entries, after.entries) == (109, 110)


def arrivals(pen: Pen) -> Iterator[log.Arrived]:
    """Yield one entry after the other as the log takes it."""
    while True:
        data = raw(pen.filed("front-left/wheel bent"))
        yield log.Arrived(parse_entry(data), data, NOW, None, None)


def test_a_photo_that_is_damaged_here_is_named_and_left_out(
    sample_store: Store, data_folder: Path, tmp_path: Path, there: Path
) -> None:
    photo = next(path for path in sorted(sample_store.photos.rglob("*")) if path.is_file())
    photo.write_bytes(photo.read_bytes()[:-1])
    exported = export_bundle(sample_store, tmp_path / "b.zip", None, NOW)
    assert exported.missing == [photo.name]
    assert f"photos/{photo.name}" not in unpacked(tmp_path / "b.zip")
    taken = printed("bundle", "import", tmp_path / "b.zip", data=there)
    assert taken["photos"] == exported.photos == 5


def test_a_folder_of_the_same_event_and_its_bundle_bring_the_same_once(bundle: Path, there: Path) -> None:
    load(Store(there), sample_folder(), NOW)
    taken = printed("bundle", "import", bundle, data=there)
    assert (taken["new"], taken["held"], taken["photos"]) == (0, 109, 0)


def test_words_say_what_came_and_wrong_usage_is_2(bundle: Path, there: Path, tmp_path: Path) -> None:
    done = run("bundle", "import", bundle, data=there)
    assert done.stdout.splitlines()[0] == f"{bundle}: 109 entries new, 0 held already, 6 photos new."
    assert run("bundle", "import", data=there).returncode == 2
    assert run("bundle", data=there).returncode == 2
    missing = run("bundle", "import", tmp_path / "none.zip", data=there)
    assert (missing.returncode, "is no file" in missing.stderr) == (1, True)

"""A bundle carries all that a machine holds, brings it once, and believes no entry that the wire would not believe."""

import json
from pathlib import Path

import pytest
from command import printed, run

from bundles import event_toml, packed, unpacked, with_manifest
from making import Pen, raw
from phone import EVENT, NOW
from sample_event import ENTRIES
from shuntbook.flow import diagnostics, uploads
from shuntbook.flow.answers import queue
from shuntbook.flow.bundle_export import export_bundle
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.flow.load import load, setup_files
from shuntbook.report.entry import parse_entry
from shuntbook.serving import sample_folder
from shuntbook.store import log, quarantine, setups
from shuntbook.store.database import Store

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


def rows(folder: Path) -> list[tuple[object, ...]]:
    """Return every row of the tables that entries, set-ups and photos lie in."""
    db = Store(folder).db
    tables = ("entry", "set_aside", "file", "event", "setup", "photo", "trusted", "device_key", "job", "finding")
    return [row for table in tables for row in db.conn.execute(f"SELECT '{table}', * FROM {table} ORDER BY 2, 3")]


def test_a_new_machine_comes_back_to_the_same_queues_set_up_and_photos(
    bundle: Path, data_folder: Path, there: Path
) -> None:
    taken = printed("bundle", "import", bundle, data=there)
    assert (taken["new"], taken["held"], taken["set_aside"]) == (ENTRIES, 0, [])
    one, other = Store(data_folder), Store(there)
    for car in CARS:
        assert queue(one, EVENT, car).hash == queue(other, EVENT, car).hash
    assert setups.in_force(one.db, EVENT) == setups.in_force(other.db, EVENT)
    assert list(log.raws(one.db, None)) == list(log.raws(other.db, None))
    assert diagnostics.check(other) == []
    assert taken["photos"] == len(list((sample_folder() / "photos").iterdir()))


def test_the_same_bundle_again_changes_nothing(bundle: Path, there: Path) -> None:
    printed("bundle", "import", bundle, data=there)
    before = rows(there)
    again = printed("bundle", "import", bundle, data=there)
    assert (again["new"], again["held"], again["photos"], again["setups"]) == (0, ENTRIES, 0, [])
    assert rows(there) == before


def test_what_waits_for_a_manager_is_handed_over_and_still_holds_the_car(
    sample_store: Store, data_folder: Path, tmp_path: Path, there: Path
) -> None:
    odd = b'{\n "kind": "report.shouted",\r\n "car": "42", "event": "' + EVENT.encode() + b'"}'
    first = json.loads(next(log.raws(sample_store.db, EVENT)))
    conflict = raw({**first, "at": "2026-06-13T09:00:00Z"})
    ingest(sample_store, Batch([odd, conflict], 0, None, None, NOW, None))
    assert quarantine.count_waiting(sample_store.db) == 2
    printed("bundle", "export", tmp_path / "b.zip", data=data_folder)
    printed("bundle", "import", tmp_path / "b.zip", data=there)
    assert quarantine.waiting_raws(Store(there).db, None) == quarantine.waiting_raws(sample_store.db, None)
    for car in CARS:
        assert queue(Store(there), EVENT, car).hash == queue(sample_store, EVENT, car).hash


def test_one_event_leaves_the_other_out(sample_store: Store, data_folder: Path, tmp_path: Path, pen: Pen) -> None:
    load_other(sample_store)
    others = {**pen.filed("front-left/wheel bent"), "event": "other-2026"}
    ingest(sample_store, Batch([raw(others)], 0, None, None, NOW, None))
    one = printed("bundle", "export", tmp_path / "one.zip", "--event", EVENT, data=data_folder)
    every = printed("bundle", "export", tmp_path / "all.zip", data=data_folder)
    assert (one["events"], every["events"]) == ([EVENT], ["other-2026", EVENT])
    assert (one["entries"], every["entries"]) == (ENTRIES, ENTRIES + 1)
    assert "other-2026" not in "".join(unpacked(tmp_path / "one.zip"))
    unknown = run("bundle", "export", tmp_path / "no.zip", "--event", "never", data=data_folder)
    assert (unknown.returncode, (tmp_path / "no.zip").exists()) == (1, False)
    assert "never" in unknown.stderr


def load_other(store: Store) -> None:
    """Put another event beside the sample's: its like, with signatures off."""
    files = {**setup_files(sample_folder()), "event.toml": event_toml("other-2026", "off")}
    uploads.put_setup(store, "other-2026", files, NOW)


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
    exporter = Store(data_folder)
    data = raw(Pen(EVENT, start=50_000).filed("front-left/wheel bent"))
    with sample_store.write() as db:
        log.append(db, [log.Arrived(parse_entry(data), data, NOW, None, None)])
        during = export_bundle(exporter, tmp_path / "b.zip", None, NOW)
    after = export_bundle(exporter, tmp_path / "b.zip", None, NOW)
    assert (during.entries, after.entries) == (ENTRIES, ENTRIES + 1)


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
    assert (taken["new"], taken["held"], taken["photos"]) == (0, ENTRIES, 0)


def test_words_say_what_came_and_wrong_usage_is_2(bundle: Path, there: Path, tmp_path: Path) -> None:
    done = run("bundle", "import", bundle, data=there)
    brought, believed, left = done.stdout.splitlines()[:3]
    assert brought == f"{bundle}: {ENTRIES} entries new, 0 held already, 6 photos new."
    assert believed.startswith(f"Set-ups taken: {EVENT}; devices taken: ")
    assert left == "Not taken: 0 set-ups, 0 devices; need review: 0 entries."
    assert run("bundle", "import", data=there).returncode == 2
    assert run("bundle", data=there).returncode == 2
    missing = run("bundle", "import", tmp_path / "none.zip", data=there)
    assert (missing.returncode, "is no file" in missing.stderr) == (1, True)


@pytest.mark.parametrize("damaged", [None, b"no bundle at all"])
def test_a_bundle_that_is_refused_leaves_no_empty_store_behind(tmp_path: Path, damaged: bytes | None) -> None:
    file = tmp_path / "b.zip"
    if damaged is not None:
        file.write_bytes(damaged)
    assert run("bundle", "import", file, data=tmp_path / "new").returncode == 1
    assert not (tmp_path / "new").exists()

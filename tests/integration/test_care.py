"""Care of the store: what `check` finds, a backup while the store is written to, many senders at once."""

import shutil
import sqlite3
import threading

import pytest
from command import run

from making import Pen, ids, raw
from phone import EVENT, NOW
from sample_event import ENTRIES
from shuntbook.flow import answers, backups, diagnostics
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.kit.errors import StoreUnavailable
from shuntbook.store import photos
from shuntbook.store.database import FILE, Store
from shuntbook.store.refresh import rebuild


def batch_of(entries) -> Batch:
    return Batch([raw(entry) for entry in entries], 0, None, None, NOW, None)


def test_a_whole_store_has_nothing_wrong(sample_store):
    assert diagnostics.check(sample_store) == []


@pytest.mark.parametrize("damage", ["changed", "cut", "gone"])
def test_a_damaged_photo_is_named(sample_store, damage):
    digest = photos.all_held(sample_store.db)[0]
    path = photos.path_of(sample_store, digest)
    data = path.read_bytes()
    if damage == "gone":
        path.unlink()
    else:
        path.write_bytes(data[:-1] if damage == "cut" else data[:100] + bytes(4096) + data[4196:])
    (sentence,) = diagnostics.check(sample_store)
    assert digest in sentence


def change_jobs(old: str, new: str) -> str:
    """The statement that changes a word of every job of car 41."""
    return f"UPDATE job SET value = CAST(replace(CAST(value AS TEXT), '{old}', '{new}') AS BLOB) WHERE car = '41'"


@pytest.mark.parametrize(
    "tamper",
    [
        "DELETE FROM job WHERE car = '41' AND job = (SELECT min(job) FROM job WHERE car = '41')",
        change_jobs('"passed"', '"needed"'),
        change_jobs('"open"', '"finished"'),
        "DELETE FROM entry WHERE kind = 'inspection.passed' AND car = '41'",
    ],
)
def test_what_is_kept_up_is_held_against_the_log(sample_store, tamper):
    assert sample_store.db.execute(tamper).rowcount > 0
    (sentence,) = diagnostics.check(sample_store)
    assert f"{EVENT}, car 41" in sentence
    assert "shuntbook rebuild" in sentence
    with sample_store.write() as db:
        rebuild(db, EVENT)
    assert diagnostics.check(sample_store) == []


@pytest.mark.parametrize(
    ("tamper", "said"),
    [
        ("UPDATE entry SET raw = CAST('{cut' AS BLOB) WHERE cursor = 7", "can't be read"),
        ("UPDATE entry SET seq = seq + 1 WHERE cursor = 7", "says other than what it is filed under"),
        ("UPDATE entry SET raw = (SELECT raw FROM entry WHERE cursor = 8) WHERE cursor = 7", "says other than"),
        ("UPDATE file SET bytes = CAST('x' AS BLOB)", "another SHA-256"),
        ("DELETE FROM finding WHERE job = (SELECT min(job) FROM finding)", "the findings kept up"),
    ],
)
def test_what_was_changed_behind_the_stores_back_is_named(sample_store, tamper, said):
    assert sample_store.db.execute(tamper).rowcount > 0
    assert any(said in sentence for sentence in diagnostics.check(sample_store))


def test_a_database_that_is_damaged_or_none_is_a_problem_and_no_crash(sample_store, tmp_path):
    sample_store.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    whole = (sample_store.folder / FILE).read_bytes()
    for number, damaged in enumerate((whole[: len(whole) // 2], b"not a database" * 100, whole[:8192] + bytes(40_000))):
        folder = tmp_path / f"damaged-{number}"
        folder.mkdir()
        (folder / FILE).write_bytes(damaged)
        found = diagnostics.look_over(folder)
        assert found.problems != []
        assert all("database" in sentence for sentence in found.problems)


@pytest.mark.parametrize(
    "words",
    [
        ("queue", "--event", EVENT, "--car", "41"),
        ("costs", "--event", EVENT),
        ("invite", "--person", "p-toma"),
        ("backup", "copy.zip"),
        ("bundle", "export", "bundle.zip"),
    ],
    ids=lambda words: words[0],
)
def test_a_damaged_database_refuses_each_command_in_words(sample_store, tmp_path, monkeypatch, words):
    sample_store.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    whole = (sample_store.folder / FILE).read_bytes()
    monkeypatch.chdir(tmp_path)
    for number, damaged in enumerate((whole[:60_000], b"not a database" * 100)):
        folder = tmp_path / f"damaged-{number}"
        folder.mkdir()
        (folder / FILE).write_bytes(damaged)
        done = run(*words, data=folder)
        assert (done.returncode, done.stdout) == (1, "")
        assert "database is damaged" in done.stderr
        assert "shuntbook restore" in done.stderr


def test_gaps_in_a_devices_numbers_are_noted_and_are_no_problem(sample_store, pen):
    entries = [pen.entry("stage.nothing_seen", stage="SS1", how="from-seat", device="d-lost") for _ in range(9)]
    brought = [entries[number - 1] for number in (2, 3, 6, 9)]
    # Number 8 came in as something that can't be taken: it is here, so it is not missing.
    odd = {**entries[7], "kind": "stage.shouted"}
    ingest(sample_store, batch_of([*brought, odd]))
    found = diagnostics.look_over(sample_store.folder)
    assert found.problems == []
    device = next(one for one in found.devices if one.device == "d-lost")
    assert (device.entries, device.last_seq, device.missing, device.twice) == (5, 9, [[1, 1], [4, 5], [7, 7]], [])
    done = run("check", data=sample_store.folder)
    assert done.returncode == 0
    assert "device d-lost: numbers 1, 4 to 5, 7 have not come in" in done.stdout
    assert "Nothing wrong was found" in done.stdout


def test_a_number_that_came_twice_is_noted(sample_store):
    # A phone that was copied goes on counting where the other one does.
    pens = [Pen(EVENT, start=80_000), Pen(EVENT, start=81_000)]
    ingest(sample_store, batch_of([pen.filed(device="d-twin") for pen in pens for _ in range(2)]))
    device = next(one for one in diagnostics.devices(sample_store) if one.device == "d-twin")
    assert (device.entries, device.missing, device.twice) == (4, [], [1, 2])


def test_a_wild_number_is_one_gap_and_takes_no_memory(sample_store, pen):
    entry = {**pen.filed(device="d-wild"), "seq": 2**53 - 1}
    ingest(sample_store, batch_of([entry]))
    device = next(one for one in diagnostics.devices(sample_store) if one.device == "d-wild")
    assert device.missing == [[1, 2**53 - 2]]


def test_what_waits_what_is_on_its_way_and_what_is_left_over_is_noted(sample_store, pen):
    assert diagnostics.notes(sample_store) == []
    linked = pen.entry("photo.linked", pen.filed()["id"], photo="0b" * 32)
    spoken = pen.entry("voice.linked", linked["subject"], voice="0d" * 32)
    ingest(sample_store, batch_of([pen.filed(photos=["0a" * 32]), linked, spoken, {"not": "an entry"}]))
    held = photos.all_held(sample_store.db)[0]
    folder = photos.path_of(sample_store, held).parent
    (folder / f".{held}.1a2b3c4d").write_bytes(b"half a photo")
    stray = photos.path_of(sample_store, "0c" * 32)
    stray.parent.mkdir(exist_ok=True)
    stray.write_bytes(b"no row names this")
    notes = diagnostics.notes(sample_store)
    assert notes[0].startswith("needs review by a manager: 1;")
    assert notes[1].startswith("photos that have not come in: 3;")
    assert {note.partition(":")[0] for note in notes[2:]} == {
        f"photos/{held[:2]}/.{held}.1a2b3c4d",
        f"photos/0c/{'0c' * 32}",
    }
    assert diagnostics.check(sample_store) == []


def test_a_backup_made_while_entries_come_in_is_a_whole_store_of_whole_batches(sample_store, pen, tmp_path):
    stop = threading.Event()
    sent: list[str] = []

    def write() -> None:
        while not stop.is_set():
            batch = [pen.filed("front-end/badge missing") for _ in range(10)]
            sent.extend(ingest(sample_store, batch_of(batch)).accepted)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        copies = []
        for number in range(5):
            target = tmp_path / f"copy-{number}" / FILE
            target.parent.mkdir()
            backups.backup(sample_store, target)
            copies.append(target.parent)
    finally:
        stop.set()
        writer.join()
    counts = []
    for folder in copies:
        shutil.copytree(sample_store.photos, folder / "photos")
        copy = Store(folder)
        counts.append(copy.db.execute("SELECT count(*) FROM entry").fetchone()[0])
        assert diagnostics.check(copy) == []
        assert copy.log_id == sample_store.log_id
    assert all((count - ENTRIES) % 10 == 0 for count in counts)
    assert counts == sorted(counts)
    assert counts[-1] <= ENTRIES + len(sent)


def test_a_backup_never_overwrites_and_says_where_it_could_not_be_made(sample_store, tmp_path):
    there = tmp_path / "there.sqlite"
    there.write_text("something else")
    with pytest.raises(StoreUnavailable, match="exists already"):
        backups.backup(sample_store, there)
    assert there.read_text() == "something else"
    with pytest.raises(StoreUnavailable, match="No copy was made"):
        backups.backup(sample_store, tmp_path / "no-folder" / "copy.sqlite")


def test_a_store_restored_from_a_copy_gives_the_same_queue(sample_store, tmp_path):
    folder = tmp_path / "restored"
    folder.mkdir()
    backups.backup(sample_store, folder / FILE)
    restored = Store(folder)
    for car in ("41", "42"):
        assert answers.queue(restored, EVENT, car) == answers.queue(sample_store, EVENT, car)


def test_the_same_batch_from_eight_threads_at_once_is_stored_once(sample_store, pen):
    batch = [pen.filed("front-end/badge missing") for _ in range(30)]
    answered: list[list[str]] = []
    threads = [
        threading.Thread(target=lambda: answered.append(ingest(sample_store, batch_of(batch)).accepted))
        for _ in range(8)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert answered == [ids(batch)] * 8
    assert sample_store.db.execute("SELECT count(*) FROM entry").fetchone() == (ENTRIES + 30,)
    assert diagnostics.check(sample_store) == []


def test_ten_phones_that_send_at_once_lose_nothing(sample_store):
    pens = [Pen(EVENT, start=50_000 + 1000 * number) for number in range(10)]
    batches = [[pen.filed("front-end/badge missing") for _ in range(25)] for pen in pens]
    threads = [threading.Thread(target=ingest, args=(sample_store, batch_of(batch))) for batch in batches]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    stored = {row[0] for row in sample_store.db.execute("SELECT id FROM entry")}
    assert {name for batch in batches for name in ids(batch)} <= stored
    assert diagnostics.check(sample_store) == []


def test_two_processes_that_write_in_turn_both_get_through(data_folder):
    # Two stores share no lock of threads, as the server and `shuntbook load` do not: SQLite's own must do.
    pens = [Pen(EVENT, start=70_000 + 1000 * number) for number in range(2)]
    answered: list[list[str]] = []
    sent: list[str] = []

    def write(pen: Pen) -> None:
        store = Store(data_folder)
        for _ in range(30):
            batch = [pen.filed("front-end/badge missing")]
            sent.extend(ids(batch))
            answered.append(ingest(store, batch_of(batch)).accepted)

    threads = [threading.Thread(target=write, args=(pen,)) for pen in pens]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(name for names in answered for name in names) == sorted(sent)
    assert len(sent) == 60
    assert diagnostics.check(Store(data_folder)) == []


def test_opening_a_new_folder_twice_at_once_makes_one_store(tmp_path):
    stores: list[Store] = []
    threads = [threading.Thread(target=lambda: stores.append(Store(tmp_path / "new"))) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(stores) == 4
    assert len({store.log_id for store in stores}) == 1


def test_health_says_when_the_file_is_gone(sample_store, client):
    assert client.get("/api/v1/health").get_json()["status"] == "ok"
    (sample_store.folder / FILE).unlink()
    health = client.get("/api/v1/health").get_json()
    assert health["status"] == "degraded"
    assert "gone" in health["problems"][0]


def test_what_was_acknowledged_is_on_the_disk_for_the_next_process(sample_store, pen):
    batch = [pen.filed("front-end/badge missing") for _ in range(3)]
    ingest(sample_store, batch_of(batch))
    assert sample_store.db.execute("PRAGMA synchronous").fetchone() == (2,)
    assert sample_store.db.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    other = sqlite3.connect(sample_store.folder / FILE)
    found = {row[0] for row in other.execute("SELECT id FROM entry")}
    other.close()
    assert set(ids(batch)) <= found

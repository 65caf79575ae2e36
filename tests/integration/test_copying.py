"""Backups with photos while entries and photos come in, and the way back as a log of its own."""

import hashlib
import io
import random
import sqlite3
import stat
import threading
import time
import zipfile

import pytest
from command import printed, run
from PIL import Image

from making import Pen, ids, raw
from phone import EVENT, NOW, Phone
from sample_event import ENTRIES
from shuntbook.app import create_app
from shuntbook.flow import answers, backups, diagnostics, joining
from shuntbook.flow.backups import BadCopy, backup, restore
from shuntbook.flow.clock import now
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.flow.uploads import put_photo
from shuntbook.kit.errors import NotAllowed, StoreUnavailable
from shuntbook.store import people, photos
from shuntbook.store.database import FILE, Store

PHOTOS = 6
"""Photos of the sample event."""


def jpeg(number: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), (number % 256, number // 256, 90)).save(out, "JPEG")
    return out.getvalue()


def send(store: Store, *entries) -> list[str]:
    taken = ingest(store, Batch([raw(entry) for entry in entries], 0, None, None, NOW, None))
    assert taken.rejected == []
    return taken.accepted


def wait_for(true) -> None:
    end = time.monotonic() + 60
    while not true():
        assert time.monotonic() < end, "it did not come about within the time"
        time.sleep(0.01)


@pytest.fixture
def copy(sample_store, tmp_path):
    """A copy of the sample event with its photos."""
    backup(sample_store, tmp_path / "copy.zip")
    return tmp_path / "copy.zip"


def test_a_copy_brings_back_entries_photos_set_up_and_queue(sample_store, copy, tmp_path):
    restored = restore(copy, tmp_path / "new")
    assert (restored.copied.entries, restored.copied.photos, restored.copied.missing) == (ENTRIES, PHOTOS, [])
    store = Store(tmp_path / "new")
    assert diagnostics.check(store) == []
    assert diagnostics.notes(store) == diagnostics.notes(sample_store)
    for car in ("41", "42"):
        assert answers.queue(store, EVENT, car) == answers.queue(sample_store, EVENT, car)
    for digest in photos.all_held(sample_store.db):
        assert hashlib.sha256(photos.read(store, digest)).hexdigest() == digest


def test_a_copy_made_while_entries_and_photos_come_in_is_whole_each_time(sample_store, tmp_path):
    stop = threading.Event()
    pens = [Pen(EVENT, start=30_000 + 1000 * number) for number in range(3)]
    acknowledged: list[set[str]] = [set() for _ in pens]
    uploaded: set[str] = set()

    def write(number: int) -> None:
        while not stop.is_set():
            acknowledged[number].update(send(sample_store, *(pens[number].filed() for _ in range(10))))

    def upload() -> None:
        for number in range(10_000):
            if stop.is_set():
                return
            data = jpeg(number)
            digest = hashlib.sha256(data).hexdigest()
            put_photo(sample_store, digest, data, NOW)
            uploaded.add(digest)

    threads = [threading.Thread(target=write, args=(number,)) for number in range(3)]
    threads.append(threading.Thread(target=upload))
    for thread in threads:
        thread.start()
    before: list[tuple[set[str], set[str]]] = []
    try:
        for number in range(4):
            more = len(before[-1][0]) + 30 if before else 30
            wait_for(lambda: sum(map(len, acknowledged)) > more and len(uploaded) > number)  # noqa: B023
            before.append((set().union(*(set(some) for some in acknowledged)), set(uploaded)))
            copied = backup(sample_store, tmp_path / f"{number}.zip")
            assert copied.missing == []
    finally:
        stop.set()
        for thread in threads:
            thread.join()
    for number, (entries, pictures) in enumerate(before):
        restore(tmp_path / f"{number}.zip", tmp_path / f"new-{number}")
        store = Store(tmp_path / f"new-{number}")
        assert diagnostics.check(store) == []
        assert entries <= {row[0] for row in store.db.execute("SELECT id FROM entry")}
        assert pictures <= set(photos.all_held(store.db))
        count = store.db.execute("SELECT count(*) FROM entry").fetchone()[0]
        assert (count - ENTRIES) % 10 == 0, "a batch is in the copy or not"


def test_a_restored_log_has_another_id_so_that_phones_send_all_they_hold(sample_store, phone, pen, tmp_path, pages):
    """The server comes back from an older copy: what a phone had sent since comes again, once."""
    early, late = [pen.filed("front-end/badge missing") for _ in range(5)], [pen.filed() for _ in range(7)]
    sender = phone("co-driver")
    sender.sync(*early)
    backup(sample_store, tmp_path / "copy.zip")
    sender.sync(*late)
    picture = jpeg(7)
    digest = hashlib.sha256(picture).hexdigest()
    assert sender.client.put(f"/api/v1/photos/{digest}", data=picture, headers=sender.headers).status_code == 201
    queues = {car: sender.queue(car) for car in ("41", "42")}

    restored = restore(tmp_path / "copy.zip", tmp_path / "new")
    store = Store(tmp_path / "new")
    assert store.log_id == restored.log_id != sample_store.log_id
    # The same phone, with its token, its old log id and its old cursor.
    again = Phone(create_app(store, pages).test_client(), sender.headers)
    again.cursor, again.log_id = sender.cursor, sender.log_id
    answer = again.sync()
    assert answer["log_id"] == restored.log_id
    assert {entry["id"] for entry in answer["entries"]} >= set(ids(early)), "it starts from 0 again"
    assert again.sync(*early, *late)["accepted"] == ids(early) + ids(late)
    assert again.get(f"/photos/{digest}").status_code == 404
    assert again.client.put(f"/api/v1/photos/{digest}", data=picture, headers=again.headers).status_code == 201
    assert {car: again.queue(car) for car in ("41", "42")} == queues
    assert store.db.execute("SELECT count(*) FROM entry").fetchone() == (ENTRIES + 12,)
    assert diagnostics.check(store) == []


def test_each_restore_of_one_copy_is_another_log(copy, tmp_path):
    assert restore(copy, tmp_path / "one").log_id != restore(copy, tmp_path / "two").log_id


def test_an_invite_that_is_open_in_the_copy_is_ended_and_who_joined_stays(sample_store, tmp_path):
    used, still_open = (joining.invite(sample_store, "p-toma", now()) for _ in range(2))
    _, token, _ = joining.join(sample_store, used, None, now())
    backup(sample_store, tmp_path / "copy.zip")
    # Used after the copy was made: in the copy it is open.
    joining.join(sample_store, still_open, None, now())
    restored = restore(tmp_path / "copy.zip", tmp_path / "new")
    store = Store(tmp_path / "new")
    assert restored.ended_invites == 1
    with pytest.raises(people.UnknownCode):
        joining.join(store, still_open, None, now())
    assert people.who(store.db, token).person == "p-toma"


@pytest.mark.parametrize("held", ["data", "other"])
def test_nothing_is_brought_back_into_a_folder_that_holds_anything(copy, data_folder, tmp_path, held):
    folder = data_folder if held == "data" else tmp_path / "other"
    if held == "other":
        folder.mkdir()
        (folder / "letter.txt").write_text("mine")
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    with pytest.raises(NotAllowed, match="holds something already"):
        restore(copy, folder)
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_an_empty_folder_will_do(copy, tmp_path):
    (tmp_path / "new").mkdir()
    restore(copy, tmp_path / "new")
    assert diagnostics.check(Store(tmp_path / "new")) == []


def test_a_damaged_photo_is_left_out_of_the_copy_and_named(sample_store, tmp_path):
    gone, changed = photos.all_held(sample_store.db)[:2]
    photos.path_of(sample_store, gone).unlink()
    photos.path_of(sample_store, changed).write_bytes(b"damaged")
    assert backup(sample_store, tmp_path / "copy.zip").missing == sorted([gone, changed])
    restored = restore(tmp_path / "copy.zip", tmp_path / "new")
    assert restored.copied.missing == sorted([gone, changed])
    assert len(diagnostics.check(Store(tmp_path / "new"))) == 2


def test_a_photo_that_was_changed_in_the_copy_does_not_come_back(copy, tmp_path, sample_store):
    victim = photos.all_held(sample_store.db)[0]
    changed = tmp_path / "changed.zip"
    with zipfile.ZipFile(copy) as old, zipfile.ZipFile(changed, "w") as new:
        for name in old.namelist():
            new.writestr(name, jpeg(1) if name == f"photos/{victim}" else old.read(name))
        # Names that lead elsewhere, or that nothing in the database asks for.
        new.writestr("../outside.txt", "outside")
        new.writestr("photos/../../outside.txt", "outside")
        new.writestr("photos/" + "0a" * 32, b"nobody's")
    restored = restore(changed, tmp_path / "sub" / "new")
    assert restored.copied.missing == [victim]
    assert list(tmp_path.rglob("outside.txt")) == []
    assert list(tmp_path.rglob("0a" * 32)) == []


def cut(data: bytes) -> bytes:
    return data[: len(data) // 2]


def without_database(_: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("photos/" + "0a" * 32, b"x")
    return out.getvalue()


def with_a_hole(data: bytes) -> bytes:
    # Into the database's compressed bytes, which come first.
    return data[:2000] + bytes(64) + data[2064:]


@pytest.mark.parametrize("damage", [cut, without_database, with_a_hole, lambda _: b"", lambda _: b"a letter"])
def test_a_damaged_copy_is_refused_whole(copy, tmp_path, damage):
    bad = tmp_path / "bad.zip"
    bad.write_bytes(damage(copy.read_bytes()))
    with pytest.raises(BadCopy):
        restore(bad, tmp_path / "new")
    assert not (tmp_path / "new").exists()
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_a_damaged_database_is_refused_at_whatever_place(sample_store, tmp_path):
    backup(sample_store, tmp_path / "copy.sqlite")
    whole = (tmp_path / "copy.sqlite").read_bytes()
    chance = random.Random(5)
    refused = 0
    for _ in range(20):
        at = chance.randrange(100, len(whole) - 4096)
        (tmp_path / "bad.sqlite").write_bytes(whole[:at] + bytes(4096) + whole[at + 4096 :])
        try:
            restore(tmp_path / "bad.sqlite", tmp_path / f"new-{at}")
        except BadCopy:
            refused += 1
            assert not (tmp_path / f"new-{at}").exists()
            continue
        # SQLite's own check looks at structure; a hole inside a value is found by what is read out of it.
        assert diagnostics.look_over(tmp_path / f"new-{at}").problems != [], f"4096 zeros at {at}"
    assert refused > 0


def test_another_program_s_database_is_no_copy(tmp_path):
    other = sqlite3.connect(tmp_path / "other.sqlite")
    other.execute("CREATE TABLE letter (text TEXT)")
    other.close()
    with pytest.raises(BadCopy, match="no such table"):
        restore(tmp_path / "other.sqlite", tmp_path / "new")


def test_a_copy_of_the_database_alone_comes_back_and_names_the_photos_it_lacks(sample_store, tmp_path):
    assert backup(sample_store, tmp_path / "copy.sqlite").photos == 0
    restored = restore(tmp_path / "copy.sqlite", tmp_path / "new")
    assert restored.copied.entries == ENTRIES
    assert restored.copied.missing == photos.all_held(sample_store.db)


def test_a_database_that_was_copied_by_hand_comes_back_with_what_its_log_file_holds(sample_store, pen, tmp_path):
    send(sample_store, pen.filed())
    taken = tmp_path / "by-hand"
    taken.mkdir()
    for name in (FILE, FILE + "-wal"):
        (taken / name).write_bytes((sample_store.folder / name).read_bytes())
    assert restore(taken / FILE, tmp_path / "new").copied.entries == ENTRIES + 1


def test_a_copy_is_for_its_owner_only(copy, sample_store, tmp_path):
    backup(sample_store, tmp_path / "copy.sqlite")
    for path in (copy, tmp_path / "copy.sqlite"):
        assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_a_copy_that_cannot_be_written_leaves_nothing_behind(sample_store, copy, tmp_path, monkeypatch):
    before = copy.read_bytes()
    with pytest.raises(StoreUnavailable, match="exists already"):
        backup(sample_store, copy)
    assert copy.read_bytes() == before
    with pytest.raises(StoreUnavailable, match="No copy was made"):
        backup(sample_store, tmp_path / "no-folder" / "copy.zip")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(backups, "_on_disk", full)
    with pytest.raises(StoreUnavailable, match="No space left"):
        backup(sample_store, tmp_path / "second.zip")
    assert sorted(path.name for path in tmp_path.iterdir() if "second" in path.name) == []


def test_the_commands_say_what_was_copied_and_what_to_do_next(data_folder, tmp_path):
    copy, new = tmp_path / "copy.zip", tmp_path / "new"
    done = run("backup", copy, data=data_folder)
    assert (done.returncode, done.stdout) == (0, f"Copied to {copy}. Entries: {ENTRIES}, photos: {PHOTOS}.\n")
    done = run("restore", copy, data=new)
    assert done.returncode == 0
    assert f"Entries: {ENTRIES}, photos: {PHOTOS}" in done.stdout
    brought, log, phones = done.stdout.splitlines()[:3]
    assert "Entries: " in brought and "not in the copy: 0" in brought
    assert log.startswith("Phones send all that they hold as soon as they reach it: the log has an id of its own, ")
    assert phones.startswith("Phones that joined, or were blocked, after the copy was made")
    assert printed("check", data=new)["problems"] == []
    again = run("restore", copy, data=new)
    assert (again.returncode, again.stdout) == (1, "")
    assert "holds something already" in again.stderr
    done = run("restore", tmp_path / "nothing.zip", data=tmp_path / "newer")
    assert done.returncode == 1
    assert "is no file" in done.stderr
    only = run("backup", tmp_path / "copy.sqlite", data=data_folder)
    assert f"Photos not in it: {PHOTOS}." in only.stdout

"""Disk full, locked or read-only: 503 with Retry-After, nothing acknowledged that is not stored, and it recovers."""

import gc
import hashlib
import io
import sqlite3
import subprocess
import sys
import threading
from contextlib import contextmanager
from pathlib import Path

import psutil
import pytest
from PIL import Image

from making import ids
from phone import Phone
from shuntbook.app import create_app
from shuntbook.flow import clock, joining
from shuntbook.kit.errors import StoreUnavailable
from shuntbook.store import database, photos
from shuntbook.store.database import FILE, Store


@pytest.fixture
def impatient(data_folder, pages, monkeypatch):
    """A store that waits a twentieth of a second for a lock, with a phone of the manager."""
    monkeypatch.setattr(database, "BUSY_S", 0.05)
    store = Store(data_folder)
    client = create_app(store, pages).test_client()
    code = joining.invite(store, "p-vera", clock.now())
    token = client.post("/api/v1/join", json={"code": code}).get_json()["token"]
    return store, Phone(client, {"Authorization": f"Bearer {token}"})


@contextmanager
def locked(store):
    """Another process holds SQLite's write lock."""
    other = sqlite3.connect(store.folder / FILE, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    try:
        yield
    finally:
        other.execute("ROLLBACK")
        other.close()


@contextmanager
def full(store):
    """The disk takes not one page more."""
    pages = store.db.execute("PRAGMA page_count").fetchone()[0]
    store.db.execute(f"PRAGMA max_page_count = {pages}")
    try:
        yield
    finally:
        store.db.execute("PRAGMA max_page_count = 1073741823")


@contextmanager
def read_only(store):
    """The file cannot be written."""
    store.db.execute("PRAGMA query_only = ON")
    try:
        yield
    finally:
        store.db.execute("PRAGMA query_only = OFF")


def is_503(answer) -> bool:
    # RFC 9110, section 15.6.4: a 503 may say when to come again.
    assert int(answer.headers["Retry-After"]) > 0
    problem = answer.get_json()
    assert problem["type"].endswith("/store-unavailable")
    assert "Nothing was stored" in problem["detail"] or "could not be written" in problem["detail"]
    return answer.status_code == 503 and answer.content_type == "application/problem+json"


TROUBLES = [locked, full, read_only]


@pytest.mark.parametrize("trouble", TROUBLES)
def test_a_batch_that_cannot_be_stored_is_not_acknowledged_and_goes_through_later(impatient, pen, trouble):
    store, sender = impatient
    batch = [pen.filed("front-end/grille missing", note="x" * 3000) for _ in range(40)]
    before = store.db.execute("SELECT count(*) FROM entry").fetchone()
    hash_before = sender.queue()["hash"]
    with trouble(store):
        answer = sender.send(*batch)
        assert is_503(answer)
        assert "accepted" not in answer.get_json()
        # What is there can still be read.
        assert sender.queue()["hash"] == hash_before
    assert store.db.execute("SELECT count(*) FROM entry").fetchone() == before
    assert sender.sync(*batch)["accepted"] == ids(batch)


def open_files(folder):
    """Return the files below a folder that this process holds open, each as often as it does."""
    return sorted(file.path for file in psutil.Process().open_files() if Path(file.path).is_relative_to(folder))


def test_writes_that_are_refused_leave_no_file_open(impatient, pen):
    store, sender = impatient
    # SQLite keeps a file open for the lock of another connection of this process, once.
    with locked(store):
        assert is_503(sender.send(pen.filed("front-end/grille missing")))
    before = open_files(store.folder)
    # Looking for garbage would close what nobody closed, at some time.
    gc.disable()
    try:
        with locked(store):
            assert all(is_503(sender.send(pen.filed("front-end/grille missing"))) for _ in range(5))
        sender.sync()
        assert open_files(store.folder) == before
    finally:
        gc.enable()


@pytest.mark.parametrize("trouble", [locked, read_only])
def test_a_join_code_is_not_used_up_by_a_store_that_cannot_write(impatient, trouble):
    store, sender = impatient
    code = joining.invite(store, "p-toma", clock.now())
    with trouble(store):
        assert is_503(sender.client.post("/api/v1/join", json={"code": code}))
    assert sender.client.post("/api/v1/join", json={"code": code}).status_code == 200


def photo() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (30, 20), "green").save(out, "JPEG")
    return out.getvalue()


def put_photo(sender: Phone, data: bytes):
    path = f"/api/v1/photos/{hashlib.sha256(data).hexdigest()}"
    return sender.client.put(path, data=data, headers=sender.headers)


@pytest.mark.parametrize("trouble", [locked, read_only])
def test_a_photo_that_cannot_be_noted_is_not_acknowledged_and_goes_through_later(impatient, trouble):
    store, sender = impatient
    data = photo()
    with trouble(store):
        assert is_503(put_photo(sender, data))
        assert sender.get(f"/photos/{hashlib.sha256(data).hexdigest()}").status_code == 404
    assert put_photo(sender, data).status_code == 201


def test_a_photo_whose_file_cannot_be_written_is_not_acknowledged(impatient):
    store, sender = impatient
    data = photo()
    folder = photos.path_of(store, hashlib.sha256(data).hexdigest()).parent
    folder.parent.mkdir(exist_ok=True)
    folder.write_text("a file where a folder should be")
    assert is_503(put_photo(sender, data))
    folder.unlink()
    assert put_photo(sender, data).status_code == 201


@pytest.mark.parametrize("trouble", [locked, read_only])
def test_a_rate_table_that_cannot_be_stored_leaves_the_old_one(impatient, trouble):
    store, sender = impatient
    before = sender.queue()["rates"]
    with trouble(store):
        assert is_503(sender.client.put("/api/v1/rates", json={"files": {}}, headers=sender.headers))
    assert sender.queue()["rates"] == before


def test_a_data_folder_that_cannot_be_is_refused_with_a_sentence(tmp_path):
    (tmp_path / "file").write_text("not a folder")
    with pytest.raises(StoreUnavailable, match="Nothing was stored"):
        Store(tmp_path / "file" / "data")


def test_a_lock_that_is_let_go_in_time_is_waited_for(data_folder, pages, pen, phone):
    sender = phone()
    other = sqlite3.connect(data_folder / FILE, isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    timer = threading.Timer(0.3, other.execute, ["ROLLBACK"])
    timer.start()
    entry = pen.filed("front-end/grille missing")
    assert sender.sync(entry)["accepted"] == [entry["id"]]
    timer.join()
    other.close()


OVERWRITE = "import sys; f = open(sys.argv[1], 'r+b'); f.seek(4096); f.write(b'\\xff' * (int(sys.argv[2]) - 4096))"


def test_a_database_that_is_damaged_under_a_running_server_is_called_so_with_what_to_do(impatient, pen):
    store, sender = impatient
    store.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    file = store.folder / FILE
    # By another process: closing the file here would take away SQLite's locks on it.
    subprocess.run([sys.executable, "-c", OVERWRITE, str(file), str(file.stat().st_size)], check=True)
    answer = sender.send(pen.filed("front-end/grille missing"))
    problem = answer.get_json()
    assert (answer.status_code, problem["type"].rpartition("/")[2]) == (500, "store-damaged")
    assert "`shuntbook restore`" in problem["detail"]

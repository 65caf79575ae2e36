"""What lies in a data folder is for its owner alone: made so, and made so where it was open before."""

import os
import stat
from datetime import datetime
from pathlib import Path

import pytest

from phone import NOW
from shuntbook.flow import backups, bundle_export
from shuntbook.flow.clock import now
from shuntbook.serving import close_to_others, demo_folder
from shuntbook.store.database import Store
from shuntbook.tls.authority import authority

pytestmark = pytest.mark.skipif(os.name != "posix", reason="modes mean nothing on Windows")


def open_to_others(*roots: Path) -> list[Path]:
    """Return the folders and files under `roots`, themselves among them, that others may read or enter."""
    every = [path for root in roots for path in (root, *(root.rglob("*") if root.is_dir() else ()))]
    assert every
    return [path for path in every if stat.S_IMODE(path.stat().st_mode) & 0o077]


@pytest.fixture(autouse=True)
def usual_mask():
    """Most systems let everybody read what is made."""
    before = os.umask(0o022)
    yield
    os.umask(before)


def test_all_that_is_made_is_closed_to_others(tmp_path):
    with demo_folder(tmp_path / "data") as folder:
        store = Store(folder)
        with store.write() as db:
            db.conn.execute("INSERT INTO meta VALUES ('kept', 'open')")
        assert {path.name for path in folder.iterdir()} > {"shuntbook.sqlite-wal", "shuntbook.sqlite-shm", "photos"}
        digest = store.db.execute("SELECT photo FROM photo").fetchone()[0]
        assert (folder / "photos" / digest[:2] / digest).is_file()
        backups.backup(store, tmp_path / "copy.zip")
        backups.backup(store, tmp_path / "copy.sqlite")
        for name in ("copy.zip", "copy.sqlite"):
            backups.restore(tmp_path / name, tmp_path / f"from-{name}")
        bundle_export.export_bundle(store, tmp_path / "log.bundle", None, NOW)
        made = [folder, *(tmp_path / name for name in ("copy.zip", "copy.sqlite", "log.bundle"))]
        made += [tmp_path / f"from-{name}" for name in ("copy.zip", "copy.sqlite")]
        assert open_to_others(*made) == []


def test_the_ca_is_closed_to_others(tmp_path):
    authority(tmp_path / "ca", "van.local", datetime.fromisoformat(now()))
    assert open_to_others(tmp_path / "ca") == []


def test_a_folder_that_was_open_is_closed_with_a_line_and_only_what_is_ours_in_it(data_folder):
    Store(data_folder).db.execute("SELECT 1 FROM meta").fetchall()
    own = data_folder / "notes.txt"
    own.write_text("a team's own file beside it")
    elsewhere = data_folder.with_name("elsewhere")
    elsewhere.mkdir()
    (data_folder / "photos" / "link").symlink_to(elsewhere)
    for path in (data_folder, *data_folder.rglob("*")):
        path.chmod(0o755 if path.is_dir() else 0o644)
    (line,) = close_to_others(data_folder)
    assert str(data_folder) in line
    assert "closed now" in line
    assert open_to_others(data_folder) == [own, data_folder / "photos" / "link"]
    assert close_to_others(data_folder) == [], "once is enough"


def test_a_disk_that_knows_no_owners_is_told_of_and_served_all_the_same(data_folder, monkeypatch):
    def refused(path, mode):
        raise PermissionError(1, "Operation not permitted", str(path))

    data_folder.chmod(0o755)
    monkeypatch.setattr(Path, "chmod", refused)
    said = close_to_others(data_folder)
    assert ["can't be closed" in line for line in said] == [True]

"""Copies of a data folder: made while the server goes on, and brought back as a log of its own."""

import os
import secrets
import shutil
import sqlite3
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import NotAllowed, NotFound, ShuntbookError, StoreUnavailable
from shuntbook.report.photo import MAX_BYTES
from shuntbook.store import copies, photos
from shuntbook.store.connection import Database
from shuntbook.store.database import FILE, Store
from shuntbook.store.permissions import make_file, make_folder

PHOTOS = "photos/"
ZIP = ".zip"
# What zipfile and zlib raise on a file that was cut, changed, locked with a password or packed in another way.
DAMAGE = (zipfile.BadZipFile, zlib.error, EOFError, KeyError, RuntimeError)


class BadCopy(ShuntbookError):
    """A file that is no copy of a data folder, or one that is damaged."""


@dataclass(frozen=True)
class Copied:
    """What a copy holds: entries, photos, and the photos that it should hold and does not."""

    entries: int
    photos: int
    missing: list[str]


@dataclass(frozen=True)
class Restored:
    """What came back from a copy, by which log id, and how many invites that were open in it were ended."""

    copied: Copied
    log_id: str
    ended_invites: int


def backup(store: Store, target: Path) -> Copied:
    """Copy the store to a new file while it is in use: with photos to a .zip, else the database alone.

    The copy is the store at one moment. A photo is written before its row, so that every photo the copy names is
    there; one that is damaged on the disk is left out and named. Errors: StoreUnavailable; no copy is left then.
    """
    if target.exists():
        raise StoreUnavailable(f"{target} exists already; name a new file")
    try:
        with TemporaryDirectory(prefix=f".{target.name}-", dir=target.parent) as beside:
            database = Path(beside) / FILE
            copies.snapshot(store.db, database)
            held = _held(database)
            if target.suffix.lower() != ZIP:
                database.replace(target)
                return Copied(_count(target), 0, held)
            packed = Path(beside) / target.name
            copied = _pack(store, database, held, packed)
            _on_disk(packed)
            packed.replace(target)
            return copied
    except (sqlite3.Error, OSError) as error:
        raise StoreUnavailable(f"{target}: {error}. No copy was made") from error


def restore(source: Path, folder: Path) -> Restored:
    """Bring a copy back into a new data folder, with a log id of its own.

    Another log id makes every phone send all that it holds, so that what came in after the copy was made comes
    again. Photos that the copy lacks are named, the rest comes back. Errors: NotAllowed where the folder holds
    anything, BadCopy, StoreUnavailable; the folder is then as it was.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise NotAllowed(f"{folder} holds something already; a copy is brought back to a new or empty folder only")
    if not source.is_file():
        raise BadCopy(f"{source} is no file; name the copy that `shuntbook backup` made")
    with _beside(folder) as new:
        store = _unpack(source, new)
        with store.write() as db:
            ended = copies.begin_new_log(db)
        held = photos.all_files(store.db)
        missing = [digest for digest in held if not photos.is_whole(store, digest)]
        copied = Copied(_count_in(store.db), len(held) - len(missing), missing)
        restored = Restored(copied, store.log_id, ended)
        # The last connection to close puts all into the one file.
        store.close()
    return restored


def _pack(store: Store, database: Path, held: list[str], target: Path) -> Copied:
    missing = []
    target.touch(mode=0o600, exist_ok=False)
    with zipfile.ZipFile(target, "w") as packed:
        packed.write(database, FILE, zipfile.ZIP_DEFLATED)
        for digest in held:
            try:
                packed.writestr(PHOTOS + digest, photos.read(store, digest))
            except NotFound:
                missing.append(digest)
    return Copied(_count(database), len(held) - len(missing), missing)


def _on_disk(path: Path) -> None:
    with path.open("rb+") as file:
        os.fsync(file.fileno())


@contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """Give a new folder that becomes `folder` at the end, and is gone where anything fails."""
    new = folder.with_name(f".{folder.name}.{secrets.token_hex(4)}")
    try:
        make_folder(new)
        yield new
        if folder.exists():
            folder.rmdir()
        new.rename(folder)
    except OSError as error:
        raise StoreUnavailable(f"{folder}: {error}. Nothing was brought back") from error
    finally:
        shutil.rmtree(new, ignore_errors=True)


def _unpack(source: Path, folder: Path) -> Store:
    if zipfile.is_zipfile(source):
        try:
            with zipfile.ZipFile(source) as packed:
                return _unzip(packed, source, folder)
        except DAMAGE as error:
            raise BadCopy(f"{source} is damaged: {error}. Nothing was brought back") from error
    for suffix in ("", "-wal"):
        if (beside := source.with_name(source.name + suffix)).exists():
            make_file(folder / (FILE + suffix))
            shutil.copyfile(beside, folder / (FILE + suffix))
    return _opened(source, folder)


def _unzip(packed: zipfile.ZipFile, source: Path, folder: Path) -> Store:
    names = packed.namelist()
    if FILE not in names:
        raise BadCopy(f"{source} holds no {FILE}; name the copy that `shuntbook backup` made")
    make_file(folder / FILE)
    with packed.open(FILE) as read, (folder / FILE).open("wb") as write:
        shutil.copyfileobj(read, write)
    store = _opened(source, folder)
    # Only what the database names is taken from the file, under the name that its bytes have.
    for digest in set(photos.all_files(store.db)) & {name.removeprefix(PHOTOS) for name in names}:
        data = _photo(packed, digest)
        if data is not None:
            photos.put_file(store, digest, data)
    return store


def _photo(packed: zipfile.ZipFile, digest: str) -> bytes | None:
    try:
        with packed.open(PHOTOS + digest) as read:
            data = read.read(MAX_BYTES + 1)
    except DAMAGE:
        return None
    return data if sha256(data) == digest else None


def _opened(source: Path, folder: Path) -> Store:
    wrong = copies.faults(folder / FILE)
    if wrong:
        raise BadCopy(f"{source} is damaged or no copy of Shuntbook's: {'; '.join(wrong)}. Nothing was brought back")
    return Store(folder)


def _held(database: Path) -> list[str]:
    connection = sqlite3.connect(database)
    try:
        return photos.all_files(Database(connection))
    finally:
        connection.close()


def _count(database: Path) -> int:
    connection = sqlite3.connect(database)
    try:
        return _count_in(Database(connection))
    finally:
        connection.close()


def _count_in(db: Database) -> int:
    return int(db.conn.execute("SELECT count(*) FROM entry").fetchone()[0])

"""Photo files, voice notes among them, named by the SHA-256 of their bytes: whole or absent."""

import os
import secrets
from pathlib import Path

from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import NotFound, StoreUnavailable
from shuntbook.report.attached import Attached
from shuntbook.report.photo import thumbnail
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.permissions import FILE, make_folder

_BINARY = getattr(os, "O_BINARY", 0)  # Windows would write \r before each \n


def path_of(store: Store, digest: str) -> Path:
    """Return where a photo's file lies; `digest` must be 64 hex digits."""
    return store.photos / digest[:2] / digest


def put_file(store: Store, digest: str, data: bytes) -> None:
    """Write a photo's file, once; two writers at a time end with the same whole file."""
    if is_whole(store, digest):
        return
    try:
        _write_whole(path_of(store, digest), data)
    except OSError as error:
        raise StoreUnavailable(f"the photo could not be written: {error}. Free the disk and send it again") from error


def is_whole(store: Store, digest: str) -> bool:
    """Return whether a photo's file is there with the bytes that its name says; a damaged one is written again."""
    path = path_of(store, digest)
    return path.exists() and sha256(path.read_bytes()) == digest


def put_row(db: Database, digest: str, picture: Attached, size: int, now: str) -> None:
    """Note that a photo is held."""
    row = [digest, picture.type, picture.width, picture.height, size, now]
    db.conn.execute("INSERT OR IGNORE INTO photo VALUES (?, ?, ?, ?, ?, ?)", row)


def find(db: Database, digest: str) -> Attached | None:
    """Return what is known of a photo, None where it is not held."""
    row = db.conn.execute("SELECT type, width, height FROM photo WHERE photo = ?", [digest]).fetchone()
    return Attached(*row) if row else None


def read(store: Store, digest: str) -> bytes:
    """Return a photo's bytes, checked against its name. Errors: NotFound where it is absent or damaged."""
    try:
        data = path_of(store, digest).read_bytes()
    except OSError as error:
        raise NotFound(f"photo {digest} is not held here; it may still be on the phone that took it") from error
    if sha256(data) != digest:
        raise NotFound(f"photo {digest} is damaged on the server's disk; run `shuntbook check`")
    return data


def read_thumbnail(store: Store, digest: str, width: int) -> bytes:
    """Return an upright JPEG of a photo, at most about `width` pixels across."""
    return thumbnail(read(store, digest), width)


def all_held(db: Database) -> list[str]:
    """Return the digests of all photos held."""
    return [row[0] for row in db.conn.execute("SELECT photo FROM photo ORDER BY photo")]


def version(db: Database) -> str:
    """Return a text that is the same while no photo comes."""
    return "{} {}".format(*db.conn.execute("SELECT count(*), max(rowid) FROM photo").fetchone())


def all_files(db: Database) -> list[str]:
    """Return the digests of all files beside the database: photos, voice notes, and papers that went out."""
    rows = db.conn.execute("SELECT photo FROM photo UNION SELECT sha256 FROM printed ORDER BY 1")
    return [row[0] for row in rows]


def _write_whole(path: Path, data: bytes) -> None:
    make_folder(path.parent)
    beside = path.with_name(f".{path.name}.{secrets.token_hex(4)}")
    try:
        with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, FILE), "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)

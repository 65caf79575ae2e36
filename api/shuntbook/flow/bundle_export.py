"""Hands over without a network: what this machine holds, or one event of it, as one file."""

import base64
import os
import secrets
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import msgspec

from shuntbook.kit.errors import NotAllowed, NotFound, StoreUnavailable
from shuntbook.store import diagnostics, keys, log, photos, printed, quarantine, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.wire.bundle_check import MOST_BYTES, MOST_FILES
from shuntbook.wire.bundle_file import (
    DEVICES,
    ENTRIES,
    MANIFEST,
    PHOTOS,
    SET_ASIDE,
    TRUSTED,
    Head,
    paper_name,
    setup_name,
    write_bundle,
)


@dataclass(frozen=True)
class Exported:
    """What a bundle holds: entries, photos, events whose set-up is in it, photos that are damaged here and left out."""

    entries: int
    photos: int
    events: list[str]
    missing: list[str]
    bytes: int


def export_bundle(store: Store, target: Path, event: str | None, now: str) -> Exported:
    """Write what is held here to a file, while a server may go on.

    The file is there whole or not at all; an older bundle of that name is replaced, anything else is not. Errors:
    NotFound, NotAllowed, StoreUnavailable.
    """
    if target.exists() and not _is_bundle(target):
        raise NotAllowed(f"{target} exists and is no bundle; name another file")
    beside = target.with_name(f".{target.name}.{secrets.token_hex(4)}")
    try:
        with store.read() as db:
            exported = _write(store, db, beside, event, now)
        with beside.open("rb+") as file:
            os.fsync(file.fileno())
        beside.replace(target)
    except OSError as error:
        raise StoreUnavailable(f"{target}: {error}. No bundle was made") from error
    finally:
        beside.unlink(missing_ok=True)
    return exported


def _is_bundle(path: Path) -> bool:
    try:
        with zipfile.ZipFile(path) as packed:
            return MANIFEST in packed.namelist()
    except (zipfile.BadZipFile, OSError):
        return False


def _write(store: Store, db: Database, path: Path, event: str | None, now: str) -> Exported:
    events = [name for name in setups.events(db) if event in (None, name)]
    # One entry a line: a line's end inside JSON is only ever white space, so that a blank says the same.
    entries = [raw.replace(b"\n", b" ").replace(b"\r", b" ") for raw in log.raws(db, event)]
    if event is not None and not events and not entries:
        raise NotFound(f"event {event!r} is not held here (held: {', '.join(setups.events(db)) or 'none'})")
    wanted = photos.all_held(db)
    if event is not None:
        wanted = sorted(set(wanted) & diagnostics.photos_named(db, event))
    missing: list[str] = []
    members = write_bundle(
        path,
        Head(now, store.log_id, len(entries)),
        [(ENTRIES, _lines(entries)), *_beside(db, event, events)],
        _photos(store, wanted, missing),
        _papers(store, db, event),
    )
    if len(members) + 2 > MOST_FILES or sum(member.bytes for member in members) > MOST_BYTES:
        raise NotAllowed("this is more than one bundle may hold; export one event with --event")
    return Exported(len(entries), len(wanted) - len(missing), events, missing, path.stat().st_size)


def _beside(db: Database, event: str | None, events: list[str]) -> Iterator[tuple[str, bytes]]:
    """Yield what stands beside the entries: what waits for a manager's look, who may be believed, the set-ups."""
    yield SET_ASIDE, _lines(base64.b64encode(raw) for raw in quarantine.waiting_raws(db, event))
    yield DEVICES, msgspec.json.encode([device._asdict() for device in keys.all_of(db).values()])
    yield TRUSTED, msgspec.json.encode(keys.trusted(db) if event is None else keys.trusted_of(db, event))
    for name in events:
        for file, data in setups.files_of(db, name, setups.in_force(db, name) or "").items():
            yield setup_name(name, file), data


def _photos(store: Store, wanted: list[str], missing: list[str]) -> Iterator[tuple[str, bytes]]:
    for digest in wanted:
        try:
            yield PHOTOS + digest, photos.read(store, digest)
        except NotFound:
            missing.append(digest)


def _papers(store: Store, db: Database, event: str | None) -> Iterator[tuple[str, bytes]]:
    for entry, paper, _ in printed.all_of(db, event):
        data = printed.find(store, db, entry, paper)
        if data is not None:
            yield paper_name(entry, paper), data


def _lines(lines: Iterable[bytes]) -> bytes:
    return b"".join(line + b"\n" for line in lines)

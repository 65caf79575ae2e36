"""The bundle's format, and how one is written: a zip file of entries, photos, set-ups and devices for no network.

manifest.json names every other file with its SHA-256 and size, manifest.sha256 holds the manifest's own; the zip's
comment, `sha256=…`, covers every byte before it, so that a change anywhere shows, padding and headers included.
"""

import hashlib
import struct
import zipfile
from collections.abc import Iterable
from itertools import chain
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote

import msgspec

from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import ShuntbookError
from shuntbook.setup.defaults import RELEASE

FORMAT = "shuntbook-bundle"
VERSION = 1
MANIFEST = "manifest.json"
MANIFEST_HASH = "manifest.sha256"
ENTRIES = "entries.jsonl"
SET_ASIDE = "set_aside.jsonl"
DEVICES = "devices.json"
TRUSTED = "trusted.json"
PHOTOS = "photos/"
SETUP = "setup/"
PAPERS = "papers/"
SEAL = b"sha256="
END = b"PK\x05\x06"
END_BYTES = 22
"""Of the end of central directory record without its comment (PKWARE APPNOTE 4.3.16); the comment's length is last."""
EPOCH = (1980, 1, 1, 0, 0, 0)
"""The same content gives the same bytes: a zip file can't hold an earlier time than this."""
CHUNK = 1 << 20


class BadBundle(ShuntbookError):
    """A file that is no bundle, or a damaged one; nothing of it was taken. Its text says all that is damaged."""


class Member(msgspec.Struct, frozen=True):
    """One file of a bundle, as the manifest names it."""

    name: str
    sha256: str
    bytes: int


class Manifest(msgspec.Struct, frozen=True):
    """What a bundle holds. made_at: RFC 3339; log_id: of the log it came from, if any is known; entries: how many.

    defaults: the release whose car map and check lists hold where a set-up brings none; release 0.1 did not say.
    """

    format: str
    v: int
    made_at: str
    log_id: str | None
    entries: int
    files: list[Member]
    defaults: str = ""


class Head(NamedTuple):
    """What the manifest says beside its list of files."""

    made_at: str
    log_id: str | None
    entries: int


def write_bundle(path: Path, head: Head, *files: Iterable[tuple[str, bytes]]) -> list[Member]:
    """Write a new file with these files in it and return what the manifest says of them.

    Photos are stored as they are, the rest is deflated. Errors: OSError.
    """
    path.touch(mode=0o600, exist_ok=False)
    members = []
    with zipfile.ZipFile(path, "w") as packed:
        for name, data in chain(*files):
            members.append(Member(name, sha256(data), len(data)))
            _add(packed, name, data)
        manifest = msgspec.json.encode(Manifest(FORMAT, VERSION, *head, members, RELEASE))
        _add(packed, MANIFEST, manifest)
        _add(packed, MANIFEST_HASH, sha256(manifest).encode())
    _seal(path)
    return members


def setup_name(event: str, file: str) -> str:
    """Return the name of a set-up's file in a bundle; an event's name may hold any character."""
    return f"{SETUP}{quote(event, safe='')}/{file}"


def paper_name(entry: str, paper: str) -> str:
    """Return the name of a paper that went out in a bundle."""
    return f"{PAPERS}{entry}.{paper}.pdf"


def sealed_digest(path: Path) -> str:
    """Return the SHA-256 of a sealed bundle's bytes before the length of its comment."""
    length = path.stat().st_size - len(SEAL) - 64 - 2
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while length > 0 and (chunk := file.read(min(CHUNK, length))):
            digest.update(chunk)
            length -= len(chunk)
    return digest.hexdigest()


def _add(packed: zipfile.ZipFile, name: str, data: bytes) -> None:
    entry = zipfile.ZipInfo(name, EPOCH)
    entry.external_attr = 0o600 << 16
    entry.compress_type = zipfile.ZIP_STORED if name.startswith(PHOTOS) else zipfile.ZIP_DEFLATED
    packed.writestr(entry, data)


def _seal(path: Path) -> None:
    comment_bytes = len(SEAL) + 64
    with path.open("r+b") as file:
        file.seek(-2, 2)
        file.write(struct.pack("<H", comment_bytes) + SEAL + b"0" * 64)
    digest = sealed_digest(path)
    with path.open("r+b") as file:
        file.seek(-64, 2)
        file.write(digest.encode())

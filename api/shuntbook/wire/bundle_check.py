"""Reads a bundle and believes nothing of it: names, sizes and hashes are checked before a byte of it is used.

Nothing is ever unpacked to a path that a bundle names; what is read stays below limits that no bundle can move.
"""

import hashlib
import re
import stat
import zipfile
import zlib
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from types import TracebackType
from typing import Self
from urllib.parse import quote, unquote

import msgspec

from shuntbook.kit.canonical import sha256
from shuntbook.report.photo import MAX_BYTES
from shuntbook.wire.bundle_file import (
    CHUNK,
    DEVICES,
    END,
    END_BYTES,
    ENTRIES,
    FORMAT,
    MANIFEST,
    MANIFEST_HASH,
    PAPERS,
    PHOTOS,
    SEAL,
    SET_ASIDE,
    SETUP,
    TRUSTED,
    VERSION,
    BadBundle,
    Manifest,
    Member,
    sealed_digest,
)

MOST_FILES = 20_000
MOST_BYTES = 4 << 30
"""Of all files together, unpacked."""
MOST_LISTED = 256 << 20
"""Of a file of entries, devices or a manifest."""
MOST_SETUP = 4 << 20
MOST_RATIO = 200
"""JSON of entries packs to a tenth; a bomb of zeros to a thousandth."""
SMALL = 64 << 10
"""What is no larger is no bomb, whatever it was packed to."""
LISTED = (MANIFEST, MANIFEST_HASH, ENTRIES, SET_ASIDE, DEVICES, TRUSTED)
PHOTO = re.compile(re.escape(PHOTOS) + "([0-9a-f]{64})")
PAPER = re.compile(re.escape(PAPERS) + r"([0-9a-f-]{36})\.(a4|letter)\.pdf")
SETUP_FILE = re.compile(re.escape(SETUP) + r"(?!\.+/)([A-Za-z0-9_.~%-]+)/((?:rates/)?[A-Za-z0-9_-]+\.(?:toml|csv))")
DAMAGE = (zipfile.BadZipFile, zlib.error, EOFError, KeyError, RuntimeError, NotImplementedError, OSError, ValueError)
"""What zipfile and zlib raise on a file that was cut, changed, locked with a password or packed in another way."""
ADVICE = "Nothing of it was taken. Copy or make the file again"


class Bundle:
    """An open bundle, checked whole. Errors of opening one: BadBundle, with all that is damaged."""

    def __init__(self, path: Path) -> None:
        if not path.is_file():
            raise BadBundle(f"{path} is no file; name a bundle that `shuntbook bundle export` or the app made")
        self._path = path
        try:
            _check_seal(path)
            self._zip = zipfile.ZipFile(path)
        except DAMAGE as error:
            raise self.damaged([str(error)]) from error
        try:
            self._infos = self._check_directory()
            self.manifest = self._check_manifest()
            self._check_files()
        except BaseException:
            self._zip.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._zip.close()

    def read(self, name: str) -> bytes:
        """Return a file's bytes, empty for one that is not there. Errors: BadBundle where it changed since."""
        if name not in self._infos:
            return b""
        data = self._packed(name)
        if name in self._said and sha256(data) != self._said[name].sha256:
            raise self.damaged([f"{name}: changed while it was read"])
        return data

    def lines(self, name: str) -> list[bytes]:
        """Return a file's lines that are not blank."""
        return [line for line in (line.strip() for line in self.read(name).split(b"\n")) if line]

    def photos(self) -> Iterator[tuple[str, bytes]]:
        """Yield (SHA-256, bytes) of each photo."""
        for name in self._infos:
            if found := PHOTO.fullmatch(name):
                yield found[1], self.read(name)

    def papers(self) -> Iterator[tuple[str, str, bytes]]:
        """Yield (entry, paper, bytes) of each paper that went out."""
        for name in self._infos:
            if found := PAPER.fullmatch(name):
                yield found[1], found[2], self.read(name)

    def setups(self) -> dict[str, dict[str, bytes]]:
        """Return the set-ups' files by event."""
        found: dict[str, dict[str, bytes]] = {}
        for name in self._infos:
            if match := SETUP_FILE.fullmatch(name):
                found.setdefault(unquote(match[1]), {})[match[2]] = self.read(name)
        return found

    def damaged(self, what: list[str]) -> BadBundle:
        """Return the error that says what is wrong with this bundle."""
        return BadBundle("\n".join([f"{self._path} is damaged or no bundle:", *what, f"{ADVICE}."]))

    def _check_directory(self) -> dict[str, zipfile.ZipInfo]:
        infos = self._zip.infolist()
        if len(infos) > MOST_FILES:
            raise self.damaged([f"{len(infos)} files; at most {MOST_FILES} are taken"])
        counts = Counter(info.filename for info in infos)
        faults = [f"{name!r}: is in it {count} times" for name, count in counts.items() if count > 1]
        faults += [f"{info.filename!r}: {fault}" for info in infos for fault in _faults_of(info)]
        faults += _overlaps(infos)
        if sum(info.file_size for info in infos) > MOST_BYTES:
            faults.append(f"more than {MOST_BYTES} bytes in all")
        if faults:
            raise self.damaged(faults)
        return {info.filename: info for info in infos}

    def _check_manifest(self) -> Manifest:
        self._said: dict[str, Member] = {}
        missing = [f"{name}: is missing" for name in (MANIFEST, MANIFEST_HASH, ENTRIES) if name not in self._infos]
        if missing:
            raise self.damaged(missing)
        raw = self._packed(MANIFEST)
        if self._packed(MANIFEST_HASH).strip().decode(errors="replace") != sha256(raw):
            raise self.damaged([f"{MANIFEST}: its SHA-256 is not the one in {MANIFEST_HASH}"])
        try:
            manifest = msgspec.json.decode(raw, type=Manifest)
        except msgspec.DecodeError as error:
            raise self.damaged([f"{MANIFEST}: {error}"]) from error
        if (manifest.format, manifest.v) != (FORMAT, VERSION):
            raise BadBundle(f"{self._path} is {manifest.format} {manifest.v}; this program reads {FORMAT} {VERSION}")
        return manifest

    def _check_files(self) -> None:
        said = {member.name: member for member in self.manifest.files}
        here = set(self._infos) - {MANIFEST, MANIFEST_HASH}
        faults = [f"{name}: is in the manifest and missing" for name in sorted(set(said) - here)]
        faults += [f"{name}: is not in the manifest" for name in sorted(here - set(said))]
        if len(said) != len(self.manifest.files):
            faults.append(f"{MANIFEST}: names a file twice")
        for name in sorted(here & set(said)):
            try:
                size, digest = self._measured(name)
            except DAMAGE as error:
                faults.append(f"{name}: {error}")
                continue
            if (size, digest) != (said[name].bytes, said[name].sha256):
                faults.append(f"{name}: its SHA-256 is {digest}, the manifest says {said[name].sha256}")
        if faults:
            raise self.damaged(faults)
        self._said = said
        if (count := len(self.lines(ENTRIES))) != self.manifest.entries:
            raise self.damaged([f"{ENTRIES}: {count} entries, the manifest says {self.manifest.entries}"])

    def _measured(self, name: str) -> tuple[int, str]:
        digest, size = hashlib.sha256(), 0
        with self._zip.open(name) as file:
            while chunk := file.read(CHUNK):
                digest.update(chunk)
                size += len(chunk)
        return size, digest.hexdigest()

    def _packed(self, name: str) -> bytes:
        try:
            return self._zip.read(name)
        except DAMAGE as error:
            raise self.damaged([f"{name}: {error}"]) from error


def _check_seal(path: Path) -> None:
    comment_bytes = len(SEAL) + 64
    with path.open("rb") as file:
        file.seek(0, 2)
        size = file.tell()
        file.seek(max(0, size - END_BYTES - comment_bytes))
        tail = file.read()
    if tail[-END_BYTES:].startswith(END) and tail.endswith(b"\0\0"):
        return
    sealed = tail.startswith(END) and tail[END_BYTES - 2 :].startswith(comment_bytes.to_bytes(2, "little") + SEAL)
    if not sealed:
        raise ValueError("its end is missing or damaged")
    if sealed_digest(path).encode() != tail[-64:]:
        raise ValueError("its bytes are not those that were written; the SHA-256 of the whole does not fit")


def _faults_of(info: zipfile.ZipInfo) -> Iterator[str]:
    most = _most_bytes(info.filename)
    if most is None:
        yield "no file of a bundle has such a name"
    elif info.file_size > most:
        yield f"{info.file_size} bytes; at most {most} are taken"
    if info.file_size > SMALL and info.file_size > MOST_RATIO * info.compress_size:
        yield "unpacks to far more than it was packed to"
    if info.flag_bits & 0x1:
        yield "is locked with a password"
    if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        yield "is packed in a way that no bundle is"
    if stat.S_IFMT(info.external_attr >> 16) not in (0, stat.S_IFREG) or info.is_dir():
        yield "is a link or folder, not a file"


def _most_bytes(name: str) -> int | None:
    if name in LISTED:
        return MOST_LISTED
    if PHOTO.fullmatch(name) or PAPER.fullmatch(name):
        return MAX_BYTES
    match = SETUP_FILE.fullmatch(name)
    # One event has one name: `%2e%2E` and the like are no other way to write it.
    return MOST_SETUP if match and quote(unquote(match[1]), safe="") == match[1] else None


def _overlaps(infos: list[zipfile.ZipInfo]) -> list[str]:
    """Return the files that share bytes with the one before: a way to make little unpack to much."""
    end, found = 0, []
    for info in sorted(infos, key=lambda one: one.header_offset):
        if info.header_offset < end:
            found.append(f"{info.filename!r}: shares bytes with another file")
        # A local header has 30 bytes and the name, then what is packed (PKWARE APPNOTE 4.3.7).
        end = info.header_offset + 30 + len(info.filename.encode()) + info.compress_size
    return found

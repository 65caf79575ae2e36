"""Bundles for tests, put together with `zipfile` and `hashlib` alone, so that they can be wrong in any way."""

import hashlib
import io
import json
import zipfile
from pathlib import Path

from sample_event import event_files

Files = dict[str, bytes]


def digest_of(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def manifest_of(whole: Files, /, **changed: object) -> bytes:
    """Return the manifest of these files; `changed` puts values in place of its own."""
    listed = [{"name": name, "sha256": digest_of(data), "bytes": len(data)} for name, data in whole.items()]
    head = {"format": "shuntbook-bundle", "v": 1, "made_at": "2026-06-13T08:00:00Z", "log_id": None}
    count = len(whole.get("entries.jsonl", b"").splitlines())
    return json.dumps({**head, "entries": count, "files": listed, **changed}).encode()


def with_manifest(files: Files, /, **changed: object) -> Files:
    """Return the files with a manifest that fits them, and its hash."""
    manifest = manifest_of(files, **changed)
    return {**files, "manifest.json": manifest, "manifest.sha256": digest_of(manifest).encode()}


def packed(path: Path, files: Files) -> Path:
    """Write files into a plain zip, as any zip program would."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as file:
        for name, data in files.items():
            file.writestr(name, data)
    return path


def unpacked(path: Path) -> Files:
    """Return a zip's files by name."""
    with zipfile.ZipFile(io.BytesIO(path.read_bytes())) as file:
        return {name: file.read(name) for name in file.namelist()}


def lines(*entries: object) -> bytes:
    """Return entries as a bundle's file of them."""
    return b"".join(json.dumps(entry, ensure_ascii=False).encode() + b"\n" for entry in entries)


def event_toml(event: str, signatures: str) -> bytes:
    """Return the sample event's file under another name, with signatures demanded or not."""
    return event_files(signatures)["event.toml"].replace(b"thornquell-2026", event.encode())

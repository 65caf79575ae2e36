"""The sample event for tests, saying whether signatures are demanded: what pushes unsigned entries says "off"."""

import shutil
from pathlib import Path

from shuntbook.flow.load import setup_files
from shuntbook.serving import sample_folder

ENTRIES = len((sample_folder() / "entries.jsonl").read_bytes().splitlines())
"""How many entries the sample event's log holds."""


def with_trust(event: bytes, signatures: str) -> bytes:
    """Return an `event.toml` that says whether signatures are demanded, whatever it said before."""
    return event.split(b"[trust]")[0].rstrip() + f'\n\n[trust]\nsignatures = "{signatures}"\n'.encode()


def event_files(signatures: str) -> dict[str, bytes]:
    """Return the sample event's set-up files."""
    files = setup_files(sample_folder())
    return {**files, "event.toml": with_trust(files["event.toml"], signatures)}


def event_folder(folder: Path, signatures: str) -> Path:
    """Copy the sample event to a folder that is not there yet."""
    shutil.copytree(sample_folder(), folder)
    event = folder / "event.toml"
    event.write_bytes(with_trust(event.read_bytes(), signatures))
    return folder

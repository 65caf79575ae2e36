"""What release 0.1.0 left behind, frozen in tests/data/v0.1.0: data folder, bundle, event folder, app and server."""

import json
import tarfile
import zipfile
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent / "data" / "v0.1.0"


def said() -> dict[str, Any]:
    """Return what it said of its log: log_id, entries (count, digest), set_aside, queue, costs, statements."""
    found: dict[str, Any] = json.loads((FOLDER / "said.json").read_text())
    return found


def unzipped(name: str, folder: Path) -> Path:
    """Unpack `data`, `event` or `bundle` to a folder and return it."""
    with zipfile.ZipFile(FOLDER / f"{name}.zip") as packed:
        packed.extractall(folder)
    return folder


def app(folder: Path) -> Path:
    """Unpack the built app and return the folder of its page."""
    return _unpacked("app", folder)


def server(folder: Path) -> Path:
    """Unpack the server's package and return the folder to import it from; it runs with the libraries of today."""
    return _unpacked("server", folder)


def _unpacked(name: str, folder: Path) -> Path:
    with tarfile.open(FOLDER / f"{name}.tar.xz") as packed:
        packed.extractall(folder, filter="data")
    return folder / name

"""What release 0.1.0 left behind, frozen in tests/data/v0.1.0: a data folder, a bundle, an event folder, its app."""

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
    with tarfile.open(FOLDER / "app.tar.xz") as packed:
        packed.extractall(folder, filter="data")
    return folder / "app"

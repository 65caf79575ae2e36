"""What is in a data folder is for its owner alone: names, money, photos of people's cars, tokens' hashes.

Windows keeps a user's own folder from others by itself; modes mean nothing there.
"""

import os
from collections.abc import Iterator
from pathlib import Path

FOLDER, FILE = 0o700, 0o600
_OTHERS = 0o077


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it, if it is not there. Errors: OSError."""
    folder.mkdir(mode=FOLDER, parents=True, exist_ok=True)


def make_file(file: Path) -> None:
    """Make an empty file if it is not there, before anybody writes to it. Errors: OSError."""
    if not file.exists():
        file.touch(mode=FILE)


def tighten(folder: Path, own: tuple[str, ...]) -> tuple[int, list[Path]]:
    """Close a folder, and those of its files and folders named `own`, to others; links lead elsewhere and stay.

    Return how many were open, and which could not be closed: some disks know no owners.
    """
    closed, stayed = 0, []
    for path in _ours(folder, own) if os.name == "posix" else ():
        try:
            if path.is_symlink() or not (mode := path.stat().st_mode) & _OTHERS:
                continue
            path.chmod(mode & ~_OTHERS & 0o777)
            # A disk without owners may take the word and keep its own.
            if path.stat().st_mode & _OTHERS:
                stayed.append(path)
            else:
                closed += 1
        except FileNotFoundError:  # WAL and SHM come and go
            continue
        except OSError:
            stayed.append(path)
    return closed, stayed


def _ours(folder: Path, own: tuple[str, ...]) -> Iterator[Path]:
    yield folder
    for name in own:
        yield folder / name
        for root, folders, files in os.walk(folder / name):
            yield from (Path(root, one) for one in (*folders, *files))

"""One server to a data folder: two would each tell its own phones alone what is new, and neither would know.

The lock is the operating system's. It ends with the processes that hold it, however they end, and a worker that is
forked off holds it with its parent: nothing has to be cleaned up after a kill.
"""

import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

import psutil

from shuntbook.kit.errors import NotAllowed, StoreUnavailable
from shuntbook.store.permissions import make_file, make_folder

FILE = "serving.lock"
PATIENCE_S = 10.0
"""How long to wait for the worker of a server that was killed: it sees its parent gone and ends by itself."""
GRACE_S = 2.0
"""How long to wait for a server that still runs: one that was told to die a moment ago does, too."""
_BYTE = 1 << 30
"""The byte that is locked where locks are of bytes (Windows): far behind those that say who holds it."""


@contextmanager
def alone(folder: Path, where: str) -> Iterator[None]:
    """Hold a data folder, made if need be, for the length of the block; `where` tells others at what address.

    Errors: NotAllowed where another process serves it; StoreUnavailable where nothing can be written to it.
    """
    try:
        held = _held(folder, where)
    except OSError as error:
        raise StoreUnavailable(f"{folder}: {error}. Nothing was stored; free the disk or the folder") from error
    with held:
        yield


def _held(folder: Path, where: str) -> IO[str]:
    make_folder(folder)
    make_file(folder / FILE)
    file = (folder / FILE).open("r+")
    try:
        _take(file, folder)
        file.seek(0)
        file.truncate()
        file.write(f"{os.getpid()} {where}")
        file.flush()
    except BaseException:
        file.close()
        raise
    return file


def _take(file: IO[str], folder: Path) -> None:
    began = time.monotonic()
    while not _locked(file):
        file.seek(0)
        process, _, where = file.read().partition(" ")
        patience_s = GRACE_S if process.isdecimal() and _lives(int(process)) else PATIENCE_S
        if time.monotonic() - began > patience_s:
            raise NotAllowed(
                f"{folder} is served already, by process {process or 'unknown'} at {where or 'an unknown address'}."
                " Stop that one first, or name another folder with --data"
            )
        time.sleep(0.05)


def _lives(process: int) -> bool:
    """Return whether a process runs; one that was killed and not yet heard of by who started it does not."""
    try:
        return bool(psutil.Process(process).status() != psutil.STATUS_ZOMBIE)
    except psutil.NoSuchProcess:
        return False


if sys.platform == "win32":
    import msvcrt

    def _locked(file: IO[str]) -> bool:
        file.seek(_BYTE)
        try:
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def _locked(file: IO[str]) -> bool:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

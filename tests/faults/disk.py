"""Disks in trouble, for real: full, locked by another process, read-only.

What needs a right that the machine does not give is brought about another way that is as real: where no small file
system can be mounted, the kernel's own limit on the size of files (EFBIG) stands in for a full one (ENOSPC).
"""

import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, suppress
from pathlib import Path

import psutil

from shuntbook.store.database import FILE

Trouble = Callable[[], AbstractContextManager[None]]


@contextmanager
def small_disk(folder: Path, mib: int) -> Iterator[bool]:
    """Mount a file system of so many MiB at a folder; gives whether the machine allows it."""
    folder.mkdir(parents=True, exist_ok=True)
    mount = shutil.which("mount")
    command = [mount or "false", "-t", "tmpfs", "-o", f"size={mib}m", "tmpfs", str(folder)]
    mounted = subprocess.run(command, capture_output=True, check=False).returncode == 0
    try:
        yield mounted
    finally:
        if mounted:
            subprocess.run(["umount", "-l", str(folder)], check=True)


@contextmanager
def filled(folder: Path) -> Iterator[None]:
    """Fill the small file system mounted at a folder to its last byte; does nothing where none is."""
    filler = folder / "filler"
    if os.path.ismount(folder):
        with filler.open("wb", buffering=0) as file, suppress(OSError):  # until the last block
            while file.write(bytes(4096)):
                pass
    try:
        yield
    finally:
        filler.unlink(missing_ok=True)


@contextmanager
def filled_but(folder: Path, room: int) -> Iterator[None]:
    """Fill the small file system mounted at a folder but for so many bytes; does nothing where none is."""
    with filled(folder):
        filler = folder / "filler"
        if filler.exists():
            os.truncate(filler, max(0, filler.stat().st_size - room))
        yield


@contextmanager
def no_larger_files(process: psutil.Process, most_bytes: int) -> Iterator[None]:
    """Let a running process write no byte of any file beyond an offset."""
    _, hard = process.rlimit(resource.RLIMIT_FSIZE)
    process.rlimit(resource.RLIMIT_FSIZE, (most_bytes, hard))
    try:
        yield
    finally:
        process.rlimit(resource.RLIMIT_FSIZE, (hard, hard))


LOCK = """
import sqlite3, sys
db = sqlite3.connect(sys.argv[1], isolation_level=None)
db.execute("BEGIN IMMEDIATE")
print("locked", flush=True)
sys.stdin.read()
db.execute("ROLLBACK")
"""


@contextmanager
def locked(data: Path) -> Iterator[None]:
    """Have another process hold the store's write lock."""
    command = [sys.executable, "-c", LOCK, str(data / FILE)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
        assert process.stdin
        assert process.stdout
        assert process.stdout.readline() == b"locked\n"
        try:
            yield
        finally:
            process.stdin.close()


BOUND_BY_MODES = """
import ctypes, os, sys
for right in (1, 2):  # CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH (linux/capability.h)
    ctypes.CDLL(None).prctl(24, right, 0, 0, 0)  # PR_CAPBSET_DROP; fails, and is not needed, for who is not root
os.execv(sys.argv[1], sys.argv[1:])
"""
"""Starts a command that file modes bind, as they bind everybody but root."""


def bound_by_modes(command: list[str]) -> list[str]:
    return [sys.executable, "-c", BOUND_BY_MODES, *command]


@contextmanager
def read_only(data: Path) -> Iterator[None]:
    """Take the right to write from all in a folder, and from the folder."""
    found = [data, *data.rglob("*")]
    modes = {path: path.stat().st_mode for path in found}
    for path, mode in modes.items():
        path.chmod(mode & ~0o222)
    try:
        yield
    finally:
        for path, mode in modes.items():
            if path.exists():
                path.chmod(mode)


def room_left(folder: Path) -> int:
    """Return the bytes that are free where a folder lies."""
    found = os.statvfs(folder)
    return found.f_bavail * found.f_frsize

"""What the C library keeps of the memory: few heaps, and nothing for good that is free. Only glibc keeps anything."""

import platform
import subprocess
import sys

import pytest

IS_GLIBC = platform.libc_ver()[0] == "glibc"
THREADS = """
import ctypes, os, sys, threading
from shuntbook.kit.heap import give_back, share
if sys.argv[1] == "shared":
    share()
barrier = threading.Barrier(12)
def hold():
    held = [bytearray(600) for _ in range(2000)]
    barrier.wait()
threads = [threading.Thread(target=hold) for _ in range(12)]
[one.start() for one in threads]
[one.join() for one in threads]
"""
HEAPS = """
libc = ctypes.CDLL(None)
libc.fdopen.restype = ctypes.c_void_p
file = libc.fdopen(1, b"w")
libc.malloc_info(0, ctypes.c_void_p(file))
libc.fflush(ctypes.c_void_p(file))
"""
FREED = """
def resident():
    return int(open("/proc/self/statm").read().split()[1]) * os.sysconf("SC_PAGE_SIZE")
held = [bytearray(2000) for _ in range(50_000)]
last = bytearray(2000)
full = resident()
del held
give_back()
print((full - resident()) // 2**20)
"""


def said(*parts: str, how: str = "shared") -> str:
    """Run parts of a program in a process of its own; return what it says."""
    command = [sys.executable, "-c", "".join(parts), how]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


@pytest.mark.parametrize(("how", "most"), [("shared", 2), ("each", 1000)])
def test_threads_share_two_heaps_where_they_are_told_to(how: str, most: int):
    heaps = said(THREADS, HEAPS, how=how).count("<heap nr=") if IS_GLIBC else 1
    assert 1 <= heaps <= most
    assert how == "shared" or heaps > 2 or not IS_GLIBC


def test_what_is_free_is_given_back():
    # Of 100 MiB in pieces too small to be given back one by one.
    assert int(said(THREADS, FREED)) > (50 if IS_GLIBC else -1)

"""The memory that the C library keeps for later, of which glibc alone wants to be told anything."""

import ctypes
import sys
from contextlib import suppress

ARENAS = 2
M_ARENA_MAX = -8
"""Its number in glibc's malloc.h."""


def give_back() -> None:
    """Have it give the machine back what is free (malloc_trim(3)).

    A record of 200 photos left 250 MB of the heap behind that nobody used.
    """
    if sys.platform == "linux":
        with suppress(AttributeError):  # another C library
            ctypes.CDLL(None).malloc_trim(0)


def share() -> None:
    """Have threads that come from now on share two heaps (mallopt(3), M_ARENA_MAX).

    By itself it gives threads up to eight heaps a processor, each of which keeps what it once needed; threads that
    mostly wait for Python gain nothing by that.
    """
    if sys.platform == "linux":
        with suppress(AttributeError):
            ctypes.CDLL(None).mallopt(M_ARENA_MAX, ARENAS)

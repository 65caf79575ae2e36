"""Lets Python's search for garbage in cycles wait while much is made at once."""

import gc
import threading
from collections.abc import Iterator
from contextlib import contextmanager

MUCH = 100_000
"""Objects that a block leaves, more than which are not searched at once."""
_ONE = threading.Lock()


@contextmanager
def collecting_later() -> Iterator[None]:
    """Have nothing searched for cycles during the block, unless somebody else has that already.

    The search is begun by how much was made since the last, and goes through all that a process holds: with a season's
    entries kept, up to half of the time that reading a log takes went into it. What is in no cycle is let go of at
    once as ever; one block at a time, so that the search comes to its turn between them.
    """
    if not gc.isenabled() or not _ONE.acquire(blocking=False):
        yield
        return
    gc.disable()
    try:
        yield
    finally:
        if gc.get_count()[0] > MUCH:
            # What is left is made old as it is: else the next search would go through all that the block made.
            gc.freeze()
            gc.unfreeze()
        gc.enable()
        _ONE.release()

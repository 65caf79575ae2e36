"""Tells the open streams when the process is to stop, so that it need not wait for them; ends it with its parent."""

import multiprocessing
import os
import signal
import socket
import threading
import time
from collections.abc import Callable, Sequence
from multiprocessing.connection import wait

STOPS_IN_S = 3
STOPS = frozenset({signal.SIGTERM, signal.SIGINT})


def on_stop(*acts: Callable[[], None]) -> None:
    """Call `acts`, from a thread of its own, each time this process is told to stop. Main thread, once only.

    The signals belong to the event loop that runs already: Python writes each one's number to a file descriptor of the
    loop's. Ours is put before it, and what comes is passed on.
    """
    here, there = socket.socketpair()
    there.setblocking(False)
    loops = signal.set_wakeup_fd(there.fileno(), warn_on_full_buffer=False)
    # `there` goes with the thread so that it stays open.
    threading.Thread(target=_wait, args=(here, there, loops, acts), name="on-stop", daemon=True).start()


def end_with_parent() -> None:
    """Have this process told to stop when the one that started it is gone, however that ended.

    A worker whose parent was killed would go on serving on its own, and hold the port and the data folder.
    """
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_outlive, args=(parent.sentinel,), name="end-with-parent", daemon=True).start()


def _outlive(parent: int) -> None:
    wait([parent])
    os.kill(os.getpid(), signal.SIGTERM)
    # Nobody is left who would kill a worker that does not stop by itself.
    time.sleep(STOPS_IN_S)
    os._exit(1)


def _wait(here: socket.socket, _there: socket.socket, loops: int, acts: Sequence[Callable[[], None]]) -> None:
    while True:
        numbers = here.recv(64)
        if STOPS & set(numbers):
            for act in acts:
                act()
        if loops >= 0:
            os.write(loops, numbers)

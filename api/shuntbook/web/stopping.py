"""Tells the open streams when the process is to stop, so that it need not wait for them."""

import signal
import socket
import threading
from collections.abc import Callable, Sequence

STOPS = frozenset({signal.SIGTERM, signal.SIGINT})


def on_stop(*acts: Callable[[], None]) -> None:
    """Call `acts`, from a thread of its own, each time this process is told to stop. Main thread, once only.

    The server sets signal handlers of its own, after this, and would take the place of ours. Python writes each
    signal's number to a file descriptor beside calling the handler; that is what is listened to here.
    """
    here, there = socket.socketpair()
    there.setblocking(False)
    signal.set_wakeup_fd(there.fileno(), warn_on_full_buffer=False)
    # `there` goes with the thread so that it stays open.
    threading.Thread(target=_wait, args=(here, there, acts), name="on-stop", daemon=True).start()


def _wait(here: socket.socket, _there: socket.socket, acts: Sequence[Callable[[], None]]) -> None:
    while True:
        if STOPS & set(here.recv(64)):
            for act in acts:
                act()

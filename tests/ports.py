"""Ports for servers of tests, each this process's own until it ends: also while its server is down."""

import fcntl
import random
import socket
import tempfile
from pathlib import Path
from typing import TextIO

FIRST, LAST = 20_000, 32_000
"""Below what systems give to outgoing connections (Linux 32768, others 49152): one of these would take it by chance."""
_held: list[TextIO] = []


def free_port() -> int:
    """Return a port of 127.0.0.1 that nothing listens to, and that no other run of these tests is given."""
    folder = Path(tempfile.gettempdir()) / "shuntbook-test-ports"
    folder.mkdir(exist_ok=True)
    for port in random.sample(range(FIRST, LAST), LAST - FIRST):
        claim = (folder / str(port)).open("w")
        try:
            fcntl.flock(claim, fcntl.LOCK_EX | fcntl.LOCK_NB)
            with socket.socket() as probe:
                probe.bind(("127.0.0.1", port))
        except OSError:
            claim.close()
            continue
        _held.append(claim)
        return port
    raise AssertionError(f"no port from {FIRST} to {LAST} is free")

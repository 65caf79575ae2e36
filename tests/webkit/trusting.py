"""Puts a CA among those that this machine trusts, where WebKitGTK looks, and takes it out again whatever happens."""

import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

LOCAL = Path("/usr/local/share/ca-certificates")
"""Where Debian's update-ca-certificates(8) finds what a machine trusts beside the CAs that it came with."""
UPDATE = f"flock {LOCAL} update-ca-certificates"
"""One at a time: two would write into the same new list."""
LET_GO = f'cat; rm -f "$1"; find /etc/ssl/certs -xtype l -delete; {UPDATE}'
"""Wait until whoever holds the other end of the pipe lets go or dies, then take the certificate out."""
LONG_S = 120

Trust = Callable[[Path], AbstractContextManager[None]]


def cannot_trust() -> str | None:
    """Return why no CA can be put there, or None where it can."""
    if shutil.which("update-ca-certificates") is None:
        return "update-ca-certificates is not here (Debian: ca-certificates)"
    if not os.access(LOCAL, os.W_OK):
        return f"{LOCAL} can't be written (only root may)"
    return None


@contextmanager
def trusted(certificate: Path) -> Iterator[None]:
    """Let this machine trust a CA for as long as this lasts. Browsers that start meanwhile do."""
    copy = LOCAL / f"shuntbook-test-{os.getpid()}.crt"
    # In a session of its own, so that what kills this run leaves the one that cleans up.
    guard = subprocess.Popen(
        ["sh", "-c", LET_GO, "sh", str(copy)],
        stdin=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        shutil.copy(certificate, copy)
        subprocess.run(UPDATE.split(), check=True, timeout=LONG_S, capture_output=True)
        yield
    finally:
        guard.communicate(timeout=LONG_S)  # closes the pipe
    assert not copy.exists(), "the CA was taken out again"

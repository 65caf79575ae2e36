"""Runs the server process, and prepares the demo that it can serve."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from granian import Granian
from granian.constants import Interfaces

from shuntbook.config import VARIABLE
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.kit.errors import NotAllowed
from shuntbook.store import setups
from shuntbook.store.database import FILE, Store

HOST = "127.0.0.1"
PORT = 8017
URL = f"http://{HOST}:{PORT}"
SAMPLE = "thornquell-2026"
DEMO_ROLES = ("co-driver", "mechanic", "inspector", "manager")
# Each open event stream holds a thread for as long as a phone listens; one costs about 0.1 MiB.
THREADS = 64
KILL_AFTER_S = 3

join_link = joining.join_link


def serve(folder: Path, host: str, port: int) -> None:
    """Serve the data folder until the process is told to stop."""
    Store(folder)
    os.environ[VARIABLE] = str(folder)
    Granian(
        "shuntbook.app:from_environment",
        factory=True,
        interface=Interfaces.WSGI,
        address=host,
        port=port,
        # One process: the writer's lock and the live news live in it.
        workers=1,
        websockets=False,
        blocking_threads=THREADS,
        workers_kill_timeout=KILL_AFTER_S,
    ).serve()


@contextmanager
def demo_folder(given: Path | None) -> Iterator[Path]:
    """Give a fresh data folder with the sample event: a temporary one, or `given`, which must be new.

    Errors: NotAllowed where `given` holds data already; a demo never touches a team's own.
    """
    if given is not None and (given / FILE).exists():
        raise NotAllowed(f"{given} holds data already; name a new folder, or leave --data out for a temporary one")
    folder = given or Path(tempfile.mkdtemp(prefix="shuntbook-demo-"))
    try:
        load(Store(folder), sample_folder(), now())
        yield folder
    finally:
        if given is None:
            shutil.rmtree(folder, ignore_errors=True)


def demo_links(folder: Path, url: str) -> list[tuple[str, str]]:
    """Return a join link for one person of each role of the sample event."""
    store = Store(folder)
    people = setups.get(store.db, SAMPLE).event.people
    first = {role: next(p.person for p in people if p.roles[0] == role) for role in DEMO_ROLES}
    return [(role, join_link(url, joining.invite(store, person, now()))) for role, person in first.items()]


def sample_folder() -> Path:
    """Return where the sample event lies: in the installed package, else in the checkout."""
    packaged = Path(__file__).resolve().parent / "sample_reports" / SAMPLE
    return packaged if packaged.is_dir() else Path(__file__).resolve().parents[2] / "sample_reports" / SAMPLE

"""Runs the server process, and prepares what it serves: its certificate, the demo."""

import ipaddress
import os
import shutil
import socket
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from granian import Granian
from granian.constants import HTTPModes, Interfaces, RuntimeModes, SSLProtocols
from granian.http import HTTP2Settings
from granian.log import LogLevels

from shuntbook.config import HOST, PAUSE_VARIABLE, PORT, VARIABLE
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.demo import folder_of_now
from shuntbook.flow.load import take_folder
from shuntbook.flow.sample import SAMPLE
from shuntbook.flow.sample import sample_folder as sample_folder
from shuntbook.kit.errors import NotAllowed
from shuntbook.store import setups
from shuntbook.store.database import FILE, OWN, Store
from shuntbook.store.permissions import tighten
from shuntbook.store.single_server import FILE as LOCK
from shuntbook.store.single_server import alone
from shuntbook.tls import authority, leaf
from shuntbook.tls.page import files
from shuntbook.tls.ready import Ready, make_ready
from shuntbook.tls.trusting import trust_page
from shuntbook.web.limits import Limits
from shuntbook.web.logs import logging_config

EVERYWHERE = "0.0.0.0"  # noqa: S104  # with TLS only: phones must reach it
CA_OWN = (authority.FOLDER, leaf.FOLDER)
DEMO_OWNER = "p-vera"
DEMO_ROLES = ("co-driver", "mechanic", "inspector", "manager")
# A phone that drives out of reach says no goodbye: asked each so often, it is known to be gone within the sum of both.
ASKS_EACH_MS, ANSWERS_WITHIN_S = 15_000, 20
KILL_AFTER_S = 3


@dataclass(frozen=True)
class Listening:
    """Where the server listens, how much it writes down, and by which certificate it proves itself.

    level: debug, info, warning or error. ready: None is plain http.
    """

    host: str = HOST
    port: int = PORT
    level: str = "info"
    ready: Ready | None = None
    pause_s: float = Limits.pause_s

    @property
    def where(self) -> str:
        """Where this machine reaches it, for people who look for it."""
        return f"port {self.port} of {self.host}"


def is_loopback(host: str) -> bool:
    """Return whether only this machine reaches what listens there."""
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"


def refuse_in_the_open(host: str) -> None:
    """Refuse plain http beyond this machine. Errors: NotAllowed, with what to do."""
    if not is_loopback(host):
        raise NotAllowed(
            f"{host} is reached from other machines, and over plain http anybody on the network can read and change"
            " what phones send, and no phone works without signal. Use `shuntbook serve --tls`; or say --insecure"
            " where something else in front does the TLS"
        )


def serve(folder: Path, listening: Listening, announce: Callable[[], None]) -> None:
    """Serve the data folder until the process is told to stop.

    announce: told once all that can fail has not. Errors: NotAllowed where another process serves the folder, or the
    port can't be had.
    """
    with alone(folder, listening.where):
        _make_store(folder)
        _try_port(listening)
        announce()
        _run(folder, listening)


def _make_store(folder: Path) -> None:
    """Make the store, or bring an older one up to date, and let go of it: the worker is forked from this process.

    An open connection must not be carried over a fork (sqlite.org/howtocorrupt.html, section 2.6).
    """
    Store(folder).close()


def close_to_others(*folders: Path) -> list[str]:
    """Close what is ours in data folders and CA folders to other users of this machine; return what to say of it."""
    said = []
    for folder in folders:
        closed, stayed = tighten(folder, (*OWN, LOCK, *CA_OWN))
        if closed:
            said.append(f"{folder} was open to other users of this machine; it is closed now ({closed} changed).")
        if stayed:
            said.append(f"{stayed[0]} is open to other users of this machine and can't be closed to them.")
    return said


def _run(folder: Path, listening: Listening) -> None:
    os.environ[VARIABLE] = str(folder)
    os.environ[PAUSE_VARIABLE] = str(listening.pause_s)
    ready = listening.ready
    # No Strict-Transport-Security goes out: with an own CA it would lock a phone out of this name for good once the
    # CA is taken off it, and the same name may answer another port, another team or another season over http.
    Granian(
        "shuntbook.app:from_environment",
        factory=True,
        # Without lifespan events: the edge has nothing to do at the server's start, and its end is told by signals.
        interface=Interfaces.ASGINL,
        address=listening.host,
        port=listening.port,
        # HTTP/2 over TLS: over HTTP/1.1 a browser opens six connections at most, and seven open streams block the rest.
        http=HTTPModes.auto,
        http2_settings=HTTP2Settings(keep_alive_interval=ASKS_EACH_MS, keep_alive_timeout=ANSWERS_WITHIN_S),
        ssl_cert=ready.certificate if ready else None,
        ssl_key=ready.key if ready else None,
        ssl_protocol_min=SSLProtocols.tls12,
        # One process: the writer's lock and the live news live in it.
        workers=1,
        # One thread for the network, too: of several, one may let go of a Python object when Python has ended already,
        # and writes a panic between the lines of JSON (granian's issues 799 and 884).
        runtime_mode=RuntimeModes.st,
        websockets=False,
        workers_kill_timeout=KILL_AFTER_S,
        log_level=LogLevels(listening.level),
        log_dictconfig=logging_config(listening.level),
    ).serve()


def _try_port(listening: Listening) -> None:
    family = socket.AF_INET6 if ":" in listening.host else socket.AF_INET
    try:
        with socket.socket(family) as probe:
            # As the server will do: a port in the pause after its last use is free, one that is listened to is not.
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind((listening.host, listening.port))
    except OSError as error:
        where = f"port {listening.port} of {listening.host}"
        raise NotAllowed(f"{where} can't be had: {error}. Name another with --port, or stop what holds it") from error


@dataclass(frozen=True)
class Secured:
    """What HTTPS beside the server needs to be told: where the CA is kept, names that phones use, the page's port."""

    ca_folder: Path
    names: tuple[str, ...]
    page_port: int


def serve_tls(folder: Path, listening: Listening, secured: Secured, announce: Callable[[Ready], None]) -> None:
    """Serve over HTTPS, with the page beside it that explains how phones trust the CA.

    announce: told once all that can fail has not. Errors: as `serve`, and BadPair.
    """
    with alone(folder, listening.where):
        _make_store(folder)
        _try_port(listening)
        now_here = datetime.fromisoformat(now())
        ready = make_ready(secured.ca_folder, secured.names, listening.port, secured.page_port, now_here)
        # The page's thread does nothing but wait when the worker is forked off, so no lock is held then.
        with trust_page(listening.host, secured.page_port, files(ready.ca, ready.where)):
            announce(ready)
            _run(folder, replace(listening, ready=ready))


@contextmanager
def demo_folder(given: Path | None) -> Iterator[Path]:
    """Give a fresh data folder with the sample event of now: a temporary one, or `given`, which must be new.

    Errors: NotAllowed where `given` holds data already; a demo never touches a team's own.
    """
    if given is not None and (given / FILE).exists():
        raise NotAllowed(f"{given} holds data already; name a new folder, or leave --data out for a temporary one")
    folder = given or Path(tempfile.mkdtemp(prefix="shuntbook-demo-"))
    try:
        with closing(Store(folder)) as store:
            take_folder(store, folder_of_now(sample_folder(), now()), now())
            joining.name_owner(store, DEMO_OWNER, now())
        yield folder
    finally:
        if given is None:
            shutil.rmtree(folder, ignore_errors=True)


def demo_links(folder: Path, url: str) -> list[tuple[str, str]]:
    """Return a join link for one person of each role of the sample event."""
    with closing(Store(folder)) as store:
        people = setups.get(store.db, SAMPLE).event.people
        first = {role: next(p.person for p in people if p.roles[0] == role) for role in DEMO_ROLES}
        return [(role, joining.join_link(url, joining.invite(store, person, now()))) for role, person in first.items()]

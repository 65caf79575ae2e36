"""F31: requests that never end, over every protocol that the server speaks, without a token or with one."""

import shutil
import socket
import ssl
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import ExitStack, suppress
from pathlib import Path

import pytest

from ports import free_port
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.store.database import Store

from .invariants import check
from .siege import PATIENCE_S, Burden, Streams, Target, Watch, half_a_body, relieved, status_of
from .tally import count, is_long
from .yard import Process, Yard

PHOTO = f"/api/v1/photos/{'0a' * 32}"
LARGE = b"\xff" * 300_000
"""More than the server keeps in memory, and than it takes from anybody who has not joined."""

ADDRESSES = [f"127.0.0.{place}" for place in range(2, 6)]
"""Whoever lays siege comes from here, 50 calls from each: no more than one address may have."""

PAUSE_S = 10.0 if is_long() else 1.0
SILENT_S = 600.0 if is_long() else 3.0


class Secured(Process):
    """The server with HTTPS and a CA of its own."""

    def __init__(self, data: Path, folder: Path) -> None:
        super().__init__(data)
        self.ca = folder / "ca"
        self.more = ["--tls", "--host", "127.0.0.1", "--ca", str(self.ca), "--trust-port", str(free_port())]

    def wait(self) -> None:
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            with suppress(OSError), socket.create_connection(("127.0.0.1", self.port), 5):
                return
            time.sleep(0.05)
        raise AssertionError("the server did not come up")

    def trusts(self) -> ssl.SSLContext:
        made = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
        made.load_verify_locations(self.ca / "authority" / "certificate.pem")
        return made


class Besieged:
    """A server under siege: what it answers meanwhile, and what it is left with."""

    def __init__(self, process: Process, trusts: ssl.SSLContext | None) -> None:
        store = Store(process.data)
        token = joining.join(store, joining.invite(store, "p-toma", now()), None, now())[1]
        self.process, self.target = process, Target(process.port, token, trusts)
        assert self.target.call("GET", "/api/v1/health") == 200
        self.at_rest = Burden.of(process.worker()).with_lanes()

    def endure(self, what: str, times: int, lay: Callable[[ExitStack], object]) -> None:
        """Lay siege, then close all; the server answers all the while, and holds no more afterwards than before."""
        with Watch(self.target).watching() as watch, ExitStack() as held:
            lay(held)
        took_s = relieved(self.process.worker(), self.at_rest)
        slowest = max(watch.worst_s.values()) * 1000
        count("F31", what, tries=times, recovered_s=[took_s], note=f"{what}: slowest answer {slowest:.0f} ms")


@pytest.fixture(scope="module")
def yard(prepared: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Yard]:
    made = Yard(tmp_path_factory.mktemp("plain"), prepared)
    made.server.more = ["--body-pause", str(PAUSE_S)]
    made.server.start()
    yield made
    made.close()


@pytest.fixture(scope="module")
def plain(yard: Yard) -> Besieged:
    return Besieged(yard.server, None)


@pytest.fixture(scope="module")
def secured(prepared: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Besieged]:
    folder = tmp_path_factory.mktemp("secured")
    process = Secured(shutil.copytree(prepared, folder / "data"), folder)
    process.more += ["--body-pause", str(PAUSE_S)]
    process.start()
    yield Besieged(process, process.trusts())
    process.stop()


@pytest.fixture(params=["plain", "secured"])
def besieged(request: pytest.FixtureRequest) -> Besieged:
    """A server over plain http, and one over TLS."""
    made: Besieged = request.getfixturevalue(request.param)
    return made


def test_f31_two_hundred_bodies_without_a_token_never_end(besieged: Besieged) -> None:
    def lay(held: ExitStack) -> None:
        links = [held.enter_context(besieged.target.connect(ADDRESSES[place % 4])) for place in range(200)]
        for link in links:
            half_a_body(link)
        assert Counter(map(status_of, links)) == {408: 200}

    besieged.endure("200 unfinished bodies over HTTP/1.1", 200, lay)


def test_f31_two_hundred_bodies_from_one_address_give_way_to_new_ones(besieged: Besieged) -> None:
    def lay(held: ExitStack) -> None:
        links = [held.enter_context(besieged.target.connect()) for _ in range(200)]
        for link in links:
            half_a_body(link)
        statuses = Counter(map(status_of, links))
        # The watcher's own calls push some of the oldest out as well, and are whole before it would be their turn.
        assert set(statuses) == {408, 429}
        assert statuses[408] <= 64

    besieged.endure("200 of them from the address of a phone", 200, lay)


def test_f31_two_hundred_streams_on_one_connection_never_end(besieged: Besieged) -> None:
    def lay(held: ExitStack) -> None:
        streams = Streams(held.enter_context(besieged.target.connect(protocol="h2")))
        streams.half_send(200)
        streams.read_until(200)
        assert set(streams.statuses) <= {408, 429}

    besieged.endure("200 unfinished streams on one HTTP/2 connection", 200, lay)


def test_f31_uploads_are_cut_off_in_their_midst(besieged: Besieged) -> None:
    def lay(held: ExitStack) -> None:
        for _ in range(70):
            link = held.enter_context(besieged.target.connect(ADDRESSES[0]))
            half_a_body(link, LARGE, PHOTO, besieged.target.token)
        streams = Streams(held.enter_context(besieged.target.connect(protocol="h2")))
        streams.half_send(70, path=PHOTO, token=besieged.target.token)

    besieged.endure("70 cut uploads over each of HTTP/1.1 and HTTP/2", 140, lay)


def test_f31_nobody_who_has_not_joined_sends_much(besieged: Besieged) -> None:
    def lay(held: ExitStack) -> None:
        links = [held.enter_context(besieged.target.connect(ADDRESSES[0])) for _ in range(20)]
        for place, link in enumerate(links):
            half_a_body(link, LARGE, PHOTO, "" if place % 2 else "guessed")
        assert Counter(map(status_of, links)) == {401: 20}

    besieged.endure("20 large uploads without a token, or with one that is none", 20, lay)


def test_f31_connections_say_nothing(besieged: Besieged) -> None:
    def lay(held: ExitStack) -> None:
        for _ in range(64):
            held.enter_context(besieged.target.dial())
        time.sleep(SILENT_S)

    besieged.endure(f"64 connections silent for {SILENT_S:.0f} s", 64, lay)


def test_f31_a_phone_sends_its_reports_under_siege(yard: Yard) -> None:
    phone = yard.phone()
    with ExitStack() as held:
        for place in range(200):
            link = held.enter_context(socket.create_connection(("127.0.0.1", yard.server.port), PATIENCE_S))
            half_a_body(link, token=phone.identity.token if place % 2 else "")
        phone.report()
        yard.settle()
    check(yard, "F31", "reports sent meanwhile")

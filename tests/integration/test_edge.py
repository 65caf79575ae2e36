"""The edge by itself: what it reads, what it refuses and how that is said, what it holds."""

import asyncio
import json
import logging
import threading
from collections.abc import Callable, Coroutine
from dataclasses import replace
from typing import Any

import pytest
from flask import Flask
from process import DEADLINE_S

from loops import run_apart
from phone import NOW
from sample_event import ENTRIES
from shuntbook.flow import joining
from shuntbook.kit.errors import NotJoined
from shuntbook.store.database import Store
from shuntbook.web.asgi import Receive
from shuntbook.web.edge import LANES, Edge
from shuntbook.web.limits import LARGEST, UNKNOWN, USUAL, Limits, most_bytes

QUICK = Limits(pause_s=0.2, moment_s=0.05, drained_s=0.2)
PHOTO = f"/api/v1/photos/{'0a' * 32}"


class Asked:
    """One request to an edge: its parts come as `feed` gives them, and what is answered is kept."""

    def __init__(
        self, method: str, path: str, headers: dict[str, str] | None = None, sender: str = "192.0.2.1"
    ) -> None:
        raw = [(name.lower().encode(), value.encode()) for name, value in (headers or {}).items()]
        self.scope = {
            "type": "http", "method": method, "path": path, "query_string": b"", "headers": raw, "scheme": "http",
            "http_version": "1.1", "client": (sender, 1), "server": ("van", 80),
        }  # fmt: skip
        self.coming: asyncio.Queue[dict[str, Any]] = asyncio.Queue()
        self.receive: Receive = self.coming.get
        self.said: list[dict[str, Any]] = []

    def feed(self, body: bytes, more: bool = True) -> "Asked":
        self.coming.put_nowait({"type": "http.request", "body": body, "more_body": more})
        return self

    def leave(self) -> "Asked":
        self.coming.put_nowait({"type": "http.disconnect"})
        return self

    async def to(self, edge: Edge) -> "Asked":
        async def send(message: Any) -> None:
            self.said.append(message)

        await edge(self.scope, self.receive, send)
        return self

    @property
    def status(self) -> int:
        return int(self.said[0]["status"])

    @property
    def headers(self) -> dict[str, str]:
        return {name.decode(): value.decode() for name, value in self.said[0]["headers"]}

    @property
    def body(self) -> bytes:
        return b"".join(message["body"] for message in self.said[1:])

    @property
    def problem(self) -> dict[str, Any]:
        assert self.headers["content-type"] == "application/problem+json"
        assert self.headers["x-request-id"]
        assert self.headers["cache-control"] == "no-store"
        found: dict[str, Any] = json.loads(self.body)
        assert found["status"] == self.status
        return found


@pytest.fixture
def make_edge(app: Flask, sample_store: Store) -> Callable[..., Edge]:
    """Makes an edge over the sample event; who has no `Bearer known` has not joined."""

    def admit(authorization: str) -> None:
        if authorization != "Bearer known":
            raise NotJoined("the token is not known here")

    return lambda limits=QUICK: Edge(app, app.extensions["shuntbook.news"], admit, limits)


def run(work: Coroutine[Any, Any, Asked]) -> Asked:
    return run_apart(work)


def joined(store: Store) -> dict[str, str]:
    token = joining.join(store, joining.invite(store, "p-toma", NOW), None, NOW)[1]
    return {"Authorization": f"Bearer {token}"}


def test_a_body_in_parts_without_a_length_reaches_the_app_whole(make_edge, sample_store):
    asked = Asked("POST", "/api/v1/sync", {**joined(sample_store), "Transfer-Encoding": "chunked"})
    answer = run(asked.feed(b'{"entries": [], ').feed(b'"cursor": 0}', more=False).to(make_edge()))
    assert answer.status == 200
    assert json.loads(answer.body)["cursor"] == ENTRIES


def test_a_body_that_stops_coming_is_a_408_with_a_line_in_the_log(make_edge, caplog):
    with caplog.at_level(logging.INFO, "shuntbook.request"):
        answer = run(Asked("POST", "/api/v1/sync", {"Content-Length": "100"}).feed(b"{").to(make_edge()))
    assert answer.problem["type"].endswith("/request-timeout")
    assert "Send it again" in answer.problem["detail"]
    fields = caplog.records[-1].fields
    assert (fields["path"], fields["status"]) == ("/api/v1/sync", 408)
    assert fields["ms"] >= 1000 * QUICK.pause_s, "the wait for the body counts"


def test_a_body_that_comes_a_byte_at_a_time_is_a_408_although_it_never_stops(make_edge):
    asked = Asked("POST", "/api/v1/sync", {"Content-Length": "1000"})

    async def trickle() -> Asked:
        answer = asyncio.ensure_future(asked.to(make_edge()))
        # Ten times longer than it may take; then it ends, and reaches the app.
        for _ in range(300):
            if answer.done():
                break
            asked.feed(b" ")
            await asyncio.sleep(QUICK.pause_s / 10)
        asked.feed(b"", more=False)
        return await answer

    assert run(trickle()).status == 408


def test_a_slow_body_has_the_longer_the_more_of_it_has_come():
    assert Limits().due_s(0) == 30
    assert Limits().due_s(300 * 1024) == 30 + 75


@pytest.mark.parametrize(
    ("path", "most"),
    [
        ("/api/v1/join", 16 * 1024),
        ("/api/v1/sync", LARGEST),
        (PHOTO, LARGEST),
        ("/api/v1/rates", LARGEST),
        ("/api/v1/events/thornquell-2026", LARGEST),
        ("/api/v1/events/thornquell-2026/files/check", LARGEST),
        ("/api/v1/events/thornquell-2026/cars/41/plan", USUAL),
        ("/api/v1/invites", USUAL),
    ],
)
def test_each_call_has_a_most_of_bytes_announced_or_not(make_edge, path, most):
    assert most_bytes(path) == most
    known = {"Authorization": "Bearer known"}
    announced = run(Asked("POST", path, {**known, "Content-Length": str(most + 1)}).to(make_edge()))
    assert announced.problem["type"].endswith("/request-entity-too-large")
    assert str(most) in announced.problem["detail"]
    unannounced = Asked("POST", path, {**known, "Transfer-Encoding": "chunked"}).feed(b" " * most).feed(b" ")
    assert run(unannounced.to(make_edge())).status == 413


@pytest.mark.parametrize("headers", [{}, {"Authorization": "Bearer guessed"}])
def test_who_has_not_joined_sends_no_large_body(make_edge, headers):
    announced = run(Asked("PUT", PHOTO, {**headers, "Content-Length": str(UNKNOWN + 1)}).to(make_edge()))
    assert announced.problem["type"].endswith("/not-joined")
    assert announced.headers["www-authenticate"] == "Bearer"
    unannounced = Asked("PUT", PHOTO, {**headers, "Transfer-Encoding": "chunked"}).feed(b" " * (UNKNOWN + 1))
    assert run(unannounced.to(make_edge())).status == 401


def test_the_rest_of_a_refused_body_still_comes_for_a_while_so_that_its_sender_reads_why(make_edge):
    async def send_on(limits: Limits) -> tuple[Asked, int]:
        asked = Asked("PUT", PHOTO, {"Content-Length": str(UNKNOWN + 1)})
        under_way = asyncio.ensure_future(asked.to(make_edge(limits)))
        while not asked.said or asked.said[-1].get("more_body", True):
            await asyncio.sleep(0)
        asked.feed(b" " * UNKNOWN).feed(b" ", more=False).feed(b"the next request's")
        await under_way
        return asked, asked.coming.qsize()

    asked, left = run_apart(send_on(replace(QUICK, drained_s=DEADLINE_S)))
    assert (asked.status, left) == (401, 1)


def test_a_refused_body_that_never_ends_is_left_in_the_end(make_edge):
    async def endless() -> dict[str, Any]:
        await asyncio.sleep(0)
        return {"type": "http.request", "body": b" ", "more_body": True}

    asked = Asked("PUT", PHOTO, {"Content-Length": str(UNKNOWN + 1)})
    asked.receive = endless
    assert run(asked.to(make_edge())).status == 401


@pytest.mark.parametrize(("path", "times"), [("/", 1), ("/api/v1/health", 0)])
def test_memory_is_given_back_once_for_all_that_came_shortly_one_after_the_other(make_edge, monkeypatch, path, times):
    given, later = threading.Semaphore(0), list[Callable[[], None]]()
    monkeypatch.setattr("shuntbook.web.edge.give_back", given.release)

    async def asked() -> tuple[int, int]:
        monkeypatch.setattr(asyncio.get_running_loop(), "call_later", lambda _, call: later.append(call))
        edge = make_edge()
        for _ in range(3):
            await Asked("GET", path).to(edge)
        at_first = len(later)
        for call in later:
            call()
            assert given.acquire(timeout=DEADLINE_S)
        await Asked("GET", path).to(edge)
        return at_first, len(later)

    assert run_apart(asked()) == (times, 2 * times)


def test_one_address_has_so_many_bodies_and_the_oldest_gives_way(make_edge):
    limits = replace(QUICK, pause_s=30, per_address=2)

    async def crowd() -> list[int]:
        edge = make_edge(limits)
        asked = [Asked("POST", "/api/v1/sync", {"Content-Length": "9"}) for _ in range(3)]
        other = Asked("POST", "/api/v1/sync", {"Content-Length": "9"}, sender="192.0.2.2")
        under_way = [asyncio.ensure_future(one.feed(b"{").to(edge)) for one in (*asked, other)]
        oldest = await under_way[0]
        assert "retry-after" in oldest.headers
        for one in (*asked[1:], other):
            one.feed(b"", more=False)
        return [one.status for one in await asyncio.gather(*under_way)]

    # Half an object is no JSON: those that came whole reached the app, which first asks who calls.
    assert run_apart(crowd()) == [429, 401, 401, 401]


def test_a_call_that_comes_in_two_packets_outlasts_a_flood_from_its_own_address(make_edge):
    limits = replace(QUICK, pause_s=30, moment_s=DEADLINE_S, per_address=2)

    async def crowd() -> int:
        edge = make_edge(limits)
        asked = [Asked("POST", "/api/v1/sync", {"Content-Length": "9"}) for _ in range(20)]
        under_way = [asyncio.ensure_future(one.feed(b"{").to(edge)) for one in asked]
        done, _ = await asyncio.wait(under_way, timeout=QUICK.pause_s)
        assert done == set(), "none is pushed out by those that came within the same moment"
        oldest = asked[0].feed(b"", more=False)
        await under_way[0]
        for one in under_way:
            one.cancel()
        await asyncio.gather(*under_way, return_exceptions=True)
        return oldest.status

    assert run_apart(crowd()) == 401, "whole, so that the app asks who calls"


def test_a_body_is_given_up_while_it_is_asked_whether_its_sender_has_joined(make_edge):
    begun, over = threading.Event(), threading.Event()

    async def crowd() -> list[int]:
        edge = make_edge(replace(QUICK, pause_s=30, per_address=1))
        admit = edge._admit

        def slowly(authorization: str) -> object:
            begun.set()
            assert over.wait(DEADLINE_S)
            return admit(authorization)

        edge._admit = slowly
        known = {"Authorization": "Bearer known", "Transfer-Encoding": "chunked"}
        large = Asked("PUT", PHOTO, known).feed(b" " * (UNKNOWN + 1))
        small = Asked("POST", "/api/v1/sync", {"Content-Length": "2"}).feed(b"{}", more=False)
        first = asyncio.ensure_future(large.to(edge))
        assert await asyncio.to_thread(begun.wait, DEADLINE_S)
        second = asyncio.ensure_future(small.to(edge))
        await asyncio.sleep(2 * QUICK.moment_s)
        over.set()
        return [one.status for one in await asyncio.gather(first, second)]

    assert run_apart(crowd()) == [429, 401]


def test_all_bodies_together_are_bounded_in_number_and_bytes(make_edge):
    async def crowd(limits: Limits) -> list[int]:
        edge = make_edge(limits)
        asked = [Asked("POST", "/api/v1/sync", {"Content-Length": "90"}, f"192.0.2.{place}") for place in range(3)]
        return [one.status for one in await asyncio.gather(*(one.feed(b" " * 40).to(edge) for one in asked))]

    assert sorted(run_apart(crowd(replace(QUICK, in_all=2)))) == [408, 408, 503]
    assert sorted(run_apart(crowd(replace(QUICK, held=100)))) == [408, 408, 503]


def test_who_leaves_in_the_middle_leaves_nothing_and_is_not_answered(make_edge):
    edge = make_edge(replace(QUICK, held=100))
    for _ in range(5):
        assert run(Asked("POST", "/api/v1/sync", {"Content-Length": "90"}).feed(b" " * 60).leave().to(edge)).said == []
    again = run(Asked("POST", "/api/v1/sync", {"Content-Length": "90"}).feed(b" " * 90, more=False).to(edge))
    assert again.status == 401, "there is room again"


def test_a_long_answer_comes_in_portions_and_is_whole(make_edge, made_app, monkeypatch):
    def dribble() -> Any:
        yield from (bytes([place % 251]) * 50_000 for place in range(40))

    monkeypatch.setitem(made_app.view_functions, "pages.index", lambda: made_app.response_class(dribble()))
    answer = run(Asked("GET", "/").to(make_edge()))
    assert answer.body == b"".join(bytes([place % 251]) * 50_000 for place in range(40))
    assert len(answer.said) > 4
    assert max(len(message["body"]) for message in answer.said[1:]) < 320_000
    assert [message["more_body"] for message in answer.said[1:]] == [True] * (len(answer.said) - 2) + [False]


def test_health_and_sync_are_answered_while_all_else_waits(make_edge, made_app, sample_store, monkeypatch):
    over = threading.Event()

    def works_long() -> str:
        assert over.wait(DEADLINE_S)
        return "done"

    monkeypatch.setitem(made_app.view_functions, "pages.index", works_long)

    async def crowd() -> list[int]:
        edge = make_edge()
        waiting = [asyncio.ensure_future(Asked("GET", "/").to(edge)) for _ in range(LANES["others"] + 10)]
        health = await Asked("GET", "/api/v1/health").to(edge)
        synced = Asked("POST", "/api/v1/sync", {**joined(sample_store), "Content-Length": "2"}).feed(b"{}", more=False)
        assert not any(one.done() for one in waiting)
        statuses = [health.status, (await synced.to(edge)).status]
        over.set()
        return [*statuses, *{one.status for one in await asyncio.gather(*waiting)}]

    try:
        assert run_apart(crowd()) == [200, 200, 200]
    finally:
        over.set()

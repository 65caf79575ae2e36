"""News over a real server: /live says that something changed, never what; real threads, real sockets."""

import asyncio
import http.client
import itertools
import json
import re
import threading
import urllib.error
import urllib.request
from collections.abc import AsyncGenerator, Coroutine
from contextlib import aclosing
from typing import Any

import pytest
from process import DEADLINE_S, Serving

from loops import run_apart
from making import ids, raw
from phone import EVENT, NOW, sync_body
from sample_event import ENTRIES
from shuntbook.app import put_over
from shuntbook.flow import clock, joining
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.store.database import Store
from shuntbook.web import live

# WHATWG HTML, 9.2.5: an event stream's lines; an event ends with an empty one.
LINES = re.compile(
    rb"(event: changed|data: \{\"cursor\": \d+, \"setup\": \"[0-9a-f]{64}\", \"set_aside\": \"\d+-\d+\"\}|: beat|)\n"
)


@pytest.fixture
def server(tmp_path, data_folder):
    """A running server on a free loopback port; gives the port and a joined manager's headers."""
    with Serving(tmp_path, data_folder) as serving:
        code = joining.invite(Store(data_folder), "p-vera", clock.now())
        _, body = call(serving.port, "POST", "/join", {}, json.dumps({"code": code}).encode())
        token = json.loads(body)["token"]
        yield serving.port, {"Authorization": f"Bearer {token}", "Content-Type": "application/json"}


def call(port: int, method: str, path: str, headers: dict, body: bytes | None = None) -> tuple[int, bytes]:
    url = f"http://127.0.0.1:{port}/api/v1{path}"
    more = {"Content-Type": "application/json", **headers}
    request = urllib.request.Request(url, body, more, method=method)
    try:
        with urllib.request.urlopen(request, timeout=DEADLINE_S) as answer:
            return answer.status, answer.read()
    except urllib.error.HTTPError as error:
        with error:
            return error.code, error.read()


class Listener:
    """A phone that listens: reads the stream's lines as they come."""

    def __init__(self, port: int, headers: dict) -> None:
        self.connection = http.client.HTTPConnection("127.0.0.1", port, timeout=DEADLINE_S)
        self.connection.request("GET", "/api/v1/live", headers=headers)
        self.answer = self.connection.getresponse()

    def next_cursor(self) -> int:
        """Return the cursor of the next event; every line must be one of those that an event may have."""
        while True:
            line = self.answer.readline()
            assert LINES.fullmatch(line), line
            if line.startswith(b"data: "):
                return json.loads(line.removeprefix(b"data: "))["cursor"]

    def close(self) -> None:
        self.answer.close()
        self.connection.close()


def test_a_listening_phone_hears_of_each_sync_and_never_what_was_sent(server, pen):
    port, headers = server
    listener = Listener(port, headers)
    try:
        assert listener.answer.headers["Content-Type"].startswith("text/event-stream")
        first = listener.next_cursor()
        assert first == ENTRIES
        entry = pen.filed("front-end/grille missing", note="a word that nobody may hear")
        status, body = call(port, "POST", "/sync", headers, sync_body((entry,)))
        assert (status, json.loads(body)["accepted"]) == (200, ids([entry]))
        assert listener.next_cursor() == first + 1
        bad = {**pen.filed(), "kind": "report.shouted"}
        call(port, "POST", "/sync", headers, sync_body((bad,)))
        # Nothing grew, but a car is on hold now: that is news as well.
        assert listener.next_cursor() == first + 1
    finally:
        listener.close()


def test_many_phones_listen_while_others_send(server, pen):
    port, headers = server
    listeners = [Listener(port, headers) for _ in range(20)]
    try:
        assert {listener.next_cursor() for listener in listeners} == {ENTRIES}
        body = sync_body(tuple(pen.filed("front-end/badge missing") for _ in range(5)))
        statuses: list[int] = []
        threads = [
            threading.Thread(target=lambda: statuses.append(call(port, "POST", "/sync", headers, body)[0]))
            for _ in range(8)
        ]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert statuses == [200] * 8
        assert {listener.next_cursor() for listener in listeners} == {ENTRIES + 5}
    finally:
        for listener in listeners:
            listener.close()
    status, body = call(port, "GET", f"/events/{EVENT}/cars/41/queue", headers)
    assert status == 200
    assert json.loads(body)["entries"] > 5


def test_nobody_listens_without_a_token(server):
    port, _ = server
    status, body = call(port, "GET", "/live", {})
    assert status == 401
    assert json.loads(body)["type"].endswith("/not-joined")


def first(count: int, stream: AsyncGenerator[bytes, None]) -> Coroutine[Any, Any, list[bytes]]:
    """Read so many parts of a stream."""

    async def read() -> list[bytes]:
        async with aclosing(stream) as parts:
            return [await anext(parts) for _ in range(count)]

    return asyncio.wait_for(read(), DEADLINE_S)


def told(cursor: int) -> bytes:
    return b'event: changed\ndata: {"cursor": %d}\n\n' % cursor


def test_a_change_while_the_log_is_being_read_wakes_the_stream_again():
    async def listen() -> list[bytes]:
        cursors = itertools.count(7)

        def changed_meanwhile() -> dict[str, object]:
            news.notify()
            return {"cursor": next(cursors)}

        news = live.News(changed_meanwhile)
        return await first(4, news.stream())

    assert run_apart(listen()) == [told(7), told(9), told(10), told(11)]


def test_a_stream_with_no_news_beats_so_that_a_phone_knows_it_is_there(monkeypatch):
    monkeypatch.setattr(live, "BEAT_S", 0.05)
    parts = run_apart(first(3, live.News(lambda: {"cursor": 109}).stream()))
    assert parts == [told(109), b": beat\n\n", b": beat\n\n"]


def test_a_beat_finds_what_another_process_loaded(data_folder, made_app, sample_store, pen, monkeypatch):
    monkeypatch.setattr(live, "BEAT_S", 0.05)
    put_over(made_app, sample_store)

    async def listen() -> bytes:
        async with aclosing(made_app.extensions["shuntbook.news"].stream()) as parts:
            assert f'"cursor": {ENTRIES},'.encode() in await anext(parts)
            ingest(Store(data_folder), Batch([raw(pen.filed())], 0, None, None, NOW, None))
            while (part := await anext(parts)) == b": beat\n\n":
                pass
            return part

    assert f'"cursor": {ENTRIES + 1},'.encode() in run_apart(listen())


def test_a_phone_that_comes_back_again_and_again_loses_its_oldest_stream_and_nobody_else_does():
    async def listen() -> list[str]:
        news = live.News(lambda: {"cursor": 1})
        other, *own = [news.stream(who) for who in ["other", *["phone"] * (live.MOST_OF_A_DEVICE + 1)]]
        for stream in (other, *own):
            await anext(stream)
        ended = await anext(own[0], "ended")
        news.notify()
        told_now = [await anext(stream) for stream in (other, *own[1:])]
        news.close()
        return [str(ended), *{part.decode() for part in told_now}, *[str(await anext(other, "ended"))]]

    parts = run_apart(listen())
    assert parts == ["ended", told(1).decode(), "ended"]


@pytest.mark.parametrize(("pause_s", "told_soon"), [(3600, 2), (0.01, 5)])
def test_a_crowd_is_told_portion_by_portion_and_a_team_at_once(monkeypatch, pause_s, told_soon):
    monkeypatch.setattr(live, "AT_ONCE", 2)
    monkeypatch.setattr(live, "PORTION_EACH_S", pause_s)

    async def listen() -> int:
        news = live.News(lambda: {"cursor": 1})
        streams = [news.stream(str(number)) for number in range(5)]
        for stream in streams:
            await anext(stream)
        waiting = [asyncio.ensure_future(anext(stream)) for stream in streams]
        news.notify()
        await asyncio.gather(*waiting[:told_soon])
        count = sum(one.done() for one in waiting)
        for one in waiting:
            one.cancel()
        await asyncio.gather(*waiting, return_exceptions=True)
        return count

    assert run_apart(listen()) == told_soon

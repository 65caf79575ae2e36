"""/health says what is wrong: nothing can be written, photos gone, the clock, what waits; and gets well by itself."""

import resource
import sqlite3
from collections import namedtuple
from contextlib import contextmanager
from datetime import datetime, timedelta

import pytest

from making import Pen, raw
from phone import EVENT, NOW
from sample_event import ENTRIES
from shuntbook.app import create_app
from shuntbook.flow import answers
from shuntbook.flow import health as asking
from shuntbook.flow.clock import now
from shuntbook.flow.health import health
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.store import database, photos
from shuntbook.store.database import FILE, Store


@contextmanager
def locked(store):
    other = sqlite3.connect(store.folder / FILE, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    try:
        yield
    finally:
        other.execute("ROLLBACK")
        other.close()


@contextmanager
def read_only(store):
    store.db.execute("PRAGMA query_only = ON")
    try:
        yield
    finally:
        store.db.execute("PRAGMA query_only = OFF")


@contextmanager
def full(_):
    """No file may grow past its first kilobyte, in this process: as on a disk that is full, a real write fails."""
    before, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1024, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (before, hard))


@pytest.mark.parametrize("trouble", [locked, read_only, full])
def test_a_store_that_cannot_be_written_is_degraded_and_well_again_by_itself(data_folder, pages, monkeypatch, trouble):
    monkeypatch.setattr(database, "BUSY_S", 0.05)
    store = Store(data_folder)
    client = create_app(store, pages).test_client()
    assert client.get("/api/v1/health").get_json()["problems"] == []
    with trouble(store):
        answer = client.get("/api/v1/health")
        assert (answer.status_code, answer.get_json()["status"]) == (200, "degraded")
        (sentence,) = answer.get_json()["problems"]
        assert "nothing can be written" in sentence
        assert answer.get_json()["entries"] == ENTRIES, "what is there can still be read"
    again = client.get("/api/v1/health").get_json()
    assert (again["status"], again["problems"]) == ("ok", [])


def test_the_patience_of_a_question_is_not_that_of_a_write(sample_store):
    before = sample_store.db.execute("PRAGMA busy_timeout").fetchone()
    health(sample_store, now())
    assert sample_store.db.execute("PRAGMA busy_timeout").fetchone() == before == (int(database.BUSY_S * 1000),)


def test_a_disk_that_is_nearly_full_is_said_before_it_is(sample_store, monkeypatch):
    disk = namedtuple("disk", "total used free")
    monkeypatch.setattr(asking.shutil, "disk_usage", lambda _: disk(10**10, 10**10, 30 * 2**20))
    answer = health(sample_store, now())
    assert (answer.status, answer.problems) == ("degraded", ["the disk has only 30 MiB left"])


def test_photos_that_are_gone_from_the_disk_are_counted(sample_store):
    for digest in photos.all_held(sample_store.db)[:2]:
        photos.path_of(sample_store, digest).unlink()
    answer = health(sample_store, now())
    assert answer.status == "degraded"
    assert answer.problems == ["photos gone from the disk: 2; run `shuntbook check`"]


def test_photos_on_their_way_and_what_was_set_aside_wait_in_a_server_that_is_well(sample_store, pen):
    entries = [raw(pen.filed("front-end/badge missing", photos=["0a" * 32, "0b" * 32])), b"{not an entry"]
    ingest(sample_store, Batch(entries, 0, None, None, NOW, None))
    # Which photos jobs wait for is known once somebody has read the jobs: asking for health never writes.
    answers.queue(sample_store, EVENT, "41")
    answer = health(sample_store, now())
    assert (answer.status, answer.waiting_review) == ("ok", 1)
    set_aside, awaited = answer.problems
    assert set_aside.startswith("needs review by a manager: 1;")
    assert awaited.startswith("photos that have not come in: 2;")


def test_a_clock_that_went_back_is_said(sample_store, pen):
    ingest(sample_store, Batch([raw(pen.filed())], 0, None, None, "2026-06-14T12:00:00.000Z", None))
    assert health(sample_store, "2026-06-14T11:56:00.000Z").problems == []
    answer = health(sample_store, "1970-01-01T00:10:00.000Z")
    assert answer.status == "degraded"
    assert "the clock went back" in answer.problems[0]


@pytest.mark.parametrize(
    ("skews_s", "said"),
    [
        ([3600.0, 3590.0, 3602.0], "60 minutes ahead of"),
        ([-7200.0, -7200.0, 3.0, -7201.0, -7199.0], "120 minutes behind"),
        ([3600.0, 0.4, -1.0], None),
        ([3600.0, 3600.0], None),
        ([120.0, 118.0, 121.0], None),
    ],
)
def test_most_phones_against_the_machine_say_that_its_clock_is_wrong(sample_store, skews_s, said):
    for number, skew_s in enumerate(skews_s):
        entry = raw(Pen(EVENT, start=20_000 + 100 * number).filed())
        ingest(sample_store, Batch([entry], 0, None, f"d-{number}", NOW, skew_s))
    answer = health(sample_store, now())
    found = [sentence for sentence in answer.problems if "clocks are" in sentence]
    assert (found != []) == (said is not None)
    assert all(said in sentence and "set the machine's" in sentence for sentence in found)


def test_the_newest_word_of_each_phone_counts(sample_store):
    # Five minutes later all three phones agree with the machine: somebody has set its clock.
    for later, skew_s in ((0, 3600.0), (5, 0.0)):
        at = (datetime.fromisoformat(NOW) + timedelta(minutes=later)).isoformat()
        for number in range(3):
            entry = raw(Pen(EVENT, start=20_000 + 100 * number + later).filed())
            ingest(sample_store, Batch([entry], 0, None, f"d-{number}", at, skew_s))
    assert health(sample_store, now()).problems == []

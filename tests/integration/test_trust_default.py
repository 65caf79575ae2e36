"""What an event demands that says nothing of trust, and what is said to a phone that cannot meet it."""

import re
from pathlib import Path

import pytest

from phone import EVENT, NOW
from sample_event import event_files
from shuntbook.flow import uploads
from shuntbook.flow.load import load, setup_files
from shuntbook.serving import sample_folder
from shuntbook.store.database import Store
from signing_phone import codes, review

WITHOUT = re.sub(rb"\n\[trust\][^[]*", b"\n", setup_files(sample_folder())["event.toml"])
"""The sample event's file as most people write one: without [trust]."""


@pytest.fixture
def sample_store(tmp_path: Path) -> Store:
    """The app of these tests holds an event whose file says nothing of trust."""
    store = Store(tmp_path / "said-nothing")
    assert b"trust" not in WITHOUT
    uploads.put_setup(store, EVENT, {**event_files("off"), "event.toml": WITHOUT}, NOW)
    return store


def test_an_event_that_does_not_say_demands_signatures(signing, pen):
    toma = signing()
    assert toma.get("/setup").get_json()["events"][0]["trust"] == {"signatures": "on", "pin": False}
    bare = pen.filed("front-left/wheel bent")
    assert codes(toma.sync(bare)) == ["unsigned"]
    assert toma.queue()["release"] == "hold"
    assert review(toma) == [[bare["id"]]]
    assert toma.queue()["jobs"] == []
    signed = toma.by(pen.filed("front-left/wheel bent"))
    assert toma.sync(signed)["accepted"] == [signed["id"]]


def test_an_event_that_says_off_takes_the_same_entry(signing, pen, sample_store):
    uploads.put_setup(sample_store, EVENT, event_files("off"), NOW)
    toma = signing()
    bare = pen.filed("front-left/wheel bent")
    assert toma.sync(bare)["accepted"] == [bare["id"]]
    assert review(toma) == []
    assert "front-left/wheel" in [job["job"] for job in toma.queue()["jobs"]]


def test_what_waits_unsigned_counts_by_itself_once_the_event_says_off(signing, pen, sample_store):
    toma = signing()
    bare = pen.filed("front-left/wheel bent")
    assert codes(toma.sync(bare)) == ["unsigned"]
    uploads.put_setup(sample_store, EVENT, event_files("off"), NOW)
    assert toma.pull() == [bare]
    assert review(toma) == []


def test_a_phone_that_joined_without_a_key_is_told_what_to_do(signing, pen):
    old = signing("mechanic", key=False)
    bare, as_if_signed = pen.filed(), old.by(pen.filed())
    told = {one["id"]: one["problem"]["detail"] for one in old.sync(bare, as_if_signed)["rejected"]}
    for one in (bare, as_if_signed):
        assert "Open a new join link on that phone, over https" in told[one["id"]]
        assert "a manager can accept this entry" in told[one["id"]]
    assert "joined without a key" in told[as_if_signed["id"]]


def test_a_strange_device_is_told_that_a_managers_phone_may_know_it(signing, pen):
    toma = signing()
    strange = toma.signer.sign({**pen.filed(), "person": toma.person, "device": "d-strange"})
    (told,) = toma.sync(strange)["rejected"]
    assert "device d-strange is not known here" in told["problem"]["detail"].replace("Device", "device")
    assert "once a manager's phone that knew the device reaches this server" in told["problem"]["detail"]


def test_a_folder_that_is_loaded_is_believed_unsigned_as_the_owners_act(signing, sample_store, tmp_path):
    loaded = load(sample_store, sample_folder(), NOW)
    assert loaded.new > 100
    assert len(signing().pull()) == loaded.new

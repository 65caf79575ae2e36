"""A manager decides on what was set aside, with a reason: taken into the log, or left out; its bytes stay kept."""

import json

import pytest

from shuntbook.flow import diagnostics
from shuntbook.store import log
from shuntbook.store.database import Store
from signing_phone import aside, codes, decide, review


@pytest.fixture
def sample_store(signed_store: Store) -> Store:
    """The app of these tests holds the event with signatures demanded."""
    return signed_store


def test_a_manager_accepts_with_a_reason_and_it_becomes_part_of_the_log(signing, pen, sample_store):
    vera, toma = signing("manager"), signing()
    entry = pen.filed("front-left/wheel bent")
    toma.sync(entry)
    assert decide(vera, aside(vera)["sha256"], "accepted", "Toma says that it is his") == 204
    assert review(toma) == []
    assert "front-left/wheel" in {job["job"] for job in toma.queue()["jobs"]}
    assert toma.pull() == [entry]
    assert toma.sync(entry)["accepted"] == [entry["id"]]
    (kept,) = vera.get("/set-aside").get_json()
    assert (kept["verdict"], kept["reviewed_by"], kept["reason"]) == ("accepted", "p-vera", "Toma says that it is his")
    assert diagnostics.check(sample_store) == []


def test_what_was_discarded_stays_kept_counts_for_nothing_and_holds_nothing_again(signing, pen, sample_store):
    vera, toma = signing("manager"), signing()
    entry = pen.filed("front-left/wheel bent")
    toma.sync(entry)
    assert decide(vera, aside(vera)["sha256"], "discarded", "nobody wrote this") == 204
    assert codes(toma.sync(entry)) == ["unsigned"]
    assert (review(toma), toma.queue()["jobs"]) == ([], [])
    (kept,) = vera.get("/set-aside").get_json()
    assert json.loads(kept["raw"]) == entry
    assert log.last_cursor(sample_store.db) == 0


@pytest.mark.parametrize(
    "spoil",
    [
        lambda e: {**e, "kind": "report.shouted"},
        lambda e: {**e, "v": 2},
        lambda e: {**e, "seq": 0},
        lambda e: {**e, "data": {**e["data"], "note": "x" * 17_000}},
    ],
    ids=["unknown kind", "unknown version", "wrong shape", "too large"],
)
def test_what_cannot_be_read_cannot_be_accepted_only_discarded(signing, pen, spoil):
    vera, toma = signing("manager"), signing()
    toma.sync(spoil(pen.filed()))
    digest = aside(vera)["sha256"]
    assert decide(vera, digest, "accepted") == 409
    assert len(review(toma)) == 1, "the hold stays"
    assert decide(vera, digest, "discarded") == 204


def test_a_conflict_cannot_be_accepted(signing, pen):
    vera, toma = signing("manager"), signing()
    entry = toma.by(pen.filed())
    toma.sync(entry, toma.signer.sign({k: v for k, v in entry.items() if k != "sig"} | {"car": "42"}))
    digest = aside(vera)["sha256"]
    assert decide(vera, digest, "accepted") == 409
    assert vera.pull() == [entry]
    assert decide(vera, digest, "discarded") == 204


def test_a_review_says_one_of_two_things_and_why(signing, pen):
    vera, toma = signing("manager"), signing()
    toma.sync(pen.filed())
    digest = aside(vera)["sha256"]
    assert decide(vera, digest, "maybe") == 422
    assert decide(vera, digest, "accepted", "") == 422
    assert decide(toma, digest, "accepted") == 403

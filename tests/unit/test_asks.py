"""The shared cases of what is asked at the release, worked out by hand: the server holds to them as the phone does."""

import json
from itertools import islice, permutations
from pathlib import Path
from typing import Any

import pytest

from making import Json, Pen, parsed, queue
from shuntbook.flow.load import setup_files
from shuntbook.queue.asks import Ask, asks
from shuntbook.report.working import CarReleased
from shuntbook.serving import sample_folder
from shuntbook.setup.folder import Setup, read_setup

FILE = Path(__file__).parents[2] / "schemas" / "vectors" / "asks.json"
CASES: list[Json] = json.loads(FILE.read_text())["cases"]
EVENT = "thornquell-2026"
NAMING = ("entries", "ends", "voids")


@pytest.fixture(scope="module")
def setup() -> Setup:
    return read_setup(setup_files(sample_folder()))


def uuid(letter: str) -> str:
    """Return the id of an entry that a case calls by a letter: they ascend as letters do."""
    return f"01900000-0000-7000-8000-{ord(letter):012x}"


def written(case: Json) -> list[Json]:
    """Return the case's entries as they are kept."""
    pen = Pen(EVENT)
    return [
        {**pen.entry(kind, subject, person=person, **named(data)), "id": uuid(letter)}
        for letter, kind, subject, person, data in case["entries"]
    ]


def named(value: Any) -> Any:
    if isinstance(value, list):
        return [named(one) for one in value]
    if not isinstance(value, dict):
        return value
    return {key: [uuid(one) for one in some] if key in NAMING else named(some) for key, some in value.items()}


def shown(found: list[Ask]) -> list[Any]:
    return [[one.ask, one.place, [chr(int(name[-12:], 16)) for name in one.entries], one.not_by] for one in found]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["why"])
def test_the_server_holds_to_the_shared_case_in_any_order(case: Json, setup: Setup) -> None:
    for order in islice(permutations(written(case)), 24):
        assert shown(asks(parsed(order), setup)) == case["asked"]


def test_answers_change_nothing_of_the_queue(setup: Setup) -> None:
    """All but the number of entries is what it is with a release that answers nothing."""
    for case in CASES:
        entries = written(case)
        silent = [{**one, "data": {k: v for k, v in one["data"].items() if k != "answers"}} for one in entries]
        assert queue(entries, setup, "41", []) == queue(silent, setup, "41", [])


@pytest.mark.parametrize("car", ["41", "42"])
def test_each_release_of_the_sample_answered_what_was_asked_then(car: str, setup: Setup) -> None:
    log = [one for one in parsed(sample_entries()) if one.car == car]
    releases = sorted((one for one in log if isinstance(one.data, CarReleased)), key=lambda one: one.at)
    assert len(releases) == 3
    for release in releases:
        before = [one for one in log if one.at < release.at]
        answered = (
            [(one.ask, one.place) for one in release.data.answers] if isinstance(release.data, CarReleased) else []
        )
        assert sorted((one.ask, one.place) for one in asks(before, setup)) == sorted(answered)
        left = asks([*before, release], setup)
        assert [(one.ask, one.entries) for one in left] == [("tools", [])], "by somebody else than the fitter, too"


def sample_entries() -> list[Json]:
    return [json.loads(line) for line in (sample_folder() / "entries.jsonl").read_text().splitlines()]

"""Folders, bundles and set-ups with anything in them: refused in words, or taken and then good for every answer.

Hypothesis changes the sample event's files at places and in ways that it draws. `SHUNTBOOK_FUZZ=20000` asks for so many
of each, which takes hours. What once failed is kept in `fuzz_kept.json`, and gone through each time.
"""

import json
import os
import re
import resource
import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TypeVar

import pytest
from flask import Flask
from hypothesis import HealthCheck, Phase, example, given, settings
from hypothesis import strategies as st

from bundles import packed, with_manifest
from longer import is_longer, times
from phone import NOW, PEOPLE
from sample_event import event_folder
from shuntbook.app import create_app, put_over
from shuntbook.flow import clock, diagnostics, joining, uploads
from shuntbook.flow.bundle_import import Choice, import_bundle
from shuntbook.flow.load import load, setup_files
from shuntbook.kit.errors import ShuntbookError
from shuntbook.store import log, setups
from shuntbook.store.database import Store
from shuntbook.wire.bundle_file import setup_name

EVENT = "thornquell-2026"
Files = dict[str, bytes]
Test = TypeVar("Test", bound=Callable[..., None])


class Sample(Files):
    """Files that a report of a failure does not print."""

    def __repr__(self) -> str:
        return f"{len(self)} files"


Change = tuple[str, int, int, int]
"""What is done; to which file, which place in it, and with which words: numbers that are taken modulo what there is."""
MOST_MIB = 512
"""Memory that the whole run may take beside what it began with."""

MOST_SENT = 2 * 2**20

ENTRIES = 40
PIECE = re.compile(rb'"(?:[^"\\\n]|\\.)*"|[-+]?[0-9][0-9.:eE_T+-]*|true|false|null|[A-Za-z][A-Za-z0-9_-]*|[\[\]{}=,]')
WORDS = [
    b"", b"0", b"-1", b"1e999999999", b"NaN", b"inf", b"9" * 5000, b"0.000000000000000000000000001", b"1e27",
    b"null", b'""', b'"\\ud83d"', b'"\\u0000"', b'"=1+1"', b'"' + b"x" * 9000 + b'"', b"[" * 3000, b"{" * 600,
    b"a." * 3000 + b"a", b"9999-12-31T23:59:59-23:59", b'"9999-12-31T23:59:59-23:59"', b"0001-01-01",
    b"2026-02-30", b"\xff\xfe", b"\xf0\x9f\x9a\x97", "\u202eabc".encode(), b"../../etc/passwd", b'"p-vera"',
    b'"front-left/wheel"', b'"41"', b"true", b"[]", b"{}", b",", b"\n", b"\r", b"#", b"'''", b'"""', b"&amp;",
    b'<!DOCTYPE x [<!ENTITY a "a">]>', b"-0.0", b"99999999999999999999", b"1_000", b"0x1F",
]  # fmt: skip
HOW = ("piece", "piece", "piece", "line twice", "no line", "cut", "byte", "empty", "zeros")
CHANGES = st.lists(
    st.tuples(st.sampled_from(HOW), st.integers(0, 999), st.integers(0, 99_999), st.integers(0, 999)), max_size=4
)
KEPT = [
    [tuple(one) for one in changes] for changes in json.loads(Path(__file__).with_name("fuzz_kept.json").read_text())
]
SETTINGS = settings(
    max_examples=int(os.environ.get("SHUNTBOOK_FUZZ", times(3, 80))),
    deadline=None,
    derandomize=not is_longer() and "SHUNTBOOK_FUZZ" not in os.environ,
    phases=[Phase.explicit, Phase.generate, Phase.shrink],
    suppress_health_check=list(HealthCheck),
)


def kept(test: Test) -> Test:
    """Go through what once failed, too."""
    for changes in KEPT:
        test = example(changes=changes)(test)
    return test


def changed(files: Files, changes: list[Change]) -> Files:
    """Return files with changes done to them."""
    found = dict(files)
    for how, which, where, what in changes:
        name = sorted(found)[which % len(found)]
        found[name] = _changed(found[name], how, where, WORDS[what % len(WORDS)])
    return found


def _changed(data: bytes, how: str, where: int, word: bytes) -> bytes:
    lines = data.split(b"\n")
    at = where % len(lines)
    pieces = list(PIECE.finditer(data))
    if how == "piece" and pieces:
        piece = pieces[where % len(pieces)]
        return data[: piece.start()] + word + data[piece.end() :]
    if how == "line twice":
        return b"\n".join([*lines[:at], lines[at], *lines[at:]])
    if how == "no line":
        return b"\n".join(lines[:at] + lines[at + 1 :])
    if how == "cut":
        return data[: where % (len(data) + 1)]
    if how == "byte":
        place = where % (len(data) + 1)
        return data[:place] + word[:1] + data[place + 1 :]
    return b"" if how == "empty" else bytes(30_000_000) if how == "zeros" and where % 7 == 0 else data


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Sample:
    """The sample event's files, the first of its entries among them."""
    folder = event_folder(tmp_path_factory.mktemp("sample") / "event", "off")
    lines = (folder / "entries.jsonl").read_bytes().splitlines(keepends=True)[:ENTRIES]
    return Sample({**setup_files(folder), "entries.jsonl": b"".join(lines)})


@pytest.fixture(scope="module")
def app() -> Iterator[Flask]:
    with tempfile.TemporaryDirectory() as nobodys:
        made = create_app(Store(Path(nobodys)), Path("/nonexistent"))
        yield made
        made.extensions["shuntbook.planner"].stop()


@pytest.fixture(scope="module", autouse=True)
def memory() -> Iterator[None]:
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    yield
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < MOST_MIB * 1024


def answers_all(app: Flask, store: Store, papers: bool) -> None:
    """Every answer about every event and car is given, or refused in words; with `papers`, each paper is made."""
    put_over(app, store)
    client = app.test_client()
    for event in setups.events(store.db):
        people = setups.get(store.db, event).event
        manager = next((one.person for one in people.people if "manager" in one.roles), None)
        if manager is None:
            continue
        code = joining.invite(store, manager, clock.now())
        token = client.post("/api/v1/join", json={"code": code}).get_json()["token"]
        cars = sorted({*people.cars, *log.cars(store.db, event)})
        for path in _paths(app, event, cars, papers):
            reply = client.get(path, headers={"Authorization": f"Bearer {token}"})
            assert reply.status_code < 500, (path, reply.get_data()[:400])
    assert diagnostics.check(store) == []


def _paths(app: Flask, event: str, cars: list[str], papers: bool) -> Iterator[str]:
    adapter = app.url_map.bind("van")
    for rule in app.url_map.iter_rules():
        names = set(rule.arguments)
        is_slow = rule.rule.endswith(("documents.zip", ".pdf", ".png"))
        if "GET" not in (rule.methods or ()) or rule.rule.endswith("/live") or (is_slow and not papers):
            continue
        if names <= {"event", "car"} and rule.rule.startswith("/api/"):
            for car in cars if "car" in names else [""]:
                asked = {name: {"event": event, "car": car}[name] for name in names}
                yield adapter.build(rule.endpoint, asked, method="GET")


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path


def fresh(place: Path) -> Path:
    """Return a folder of its own for one example."""
    shutil.rmtree(place / "one", ignore_errors=True)
    (place / "one").mkdir()
    return place / "one"


def has_papers(changes: list[Change]) -> bool:
    """Whether papers are made of an example: of every sixth, since they take longest."""
    return sum(where for _, _, where, _ in changes) % 6 == 0


@kept
@SETTINGS
@given(changes=CHANGES)
def test_an_event_folder_is_refused_in_words_or_good_for_every_answer(
    place: Path, sample: Sample, app: Flask, changes: list[Change]
) -> None:
    here = fresh(place)
    write(here / "event", changed(sample, changes))
    store = Store(here / "data")
    try:
        load(store, here / "event", NOW)
    except ShuntbookError as refused:
        assert str(refused)
        assert changes, "as it is it is good"
        assert log.last_cursor(store.db) == 0, "nothing of it is taken"
    answers_all(app, store, has_papers(changes))


@kept
@SETTINGS
@given(changes=CHANGES)
def test_a_bundle_is_refused_in_words_or_good_for_every_answer(
    place: Path, sample: Sample, app: Flask, changes: list[Change]
) -> None:
    here = fresh(place)
    named = {n if n == "entries.jsonl" else setup_name(EVENT, n): data for n, data in sample.items()}
    whole = with_manifest(changed(named, [one for one in changes if one[1] % 5]))
    # Every fifth change is to the file as it is packed, its manifest and hash not excepted.
    path = packed(here / "given.shuntbook", changed(whole, [one for one in changes if one[1] % 5 == 0]))
    if len(changes) == 4 and changes[0][0] in ("byte", "cut"):
        path.write_bytes(_changed(path.read_bytes(), *changes[0][::2], b"\x00"))
    store = Store(here / "data")
    try:
        import_bundle(store, path, Choice(setup=True, trust=True), NOW)
    except ShuntbookError as refused:
        assert changes, "as it is it is good"
        assert str(refused)
    answers_all(app, store, has_papers(changes))


@kept
@SETTINGS
@given(changes=CHANGES)
def test_a_set_up_that_is_sent_is_refused_in_words_or_good_for_every_answer(
    place: Path, sample: Sample, app: Flask, changes: list[Change]
) -> None:
    here = fresh(place)
    write(here / "event", sample)
    store = Store(here / "data")
    load(store, here / "event", NOW)
    put_over(app, store)
    client = app.test_client()
    code = joining.invite(store, PEOPLE["manager"], clock.now())
    token = client.post("/api/v1/join", json={"code": code}).get_json()["token"]
    files = {name: data for name, data in changed(sample, changes).items() if name != "entries.jsonl"}
    body = {"files": {name: data.decode("utf-8", "surrogateescape") for name, data in files.items()}}
    calls = (("POST", f"/api/v1/events/{EVENT}/files/check"), ("PUT", f"/api/v1/events/{EVENT}"))
    # What is larger the edge lets nobody send.
    for method, path in calls if sum(map(len, files.values())) < MOST_SENT else ():
        reply = client.open(path, method=method, json=body, headers={"Authorization": f"Bearer {token}"})
        assert reply.status_code < 500, (path, reply.get_data()[:400])
    try:
        uploads.put_setup(store, EVENT, files, NOW)
    except ShuntbookError as refused:
        assert changes, "as it is it is good"
        assert str(refused)
    answers_all(app, store, has_papers(changes))


def write(folder: Path, files: Files) -> None:
    for name, data in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)

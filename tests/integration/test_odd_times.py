"""Times that no clock means: set aside where they newly come in, and harmless in a log that holds some already."""

from collections.abc import Callable
from pathlib import Path

import pytest
from command import run

from bundles import lines, packed, with_manifest
from making import Json, Pen, raw
from phone import EVENT, NOW, PEOPLE, Phone
from reading_pdf import Pdf
from sample_event import event_folder
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.flow import backups, bundle_import, diagnostics, papers
from shuntbook.flow.ingest import Batch, take
from shuntbook.flow.load import load
from shuntbook.flow.papers import Asked
from shuntbook.store import quarantine, refresh
from shuntbook.store.database import Store

LAST, FIRST = "9999-12-31T23:59:59-23:59", "0001-01-01T00:00:00+23:59"
"""The ends of what RFC 3339 can write and a log of the first release can hold."""
ODD = [LAST, FIRST, "1899-12-31T23:59:59Z", "2201-01-01T00:00:00Z", "2200-12-31T23:59:59-00:01"]
GOOD = ["1900-01-01T00:00:00Z", "1970-01-01T00:00:00+01:00", "2200-12-31T23:59:59Z", "1899-12-31T23:59:60-00:01"]
CAR = "42"
BASE = f"/events/{EVENT}"


def as_of(time: str, entry: Json) -> Json:
    """Return an entry with a time in place of every one that it names."""
    named = {name: time for name in ("official_time", "ready_by") if entry["data"].get(name) == ""}
    return {**entry, "at": time, "said_at": time, "data": {**entry["data"], **named}}


def story(pen: Pen, time: str) -> list[Json]:
    """Return a day of car 42 all of which happened at one time: each kind whose time anything is made of."""
    hit = pen.filed("front-left/wheel bent", car=CAR, stage="SS1")
    begun = pen.entry("job.started", "front-left/wheel", car=CAR, person="p-bodo")
    halted = pen.entry("job.stopped", "front-left/wheel", car=CAR, person="p-bodo", ends=[begun["id"]])
    done = pen.finished("front-left/wheel", hit, car=CAR, ends=[begun["id"]], action="replace", minutes=4)
    seen = pen.passed("front-left/wheel", hit, done, car=CAR, checks=[{"check": "torque", "ok": True}])
    words = [
        hit, begun, halted, done, seen,
        pen.entry("service.entered", car=CAR, service="A", official_time=""),
        pen.entry("task.finished", "tidy", car=CAR, service="A"),
        pen.entry("service.left", car=CAR, service="A", official_time=""),
        pen.entry("service.entered", car=CAR, service="B", official_time="10:00"),
        pen.entry("service.left", car=CAR, service="B"),
        pen.entry("control.entered", car=CAR, control="regroup", official_time=""),
        pen.entry("driver.changed", car=CAR, driver=PEOPLE["driver"]),
        pen.entry("car.retired", car=CAR, stage="SS2", ready_by=""),
        pen.entry("car.restarts", car=CAR, stage="SS3", ready_by=""),
        pen.entry("handover.signed", car=CAR, person=PEOPLE["manager"], walk="return"),
        pen.entry("inspection.failed", "front-left/hub", car=CAR, person=PEOPLE["inspector"], note="play"),
    ]  # fmt: skip
    return [
        as_of(time, entry) if entry["data"].get("official_time") != "10:00" else {**entry, "at": time}
        for entry in words
    ]


def hold(store: Store, entries: list[Json]) -> None:
    """Put entries into the log as an earlier release did, which took any time."""
    with store.write() as db:
        taken = take(db, Batch([raw(entry) for entry in entries], 0, None, None, NOW, None), None)
    assert taken.added == len(entries)


@pytest.mark.parametrize("time", [LAST, *(pytest.param(one, marks=pytest.mark.longer) for one in (FIRST, GOOD[0]))])
def test_every_answer_and_every_paper_is_made_of_a_log_that_holds_odd_times(phone, sample_store, pen, time):
    manager = phone("manager")
    hold(sample_store, story(pen, time))
    answers = [f"{BASE}/cars/{CAR}/{name}" for name in ("queue", "release", "statements")]
    answers += [f"{BASE}/costs{end}{of}" for end in ("", ".csv", ".xlsx", ".pdf") for of in ("", f"?car={CAR}")]
    answers += [f"{BASE}/cars/{CAR}/documents/{name}.pdf" for name in DOCUMENTS]
    answers += [f"{BASE}/cars/{CAR}/documents/parts-order.csv", f"{BASE}/rates/observed", f"{BASE}/spares", "/season"]
    answers += ["/setup", "/set-aside", "/health"]
    assert {path: status for path in answers if (status := manager.get(path).status_code) != 200} == {}
    at_once = [*(("plan", "--service", name) for name in "ABC"), ("plan", "--ready-by", "2026-06-14T08:00:00+02:00")]
    for words in at_once:
        done = run(*words, "--event", EVENT, "--car", CAR, "--at-once", data=sample_store.folder)
        assert (done.returncode, done.stderr) == (0, "")


def test_a_paper_shows_an_odd_time_as_it_was_written_and_is_not_dated_by_it(sample_store, pen):
    before = papers.car_file(sample_store, EVENT, CAR).newest
    hold(sample_store, [{**pen.filed("front-end/badge missing", car=CAR), "at": LAST}])
    assert papers.car_file(sample_store, EVENT, CAR).newest == before
    record = Pdf(papers.car_document(sample_store, EVENT, CAR, Asked("record")).data)
    assert LAST in record.text
    assert not {"9998", "9999"} & set(record.text.replace(LAST, "").split())


@pytest.mark.parametrize("field", ["at", "said_at", "official_time", "ready_by"])
def test_a_time_that_nobody_can_mean_is_set_aside_as_it_comes_in(phone, pen, field):
    sender, kind = phone(), "car.restarts" if field == "ready_by" else "service.entered"
    for time in ODD:
        entry = pen.entry(kind, stage="SS3") if field == "ready_by" else pen.entry(kind, service="A")
        inside = field in ("official_time", "ready_by")
        odd = {**entry, "data": {**entry["data"], field: time}} if inside else {**entry, field: time}
        neighbour = pen.filed("front-end/badge missing")
        answer = sender.sync(odd, neighbour)
        assert answer["accepted"] == [neighbour["id"]]
        (refused,) = answer["rejected"]
        problem = refused["problem"]
        assert (refused["id"], problem["type"].rsplit("/", 1)[1]) == (odd["id"], "odd-time")
        assert problem["field"] == (f"data.{field}" if inside else field)
        assert time in problem["detail"]
        assert "1900 to 2200" in problem["detail"]


def test_what_can_be_meant_is_accepted_and_words_that_name_no_year_are(phone, pen):
    sender = phone()
    for time in GOOD:
        entry = pen.entry("service.entered", service="A", official_time=time)
        assert sender.sync({**entry, "at": time, "said_at": time})["rejected"] == []
    for words in ("10:42", "about noon", ""):
        assert sender.sync(pen.entry("service.left", service="A", official_time=words))["rejected"] == []
    assert sender.sync({**pen.filed("front-end/badge bent"), "said_at": 5})["rejected"] == []


def test_a_manager_may_take_it_into_the_log_all_the_same(phone, pen, sample_store):
    sender, manager = phone(), phone("manager")
    odd = {**pen.filed("front-end/badge missing"), "at": LAST}
    sender.sync(odd)
    (waiting,) = manager.get("/set-aside").get_json()
    body = {"verdict": "accepted", "reason": "his phone's clock was wrong"}
    path = f"/api/v1/set-aside/{waiting['sha256']}/review"
    assert manager.client.post(path, json=body, headers=manager.headers).status_code == 204
    assert sender.sync(odd)["accepted"] == [odd["id"]]
    assert manager.get(f"{BASE}/costs").status_code == 200
    assert diagnostics.check(sample_store) == []


@pytest.mark.parametrize("time", [LAST, FIRST])
def test_what_a_log_holds_is_never_refused_by_its_time(
    phone: Callable[..., Phone], sample_store: Store, pen: Pen, tmp_path: Path, time: str
) -> None:
    held = {**pen.filed("front-end/badge missing"), "at": time}
    hold(sample_store, [held])
    assert phone().sync(held)["accepted"] == [held["id"]], "sent again"
    with sample_store.write() as db:
        refresh.rebuild(db, EVENT)
    assert diagnostics.check(sample_store) == []
    backups.backup(sample_store, tmp_path / "copy.zip")
    backups.restore(tmp_path / "copy.zip", tmp_path / "restored")
    folder = event_folder(tmp_path / "old", "off")
    with (folder / "entries.jsonl").open("ab") as file:
        file.write(raw(held) + b"\n")
    load(Store(tmp_path / "loaded"), folder, NOW)
    bundle = packed(tmp_path / "log.bundle", with_manifest({"entries.jsonl": lines(held)}))
    for data in ("restored", "loaded"):
        store = Store(tmp_path / data)
        again = bundle_import.import_bundle(store, bundle, bundle_import.Choice(), NOW)
        assert (again.held, again.set_aside) == (1, [])
        assert (diagnostics.check(store), quarantine.count_waiting(store.db)) == ([], 0)
    fresh = Store(tmp_path / "fresh")
    moved = bundle_import.import_bundle(fresh, bundle, bundle_import.Choice(trust=True), NOW)
    assert [one["code"] for one in moved.set_aside] == ["unsigned"], "no event here says that signatures are off"


def test_a_bundle_of_a_log_that_is_believed_brings_what_it_held(sample_store, pen, tmp_path):
    held = {**pen.filed("front-end/badge missing"), "at": LAST}
    bundle = packed(tmp_path / "log.bundle", with_manifest({"entries.jsonl": lines(held)}))
    strange = bundle_import.import_bundle(sample_store, bundle, bundle_import.Choice(), NOW)
    assert [one["code"] for one in strange.set_aside] == ["odd-time"], "as over HTTP"
    believed = bundle_import.import_bundle(sample_store, bundle, bundle_import.Choice(trust=True), NOW)
    assert (believed.new, believed.set_aside) == (1, [])

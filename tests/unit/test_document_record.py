"""The record for insurers: in order of time, with photos, who logged it and when it was received."""

import re

from document_cases import car_file, pictures
from making import Pen
from reading_pdf import Pdf
from shuntbook.cost.sheet import cost_sheet
from shuntbook.document.pdf import pdf
from shuntbook.document.record import record
from shuntbook.setup.folder import Setup


def none(_: str) -> None:
    """Hold no photo."""


def test_40_photos_are_on_paper_each_once_with_what_where_when_and_who(pen: Pen, setup: Setup) -> None:
    photos = pictures(40)
    shas = list(photos)
    hits = [
        pen.filed("front-left/wheel bent", stage="SS2", km=f"{n}.5", photos=shas[n * 4 : n * 4 + 4]) for n in range(10)
    ]
    grouped = pen.entry(
        "incident.grouped", reports=[hit["id"] for hit in hits], title="The ditch", others_involved=True
    )
    file = car_file([*hits, grouped], setup, photos=photos)
    read = Pdf(pdf(record(file, "a4"), photos.get, file.newest))
    assert read.images == 40
    assert read.pages > 3
    alternatives = read.alternatives()
    assert len(alternatives) == 40
    for n in range(10):
        told = f"Photo: Front left: Wheel bent. SS2, km {n}.5. p-toma, Sat 13 Jun, 10:00"
        assert alternatives.count(told) == 4
    assert f"Page {read.pages} of {read.pages}" in read.on_page(read.pages)
    assert read.faults() == []


def test_it_tells_the_whole_story_in_order_of_time(pen: Pen, setup: Setup) -> None:
    hit = pen.filed("front-left/brake-hose leaking", stage="SS1", km=3, cause="stone", direction=8, note="smells")
    hit["said_at"] = "2026-06-13T09:40:00+02:00"
    done = pen.finished("front-left/brake-hose", hit, action="replace", minutes=6, parts=[{"part": "hose", "qty": 2}])
    bad = pen.failed("front-left/brake-hose", checks=[{"check": "dry", "ok": False}], note="weeps")
    tape = pen.finished("front-end/lamp", temporary=True, action="tape")
    look = pen.passed("cabin/main-hoop", hit, shown_to="the chief scrutineer", official_said="May continue.")
    seen = pen.entry("stage.nothing_seen", stage="SS3", how="from-seat")
    start = pen.entry("job.started", "front-end/badge", person="p-bodo")
    entries = [hit, done, bad, tape, look, seen, start, pen.voided(start, "p-bodo")]
    read = Pdf(pdf(record(car_file(entries, setup), "a4"), none, car_file(entries, setup).newest)).text
    told = [
        "Report: Front left: Brake hose leaking SS1, km 3, stone, from 8 o'clock",
        "Note: smells",
        "Recorded by p-toma, reported Sat 13 Jun, 09:40; on the server Sat 13 Jun, 10:00",
        "Repair: Front left: Brake hose Replaced, 6 min Parts: Hose × 2",
        "Checked by (team) p-odil, failed: Front left: Brake hose Inspected: dry NOT in order",
        "Temporary repair: Front end: lamp Taped, not timed",
        "Shown to the chief scrutineer The official said, as typed by the team: “May continue.”",
        "SS3: nothing seen, from the seat",
        "took back: Job started (Sat 13 Jun, 10:00): mis-tap",
    ]
    places = [read.find(words) for words in told]
    assert -1 not in places, [words for words, place in zip(told, places, strict=True) if place < 0]
    assert places == sorted(places)


def test_a_retirement_tells_where_how_who_recovered_it_and_whether_it_restarts(pen: Pen, setup: Setup) -> None:
    stop = pen.entry(
        "car.retired", stage="SS2", km=4.2, drives="poorly", recovered_by="Our own people", restart="unknown"
    )
    file = car_file([stop, pen.entry("car.retired")], setup)
    read = " ".join(Pdf(pdf(record(file, "a4"), none, file.newest)).text.split())
    assert "Stopped on SS2, km 4.2" in read
    for told in ("Drives: poorly", "Recovered by: Our own people", "Restart: not known yet"):
        assert read.count(told) == 1


def test_a_release_tells_what_was_asked_and_a_check_that_was_not_done_is_not_called_bad(pen: Pen, setup: Setup) -> None:
    checks = [{"check": "dry", "ok": True}, {"check": "bled", "ok": None, "why": "no kit"}]
    look = pen.passed("front-left/brake-hose", checks=checks)
    rows = [
        {"ask": "nuts", "place": "front-left", "ok": True, "by": "p-odil", "entries": [look["id"]]},
        {"ask": "pedal", "ok": None, "why": "engine off"},
        {"ask": "tools", "ok": False},
    ]
    out = pen.entry("car.released", service="A", answers=rows)
    file = car_file([look, out], setup)
    read = Pdf(pdf(record(file, "a4"), none, file.newest)).text
    assert "dry; bled NOT CHECKED (no kit)" in read
    nuts = "Asked before it left: wheel nuts torqued on the ground, Front left, p-odil"
    assert f"{nuts}; pedal firm with the engine running NOT DONE (engine off); tools counted NOT in order" in read


def test_an_amended_report_is_told_as_it_stands_and_a_withdrawn_one_is_not(pen: Pen, setup: Setup) -> None:
    first = pen.filed("front-left/wheel marked")
    second = pen.amended(first, "front-left/wheel broken")
    gone = pen.filed("front-end/lamp broken")
    read = Pdf(
        pdf(
            record(car_file([first, second, gone, pen.withdrawn(gone)], setup), "a4"),
            none,
            car_file([first], setup).newest,
        )
    )
    assert "Report (as corrected): Front left: Wheel broken" in read.text
    assert "Wheel marked" not in read.text
    assert "lamp" not in read.text


def test_two_versions_of_a_report_are_both_told_and_said_to_be_two(pen: Pen, setup: Setup) -> None:
    first = pen.filed("front-left/wheel marked")
    one, other = pen.amended(first, "front-left/wheel bent"), pen.amended(first, "front-left/wheel broken")
    file = car_file([first, one, other], setup)
    read = Pdf(pdf(record(file, "a4"), none, file.newest)).text
    assert "Wheel bent" in read
    assert "Wheel broken" in read
    assert read.count("Two versions of this report stand") == 2


def test_a_photo_of_a_job_that_is_not_finished_is_shown_too(pen: Pen, setup: Setup) -> None:
    photos = pictures(2)
    of_job, of_report = photos
    hit = pen.filed("front-left/wheel bent", photos=[of_report])
    same = pen.entry("photo.linked", hit["id"], photo=of_report)
    link = pen.entry("photo.linked", "front-left/wheel", photo=of_job, caption="Rim edge")
    file = car_file([hit, same, link], setup, photos=photos)
    read = Pdf(pdf(record(file, "a4"), photos.get, file.newest))
    assert read.images == 2
    assert "Photo: Front left: Wheel" in read.text
    assert read.text.count("Photo: Front left: Wheel") == 1, "what is shown beside its report needs no line of its own"


def test_money_stands_in_it_only_where_it_is_asked_for(pen: Pen, setup: Setup) -> None:
    hit = pen.filed("front-left/wheel bent")
    done = pen.finished("front-left/wheel", hit, minutes=9, mechanics=1, parts=[{"part": "rim", "qty": 1}])
    file = car_file([hit, done], setup)
    costs = cost_sheet({"41": file.entries}, setup, "41")
    with_money = Pdf(pdf(record(file, "a4", costs), none, file.newest)).text
    without = Pdf(pdf(record(file, "a4"), none, file.newest)).text
    for says, name in (("Actual", "actual"), ("Tax", "tax"), ("Total", "total")):
        assert f"{says} {getattr(costs.totals, name)}" in with_money
    assert not re.search(r"\d+\.\d\d\b", without)


def test_a_photo_that_is_still_on_a_phone_or_damaged_here_is_said_to_be(pen: Pen, setup: Setup) -> None:
    photos = pictures(2)
    held, absent = photos
    file = car_file([pen.filed("front-left/wheel bent", photos=[held, absent])], setup, photos={held: b"", absent: b""})
    read = Pdf(pdf(record(file, "a4"), {held: photos[held]}.get, file.newest))
    assert read.images == 1
    assert "Photo not on the server yet" in read.text
    assert (
        Pdf(
            pdf(record(car_file([pen.filed("front-left/wheel bent", photos=[held])], setup), "a4"), none, file.newest)
        ).images
        == 0
    )

"""The one-page sheets for officials: one page whatever the log holds, black only, the official's words and a box."""

import io
import json
from pathlib import Path

import pytest
from PIL import Image, ImageChops

from document_cases import car_file, pictures
from making import Pen
from pdfua_checked import pdfua_finds
from reading_pdf import Pdf
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import PAPERS
from shuntbook.document.declaration import declaration
from shuntbook.document.hand_over import hand_over
from shuntbook.document.job_sheet import job_sheet
from shuntbook.document.pdf import pages, pdf
from shuntbook.document.restart import restart_sheet
from shuntbook.kit.times import minutes_says
from shuntbook.setup.folder import Setup, default_car_map
from small_event import small_setup

PHOTOS = pictures(12)
VECTORS = Path(__file__).parents[2] / "schemas" / "vectors"
OPTIONS = ("For the official: own words", "may continue", "may not", "show again at")


def none(_: str) -> None:
    """Hold no photo."""


def large(pen: Pen) -> tuple[list[Json], Setup]:
    """Return 60 and more open jobs all over the car, many of them safety-critical, with long notes."""
    setup = small_setup(car_map=None)
    keys = [f"{zone.zone}/{component}" for zone in default_car_map().zones.values() for component in zone.components]
    entries = [pen.filed(f"{key} bent", stage="SS2", km=3.3, cause="roll", note="long " * 60) for key in keys[:66]]
    looks = [pen.failed(keys[n], note="again") for n in (1, 2, 3)]
    return [*entries, *looks, pen.entry("car.retired", stage="SS2")], setup


@pytest.mark.parametrize("paper", PAPERS)
def test_a_restart_sheet_of_60_jobs_is_one_page_with_the_safety_critical_ones_first(pen: Pen, paper: str) -> None:
    entries, setup = large(pen)
    file = car_file(entries, setup)
    data = restart_sheet(file, paper)
    assert len(data["rows"]) >= 60
    read = Pdf(pdf(data, none, file.newest))
    assert read.pages == 1
    critical = [row["critical"] for row in data["rows"]]
    real = [not row["found"].endswith("to be inspected") for row in data["rows"]]
    assert real == sorted(real, reverse=True), "what somebody saw is before what is only to be looked at"
    for seen in (True, False):
        of_these = [one for one, is_real in zip(critical, real, strict=True) if is_real is seen]
        assert of_these == sorted(of_these, reverse=True)
    shown = read.text.split("Open points")[0]
    assert "more: see the job sheet" in shown
    left = int(shown.split("more: see the job sheet")[0].split()[-1])
    # A star stands in the heading and beside each safety-critical row that has room.
    assert shown.count("★") - 1 == sum(critical[: len(critical) - left])


def test_the_restart_sheet_says_where_and_how_the_car_stopped_by_the_newest_word(pen: Pen, setup: Setup) -> None:
    first = pen.entry("car.retired", stage="SS1", restart="unknown")
    again = pen.entry("car.retired", stage="SS2", km=4.2, drives="no", recovered_by="Event recovery", restart="yes")
    back = pen.entry("car.restarts", ready_by="2026-06-14T07:00:00+02:00")
    (stopped, restarts) = restart_sheet(car_file([first, again, back], setup), "a4")["stopped"]
    assert stopped.endswith("SS2, km 4.2, did not drive; recovered by Event recovery")
    assert restarts.startswith("Restarts, ready by ")
    assert "07:00" in restarts


def test_a_bent_rim_stays_on_the_restart_sheet_before_all_that_is_only_to_be_looked_at(pen: Pen) -> None:
    setup = small_setup(car_map=None)
    rim = pen.filed("front-left/wheel bent", stage="SS2")
    felt = [
        pen.filed(f"{zone.zone}/{name} unknown")
        for zone in default_car_map().zones.values()
        for name in zone.components
    ]
    data = restart_sheet(car_file([*felt, rim], setup), "a4")
    assert len(data["rows"]) > 60
    assert data["rows"][0]["found"].endswith("bent")
    assert "bent" in Pdf(pdf(data, none, car_file([rim], setup).newest)).text.split("Open points")[0]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_job_sheet_of_60_jobs_is_one_page_that_names_them_all(pen: Pen, paper: str) -> None:
    entries, setup = large(pen)
    file = car_file(entries, setup)
    data = job_sheet(file, paper, "B")
    read = Pdf(pdf(data, none, file.newest))
    assert read.pages == 1
    words = read.text.replace(" ", "")
    missing = [job["what"] for job in data["jobs"] if job["what"].replace(" ", "") not in words]
    assert missing == []
    assert "tools counted" in read.text


@pytest.mark.parametrize("paper", PAPERS)
def test_a_declaration_of_many_hits_is_one_page(pen: Pen, setup: Setup, paper: str) -> None:
    hits = [pen.filed("front-left/wheel bent", photos=[photo]) for photo in PHOTOS]
    grouped = [
        pen.entry(
            "incident.grouped", reports=[hit["id"]], title="t" * 300, property_hit="fence " * 300, others="x " * 900
        )
        for hit in hits
    ]
    file = car_file([*hits, *grouped], setup, photos=PHOTOS)
    read = Pdf(pdf(declaration(file, paper), PHOTOS.get, file.newest))
    assert read.pages == 1
    assert "more" in read.text


def walk_out(pen: Pen, many: int = 3) -> list[Json]:
    marks = [pen.filed("front-left/wheel marked", where="hand-over", note="scratch " * 9) for _ in range(many)]
    kit = [{"item": f"thing-{n}", "aboard": n != 1} for n in range(many)]
    signed = pen.entry(
        "handover.signed",
        walk="out",
        agreement="hire-1",
        odometer_km="18342",
        fuel_percent=80,
        tread=[{"place": "front-left", "mm": "5.5"}],
        fluids=[{"fluid": "brake-fluid", "level": "full"}],
        kit=kit,
        photos=[{"view": "front", "why_none": "too dark"}],
        marks=[mark["id"] for mark in marks],
        signed=[
            {"side": "team", "name": "Vera", "photo": next(iter(PHOTOS))},
            {"side": "customer", "name": "Lena", "how": "refused"},
        ],
        note="Rain.",
    )
    return [*marks, signed]


@pytest.mark.parametrize("many", [3, 40])
@pytest.mark.parametrize("paper", PAPERS)
def test_what_is_signed_at_the_hand_over_is_on_the_first_page(pen: Pen, setup: Setup, paper: str, many: int) -> None:
    entries = walk_out(pen, many)
    back = pen.entry(
        "handover.signed", walk="return", odometer_km="18502.5", tread=[{"place": "front-left", "mm": "3"}]
    )
    file = car_file([*entries, back], setup)
    made = pdf(hand_over(file, paper), none, file.newest)
    assert pdfua_finds(made) == []
    read = Pdf(made)
    first = read.on_page(1)
    for words in (
        "18,342",
        "18,502.5",
        "5.5",
        "For the customer: Lena. Did not sign.",
        "Vera",
        "hire-1",
        "not aboard",
        "Brake fluid",
    ):
        assert words in first
    assert "Photos" not in first
    assert "For the official" not in first, "no official signs a hand-over"
    later = " ".join(read.on_page(number) for number in range(2, read.pages + 1))
    assert "too dark" in later
    for number in range(many):
        assert f"thing {number} " in first + later, "no item of the kit is dropped without a word"
    assert later.count("scratch scratch") >= many, "every mark is on the pages behind, whatever fits on the first"
    assert ("more on the next pages" in first) == ("all marks are on the next pages" in first) == (many == 40)


@pytest.mark.parametrize("walk", ["out", "return"])
def test_the_paper_of_a_walk_has_the_parts_and_terms_that_the_phones_has(pen: Pen, setup: Setup, walk: str) -> None:
    shared = json.loads((VECTORS / "walk_paper.json").read_text())
    entries = walk_out(pen)
    if walk == "return":
        entries.append(pen.entry("handover.signed", walk="return", odometer_km="18502.5", note="Dry."))
    file = car_file(entries, setup)
    words = Pdf(pdf(hand_over(file, "a4"), none, file.newest)).text
    for term in shared["terms"][walk]:
        assert term in words
    # Each heading with the word that follows it: the heads of tables have some of the words, too.
    heads = ["Marks Out", "Figures Read", "Fluids Fluid", "Kit Kit", "Note Out", "Signatures Signed", "Photos Front"]
    assert [head.split()[0].lower() for head in heads] == shared["parts"]
    places = [words.index(head) for head in heads]
    assert places == sorted(places)


def sheets(file: CarFile) -> dict[str, Json]:
    return {
        "restart-sheet": restart_sheet(file, "a4"),
        "job-sheet": job_sheet(file, "a4", "A"),
        "declaration": declaration(file, "a4"),
        "hand-over": hand_over(file, "a4"),
    }


@pytest.fixture
def file(pen: Pen, setup: Setup) -> CarFile:
    """A car with photos, a cage that was seen, property hit, and a hand-over."""
    hit = pen.filed("cabin/main-hoop marked", stage="SS2", cause="tree", photos=list(PHOTOS)[:3])
    said = "May continue; show again after SS3"
    look = pen.passed("cabin/main-hoop", hit, shown_to="the chief scrutineer", official_said=said)
    fence = pen.entry("incident.grouped", reports=[hit["id"]], property_hit="a farm fence")
    return car_file([*walk_out(pen), hit, look, fence], setup, photos=PHOTOS)


@pytest.mark.parametrize("name", ["restart-sheet", "job-sheet", "declaration", "hand-over"])
def test_a_sheet_is_black_on_white_photos_and_all(name: str, file: CarFile) -> None:
    page = Image.open(io.BytesIO(pages(sheets(file)[name], PHOTOS.get, ppi=50)[0])).convert("RGB")
    red, green, blue = page.split()
    assert ImageChops.difference(red, green).getbbox() is None
    assert ImageChops.difference(green, blue).getbbox() is None
    # It is no empty page: black is there, and most of it is white.
    darkest, lightest = page.convert("L").getextrema()
    assert (darkest < 8, lightest) == (True, 255)


def test_the_photos_of_a_declaration_are_in_colour_until_they_are_set(file: CarFile) -> None:
    # What the check above would miss: that there was no colour to take out.
    shown = [one["photo"] for one in declaration(file, "a4")["shots"]]
    assert len(shown) == 3
    red, green, _ = Image.open(io.BytesIO(PHOTOS[shown[0]])).convert("RGB").split()
    assert ImageChops.difference(red, green).getbbox() is not None


@pytest.mark.parametrize("name", ["restart-sheet", "job-sheet", "declaration"])
def test_a_sheet_has_the_officials_options_and_an_empty_box(name: str, file: CarFile) -> None:
    words = Pdf(pdf(sheets(file)[name], PHOTOS.get, file.newest)).on_page(1)
    box = words.split("For the official: own words")[1]
    assert box.startswith(" may continue may not show again at Function Time Signature")


def test_a_restart_sheet_says_who_of_the_team_checked_and_what_the_official_said(file: CarFile) -> None:
    words = Pdf(pdf(restart_sheet(file, "a4"), none, file.newest)).text
    assert "Checked by (team)" in words
    assert "Odil" not in words, "the small event's people have no names but their ids"
    assert "p-odil 10:00" in words
    assert "shown to the chief scrutineer, who said “May continue; show again after SS3”" in words
    assert "Cage: yes: Main hoop marked" in words


def test_seals_and_last_days_are_on_the_restart_sheet(pen: Pen) -> None:
    dated = b"""
[[dated]]
car = "41"
item = "harness"
place = "driver"
expires = 2026-05-31
[[dated]]
car = "41"
item = "turbo"
seal = "K 4711"
[[dated]]
car = "42"
item = "other car's"
seal = "X 1"
"""
    from small_event import EVENT

    file = car_file([pen.filed("front-left/wheel bent")], small_setup(event=EVENT + dated))
    words = Pdf(pdf(restart_sheet(file, "a4"), none, file.newest)).text
    # The log ends on 13 June 2026, after the harness's last day.
    assert "harness (driver): to 31 May 2026 expired" in words
    assert "seal K 4711" in words
    assert "X 1" not in words


def test_a_job_sheet_names_what_an_official_must_see_first(pen: Pen, setup: Setup) -> None:
    file = car_file([pen.filed("cabin/main-hoop marked"), pen.filed("front-left/wheel bent")], setup)
    words = Pdf(pdf(job_sheet(file, "a4"), none, file.newest)).text
    assert (
        "Call an official first Cage: an official sees it bare, before trim and padding go back. Cabin: Main hoop"
        in words
    )
    assert words.index("Main hoop") < words.index("Wheel bent"), "the queue's order: safety-critical first"


def test_a_hand_over_that_was_signed_anew_shows_the_newer_one(pen: Pen, setup: Setup) -> None:
    first = pen.entry("handover.signed", walk="out", odometer_km="1000")
    second = pen.entry("handover.signed", walk="out", odometer_km="1001", replaces=[first["id"]])
    ring = {**first, "data": {**first["data"], "replaces": [second["id"]]}}
    file = car_file([ring, second], setup)
    words = Pdf(pdf(hand_over(file, "a4"), none, file.newest)).on_page(1)
    assert "Odometer, km 1,001" in words
    assert "1,000" not in words


def test_a_grouping_that_was_taken_over_is_declared_once(pen: Pen, setup: Setup) -> None:
    hit = pen.filed("front-left/wheel bent", stage="SS2")
    first = pen.entry("incident.grouped", reports=[hit["id"]], property_hit="a gate")
    second = pen.entry(
        "incident.grouped", reports=[hit["id"]], property_hit="a gate and a post", replaces=[first["id"]]
    )
    file = car_file([hit, first, second], setup)
    words = Pdf(pdf(declaration(file, "a4"), none, file.newest)).text
    assert words.count("a gate") == 1
    assert "Hit: a gate and a post" in words


def test_a_repair_that_nobody_checked_stands_before_what_is_not_safety_critical(pen: Pen, setup: Setup) -> None:
    hose = pen.filed("front-left/brake-hose leaking")
    done = pen.finished("front-left/brake-hose", hose, action="replace")
    lamp = pen.filed("front-end/lamp broken")
    words = Pdf(pdf(job_sheet(car_file([hose, done, lamp], setup), "a4"), none, car_file([lamp], setup).newest)).text
    assert words.index("Brake hose leaking") < words.index("lamp broken")
    assert "Brake hose leaking ★ check checked by (other):" in words


def test_minutes_on_a_job_sheet_are_said_to_the_next_15_seconds(pen: Pen, setup: Setup) -> None:
    entries = [
        pen.filed("front-left/wheel bent"),
        pen.filed("front-end/bumper bent"),
        pen.filed("front-end/lamp broken"),
    ]
    data = job_sheet(car_file(entries, setup), "a4")
    said = {job["what"]: job["minutes"] for job in data["jobs"]}
    # The wheel by (3 + 4·4 + 8) / 6 = 4.5 min; a look 2 min; the lamp 1 min by two.
    assert said["Wheel bent"] == "4 min 30 s"
    assert {"2 min", "1 min × 2"} <= set(said.values())


@pytest.mark.parametrize(
    ("minutes", "said"),
    [(0.75, "45 s"), (2, "2 min"), (34.33, "34 min 20 s"), (0, "0 s"), (0.999, "1 min"), (60, "60 min")],
)
def test_minutes_are_said_as_people_say_them(minutes: float, said: str) -> None:
    assert minutes_says(minutes) == said


def test_a_job_sheet_says_what_is_asked_before_the_car_leaves_and_who_may_not_answer(pen: Pen, setup: Setup) -> None:
    hit = pen.filed("front-left/brake-hose leaking")
    done = pen.finished("front-left/brake-hose", hit, repairers=["p-anni"])
    file = car_file([hit, done], setup)
    read = Pdf(pdf(job_sheet(file, "a4"), none, file.newest)).text
    assert "wheel nuts torqued on the ground, Front left, not by p-anni, p-bodo by:" in read
    assert "pedal firm with the engine running by:" in read
    assert "Before the car leaves" not in Pdf(pdf(job_sheet(car_file([hit], setup), "a4"), none, file.newest)).text


def test_a_job_sheet_stays_one_page_when_every_corner_was_open(pen: Pen) -> None:
    entries, setup = large(pen)
    corners = [zone.zone for zone in setup.car_map.zones.values() if zone.kind == "corner"]
    works = [pen.finished(f"{corner}/{part}") for corner in corners for part in ("brake-hose", "track-rod", "upright")]
    file = car_file([*entries, *works], setup)
    assert Pdf(pdf(job_sheet(file, "a4"), none, file.newest)).pages == 1

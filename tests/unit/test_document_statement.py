"""The statement on paper: the same cents as the answer's, each step in its words, photos with the lines they show."""

from typing import Any

import pytest
from msgspec import to_builtins

from document_cases import car_file, pictures
from making import Json, Pen
from reading_pdf import Pdf
from shuntbook.cost.statements import statements_of_car
from shuntbook.document.car_file import CarFile
from shuntbook.document.pdf import pdf
from shuntbook.document.statement import statement
from shuntbook.kit.errors import NotFound
from shuntbook.setup.folder import Setup
from small_event import FILES, small_setup

TERMS = b"""
[[agreements]]
agreement = "hire-41"
car = "41"
customer = "Lena"
excess = 300.00
labour_per_hour = 55.00
consumables_percent = 5
deposit = 100.00
tax_percent = 20
wear_excluded = ["grille"]
"""
OPERATIONS = b"""component,condition,action,minutes_best,minutes_likely,minutes_worst,mechanics,access,parts,must_do,\
value
badge,bent,replace,30,30,30,1,,rim,true,1
grille,missing,replace,5,5,5,1,,grille,false,1
lamp,broken,replace,2,2,2,1,,lamp,false,1
"""
PHOTOS = pictures(3)
HIT, WORK, FLAP = PHOTOS


@pytest.fixture
def hired() -> Setup:
    """The small event with terms for car 41."""
    return small_setup(event=FILES["event.toml"] + TERMS, operations=OPERATIONS)


@pytest.fixture
def entries(pen: Pen) -> list[Json]:
    """A badge of one hit, replaced by a part that was 40 % used; a grille that is wear; the old part kept."""
    hit = pen.filed("front-end/badge bent", stage="SS1", km=6.1, photos=[HIT])
    done = pen.finished("front-end/badge", hit, minutes=30, mechanics=1, parts=[{"part": "rim", "qty": 1}])
    worn = pen.entry(
        "charge.decided",
        f"repair/41/front-end/badge/{done['id']}",
        person="p-vera",
        charge="damage",
        worn=[{"part": "rim", "used_percent": 40}],
    )
    link = pen.entry("photo.linked", "front-end/badge", photo=WORK, caption="New rim on")
    tag = pen.entry("part.retained", "front-end/badge", tag="R-7", shelf="B2")
    flap = pen.filed("front-end/grille missing", stage="SS1", photos=[FLAP])
    fixed = pen.finished("front-end/grille", flap, minutes=5)
    return [hit, done, worn, link, tag, flap, fixed]


def answer_of(file: CarFile) -> Json:
    told: Json = to_builtins(statements_of_car(file.car, file.log, file.setup))
    return told


def read(file: CarFile, asked: int | None = None) -> Pdf:
    return Pdf(
        pdf(statement(file, statements_of_car(file.car, file.log, file.setup), "a4", asked), PHOTOS.get, file.newest)
    )


def test_every_sum_of_the_answer_stands_on_the_paper_to_the_cent(entries: list[Json], hired: Setup) -> None:
    file = car_file(entries, hired, photos=PHOTOS)
    draft = answer_of(file)["draft"]
    words = read(file).text
    for step in [*draft["steps"], *(step for one in draft["incidents"] for step in one["steps"])]:
        assert f"{step['says']} {step['amount']}" in words
    for name, says in (("to_pay", "To pay, before tax"), ("tax", "Tax"), ("deposit", "Deposit"), ("rest", "Rest")):
        assert f"{says} {draft['totals'][name]}" in words
    for line in draft["incidents"][0]["lines"]:
        assert f"{line['labour']} {line['parts_cost']} {line['consumables']} {line['amount']}" in words


# By hand: rim 210.00 less 40 % used = 126.00; labour 0.5 h × 55.00 = 27.50; consumables 5 % of 126.00 = 6.30.
def test_a_line_says_how_it_comes_about(entries: list[Json], hired: Setup) -> None:
    words = read(car_file(entries, hired, photos=PHOTOS)).text
    assert "Rim: 210.00, less 40 % used = 126.00" in words
    assert "27.50 126.00 6.30 159.80" in words
    assert "Part kept: tag R-7, shelf B2" in words
    assert "DRAFT, not issued" in words


def test_what_is_not_charged_says_why_and_shows_its_photo(entries: list[Json], hired: Setup) -> None:
    file = car_file(entries, hired, photos=PHOTOS)
    [one] = answer_of(file)["draft"]["not_charged"]
    paper = read(file)
    assert f"N1 {one['says']}: {one['why']}" in paper.text
    assert any(alt.startswith("Line N1. Photo: Front end: grille missing") for alt in paper.alternatives())


def test_photos_before_and_of_the_work_name_their_lines(entries: list[Json], hired: Setup) -> None:
    paper = read(car_file(entries, hired, photos=PHOTOS))
    assert paper.images == 3
    before = "Line 1.1. Photo: Front end: badge bent. SS1, km 6.1. p-toma, Sat 13 Jun, 10:00"
    assert before in paper.alternatives()
    assert "Line 1.1. Before: Front end: badge bent." in paper.text
    assert "Line 1.1. Work: New rim on." in paper.text


def issued(pen: Pen, answer: Json, supplements: int | None) -> Json:
    """Return the entry of a draft as it went out: what a manager's phone writes, without what lies behind lines."""
    behind = ("entries", "photos", "photos_before", "tag", "standing")
    draft = answer["draft"]
    content = {name: draft[name] for name in ("customer", "currency", "rates", "steps", "totals")}
    content["incidents"] = [
        {**one, "lines": [{k: v for k, v in line.items() if k not in behind} for line in one["lines"]]}
        for one in draft["incidents"]
    ]
    content["not_charged"] = [{k: v for k, v in one.items() if k not in behind} for one in draft["not_charged"]]
    data: dict[str, Any] = {"number": draft["number"], "agreement": draft["agreement"], "content": content}
    if supplements:
        data["supplements"] = supplements
    return pen.entry("statement.issued", person="p-vera", **data)


def test_an_issued_statement_stays_and_its_supplement_says_what_it_supplements(
    pen: Pen, entries: list[Json], hired: Setup
) -> None:
    first = issued(pen, answer_of(car_file(entries, hired)), None)
    lamp = pen.filed("front-end/lamp broken", stage="SS2")
    fixed = pen.finished("front-end/lamp", lamp, minutes=2, mechanics=1, parts=[{"part": "lamp", "qty": 1}])
    second = issued(pen, answer_of(car_file([*entries, first, lamp, fixed], hired)), 1)
    file = car_file([*entries, first, lamp, fixed, second], hired, photos=PHOTOS)
    newest, oldest = read(file), read(file, 1)
    assert "Statement no. 2 Agreement: hire-41 Supplements no. 1" in newest.text
    assert "Statement no. 1" in oldest.text
    assert "Supplements" not in oldest.text
    assert "lamp" not in oldest.text
    assert "Line 1.1. Work: New rim on." in oldest.text, "its photos are those behind the same line"
    rest = {one["number"]: one["totals"]["rest"] for one in answer_of(file)["issued"]}
    assert f"Rest {rest[1]}" in oldest.text
    assert f"Rest {rest[2]}" in newest.text
    assert "DRAFT" in read(file, 3).text


def test_a_number_that_there_is_none_of_is_named_with_those_that_there_are(entries: list[Json], hired: Setup) -> None:
    file = car_file(entries, hired)
    with pytest.raises(NotFound, match="no statement 7 of car 41; there are 1"):
        statement(file, statements_of_car(file.car, file.log, file.setup), "a4", 7)


def test_a_car_without_an_agreement_has_no_statement(pen: Pen, setup: Setup) -> None:
    file = car_file([pen.filed("front-end/badge bent")], setup)
    with pytest.raises(NotFound, match="no agreement names that car"):
        statement(file, statements_of_car(file.car, file.log, file.setup), "a4")

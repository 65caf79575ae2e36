"""The statement on paper: the same cents as the answer's, each step in its words, photos with the lines they show."""

from typing import Any

import pytest
from msgspec import to_builtins

from document_cases import car_file, pictures
from making import Json, Pen
from pdfua_checked import pdfua_finds
from reading_pdf import Pdf
from shuntbook.cost.statements import statements_of_car
from shuntbook.document.car_file import CarFile
from shuntbook.document.pdf import pdf
from shuntbook.document.statement import statement
from shuntbook.document.statement_answers import statement_answers
from shuntbook.kit.canonical import json_text
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


def test_a_statement_is_for_the_archive_and_has_its_own_data_in_it(hired: Setup, entries: list[Json]) -> None:
    """ISO 19005-3 (PDF/A-3), 6.6.4 and 6.8: the metadata name part and level, a file in it its kind and relation."""
    file = car_file(entries, hired, photos=PHOTOS)
    statements = statements_of_car(file.car, file.log, file.setup)
    smiling = {**statement(file, statements, "a4"), "customer": "Lena \N{GRINNING FACE}"}
    for data in (statement(file, statements, "a4"), smiling):
        made = pdf(data, PHOTOS.get, file.newest)
        read = Pdf(made)
        assert read.faults() == []
        assert pdfua_finds(made) == []
        metadata = read.root["/Metadata"].get_object().get_data().decode()
        assert "<pdfaid:part>3</pdfaid:part>" in metadata
        assert "<pdfaid:conformance>A</pdfaid:conformance>" in metadata
        assert "<pdfuaid:part>1</pdfuaid:part>" in metadata
        (held,) = read.reader.attachments.items()
        assert held == ("statement-41-1.json", [json_text(statements.draft).encode()])
        (described,) = (one.get_object() for one in read.root["/AF"])
        assert described["/AFRelationship"] == "/Data"
        assert described["/EF"]["/F"].get_object()["/Subtype"] == "/application/json"


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
        assert f"{step['says']} {step['amount'].replace('-', '−')}" in words
    rest = "Balance to pay"
    for name, says in (("to_pay", "To pay, before tax"), ("tax", "Tax"), ("deposit", "Less deposit"), ("rest", rest)):
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
    damage = "Line 1.1. Photo: Front end: badge bent. SS1, km 6.1. p-toma, Sat 13 Jun, 10:00"
    assert damage in paper.alternatives()
    assert "Line 1.1. Damage: Front end: badge bent." in paper.text
    assert "Before" not in paper.text
    assert "Line 1.1. Work: New rim on." in paper.text


def issued(pen: Pen, answer: Json, supplements: int | None) -> Json:
    """Return the entry of a draft as it went out: what a manager's phone writes, without what lies behind lines."""
    behind = ("entries", "photos", "photos_before", "tag", "standing")
    draft = answer["draft"]
    content = {name: draft[name] for name in ("customer", "currency", "rates", "steps", "totals", "letter")}
    if "other" in draft:
        content["other"] = [{k: v for k, v in one.items() if k not in behind} for one in draft["other"]]
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
    assert "Statement no. 2 Sat 13 Jun, 10:00, p-vera Due on 27 Jun 2026 Supplements no. 1" in newest.text
    assert "Statement no. 1" in oldest.text
    assert "Supplements" not in oldest.text
    assert "lamp" not in oldest.text
    assert "Line 1.1. Work: New rim on." in oldest.text, "its photos are those behind the same line"
    rest = {one["number"]: one["totals"]["rest"] for one in answer_of(file)["issued"]}
    assert f"Balance to pay {rest[1]}" in oldest.text
    assert f"Balance to pay {rest[2]}" in newest.text
    assert "DRAFT" in read(file, 3).text


def test_a_number_that_there_is_none_of_is_named_with_those_that_there_are(entries: list[Json], hired: Setup) -> None:
    file = car_file(entries, hired)
    with pytest.raises(NotFound, match="no statement 7 of car 41; there are 1"):
        statement(file, statements_of_car(file.car, file.log, file.setup), "a4", 7)


def test_a_car_without_an_agreement_has_no_statement(pen: Pen, setup: Setup) -> None:
    file = car_file([pen.filed("front-end/badge bent")], setup)
    with pytest.raises(NotFound, match="no agreement names that car"):
        statement(file, statements_of_car(file.car, file.log, file.setup), "a4")


LETTER = b"""address = "11 Mill Row, Harfeld"
signed_on = 2026-05-02
drivers = ["p-toma"]
hire_from = 2026-06-12T17:30:00+02:00
hire_to = 2026-06-14T18:00:00+02:00
included = {rim = 2}
[[clauses]]
agreement = "hire-41"
of = "damage"
clause = "4"
[[clauses]]
agreement = "hire-41"
of = "excluded"
clause = "4.2"
[sender]
name = "Quarry Lane Rallysport"
address = "4 Quarry Lane, Thornquell"
contact = "office@example.org"
tax_number = "00-000-000"
bank = "Thornquell Savings"
due_days = 30
object_days = 10
[[other_charges]]
charge = "fuel"
kind = "fuel"
says = "Fuel"
price = 2.10
unit = "l"
per_tank = 64
tax_percent = 19
"""


@pytest.fixture
def written() -> Setup:
    """The same with everything that makes the statement a letter."""
    return small_setup(event=FILES["event.toml"] + TERMS + LETTER, operations=OPERATIONS)


def walked(pen: Pen) -> list[Json]:
    out = pen.entry("handover.signed", person="p-vera", walk="out", odometer_km=18342, fuel_percent=75)
    return [out, pen.entry("handover.signed", person="p-vera", walk="return", odometer_km=18611, fuel_percent=25)]


def test_the_statement_is_a_letter_with_sender_customer_hire_terms_and_where_to_object(
    pen: Pen, entries: list[Json], written: Setup
) -> None:
    words = read(car_file([*entries, *walked(pen)], written, photos=PHOTOS)).text
    for said in (
        "Quarry Lane Rallysport 4 Quarry Lane, Thornquell office@example.org Tax number 00-000-000",
        "Statement 41-1 DRAFT, not issued",
        "For Lena 11 Mill Row Harfeld",
        "Hired Fri 12 Jun 2026, 17:30 to Sun 14 Jun 2026, 18:00",
        "Handed over Sat 13 Jun 2026, 10:00, 18,342 km",
        "Back Sat 13 Jun 2026, 10:00, 18,611 km",
        "Agreement hire-41 of 2 May 2026",
        "The terms that applied. You pay at most 300.00 for one incident, before tax. Misuse is paid in full."
        " Wear is not charged. Never charged: grille (clause 4.2). In the price: 2 × Rim.",
        "Where to pay. Thornquell Savings.",
        "Not agreed? Write to office@example.org within 10 days of this statement and name the line.",
    ):
        assert said in words


def test_a_line_says_its_cause_who_reported_it_when_and_the_clause(entries: list[Json], written: Setup) -> None:
    entries[0]["data"]["cause"] = "stone"
    words = read(car_file(entries, written, photos=PHOTOS)).text
    assert "Replace badge, front end (bent) Stone, reported Sat 13 Jun, 10:00 by p-toma (clause 4)" in words
    assert "never charged, by the agreement (clause 4.2)" in words


def test_what_is_charged_besides_damage_stands_with_its_sum_and_tax(
    pen: Pen, entries: list[Json], written: Setup
) -> None:
    words = read(car_file([*entries, *walked(pen)], written, photos=PHOTOS)).text
    assert "B1 Fuel Tank of 64 l: 75 % at the hand-over, 25 % at the return 32 l × 2.10, 19 % tax 67.20" in words
    assert "Tax: 19 % of 67.20 12.77" in words


def test_an_issued_letter_stays_as_it_was_whatever_the_set_up_says_later(
    pen: Pen, entries: list[Json], written: Setup, hired: Setup
) -> None:
    first = issued(pen, answer_of(car_file([*entries, *walked(pen)], written)), None)
    words = read(car_file([*entries, first], hired, photos=PHOTOS)).text
    assert "Quarry Lane Rallysport" in words
    assert "Due on 13 Jul 2026" in words
    assert "Where to pay. Thornquell Savings, by 13 Jul 2026." in words
    assert "B1 Fuel" in words


def test_tax_without_a_tax_number_is_told_on_the_paper_and_in_the_set_up(entries: list[Json], hired: Setup) -> None:
    told = "Tax is shown and no tax number is in the set-up."
    assert told in read(car_file(entries, hired)).text
    assert [warning.column for warning in hired.warnings] == ["agreements.tax_percent"]


def test_a_sum_of_thousands_has_one_sign_and_money_comes_back_in_words(entries: list[Json]) -> None:
    terms = TERMS.replace(b"deposit = 100.00", b"deposit = 2500.00")
    words = read(car_file(entries, small_setup(event=FILES["event.toml"] + terms, operations=OPERATIONS))).text
    # 159.80 with 20 % tax is 191.76: 2,308.24 of the deposit comes back.
    assert "Less the deposit that you paid −2,500.00 Refund to you 2,308.24" in words
    assert "Refund to you 2,308.24" in words


def test_inspections_are_one_sentence_and_answers_stand_on_the_annex_alone(
    pen: Pen, entries: list[Json], hired: Setup
) -> None:
    looks = [pen.filed("front-end/bumper unknown", "front-end/lamp unknown", stage="SS1")]
    first = issued(pen, answer_of(car_file([*entries, *looks], hired)), None)
    line = answer_of(car_file(entries, hired))["draft"]["incidents"][0]["lines"][0]
    settled = pen.entry(
        "statement.line_settled", first["id"], person="p-vera", line=line["line"], standing="disputed", reason="old"
    )
    file = car_file([*entries, *looks, first, settled], hired, photos=PHOTOS)
    words = read(file, 1).text
    assert "2 parts: inspection only, not charged." in words
    assert words.count("inspection only") == 1
    told = statements_of_car(file.car, file.log, file.setup)
    annex = Pdf(pdf(statement_answers(file, told, "a4", 1), PHOTOS.get, file.newest)).text
    assert "disputed, Sat 13 Jun, 10:00, p-vera: old disputed 159.80" in annex
    assert "Together, before share, excess, cap and tax Answer EUR disputed 159.80" in annex
    assert "old" not in words


def test_the_paper_says_why_a_part_is_not_charged_twice_for_one_hit(
    pen: Pen, entries: list[Json], hired: Setup
) -> None:
    again = pen.filed("front-end/badge bent", stage="SS1", caused_by=entries[0]["id"])
    file = car_file([*entries, again], hired)
    assert "asks" not in answer_of(file)["draft"]
    assert "Replace badge, front end (bent): its repair is charged for the same hit already" in read(file).text

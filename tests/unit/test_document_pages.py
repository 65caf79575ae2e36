"""Every document of a car on both papers: tagged, fonts embedded, the same bytes again, and what it never says."""

import re

import pytest

from document_cases import car_file
from every_document import DOCUMENTS, PHOTOS, storied_car
from making import Pen
from pdfua_checked import pdfua_finds
from reading_pdf import Pdf
from shuntbook.document.car_file import CarFile
from shuntbook.document.catalogue import PAPERS
from shuntbook.document.pdf import pdf
from shuntbook.document.record import record
from shuntbook.document.restart import restart_sheet
from shuntbook.kit.errors import NotFound
from shuntbook.setup.folder import Setup
from shuntbook.setup.words import split_key


@pytest.fixture
def file(pen: Pen, setup: Setup) -> CarFile:
    return storied_car(pen, setup)


def test_an_entry_may_be_written_within_a_second(file: CarFile) -> None:
    # RFC 3339, section 5.6: `time-secfrac` is a part of `time`; /CreationDate of a PDF (ISO 32000-2, 7.9.4) has none.
    within = file.newest.replace(microsecond=123_000)
    data = restart_sheet(file, "a4")
    assert pdf(data, PHOTOS.get, within) == pdf(data, PHOTOS.get, file.newest.replace(microsecond=0))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_document_is_tagged_embeds_its_fonts_and_is_on_the_paper_asked_for(
    name: str, paper: str, file: CarFile
) -> None:
    made = pdf(DOCUMENTS[name](file, paper), PHOTOS.get, file.newest)
    read = Pdf(made)
    assert read.faults() == []
    assert pdfua_finds(made) == []
    assert read.papers() == {paper}
    assert "/H1" in read.kinds()


@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_document_says_whose_word_it_is_and_never_more(name: str, file: CarFile) -> None:
    read = Pdf(pdf(DOCUMENTS[name](file, "a4"), PHOTOS.get, file.newest))
    for number in range(1, read.pages + 1):
        words = read.on_page(number)
        assert f"Page {number} of {read.pages}" in words
        assert "the team's own log" in words
        assert "Event officials, local rules and licensed practice decide." in words
    words = read.text.lower()
    assert not re.search(r"\b(safe|clear|inspected by|approved|certified|roadworthy)\b", words)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_the_same_log_gives_the_same_bytes(name: str, file: CarFile) -> None:
    once, again = (pdf(DOCUMENTS[name](file, "a4"), PHOTOS.get, file.newest) for _ in range(2))
    assert once == again


def test_times_are_the_events_own(file: CarFile) -> None:
    # The small event is in Vienna: entries of 08:00 UTC on 13 June 2026, a Saturday, are of 10:00 there.
    read = Pdf(pdf(record(file, "a4"), PHOTOS.get, file.newest))
    assert "Sat 13 Jun, 10:00" in read.text
    assert "08:00" not in read.text


@pytest.mark.parametrize(
    "wrote",
    [
        '#panic("run") $x$ *bold* _it_ = head @ref <label> \\ `raw` // gone /* gone */ [x](y)',
        '#import "main.typ" #read("/etc/passwd")',
        '"quotes" \\u{41} {json: 1}',
    ],
)
def test_what_people_wrote_is_never_run_as_markup(wrote: str, pen: Pen, setup: Setup) -> None:
    file = car_file([pen.filed("front-left/wheel bent", note=wrote)], setup)
    read = Pdf(pdf(record(file, "a4"), PHOTOS.get, file.newest))
    assert re.sub(r"\s", "", wrote) in re.sub(r"\s", "", read.text)


@pytest.mark.parametrize(
    "wrote", ["hub 😀 中文 ok", "\x00\x07\u202eright to left", "한국어 ก \ue000 \uffff", "a\u0301\u0489"]
)
def test_a_character_that_no_font_has_does_not_stop_a_document(wrote: str, pen: Pen, setup: Setup) -> None:
    file = car_file([pen.filed("front-left/wheel bent", note=f"before {wrote} after")], setup)
    read = Pdf(pdf(record(file, "a4"), PHOTOS.get, file.newest))
    assert read.faults() == []
    assert "before" in read.text
    assert "after" in read.text
    assert "Wheel bent" in read.text


def test_letters_of_other_alphabets_stay(pen: Pen, setup: Setup) -> None:
    file = car_file([pen.filed("front-left/wheel bent", note="Größe Čížek Жук Άρης łódź")], setup)
    assert "Größe Čížek Жук Άρης łódź" in Pdf(pdf(record(file, "a4"), PHOTOS.get, file.newest)).text


def test_a_paper_that_there_is_none_of_is_named_with_those_that_there_are(file: CarFile) -> None:
    with pytest.raises(NotFound, match="a4 and letter"):
        restart_sheet(file, "a5")


def test_a_car_without_entries_gives_sheets_all_the_same(setup: Setup) -> None:
    file = car_file([], setup)
    for name in ("restart-sheet", "job-sheet", "declaration", "record", "parts-order", "costs"):
        assert Pdf(pdf(DOCUMENTS[name](file, "a4"), PHOTOS.get, file.newest)).pages == 1


def test_jobs_of_zones_that_the_map_lacks_are_on_the_sheets(pen: Pen, setup: Setup) -> None:
    hit = pen.filed("nowhere/gizmo bent")
    bare = pen.entry("report.filed", note="a bang")
    file = car_file([hit, bare], setup)
    for name in ("restart-sheet", "job-sheet"):
        words = Pdf(pdf(DOCUMENTS[name](file, "a4"), PHOTOS.get, file.newest)).text
        assert split_key("nowhere/gizmo")[1] in words
        assert "Place not known" in words

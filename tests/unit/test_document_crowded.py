"""Papers of a car that was hit sixty times, with the longest names, on both papers: nothing lies over anything."""

from itertools import pairwise
from typing import Any

import pytest

from document_cases import car_file
from making import Pen
from reading_pdf import Pdf
from sample_event import event_files
from shuntbook.cost.statements import statements_of_car
from shuntbook.document.car_file import CarFile
from shuntbook.document.catalogue import PAPERS
from shuntbook.document.job_sheet import job_sheet
from shuntbook.document.pdf import pdf
from shuntbook.document.restart import restart_sheet
from shuntbook.document.statement import statement
from shuntbook.queue.car import car_log
from shuntbook.setup.folder import Setup, read_setup

HITS = 60
LONG = "Maximiliane-Charlotte Featherstonehaugh-Wojciechowska"
EVENT = "The Seventy-Fifth International Thornquell Gravel and Forest Days"
FOOT_PT = 57.0
"""The foot's rule and text lie below this, from the bottom of the page; nothing else does."""


def no_photo(_: str) -> None:
    """No photo is held."""


def crowded_setup() -> Setup:
    files = event_files("off")
    text = files["event.toml"].decode()
    for old, new in [("Rens", LONG), ("Marlies Ohm", LONG), ("Thornquell Gravel Days", EVENT)]:
        assert f'"{old}"' in text
        text = text.replace(f'"{old}"', f'"{new}"')
    label = "hired out, blue over white, chassis WXZ1234567890ABCD, registration TH-RA 4242"
    return read_setup({**files, "event.toml": text.replace('"hired out"', f'"{label}"').encode()})


@pytest.fixture(scope="module")
def crowded() -> CarFile:
    setup, pen = crowded_setup(), Pen("thornquell-2026", car="42")
    keys = [f"{zone}/{name}" for zone, one in setup.car_map.zones.items() for name in one.components]
    chosen = keys[:: len(keys) // HITS][:HITS]
    entries = [
        pen.filed(f"{key} {('bent', 'broken', 'cracked')[at % 3]}", stage=f"SS{1 + at % 8}", km=at / 4, cause="bank")
        for at, key in enumerate(chosen)
    ]
    return car_file(entries, setup, car="42")


def lines(read: Pdf, page: int) -> list[tuple[float, str]]:
    """Return the height above the foot of the page of each piece of text, and the text."""
    found: list[tuple[float, str]] = []

    def see(text: str, matrix: Any, text_matrix: Any, *_: Any) -> None:
        if text.strip():
            found.append((text_matrix[5] * matrix[3] + matrix[5], text))

    read.reader.pages[page].extract_text(visitor_text=see)
    return found


@pytest.mark.parametrize("paper", PAPERS)
def test_the_sum_of_sixty_incidents_breaks_and_the_first_page_says_what_is_to_be_paid(
    crowded: CarFile, paper: str
) -> None:
    setup = crowded.setup
    statements = statements_of_car("42", car_log(crowded.entries, setup), setup)
    read = Pdf(pdf(statement(crowded, statements, paper, None), no_photo, crowded.newest))
    assert statements.draft is not None
    rest = f"{float(statements.draft.totals.rest):,.2f} EUR"
    assert rest in read.on_page(1)
    assert LONG.split("-")[0] in read.on_page(1)
    for page in range(read.pages):
        low = [text for height, text in lines(read, page) if height < FOOT_PT and not is_foot(text)]
        assert low == [], f"page {page + 1}"
        assert "Incident" not in read.on_page(page + 1).split("The team's own calculation")[0][-80:], (
            "alone at the foot"
        )
    assert "Where to pay." in read.text


def is_foot(text: str) -> bool:
    return any(said in text for said in ("calculation", "Made from", "Times:", "Page", "Europe/", "Statement Car"))


@pytest.mark.parametrize("paper", PAPERS)
def test_a_job_sheet_of_sixty_jobs_is_one_page_whose_jobs_stand_above_the_rest(crowded: CarFile, paper: str) -> None:
    read = Pdf(pdf(job_sheet(crowded, paper, None), no_photo, crowded.newest))
    assert read.pages == 1
    heights = {text.strip(): height for height, text in lines(read, 0)}
    found = next(height for text, height in heights.items() if text.startswith("Found while"))
    jobs = [height for text, height in heights.items() if text.endswith((", replace", ", assess", ", inspect"))]
    assert len(jobs) > 20
    assert min(jobs) > found
    assert "more in the app." in read.text


@pytest.mark.parametrize("paper", PAPERS)
def test_a_restart_sheet_of_sixty_jobs_is_one_page_and_says_how_many_are_not_on_it(
    crowded: CarFile, paper: str
) -> None:
    read = Pdf(pdf(restart_sheet(crowded, paper), no_photo, crowded.newest))
    assert read.pages == 1
    assert "more: see the job sheet." in read.text
    assert "Function" in read.text


def test_two_long_names_in_a_head_do_not_run_into_each_other(crowded: CarFile) -> None:
    read = Pdf(pdf(restart_sheet(crowded, "a4"), no_photo, crowded.newest))
    starts = []

    def see(text: str, matrix: Any, text_matrix: Any, *_: Any) -> None:
        if "Seventy-Fifth" in text or "blue over white" in text:
            starts.append(text_matrix[4] * matrix[0] + matrix[4])

    read.reader.pages[0].extract_text(visitor_text=see)
    assert len(starts) == 2
    assert all(right - left > 250 for left, right in pairwise(sorted(starts)))

"""Papers of a car that was hit sixty times, with the longest names, on both papers: nothing lies over anything."""

from itertools import pairwise
from typing import Any

import pytest

from crowded_car import FOOT_PT, LONG, crowded_car, is_foot, lines
from longer import some
from reading_pdf import Pdf
from shuntbook.cost.statements import statements_of_car
from shuntbook.document.car_file import CarFile
from shuntbook.document.catalogue import PAPERS
from shuntbook.document.job_sheet import job_sheet
from shuntbook.document.pdf import pdf
from shuntbook.document.restart import restart_sheet
from shuntbook.document.statement import statement
from shuntbook.queue.car import car_log


def no_photo(_: str) -> None:
    """No photo is held."""


@pytest.fixture(scope="module")
def crowded() -> CarFile:
    return crowded_car()


@pytest.mark.parametrize("paper", some(list(PAPERS), 2))
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

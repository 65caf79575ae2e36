"""The car on paper: the app's own drawing, hatched in black by place."""

import re
import xml.etree.ElementTree as ET
from decimal import Decimal

import pytest

from document_cases import car_file
from making import Pen
from reading_pdf import Pdf
from shuntbook.document.drawing import STYLE, car_drawing, steps_of
from shuntbook.document.pdf import pdf
from shuntbook.document.restart import restart_sheet
from shuntbook.document.wording import Wording
from shuntbook.setup.folder import Setup

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize(
    ("amounts", "steps"),
    [
        ({"a": "100", "b": "75.01", "c": "75", "d": "50", "e": "0.01"}, {"a": 4, "b": 4, "c": 3, "d": 2, "e": 1}),
        ({"a": "0", "b": "3"}, {"b": 4}),
        ({"a": "0"}, {}),
        ({}, {}),
    ],
)
def test_steps_are_quarters_of_the_largest_as_on_the_screen(amounts: dict[str, str], steps: dict[str, int]) -> None:
    assert steps_of({zone: Decimal(amount) for zone, amount in amounts.items()}) == steps


def test_each_place_is_hatched_by_its_step_in_black_alone(setup: Setup) -> None:
    drawing = car_drawing({"front-left": 4, "under-rear": 1, "nowhere": 3}, "damage", Wording(setup))
    root = ET.fromstring(drawing["svg"])  # our own
    hatched = [one.get("fill") for one in root.iter(f"{SVG}path") if one.get("class") == "zone"]
    # A corner is seen from above and from below.
    assert sorted(filter(None, hatched)) == ["url(#h1)", "url(#h4)", "url(#h4)"]
    assert set(re.findall(r"#[0-9a-f]{3,6}\b", drawing["svg"] + STYLE)) <= {"#fff", "#000"}
    assert (
        drawing["alt"]
        == "The car from above and its underside, left and right as seated. damage: Front left, nowhere, under-rear"
    )


def test_the_restart_sheet_shows_where_and_says_it_to_who_can_not_see_it(pen: Pen, setup: Setup) -> None:
    file = car_file([pen.filed("front-left/wheel bent")], setup)
    read = Pdf(pdf(restart_sheet(file, "a4"), lambda _: None, file.newest))
    [said] = read.alternatives()
    assert said.startswith("The car from above and its underside, left and right as seated.")
    assert said.endswith(": Front left")


def test_a_car_with_no_damage_seen_has_no_drawing(setup: Setup) -> None:
    assert restart_sheet(car_file([], setup), "a4")["drawing"] is None

"""The shared cases of which reports are of one hit, worked out by hand: the server holds to them as the phone does."""

import json
from itertools import permutations
from pathlib import Path

import pytest

from making import Json, Pen, parsed
from shuntbook.cost.incidents import incidents

FILE = Path(__file__).parents[2] / "schemas" / "vectors" / "incidents.json"
CASES: list[Json] = json.loads(FILE.read_text())["cases"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["why"])
def test_the_server_holds_to_the_shared_case_in_any_order(case: Json, pen: Pen) -> None:
    made = [
        {**pen.entry("incident.grouped", reports=one["reports"], replaces=one["replaces"]), "id": one["id"]}
        for one in case["groupings"]
    ]
    for order in permutations(made):
        found = incidents(parsed(order), case["caused_by"])
        assert {report: incident.incident for report, incident in found.items()} == case["incidents"]

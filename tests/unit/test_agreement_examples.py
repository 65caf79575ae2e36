"""What the form of an agreement says of a hit is what a statement charges for it.

Each was calculated by hand. The app reads them too: pwa/tests/agreement_example.test.ts.
"""

import json
from pathlib import Path

import pytest

from making import Pen, parsed
from shuntbook.cost.statements import statements_of_car
from shuntbook.queue.car import car_log
from small_event import FILES, small_setup

MAP = b"""[zones.front-left]
label = "Front left"
kind = "corner"
components = ["arm", "wheel", "liner"]
"""
OPERATIONS = b"""component,condition,action,minutes_best,minutes_likely,minutes_worst,mechanics,access,parts,must_do,\
value
arm,broken,replace,9,9,9,1,,arm,true,1
wheel,broken,replace,9,9,9,1,,wheel,true,1
liner,broken,replace,9,9,9,1,,liner,false,1
"""
CASES = json.loads((Path(__file__).parents[1] / "data" / "agreement_examples.json").read_text())
PARTS = ("arm", "wheel", "liner")
"""One hit breaks one of them."""
WORDS = ("excess_per",)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["why"])
def test_the_example_of_a_form_is_what_the_statement_charges(case: dict, pen: Pen) -> None:
    terms = "\n".join(f'{key} = "{said}"' if key in WORDS else f"{key} = {said}" for key, said in case["terms"].items())
    head = '\n[[agreements]]\nagreement = "hire-41"\ncar = "41"\ncustomer = "Lena"\nlabour_per_hour = 0\n'
    prices = "".join(f"{part},{part},{case['size']}\n" for part in PARTS)
    setup = small_setup(
        event=FILES["event.toml"] + (head + "consumables_percent = 0\n" + terms + "\n").encode(),
        operations=OPERATIONS,
        parts=b"part,description,unit_cost\n" + prices.encode(),
        car_map=MAP,
    )
    entries = []
    for part in PARTS[: case["hits"]]:
        hit = pen.filed(f"front-left/{part} broken", stage="SS1", cause="stone")
        done = pen.finished(f"front-left/{part}", hit, minutes=9, mechanics=1, parts=[{"part": part, "qty": 1}])
        entries += [hit, done]
    made = statements_of_car("41", car_log(parsed(entries), setup), setup).draft
    assert made is not None
    totals = made.totals
    assert (totals.to_pay, totals.tax, totals.rest) == (case["damage"], case["tax"], case["rest"])

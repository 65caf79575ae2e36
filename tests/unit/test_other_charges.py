"""What a customer is charged besides damage, worked out by hand: from both walks, by hand, with its own tax."""

from datetime import timedelta
from typing import Any

import pytest
from msgspec import to_builtins

from making import START, Json, Pen, parsed
from shuntbook.cost.statements import statements_of_car
from shuntbook.kit.errors import BadEntry, BadSetup
from shuntbook.queue.car import car_log
from shuntbook.setup.folder import Setup
from small_event import FILES, small_setup

TERMS = """
[[agreements]]
agreement = "hire-41"
car = "41"
customer = "Lena"
excess = 100.00
hire_from = 2026-06-13T08:00:00Z
hire_to = 2026-06-15T12:00:00Z
deposit = 50.00
"""
PRICES = """
[[other_charges]]
charge = "fuel"
kind = "fuel"
says = "Fuel"
price = 2.10
unit = "l"
per_tank = 64
tax_percent = 19
[[other_charges]]
charge = "jack"
kind = "kit"
says = "Jack"
price = 85.00
item = "Jack"
[[other_charges]]
charge = "late"
kind = "lateness"
says = "Late return"
price = 40.00
unit = "h"
[[other_charges]]
charge = "wash"
kind = "cleaning"
says = "Cleaning"
price = 60.00
"""


def setup_of(terms: str = TERMS, prices: str = PRICES) -> Setup:
    return small_setup(event=FILES["event.toml"] + (terms + prices).encode())


def draft(entries: list[Json], setup: Setup | None = None) -> Json:
    setup = setup or setup_of()
    told: Json = to_builtins(statements_of_car("41", car_log(parsed(entries), setup), setup))
    made: Json = told["draft"]
    return made


def walks(pen: Pen, out: Json, back: Json, returned: str = "2026-06-15T12:00:00Z") -> list[Json]:
    went = pen.entry("handover.signed", person="p-vera", walk="out", **out)
    return [went, {**pen.entry("handover.signed", person="p-vera", walk="return", **back), "at": returned}]


def amounts(made: Json) -> dict[str, str]:
    return {one["line"]: one["amount"] for one in made.get("other", [])}


# A tank of 64 l, three quarters full and brought back with one quarter: 32 l at 2.10 = 67.20; 19 % of it = 12.768.
def test_fuel_is_what_is_missing_of_the_tank_with_the_tax_of_its_own(pen: Pen) -> None:
    made = draft(walks(pen, {"fuel_percent": 75}, {"fuel_percent": 25}))
    [one] = made["other"]
    assert (one["qty"], one["unit"], one["price"], one["amount"], one["tax_percent"]) == (32, "l", "2.10", "67.20", 19)
    assert one["why"] == "Tank of 64 l: 75 % at the hand-over, 25 % at the return"
    totals = made["totals"]
    assert (totals["other"], totals["to_pay"], totals["tax"], totals["rest"]) == ("67.20", "67.20", "12.77", "29.97")
    assert [(step["says"], step["amount"]) for step in made["steps"] if step["step"] in ("other", "tax")] == [
        ("Fuel", "67.20"),
        ("Tax: 19 % of 67.20", "12.77"),
    ]


@pytest.mark.parametrize(
    ("out", "back"),
    [
        ({"fuel_percent": 25}, {"fuel_percent": 75}),
        ({"fuel_percent": 50}, {"fuel_percent": 50}),
        ({}, {"fuel_percent": 5}),
    ],
)
def test_fuel_that_was_not_used_or_not_read_is_not_charged(pen: Pen, out: Json, back: Json) -> None:
    assert "other" not in draft(walks(pen, out, back))


def test_what_was_aboard_and_is_not_any_more_is_charged_and_what_has_no_price_is_asked_about(pen: Pen) -> None:
    kit = [{"item": "Jack", "aboard": True}, {"item": "Tarp", "aboard": True}, {"item": "Radio", "aboard": False}]
    made = draft(walks(pen, {"kit": kit}, {"kit": [{**one, "aboard": False} for one in kit]}))
    assert amounts(made) == {"other/41/jack": "85.00"}
    assert made["asks"] == [
        "Tarp is not aboard any more, and there is no price for it. Add one in the set-up, or enter it by hand."
    ]
    any_item = PRICES + '[[other_charges]]\ncharge = "kit"\nkind = "kit"\nprice = 20.00\n'
    made = draft(
        walks(pen, {"kit": kit}, {"kit": [{**one, "aboard": False} for one in kit]}), setup_of(prices=any_item)
    )
    assert amounts(made) == {"other/41/jack": "85.00", "other/41/kit/Tarp": "20.00"}
    assert "asks" not in made


@pytest.mark.parametrize(
    ("returned", "amount"),
    [
        ("2026-06-15T12:00:00Z", None),
        ("2026-06-15T12:00:01Z", "40.00"),
        ("2026-06-15T13:00:00Z", "40.00"),
        ("2026-06-15T13:00:01Z", "80.00"),
    ],
)
def test_each_begun_hour_after_the_hire_is_charged(pen: Pen, returned: str, amount: str | None) -> None:
    assert amounts(draft(walks(pen, {}, {}, returned))).get("other/41/late") == amount


def test_cleaning_is_charged_where_the_return_walk_says_so(pen: Pen) -> None:
    assert amounts(draft(walks(pen, {}, {"needs_cleaning": True}))) == {"other/41/wash": "60.00"}
    assert amounts(draft(walks(pen, {"needs_cleaning": True}, {"needs_cleaning": False}))) == {}
    asked = draft(walks(pen, {}, {"needs_cleaning": True}), setup_of(prices=""))["asks"]
    assert asked == [
        "The car needs cleaning, and there is no price for it. Add one in the set-up, or enter it by hand."
    ]


def test_an_odometer_that_goes_down_is_asked_about(pen: Pen) -> None:
    made = draft(walks(pen, {"odometer_km": 18611}, {"odometer_km": 18342.5}))
    assert made["asks"] == [
        "The odometer read 18,611 km at the hand-over and 18,342.5 km at the return. Which is right? Sign the walk with"
        " the wrong one again."
    ]
    assert "asks" not in draft(walks(pen, {"odometer_km": 18342}, {"odometer_km": 18342}))


def test_what_a_manager_enters_by_hand_is_charged_and_a_newer_one_takes_its_place(pen: Pen) -> None:
    def added(person: str = "p-vera", subject: str | None = None, **data: Any) -> Json:
        return pen.entry("charge.added", subject, person=person, **{"charge": "property", "says": "Fence, 4 m", **data})

    fence = added(price="220.00", reason="invoice of the farmer", photos=["ab" * 32])
    assert amounts(draft([fence, added("p-bodo", price="1.00")])) == {f"other/41/{fence['id']}": "220.00"}
    [one] = draft([fence])["other"]
    assert (one["why"], one["photos"], one["entries"]) == ("invoice of the farmer", ["ab" * 32], [fence["id"]])
    less = added(subject=f"other/41/{fence['id']}", price="180.00", replaces=[fence["id"]])
    assert amounts(draft([fence, less])) == {f"other/41/{fence['id']}": "180.00"}
    # Two thirds of a litre at 1.005 a litre: 0.67, rounded once.
    oil = added(price="1.005", qty="0.6667", unit="l")
    assert amounts(draft([oil])) == {f"other/41/{oil['id']}": "0.67"}
    credit = added(price="-20.00")
    assert draft([fence, credit])["totals"]["to_pay"] == "200.00"


def test_a_drafted_line_is_corrected_by_hand_or_not_charged(pen: Pen) -> None:
    entries = walks(pen, {"fuel_percent": 75}, {"fuel_percent": 25})
    corrected = pen.entry(
        "charge.added",
        "other/41/fuel",
        person="p-vera",
        charge="fuel",
        says="Fuel, by the receipt",
        qty=30,
        price="2.00",
    )
    assert amounts(draft([*entries, corrected])) == {"other/41/fuel": "60.00"}
    gone = pen.entry("charge.decided", "other/41/fuel", person="p-vera", charge="not-charged", reason="goodwill")
    made = draft([*entries, gone])
    assert "other" not in made
    [left] = made["not_charged"]
    assert (left["line"], left["why"]) == ("other/41/fuel", "decided by the team: goodwill")
    voided = pen.entry("entry.voided", person="p-vera", voids=[corrected["id"]], reason="mis-tap")
    assert amounts(draft([*entries, corrected, voided])) == {"other/41/fuel": "67.20"}


def test_other_charges_stand_beside_share_excess_and_cap(pen: Pen) -> None:
    hit = pen.filed("front-end/badge broken", stage="SS1")
    done = pen.finished("front-end/badge", hit, minutes=200, mechanics=1)
    terms = setup_of(
        TERMS.replace("excess = 100.00", "excess = 100.00\ncap = 30.00\nshare_percent = 50\ntax_percent = 20")
    )
    entries = [*walks(pen, {"fuel_percent": 75}, {"fuel_percent": 25}), hit, done]
    totals = draft(entries, terms)["totals"]
    # The hit is 200.00, half of it 100.00, at most 30.00; tax 6.00; fuel 67.20 with 12.77: 97.20 and 18.77.
    assert (totals["to_pay"], totals["tax"], totals["rest"]) == ("97.20", "18.77", "65.97")


def test_the_order_of_entries_and_one_walk_alone_change_nothing(pen: Pen) -> None:
    entries = walks(pen, {"fuel_percent": 75}, {"fuel_percent": 25})
    assert draft(entries[::-1]) == draft(entries)
    assert "other" not in draft(entries[:1])
    assert "other" not in draft(entries[1:])
    again = {
        **pen.entry("handover.signed", person="p-vera", walk="return", fuel_percent=50, replaces=[entries[1]["id"]])
    }
    later = {**again, "at": (START + timedelta(days=2)).isoformat()}
    assert amounts(draft([*entries, later])) == {"other/41/fuel": "33.60"}


@pytest.mark.parametrize(
    ("row", "column", "said"),
    [
        ('charge = "fuel"\nkind = "fuel"\nprice = 2\n', "per_tank", "say how many units a full tank holds"),
        ('charge = "a"\n', "price", "price is missing"),
        ('charge = "a"\nprice = 1e15\n', "price", "more than 12 digits"),
        ('charge = "a"\nprice = 1.005\n', "price", "more decimals than EUR"),
        ('charge = "a"\nprice = 1\nprise = 2\n', "prise", "did you mean price?"),
        ('charge = "a"\nkind = "petrol"\nprice = 1\n', "kind", "is not one of other, fuel, kit, cleaning, lateness"),
    ],
)
def test_a_fault_in_the_price_list_names_its_line_and_what_to_do(row: str, column: str, said: str) -> None:
    with pytest.raises(BadSetup) as refused:
        setup_of(prices=f"[[other_charges]]\n{row}")
    [fault] = refused.value.faults
    assert (fault.column, said in fault.what) == (f"other_charges.{column}", True)


def test_a_hire_that_ends_before_it_begins_is_a_fault() -> None:
    with pytest.raises(BadSetup, match="is not after hire_from"):
        setup_of(TERMS.replace("2026-06-15T12", "2026-06-13T06"))


@pytest.mark.parametrize(
    ("data", "field"), [({"price": "1" * 13}, "price"), ({"price": "1", "qty": -1}, "qty"), ({"price": "x"}, "price")]
)
def test_an_entry_that_nothing_can_be_calculated_from_is_refused(pen: Pen, data: Json, field: str) -> None:
    with pytest.raises(BadEntry) as refused:
        parsed([pen.entry("charge.added", charge="other", says="x", **data)])
    assert str(refused.value.field).startswith("data") and field in f"{refused.value.field} {refused.value}"

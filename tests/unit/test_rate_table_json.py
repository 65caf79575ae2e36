"""The rate table that phones calculate with: every number as exact decimal text."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shuntbook.kit.money import exact_text
from shuntbook.setup.folder import Setup, default_car_map
from shuntbook.setup.words import FIXED_GROUPS
from shuntbook.wire.setup_json import setup_json
from small_event import FILES, small_setup


@pytest.mark.parametrize(
    ("amount", "text"),
    [(Decimal("2.50"), "2.5"), (Fraction(1, 8), "0.125"), (0, "0"), (1200, "1200"), (Decimal("1E+3"), "1000")],
)
def test_exact_text_has_all_decimals_and_no_more(amount, text):
    assert exact_text(amount) == text


@given(st.decimals(min_value=0, max_value=10**12, allow_nan=False, allow_infinity=False))
def test_exact_text_read_again_is_the_same_number(amount):
    assert Fraction(exact_text(Fraction(amount))) == Fraction(amount)


def test_what_has_no_finite_decimal_form_is_refused():
    with pytest.raises(ValueError, match="1/3"):
        exact_text(Fraction(1, 3))


def test_every_number_of_the_table_is_the_one_that_the_server_reckons_with():
    operations = (
        FILES["rates/operations.csv"] + b"mat,worn,dry,0.125,1.3,2.125,1,,hose*0.3333333333;hose*1,false,0.7,\n"
    )
    setup = small_setup(operations=operations)
    table, rates = setup_json(setup)["rate_table"], setup.rates
    assert (table["version"], table["currency"], table["decimals"]) == (rates.version, "EUR", 2)
    for row in table["operations"]:
        held = rates.operations[row["component"], row["condition"], row["zone"]]
        minutes = [Fraction(row[f"minutes_{point}"]) for point in ("best", "likely", "worst")]
        assert minutes == [held.minutes.best, held.minutes.likely, held.minutes.worst]
        assert {one["part"]: Decimal(one["qty"]) for one in row["parts"]} == held.parts
        assert Fraction(row["value"]) == held.value
    assert len(table["operations"]) == len(rates.operations)
    assert {one["part"]: Decimal(one["unit_cost"]) for one in table["parts"]} == {
        name: part.unit_cost for name, part in rates.parts.items()
    }
    assert [Fraction(m) for m in table["inspect_minutes_by_group"]["cage"]] == [10, 10, 10]


def test_the_van_travels_with_the_set_up(setup: Setup):
    assert setup_json(setup)["van"] == {"rim": "2", "hose": "3", "lamp": "1"}


def test_groups_that_no_team_takes_away_travel_even_where_its_map_does_not_list_the_component(setup: Setup):
    fixed = setup_json(setup)["car_map"]["fixed"]
    package = default_car_map().components
    assert fixed == {name: one.group for name, one in package.items() if one.group in FIXED_GROUPS}
    assert fixed["brake-caliper"] == "brake"
    assert "brake-caliper" not in setup_json(setup)["car_map"]["components"]

"""Money: minor units against ISO 4217 and CLDR, rounding half up, minutes with two decimals."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import iso4217
import pytest
from babel.numbers import get_currency_precision, list_currencies
from hypothesis import given
from hypothesis import strategies as st

from shuntbook.kit.money import Currency, currency, total, two_decimals

EUR = Currency("EUR", 2)
# CLDR says how amounts are usually written, ISO 4217 what the minor unit is: for these the two differ, and
# money follows ISO 4217, in which invoices are calculated.
CLDR_DIFFERS = {
    "AFN", "ALL", "IQD", "IRR", "KPW", "LAK", "LBP", "MGA", "MMK", "RSD", "SOS", "SYP", "YER",
}  # fmt: skip


def paid_in() -> list[str]:
    return sorted(code.code for code in iso4217.Currency if code.exponent is not None)


@pytest.mark.parametrize(
    ("code", "decimals"),
    # ISO 4217, list one: minor units of none, two, three and four decimals.
    [("EUR", 2), ("USD", 2), ("JPY", 0), ("ISK", 0), ("KWD", 3), ("TND", 3), ("UYW", 4), ("CLF", 4)],
)
def test_a_currency_has_the_decimals_of_iso_4217(code, decimals):
    assert currency(code) == Currency(code, decimals)


def test_every_currency_agrees_with_cldr_but_for_the_known_ones():
    known_to_cldr = list_currencies()
    differing = {
        code for code in paid_in() if code in known_to_cldr and currency(code).decimals != get_currency_precision(code)
    }
    assert len(paid_in()) > 150
    assert differing == CLDR_DIFFERS


@pytest.mark.parametrize("code", ["", "EURO", "eur", "ZZZ", "€"])
def test_what_is_no_currency_is_refused_with_an_example(code):
    with pytest.raises(ValueError, match="such as EUR"):
        currency(code)


@pytest.mark.parametrize("code", ["XAU", "XXX", "XTS", "XDR"])
def test_gold_and_tests_have_no_minor_unit_to_pay_in(code):
    # ISO 4217 gives these "N.A." as their minor unit.
    with pytest.raises(ValueError, match="no minor unit"):
        currency(code)


@pytest.mark.parametrize(
    ("amount", "rounded"),
    [
        ("0.005", "0.01"),
        ("0.0049999", "0.00"),
        ("-0.005", "-0.01"),
        ("-0.0049999", "0.00"),
        ("2.675", "2.68"),
        ("-2.675", "-2.68"),
        ("1.995", "2.00"),
        ("1000000000.005", "1000000000.01"),
    ],
)
def test_a_line_is_rounded_half_up_away_from_zero(amount, rounded):
    assert EUR.round(Decimal(amount)) == Decimal(rounded)


def test_a_third_is_rounded_from_the_exact_fraction():
    assert EUR.round(Fraction(1, 3)) == Decimal("0.33")
    assert EUR.round(Fraction(2, 3)) == Decimal("0.67")
    assert Currency("JPY", 0).round(Fraction(1, 2)) == Decimal(1)
    assert Currency("KWD", 3).round(Fraction(1, 2000)) == Decimal("0.001")


@given(st.integers(-(10**14), 10**14), st.integers(0, 5), st.integers(0, 4))
def test_the_text_of_an_amount_is_that_of_its_rounding_whether_it_was_rounded_before_or_not(number, places, decimals):
    amount = Decimal(number).scaleb(-places)
    expected = amount.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP) + 0  # -0 is 0
    assert Currency("XYZ", decimals).text(amount) == f"{expected:f}"


@given(st.decimals(-(10**12), 10**12, places=6), st.integers(0, 4))
def test_rounding_agrees_with_decimals_own_half_up(amount, decimals):
    expected = amount.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    assert Currency("XYZ", decimals).round(amount) == expected


@pytest.mark.parametrize(
    ("code", "amount", "text"),
    [("EUR", "4.5", "4.50"), ("JPY", "210", "210"), ("KWD", "1", "1.000"), ("EUR", "-0.001", "0.00")],
)
def test_money_is_written_with_exactly_the_currencys_decimals(code, amount, text):
    assert currency(code).text(Decimal(amount)) == text


def test_an_amount_fits_unless_it_has_more_decimals_than_the_currency():
    assert EUR.fits(Decimal("1.50"))
    assert EUR.fits(Decimal("1.500"))
    assert not EUR.fits(Decimal("1.501"))
    assert not Currency("JPY", 0).fits(Decimal("0.5"))


@pytest.mark.parametrize(
    ("minutes", "shown"),
    [(Fraction(9, 2), 4.5), (Fraction(1, 3), 0.33), (Fraction(1, 200), 0.01), (Fraction(4), 4), (Decimal("2.50"), 2.5)],
)
def test_minutes_show_two_decimals_rounded_half_up(minutes, shown):
    assert two_decimals(minutes) == shown


def test_whole_minutes_stand_as_whole_numbers():
    assert isinstance(two_decimals(Fraction(4)), int)
    assert isinstance(two_decimals(Fraction(3999, 1000)), int)


def test_totals_add_rounded_lines():
    # Three lines of a third of a euro: each is 0.33, so the total is 0.99 and not 1.00.
    assert total(EUR.round(Fraction(1, 3)) for _ in range(3)) == Decimal("0.99")
    assert total([]) == 0

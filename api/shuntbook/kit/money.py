"""Money in exact numbers: fractions inside, one rounding per line, half up, to ISO 4217 minor units.

A line is rounded once; totals add rounded lines. Sample: 4.5 min × 1 × 60.00 / h = 4.50 EUR.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache

import iso4217

Exact = Fraction | Decimal | int


@dataclass(frozen=True)
class Currency:
    """An ISO 4217 currency: its code and how many decimals its minor unit has."""

    code: str
    decimals: int

    def round(self, amount: Exact) -> Decimal:
        """Return `amount` rounded half up (away from zero) to the minor unit."""
        return _half_up(amount, self.decimals)

    def fits(self, amount: Decimal) -> bool:
        """Return whether `amount` has no more decimals than the currency."""
        return self.round(amount) == amount

    def text(self, amount: Decimal) -> str:
        """Return `amount` with exactly the currency's decimals, as it stands in JSON."""
        if not amount:
            return _nothing(self.decimals)
        if amount.same_quantum(_unit(self.decimals)):
            return str(amount)  # rounded already, as nearly all of a sheet's thousands are
        return f"{self.round(amount):.{self.decimals}f}"


def currency(code: str) -> Currency:
    """Look a currency up by its ISO 4217 code.

    Errors: ValueError if the standard has no such code, or gives it no minor unit (gold, say).
    """
    try:
        known = iso4217.Currency(code)
    except ValueError:
        raise ValueError(f"{code!r} is not an ISO 4217 currency code; write one such as EUR") from None
    if known.exponent is None:
        raise ValueError(f"{code!r} has no minor unit in ISO 4217; use a currency people pay in")
    return Currency(code, int(known.exponent))


def two_decimals(minutes: Exact) -> int | float:
    """Return minutes as they stand in JSON: a number rounded half up to two decimals."""
    return _number(minutes, 2)


def quantity(qty: Exact) -> int | float:
    """Return a quantity as it stands in JSON: a number rounded half up to four decimals, whole where it is whole."""
    return _number(qty, 4)


def _number(exact: Exact, decimals: int) -> int | float:
    above, below = exact.as_integer_ratio()
    if below == 1:
        return above
    rounded = _half_up(exact, decimals)
    return int(rounded) if rounded == int(rounded) else float(rounded)


def exact_text(amount: Exact) -> str:
    """Return a number that has a finite decimal form as text with all its decimals and no more, such as "2.5".

    Numbers of 0 or more. Errors: ValueError for one like 1/3.
    """
    whole = Fraction(amount)
    twos, fives, left = _powers(whole.denominator)
    if left != 1:
        raise ValueError(f"{whole} has no finite decimal form")
    places = max(twos, fives)
    digits = str(whole.numerator * 10**places // whole.denominator).rjust(places + 1, "0")
    return digits if places == 0 else f"{digits[:-places]}.{digits[-places:]}"


def _powers(number: int) -> tuple[int, int, int]:
    """Return how often 2 and 5 divide `number`, and what is left of it."""
    counts = []
    for prime in (2, 5):
        count = 0
        while number % prime == 0:
            number //= prime
            count += 1
        counts.append(count)
    return counts[0], counts[1], number


def total(lines: Iterable[Decimal]) -> Decimal:
    """Add lines that are rounded already."""
    return sum(lines, Decimal(0))


def _half_up(amount: Exact, decimals: int) -> Decimal:
    # In whole numbers: a sheet of thousands of lines rounds tens of thousands of amounts.
    above, below = amount.as_integer_ratio()
    whole = (abs(above) * 10**decimals * 2 + below) // (below * 2)
    return Decimal(-whole if above < 0 else whole).scaleb(-decimals).quantize(_unit(decimals), ROUND_HALF_UP)


@cache
def _unit(decimals: int) -> Decimal:
    return Decimal(1).scaleb(-decimals)


@cache
def _nothing(decimals: int) -> str:
    return f"{0:.{decimals}f}"

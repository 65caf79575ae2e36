"""Stock that covers: against published Poisson values and scipy, over a grid."""

from fractions import Fraction
from itertools import islice

import pytest

import distributions
from shuntbook.season.stock import MOST_CALLS, Calls, chances, cover, from_few, from_rate

ONE = {Fraction(1): 1}
MEANS = (0.01, 0.3, 1.0, 2.5, 6.0, 17.3, 60.0, 240.0, 650.0)


def cumulated(calls: Calls, most: int) -> list[float]:
    found, reached = [], 0.0
    for chance in islice(chances(calls, {1: 1.0}), most + 1):
        reached += chance
        found.append(reached)
    return found


def test_published_values_of_the_poisson_distribution():
    """Mean 6: P(X ≤ 8) = 0.8472 and P(X > 8) = 0.1528, as printed Poisson tables have it; critical ratio 0.99834
    (a newsvendor's (p − c)/(p − s)) takes a stock of 14. Both recomputed with scipy below."""
    upto = cumulated(Calls(6), 14)
    assert round(upto[8], 4) == 0.8472
    assert round(1 - upto[8], 4) == 0.1528
    assert cover(Calls(6), ONE, [0.99834]) == [14]
    assert (upto[13] < 0.99834 <= upto[14]) and distributions.poisson.ppf(0.99834, 6) == 14


def test_more_values_of_a_printed_poisson_table():
    """Cumulative Poisson probabilities as statistics textbooks print them to three or four places (from memory)."""
    for mean, most, printed in ((1, 0, 0.3679), (1, 2, 0.9197), (2, 3, 0.8571), (3, 5, 0.9161), (5, 8, 0.9319)):
        assert round(cumulated(Calls(mean), most)[most], 4) == printed


@pytest.mark.parametrize("mean", MEANS)
def test_poisson_chances_are_those_of_scipy(mean):
    most = int(mean + 12 * mean**0.5 + 20)
    ours = list(islice(chances(Calls(mean), {1: 1.0}), most))
    for count, chance in enumerate(ours):
        assert chance == pytest.approx(distributions.poisson.pmf(count, mean), rel=1e-9, abs=1e-290)


@pytest.mark.parametrize("mean", MEANS)
@pytest.mark.parametrize("shape", [0.5, 1.5, 4.5, 30.5])
def test_gamma_poisson_chances_are_those_of_scipy(mean, shape):
    most = int(mean + 8 * (mean + mean**2 / shape) ** 0.5 + 20)
    theirs = distributions.nbinom(shape, shape / (shape + mean))
    for count, chance in enumerate(islice(chances(Calls(mean, shape), {1: 1.0}), min(most, 3000))):
        assert chance == pytest.approx(theirs.pmf(count), rel=1e-9, abs=1e-290)


@pytest.mark.parametrize("mean", MEANS)
@pytest.mark.parametrize("shape", [None, 0.5, 2.5, 12.5])
def test_the_stock_is_the_least_that_covers(mean, shape):
    theirs = distributions.poisson(mean) if shape is None else distributions.nbinom(shape, shape / (shape + mean))
    shares = [0.5, 0.9, 0.95, 0.99, 0.999]
    assert cover(Calls(mean, shape), ONE, shares) == [int(theirs.ppf(share)) for share in shares]


def test_a_rate_known_from_few_events_is_the_predictive_of_jeffreys_prior():
    """Gamma(½, 0) and 3 calls over 200 car-km: Gamma(3.5, 200); the next 150 car-km: NB(3.5, 200/350) (Gelman et al.,
    *Bayesian Data Analysis*, from memory), here as scipy has it."""
    calls = from_few(3, 200, 150)
    assert calls.mean == pytest.approx(distributions.nbinom(3.5, 200 / 350).mean())
    for count, chance in enumerate(islice(chances(calls, {1: 1.0}), 30)):
        assert chance == pytest.approx(distributions.nbinom.pmf(count, 3.5, 200 / 350), rel=1e-9)


def test_little_known_takes_more_stock_than_much_and_comes_near_to_it_with_events():
    few, many = from_few(2, 100, 100), from_few(200, 10_000, 100)
    plain = from_rate(200, 10_000, 100)
    shares = [0.9, 0.95, 0.99]
    assert cover(few, ONE, shares) > cover(plain, ONE, shares)
    assert cover(many, ONE, shares) == cover(plain, ONE, shares) == [4, 5, 6]


def test_several_pieces_a_call_are_the_sum_of_that_many_draws():
    """Poisson calls of 1 or 4 wheel nuts, against scipy: nuts = A + 4·B, A and B Poisson of their own (thinning)."""
    ours = list(islice(chances(Calls(3.0), {1: 0.75, 4: 0.25}), 40))
    for nuts, chance in enumerate(ours):
        summed = sum(
            distributions.poisson.pmf(nuts - 4 * four, 2.25) * distributions.poisson.pmf(four, 0.75)
            for four in range(nuts // 4 + 1)
        )
        assert chance == pytest.approx(summed, rel=1e-9)


def test_stock_is_in_the_quantities_that_were_called_for():
    half = Fraction(1, 2)
    assert cover(Calls(2.0), {Fraction(4): 3}, [0.95]) == [4 * distributions.poisson.ppf(0.95, 2)]
    assert cover(Calls(2.0), {half: 1}, [0.95]) == [half * int(distributions.poisson.ppf(0.95, 2))]
    assert cover(Calls(2.0), {half: 2, Fraction(3, 4): 1}, [0.95])[0] % Fraction(1, 4) == 0


def test_nothing_called_for_takes_no_stock():
    assert cover(from_rate(0, 100, 100), ONE, [0.9, 0.99]) == [0, 0]


def test_more_than_floats_hold_is_refused():
    with pytest.raises(ValueError, match="too many"):
        cover(Calls(MOST_CALLS + 1), ONE, [0.95])

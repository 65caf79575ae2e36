"""Credibility against worked examples of the literature, and where it says nothing."""

from fractions import Fraction
from random import Random

import pytest

from shuntbook.season.credibility import credibility

F = Fraction


def each_of_weight_one(**groups):
    return {name: [(F(value), F(1)) for value in values] for name, values in groups.items()}


def test_the_two_policyholders_of_loss_models_come_out_in_exact_fractions():
    """Klugman, Panjer & Willmot, *Loss Models*, the example of the non-parametric estimators with (3, 5, 7) and
    (6, 12, 9), from memory; recomputed by hand: v̂ = (4+0+4+9+9+0)/4, â = 8 − 6.5/3, Z = 3/(3 + 39/35)."""
    found = credibility(each_of_weight_one(one=(3, 5, 7), two=(6, 12, 9)))
    assert (found.within, found.between, found.collective) == (F(13, 2), F(35, 6), 7)
    assert set(found.factors.values()) == {F(35, 48)}
    assert (found.estimate("one"), found.estimate("two")) == (F(133, 24), F(203, 24))


# Hachemeister's five states, twelve quarters (1975): claims per claim count, and how many claims. From memory, as in
# the R package actuar's `hachemeister`; the printed results beside them are of its `cm()` without a regression.
RATIOS = (
    (1738, 1642, 1794, 2051, 2079, 2234, 2032, 2035, 2115, 2262, 2267, 2517),
    (1364, 1408, 1597, 1444, 1342, 1675, 1470, 1448, 1464, 1831, 1612, 1471),
    (1759, 1685, 1479, 1763, 1674, 2103, 1502, 1622, 1828, 2155, 2233, 2059),
    (1223, 1146, 1010, 1257, 1426, 1532, 1953, 1123, 1343, 1243, 1762, 1306),
    (1456, 1499, 1609, 1741, 1482, 1572, 1606, 1735, 1607, 1573, 1613, 1690),
)
WEIGHTS = (
    (7861, 9251, 8706, 8575, 7917, 8263, 9456, 8003, 7365, 7832, 7849, 9077),
    (1622, 1742, 1523, 1515, 1622, 1602, 1964, 1515, 1527, 1748, 1654, 1861),
    (1147, 1357, 1329, 1204, 998, 1077, 1277, 1218, 896, 1003, 1108, 1121),
    (407, 396, 348, 341, 315, 328, 352, 331, 287, 384, 321, 342),
    (2902, 3172, 3046, 3068, 2693, 2910, 3275, 2697, 2663, 3017, 3242, 3425),
)
PUBLISHED = (
    (2060.921, 0.9847404, 2055.165),
    (1511.224, 0.9276352, 1523.706),
    (1805.843, 0.8984754, 1793.444),
    (1352.976, 0.7279092, 1442.967),
    (1599.829, 0.9587911, 1603.285),
)


def test_unequal_weights_give_the_published_figures_of_five_states():
    states = {state: [(F(x), F(w)) for x, w in zip(RATIOS[state], WEIGHTS[state], strict=True)] for state in range(5)}
    found = credibility(states)
    assert found.collective is not None
    assert float(found.collective) == pytest.approx(1683.713, abs=5e-4)
    assert found.between is not None and found.within is not None
    assert float(found.between) == pytest.approx(89639, abs=0.5)
    assert float(found.within) == pytest.approx(139120026, abs=0.5)
    for state, (mean, factor, premium) in enumerate(PUBLISHED):
        estimate = found.estimate(state)
        assert estimate is not None
        assert float(found.means[state]) == pytest.approx(mean, abs=5e-4)
        assert float(found.factors[state]) == pytest.approx(factor, abs=5e-8)
        assert float(estimate) == pytest.approx(premium, abs=5e-4)


def test_the_within_variance_gives_the_published_shrinking_of_eighteen_batters():
    """Efron & Morris, *Scientific American* 236 (1977): hits of 45 at bat, James–Stein factor 0.212 (from memory).

    Their factor is 1 − (r − 3)·σ²/Σ(y − ȳ)², ours 1 − (r − 1)·v̂/(n·Σ(y − ȳ)²): the same figures, another divisor.
    """
    hits = (18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7)
    groups = {number: [(F(1 if at < hit else 0), F(1)) for at in range(45)] for number, hit in enumerate(hits)}
    found = credibility(groups)
    spread = sum((mean - found.collective) ** 2 for mean in found.means.values())
    assert float(1 - 15 * found.within / 45 / spread) == pytest.approx(0.212, abs=2e-3)
    assert found.factors[0] == 1 - 17 * found.within / 45 / spread


def test_groups_that_differ_no_more_than_chance_are_drawn_all_the_way():
    found = credibility(each_of_weight_one(one=(1, 9), two=(2, 8), three=(4, 7, 5)))
    assert found.between == 0
    assert {found.estimate(key) for key in found.means} == {found.collective} == {F(36, 7)}


def test_one_group_and_single_observations_say_nothing_of_differences():
    alone = credibility(each_of_weight_one(one=(2, 4)))
    assert (alone.between, alone.estimate("one")) == (0, 3)
    single = credibility(each_of_weight_one(one=(2,), two=(5,)))
    assert (single.within, single.estimate("one"), single.estimate("two")) == (None, F(7, 2), F(7, 2))


def test_a_group_seen_often_is_believed_more_than_one_seen_once():
    found = credibility(each_of_weight_one(often=(3, 3, 4, 4, 3), once=(9,), other=(5, 6)))
    assert 0 < found.factors["once"] < found.factors["other"] < found.factors["often"] < 1


@pytest.mark.parametrize("groups", [{}, {"one": []}])
def test_nothing_observed_is_refused(groups):
    with pytest.raises(ValueError, match="at least one group"):
        credibility(groups)


def test_on_average_the_estimates_are_nearer_to_the_truth_than_the_means():
    """What shrinking is for: 200 seeded seasons of 12 operations timed 1 to 6 times."""
    chance, ours, plain = Random(4), 0.0, 0.0
    for _ in range(200):
        truth = {key: chance.gauss(1.1, 0.25) for key in range(12)}
        groups = {
            key: [
                (F(round(chance.gauss(mean, 0.3), 3)).limit_denominator(1000), F(1))
                for _ in range(chance.randint(1, 6))
            ]
            for key, mean in truth.items()
        }
        found = credibility(groups)
        ours += sum((float(found.estimate(key)) - mean) ** 2 for key, mean in truth.items())
        plain += sum((float(found.means[key]) - mean) ** 2 for key, mean in truth.items())
    assert ours < 0.85 * plain

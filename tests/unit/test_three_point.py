"""Three-point estimates against the textbook's project of 14 activities.

Hillier & Lieberman, Introduction to Operations Research, PERT/CPM chapter (inputs from memory, re-computed):
the critical path A-B-C-E-F-J-L-N has mean 44 and variance 9, and P(T ≤ 47) = 0.8413.
"""

from fractions import Fraction
from statistics import NormalDist

import pytest

from shuntbook.setup.rates import ThreePoint

PROJECT = {
    "A": ("1", "2", "3"),
    "B": ("2", "3.5", "8"),
    "C": ("6", "9", "18"),
    "D": ("4", "5.5", "10"),
    "E": ("1", "4.5", "5"),
    "F": ("4", "4", "10"),
    "G": ("5", "6.5", "11"),
    "H": ("5", "8", "17"),
    "I": ("3", "7.5", "9"),
    "J": ("3", "9", "9"),
    "K": ("4", "4", "4"),
    "L": ("1", "5.5", "7"),
    "M": ("1", "2", "3"),
    "N": ("5", "5.5", "9"),
}
# The means and variances that the same book prints beside the estimates.
MEANS = dict(zip("ABCDEFGHIJKLMN", (2, 4, 10, 6, 4, 5, 7, 9, 7, 8, 4, 5, 2, 6), strict=True))
VARIANCES = dict(
    zip("ABCDEFGHIJKLMN", ("1/9", "1", "4", "1", "4/9", "1", "1", "4", "1", "1", "0", "1", "1/9", "4/9"), strict=True)
)
CRITICAL = "ABCEFJLN"


def estimate(activity: str) -> ThreePoint:
    return ThreePoint(*(Fraction(text) for text in PROJECT[activity]))


@pytest.mark.parametrize("activity", PROJECT)
def test_an_activity_has_the_books_mean_and_variance(activity):
    assert estimate(activity).expected == MEANS[activity]
    assert estimate(activity).variance == Fraction(VARIANCES[activity])


def test_the_critical_path_takes_44_with_variance_9():
    path = [estimate(activity) for activity in CRITICAL]
    assert sum(activity.expected for activity in path) == 44
    assert sum(activity.variance for activity in path) == 9


def test_the_deadline_of_47_is_met_with_probability_0_8413():
    path = [estimate(activity) for activity in CRITICAL]
    mean, variance = sum(a.expected for a in path), sum(a.variance for a in path)
    assert round(NormalDist(float(mean), float(variance) ** 0.5).cdf(47), 4) == 0.8413


def test_certain_minutes_have_no_variance():
    assert ThreePoint(Fraction(4), Fraction(4), Fraction(4)).variance == 0

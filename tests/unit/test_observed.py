"""Observed minutes of operations, summed by hand: the small event's wheel expects 4.5 min, its lamp 1, its hub 10."""

from fractions import Fraction
from typing import Any

import pytest

from making import Pen
from season_making import held
from shuntbook.season.accepted import with_minutes
from shuntbook.season.observed import observe, observed_answer, to_half
from shuntbook.setup.rates import ThreePoint
from small_event import OPERATIONS, small_setup

WHEEL, LAMP, HUB, BUMPER = ("wheel", "bent", ""), ("lamp", "broken", ""), ("hub", "bent", ""), ("bumper", "bent", "")


def jobs(pen: Pen, key: str, condition: str, *minutes: float | None, **more: Any):
    for took in minutes:
        filed = pen.filed(f"{key} {condition}", where="stage", stage="SS1")
        yield filed
        yield pen.finished(key, filed, minutes=took, **more)


def seen(setup, *entries):
    return observe([held(setup, entries)], setup.rates)


@pytest.fixture
def timed(pen):
    """Wheels in 9, 9 and 9 min (twice the table), lamps in 1, 1.25 and 0.75 (as the table), bumpers in 2, 2."""
    return [
        *jobs(pen, "front-left/wheel", "bent", 9, 9, 9),
        *jobs(pen, "front-end/lamp", "broken", 1, 1.25, 0.75),
        *jobs(pen, "front-end/bumper", "bent", 2, 2),
    ]


def test_ratios_means_and_credibility_are_as_reckoned_by_hand(setup, timed):
    """Ratios 2, 2, 2 · 1, 1.25, 0.75 · 1, 1: v̂ = 0.125/5, weights 3, 3, 2, mean 11/8, spread 3·(5/8)² + 5·(3/8)²
    = 15/8, â = (15/8 − 0.05)/(8 − 22/8)."""
    found = seen(setup, *timed)
    assert found.figures.means == {WHEEL: 2, LAMP: 1, BUMPER: 1}
    assert found.figures.within == Fraction(1, 40)
    assert found.figures.between == (Fraction(15, 8) - Fraction(1, 20)) / (8 - Fraction(22, 8))
    k = found.figures.within / found.figures.between
    assert found.figures.factors == {WHEEL: 3 / (3 + k), LAMP: 3 / (3 + k), BUMPER: 2 / (2 + k)}


def test_only_what_differs_from_the_table_is_suggested_and_in_half_minutes(setup, timed):
    found = seen(setup, *timed)
    ratio = found.figures.estimate(WHEEL)
    assert 1.9 < ratio < 2
    assert found.suggestions() == {WHEEL: ThreePoint(*(to_half(ratio * minutes) for minutes in (3, 4, 8)))}
    # Best 3, likely 4 and worst 8 at 1.97 …: 5.92, 7.89 and 15.79 to the nearest half.
    assert found.suggestion(WHEEL) == ThreePoint(Fraction(6), Fraction(8), Fraction(16))
    wheel = next(one for one in observed_answer(found, setup.event).operations if one.component == "wheel")
    assert wheel.says == "Timed 3 times, 9 min on average where the table expects 4.5: the table would become 9."
    assert wheel.suggested.minutes_expected == 9


def test_a_job_timed_once_or_alone_suggests_nothing(setup, pen):
    once = seen(setup, *jobs(pen, "front-left/wheel", "bent", 9), *jobs(pen, "front-end/lamp", "broken", 1, 1))
    assert once.suggestion(WHEEL) is None
    alone = seen(setup, *jobs(pen, "front-left/wheel", "bent", 9, 9, 9))
    assert alone.suggestions() == {}
    assert observed_answer(alone, setup.event).operations[0].says.endswith("no change suggested.")


def test_nothing_timed_is_an_answer(setup, pen):
    answer = observed_answer(seen(setup, *jobs(pen, "front-left/wheel", "bent", None)), setup.event)
    assert (answer.timed, answer.operations, answer.method.pace) == (0, [], None)
    assert answer.apart.not_timed == 1


@pytest.mark.parametrize(
    ("reason", "key", "condition", "minutes", "more"),
    [
        ("temporary", "front-left/wheel", "bent", 2, {"temporary": True}),
        ("another_action", "front-left/wheel", "bent", 5, {"action": "straighten"}),
        ("another_crew", "front-left/wheel", "bent", 5, {"mechanics": 2}),
        ("no_row", "front-left/arm", "bent", 5, {}),
        ("far_off", "front-left/wheel", "bent", 45, {}),
        ("far_off", "front-left/wheel", "bent", 0, {}),
        ("not_timed", "front-left/wheel", "bent", None, {}),
    ],
)
def test_what_does_not_compare_is_counted_apart(setup, pen, timed, reason, key, condition, minutes, more):
    before, odd = seen(setup, *timed), list(jobs(pen, key, condition, minutes, **more))
    found = seen(setup, *timed, *odd)
    assert found.timed.apart[reason] == 1
    assert sum(found.timed.apart.values()) == 1
    assert found.figures == before.figures
    assert found.timed.far_off == ([odd[1]["id"]] if reason == "far_off" else [])


def test_a_zone_with_a_row_of_its_own_is_an_operation_of_its_own(setup, pen):
    found = seen(setup, *jobs(pen, "front-right/wheel", "bent", 6, 7), *jobs(pen, "front-left/wheel", "bent", 5))
    assert found.timed.minutes == {("wheel", "bent", "front-right"): [6, 7], WHEEL: [5]}


def test_times_of_several_events_come_together(setup, pen):
    first, second = (list(jobs(pen, "front-left/wheel", "bent", took)) for took in (5, 6))
    found = observe([held(setup, first), held(setup, second)], setup.rates)
    assert (found.events, found.timed.minutes[WHEEL]) == (2, [5, 6])


@pytest.mark.parametrize(
    ("minutes", "half"), [("0.1", "0.5"), ("0.75", "1"), ("2.24", "2"), ("2.25", "2.5"), ("7", "7")]
)
def test_minutes_are_rounded_to_halves_and_never_to_nothing(minutes, half):
    assert to_half(Fraction(minutes)) == Fraction(half)


NEW = {WHEEL: ThreePoint(Fraction(6), Fraction(17, 2), Fraction(16))}


def test_accepted_minutes_change_their_cells_and_no_other_byte():
    after = with_minutes(OPERATIONS, NEW)
    assert after == OPERATIONS.replace(b"wheel,bent,replace,3,4,8,", b"wheel,bent,replace,6,8.5,16,", 1)
    rates = small_setup(operations=after).rates
    assert rates.operations[WHEEL].minutes == NEW[WHEEL]
    assert rates.operations["wheel", "bent", "front-right"].minutes.likely == 6


def test_a_file_keeps_its_mark_line_endings_quotes_and_blank_lines():
    head = "\ufeffzone,component,condition,action,minutes_worst,minutes_likely,minutes_best,skill\r\n"
    rows = '\r\n"",wheel,bent,swap,8,4,3,"weld, cut"\r\n"",hub,bent,"swap ""both""",9,9,9,\r\n'
    after = with_minutes((head + rows).encode(), NEW)
    assert after == (head + '\r\n,wheel,bent,swap,16,8.5,6,"weld, cut"\r\n' + rows.split("\r\n")[2] + "\r\n").encode()


def test_a_last_row_without_line_ending_stays_without():
    data = OPERATIONS.rstrip(b"\n") + b"\nwheel,broken,replace,1,2,3,1,,,true,1,"
    after = with_minutes(data, {("wheel", "broken", ""): NEW[WHEEL]})
    assert after.endswith(b"\nwheel,broken,replace,6,8.5,16,1,,,true,1,")

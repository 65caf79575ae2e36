"""What lateness costs, against the figures of published regulations.

10 s a minute late and 60 s a minute early: Motorsport UK, National Competition Rules 2026, Ch. 13 App. 8 1.3(g)-(h)
and App. 14(h)-(i). 15 s a minute: the same, App. 7B. Out after 15 minutes at one control: TOSFED, National Rally Rules
2022, Art. 29.2; after 30 in all: FIA rally sporting regulations, from memory. The whole due minute on
time: from memory.
"""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from shuntbook.setup.event import Regulations
from shuntbook.setup.regulation_time import early_penalty_s, late_minutes, late_penalty_s, out

USUAL = Regulations()


def at(clock: str, offset: str = "+02:00") -> datetime:
    return datetime.fromisoformat(f"2026-05-16T{clock}{offset}")


DUE = at("10:00:00")


@pytest.mark.parametrize(
    ("actual", "early", "late"),
    [
        ("09:58:00", 120, 0),
        ("09:59:00", 60, 0),
        ("09:59:59", 60, 0),
        ("10:00:00", 0, 0),
        ("10:00:59", 0, 0),
        ("10:01:00", 0, 10),
        ("10:01:59", 0, 10),
        ("10:03:00", 0, 30),
    ],
)
def test_each_clock_minute_costs_and_the_whole_due_minute_is_on_time(actual, early, late):
    assert early_penalty_s(DUE, at(actual), USUAL) == early
    assert late_penalty_s(DUE, at(actual), USUAL) == late


def test_the_due_time_is_cut_to_its_minute_as_well():
    assert late_penalty_s(at("10:00:45"), at("10:01:10"), USUAL) == 10
    assert early_penalty_s(at("10:00:45"), at("10:00:10"), USUAL) == 0


def test_another_scale_costs_15_seconds_a_minute():
    scale = Regulations(late_penalty_s_per_minute=15)
    assert late_penalty_s(DUE, at("10:03:00"), scale) == 45


def test_an_event_that_penalises_no_lateness_gives_none():
    assert late_penalty_s(DUE, at("10:14:00"), Regulations(late_penalty_s_per_minute=0)) == 0


@pytest.mark.parametrize(("minutes", "is_out"), [(15, False), (16, True)])
def test_more_than_the_limit_at_one_control_is_out(minutes, is_out):
    assert out([minutes], USUAL) is is_out


@pytest.mark.parametrize(("lateness", "is_out"), [((10, 12, 8), False), ((10, 12, 9), True)])
def test_more_than_the_limit_in_all_is_out(lateness, is_out):
    assert out(lateness, USUAL) is is_out


def test_being_early_somewhere_makes_up_for_nothing():
    assert out([15, -10, 15], USUAL) is False
    assert out([15, -10, 15, 1], USUAL) is True


def test_no_control_passed_yet_is_in():
    assert out([], USUAL) is False


def test_an_event_sets_its_own_limits():
    # Motorsport UK, National Competition Rules 2026, Ch. 13 App. 13 10.1(i): 30 minutes.
    wide = Regulations(late_limit_minutes=30, total_late_limit_minutes=60)
    assert out([30, 30], wide) is False
    assert out([31], wide) is True
    assert out([21, 20, 20], wide) is True


def test_times_of_two_offsets_are_compared_as_instants():
    assert late_minutes(at("10:00:00", "+02:00"), at("08:05:30", "+00:00")) == 5


def test_the_hour_that_a_summer_night_repeats_counts_in_full():
    # IANA time zones: Europe/Vienna went back from 03:00 to 02:00 on 2025-10-26.
    vienna = ZoneInfo("Europe/Vienna")
    due = datetime(2025, 10, 26, 2, 50, tzinfo=vienna)
    actual = datetime(2025, 10, 26, 2, 10, fold=1, tzinfo=vienna)
    assert late_minutes(due, actual) == 20


def test_a_time_without_its_offset_is_refused():
    with pytest.raises(ValueError, match="no offset"):
        late_minutes(DUE, datetime(2026, 5, 16, 10, 3))

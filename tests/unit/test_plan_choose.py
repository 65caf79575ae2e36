"""What a plan takes on beside what must be done: value while it stays likely to end in time, and what moves nothing."""

from dataclasses import replace
from fractions import Fraction

import pytest

from shuntbook.plan.check import faults
from shuntbook.plan.choose import Chosen, choose
from shuntbook.plan.ontime import share_in_time
from shuntbook.plan.problem import Problem, Reached, Schedule, Task, Worker, units
from shuntbook.plan.solve import Effort, solve
from shuntbook.setup.rates import ThreePoint

QUICK = Effort(deterministic_s=2.0)
MINUTE = 4
WORKERS = (Worker("p-a", True, False), Worker("p-b", True, False))


def work(name: str, best: float, likely: float, worst: float, may: tuple[int, ...] = (0,)) -> Task:
    minutes = ThreePoint(Fraction(best), Fraction(likely), Fraction(worst))
    return Task(name, "work", units(minutes.expected), 1, may, group=name, minutes=minutes)


def problem(minutes: float, *tasks: Task, **values: int) -> Problem:
    """What must be done is called `must`, the rest has a value."""
    known = {"must": 0, **values}
    return Problem(tasks, WORKERS, levels=(frozenset({"must"}),), values=known, horizon=int(minutes * MINUTE))


def both(made: Problem, percent: float) -> list[Chosen]:
    found = [choose(made, percent, QUICK, solve), choose(made, percent, QUICK, None)]
    for one in found:
        assert faults(made, one.schedule) == []
    return found


# A chain of 5.5 and 4 minutes, of variance 0.69 and 1: by the end of the due minute, 10.5, in some three of four runs.
MUST, DEAR, CHEAP = work("must", 4, 5, 9), work("dear", 2, 3.5, 8), work("cheap", 1, 1, 1)
SHORT = 9.5


def test_value_is_taken_on_only_while_the_chance_is_kept_and_what_is_left_out_for_it_says_the_chance() -> None:
    made = problem(SHORT, MUST, DEAR, CHEAP, dear=90, cheap=10)
    for found in both(made, 80):
        assert found.schedule.inside == {"must", "cheap"}
        assert share_in_time(made, found.schedule) >= 0.8
        assert found.everything.inside == {"must", "dear"}
        assert found.shares["dear"] == pytest.approx(share_in_time(made, found.everything))
        assert found.shares["dear"] < 0.8
        assert found.buffer > 0


@pytest.mark.parametrize("percent", [0, 60])
def test_with_a_smaller_chance_asked_for_or_none_most_value_is_in(percent: int) -> None:
    for found in both(problem(SHORT, MUST, DEAR, CHEAP, dear=90, cheap=10), percent):
        assert found.schedule.inside == {"must", "dear"}
        assert found.schedule.inside == found.everything.inside


def test_where_what_must_be_done_is_not_likely_enough_by_itself_value_costs_less_than_a_percent() -> None:
    long = work("must", 8, 9, 16)
    # The second has nothing else to do: a minute's work of theirs delays nothing; the first one's does.
    beside, after = work("beside", 1, 1, 1, may=(1,)), work("after", 1, 1, 1)
    made = problem(11, long, beside, after, beside=5, after=50)
    alone = share_in_time(made, choose(problem(11, long), 0, QUICK, None).schedule)
    for found in both(made, 99):
        assert found.schedule.inside == {"must", "beside"}
        assert share_in_time(made, found.schedule) > alone - 0.01


def test_idle_hands_do_what_has_no_value_where_it_moves_nothing() -> None:
    nothing, too_long = work("nothing", 1, 2, 3, may=(0, 1)), work("too-long", 19, 20, 21, may=(0, 1))
    made = problem(SHORT, MUST, nothing, too_long, **{"nothing": 0, "too-long": 0})
    for found in both(made, 80):
        assert found.schedule.inside == {"must", "nothing"}
        assert found.schedule.finish == units(Fraction(11, 2))


def test_in_time_is_to_the_end_of_the_due_minute() -> None:
    exact = work("must", 10, 10, 10)
    assert share_in_time(problem(9.25, exact), plan := choose(problem(10, exact), 0, QUICK, None).schedule) == 1
    assert share_in_time(problem(9, exact), plan) == 0


def of_two(minutes: float, **values: int) -> Problem:
    """Two things that must be done, both by one person, beside what has a value."""
    both = (MUST, work("too", 4, 5, 6), DEAR)
    known = {"must": 0, "too": 0, **values}
    return Problem(both, WORKERS, levels=(frozenset({"must", "too"}),), values=known, horizon=int(minutes * MINUTE))


def tired(made: Problem, start: Schedule | None, effort: Effort) -> Schedule | None:
    """A solver that finds no more than it was begun with, and knows no bound but what it is told."""
    assert start is not None
    most, worth = made.most[0] if made.most else 2, sum(made.values.get(group, 0) for group in start.inside)
    rows = (Reached(0, len(made.levels[0] & start.inside), most), Reached("value", worth, worth))
    return replace(start, proven=most == rows[0].reached, goals=rows)


def test_that_no_more_was_found_before_value_was_asked_for_is_not_told_as_proven() -> None:
    found = choose(of_two(SHORT, dear=90), 99, QUICK, tired).schedule
    assert found.inside & {"must", "too"} == {"must"}
    assert found.goals[0] == Reached(0, 1, 2)
    assert not found.proven


def test_a_solver_that_finds_less_of_a_level_than_fits_beside_it_does_not_cost_it() -> None:
    def half(made: Problem, start: Schedule | None, effort: Effort) -> Schedule | None:
        assert start is not None
        kept = tuple(item for item in start.placed if made.tasks[item.task].name == "must")
        return Schedule(kept, False, "solver", frozenset({"must"}), (Reached(0, 1, 2), Reached("finish", 22, 0)))

    found = choose(of_two(20, dear=90), 0, QUICK, half).schedule
    assert {"must", "too"} <= found.inside
    assert found.goals[0] == Reached(0, 2, 2)

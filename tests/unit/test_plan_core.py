"""The planner's core on cases whose best plan is known by hand, and the checker on plans that break one rule each."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from random import Random
from statistics import fmean, pvariance

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from longer import times
from shuntbook.plan.check import RULES, broken_rules, faults
from shuntbook.plan.greedy import greedy
from shuntbook.plan.ontime import chance, draw, serial
from shuntbook.plan.problem import Apart, Placed, Problem, Schedule, Span, Task, Worker, units
from shuntbook.plan.psplib import read_sm
from shuntbook.plan.solve import Effort, solve
from shuntbook.setup.rates import ThreePoint

TWO = (Worker("p-a", True, False), Worker("p-b", True, True))
BOTH = (0, 1)
QUICK = Effort(deterministic_s=2.0)


def best(problem: Problem) -> Schedule:
    found = solve(problem, greedy(problem), QUICK)
    assert found is not None
    assert faults(problem, found) == []
    return found


def work(name: str, length: int, **more) -> Task:
    return Task(name, "work", length, **{"people": 1, "may": BOTH, "group": name, **more})


def names(problem: Problem, schedule: Schedule) -> list[str]:
    return sorted(problem.tasks[item.task].name for item in schedule.placed)


def test_two_people_share_four_jobs_in_half_the_time() -> None:
    tasks = tuple(work(name, length) for name, length in (("a", 5), ("b", 3), ("c", 4), ("d", 2)))
    problem = Problem(tasks, TWO, levels=(frozenset("abcd"),), horizon=40)
    found = best(problem)
    assert (found.finish, found.proven, found.by) == (7, True, "solver")


def test_musts_come_before_any_value_and_value_before_an_early_finish() -> None:
    tasks = (work("must", 8, people=2), work("dear", 2), work("cheap", 2), work("cheaper", 2))
    values = {"must": 0, "dear": 100, "cheap": 10, "cheaper": 9}
    problem = Problem(tasks, TWO, levels=(frozenset({"must"}),), values=values, horizon=10)
    assert names(problem, best(problem)) == ["cheap", "dear", "must"]
    shorter = replace(problem, horizon=9)
    assert names(shorter, best(shorter)) == ["must"]


def test_an_access_step_is_opened_once_around_all_that_needs_it_and_not_for_nothing() -> None:
    tasks = (
        work("one", 4),
        work("two", 4),
        Task("open", "open", 2, 1, BOTH, step="stands", because=(0, 1)),
        Task("close", "close", 2, 1, BOTH, step="stands", because=(0, 1)),
        work("beside", 3),
    )
    problem = Problem(
        tasks, TWO, spans=(Span("stands", 2, 3, (0, 1), stands=True),), levels=(frozenset({"one", "two"}),), horizon=8
    )
    assert names(problem, best(problem)) == ["close", "one", "open", "two"]
    without = replace(problem, levels=(frozenset({"beside"}),), horizon=7)
    assert names(without, best(without)) == ["beside"]


def test_ground_work_waits_until_the_car_is_down() -> None:
    tasks = (
        work("arm", 3),
        Task("open", "open", 1, 1, BOTH, step="stands", because=(0,)),
        Task("close", "close", 1, 1, BOTH, step="stands", because=(0,)),
        Task("toe", "check", 2, 2, BOTH, group="arm", ground=True),
    )
    problem = Problem(
        tasks,
        TWO,
        before=((0, 3),),
        spans=(Span("stands", 1, 2, (0,), stands=True),),
        levels=(frozenset({"arm"}),),
        horizon=9,
    )
    found = best(problem)
    assert found.finish == 7
    assert {problem.tasks[item.task].name: item.start for item in found.placed} == {
        "open": 0,
        "arm": 1,
        "close": 4,
        "toe": 5,
    }


def test_who_repaired_does_not_inspect() -> None:
    tasks = (work("hose", 2), Task("look", "inspect", 1, 1, (1,), group="hose"))
    problem = Problem(tasks, TWO, before=((0, 1),), apart=(Apart(1, (0,)),), levels=(frozenset({"hose"}),), horizon=5)
    found = {problem.tasks[item.task].name: item.workers for item in best(problem).placed}
    assert found == {"hose": (0,), "look": (1,)}
    alone = replace(problem, workers=(TWO[1],), tasks=(work("hose", 2, may=(0,)), replace(tasks[1], may=(0,))))
    assert best(alone).placed == ()


def test_fire_risk_stops_all_other_work_and_a_zone_holds_its_people() -> None:
    tasks = (
        work("fuel", 3, alone=True),
        work("lamp", 2),
        work("wheel", 2, uses={"corner": 1}),
        work("arm", 2, uses={"corner": 1}),
    )
    problem = Problem(tasks, TWO, {"corner": 1}, levels=(frozenset({"fuel", "lamp", "wheel", "arm"}),), horizon=20)
    # 3 alone, then lamp beside one of the two that share a place: 3 + 2 + 2.
    assert best(problem).finish == 7


def test_somebody_with_the_skill_is_among_them_and_nobody_works_before_he_is_there() -> None:
    workers = (Worker("p-a", True, False), Worker("p-w", True, False, frozenset({"welder"}), from_unit=4))
    problem = Problem((work("weld", 2, skilled=(1,)),), workers, levels=(frozenset({"weld"}),), horizon=9)
    found = best(problem)
    assert (found.placed[0].start, found.placed[0].workers) == (4, (1,))


def valid() -> tuple[Problem, Schedule]:
    tasks = (
        work("arm", 3, uses={"corner": 1}),
        Task("open", "open", 1, 1, BOTH, step="stands", because=(0,)),
        Task("close", "close", 1, 1, BOTH, step="stands", because=(0,)),
        Task("look", "inspect", 1, 1, (1,), group="arm", uses={"corner": 1}),
        Task("nuts", "check", 1, 1, BOTH, because=(2,), ground=True),
    )
    problem = Problem(
        tasks,
        TWO,
        {"corner": 1},
        before=((0, 3), (2, 4)),
        spans=(Span("stands", 1, 2, (0, 3), stands=True),),
        apart=(Apart(3, (0,)), Apart(4, (2,))),
        levels=(frozenset({"arm"}),),
        horizon=8,
    )
    placed = (
        Placed(1, 0, 1, (0,)),
        Placed(0, 1, 4, (0,)),
        Placed(3, 4, 5, (1,)),
        Placed(2, 5, 6, (0,)),
        Placed(4, 6, 7, (1,)),
    )
    return problem, Schedule(placed, True, "solver", frozenset({"arm"}))


def test_the_checker_finds_nothing_in_a_valid_plan() -> None:
    assert faults(*valid()) == []


@pytest.mark.parametrize(
    ("task", "change", "said"),
    [
        (0, {"workers": (1,)}, "does look after arm"),
        (0, {"start": 0, "end": 3}, "starts before stands is open"),
        (0, {"end": 3}, "takes 2 units instead of 3"),
        (3, {"workers": (0,)}, "has not the people"),
        (3, {"start": 3, "end": 4}, "starts before arm is done"),
        (3, {"start": 5, "end": 6}, "ends after stands is closed"),
        (2, {"workers": (1,)}, "does nuts after close"),
        (4, {"start": 5, "end": 6}, "on the ground while the car is on stands"),
        (4, {"start": 8, "end": 9}, "outside the service"),
        (1, {"workers": (0, 1)}, "has not the people"),
        (2, {"start": 4, "end": 5}, "ends after stands is closed"),
    ],
)
def test_the_checker_names_each_broken_rule(task: int, change: dict, said: str) -> None:
    problem, schedule = valid()
    broken = tuple(replace(item, **change) if item.task == task else item for item in schedule.placed)
    assert any(said in fault for fault in faults(problem, replace(schedule, placed=broken)))


def moved(task: int, **change) -> Callable[[Problem, Schedule], tuple[Problem, Schedule]]:
    """Move a task of the valid plan, or give it to others."""

    def changed(problem: Problem, schedule: Schedule) -> tuple[Problem, Schedule]:
        placed = tuple(replace(item, **change) if item.task == task else item for item in schedule.placed)
        return problem, replace(schedule, placed=placed)

    return changed


def made(number: int, **change) -> Callable[[Problem, Schedule], tuple[Problem, Schedule]]:
    """Let a task of the problem be another one, which the plan does not know."""
    return lambda problem, schedule: (
        replace(problem, tasks=tuple(replace(t, **change) if n == number else t for n, t in enumerate(problem.tasks))),
        schedule,
    )


def left(task: int) -> Callable[[Problem, Schedule], tuple[Problem, Schedule]]:
    """Leave a task out of the plan."""
    return lambda problem, schedule: (
        problem,
        replace(schedule, placed=tuple(item for item in schedule.placed if item.task != task)),
    )


def beside(*tasks: Task, placed: tuple[Placed, ...], **more) -> Callable[[Problem, Schedule], tuple[Problem, Schedule]]:
    """Put more tasks into the problem and the plan."""
    return lambda problem, schedule: (
        replace(problem, tasks=(*problem.tasks, *tasks), **more),
        replace(schedule, placed=(*schedule.placed, *placed), inside=schedule.inside | {t.group for t in tasks}),
    )


ONE_RULE = {
    "in_whole_or_not_at_all": left(4),
    "as_long_as_it_takes": made(4, units=2),
    "within_the_service": moved(4, start=8, end=9),
    "by_the_right_people": moved(1, workers=()),
    "nobody_in_two_places": beside(work("lamp", 2), placed=(Placed(5, 0, 2, (0,)),)),
    "a_place_holds_its_people": beside(work("hub", 2, uses={"corner": 1}), placed=(Placed(5, 2, 4, (1,)),)),
    "in_their_order": lambda problem, schedule: (replace(problem, before=((0, 3), (2, 4), (4, 3))), schedule),
    "while_its_steps_are_open": lambda problem, schedule: (
        replace(problem, spans=(Span("stands", 1, 2, (0, 3, 4)),)),
        schedule,
    ),
    "by_others_than_who_did_it": moved(2, workers=(1,)),
    "ground_work_on_the_ground": beside(work("lamp", 2, ground=True), placed=(Placed(5, 1, 3, (1,)),)),
    "open_fuel_stops_all_else": beside(work("pipe", 2, alone=True), placed=(Placed(5, 2, 4, (1,)),)),
    "nobody_at_a_moving_car": lambda problem, schedule: beside(
        work("mirror", 1, zone="side"), placed=(Placed(5, 0, 1, (1,)),)
    )(*made(1, moves=True)(problem, schedule)),
}


@pytest.mark.parametrize("rule", RULES)
def test_each_rule_of_the_checker_is_broken_by_a_plan_that_breaks_just_it(rule: str) -> None:
    assert list(broken_rules(*ONE_RULE[rule](*valid()))) == [rule]


@pytest.mark.parametrize("task", range(5))
def test_the_checker_misses_nothing_that_is_missing(task: int) -> None:
    problem, schedule = valid()
    rest = tuple(item for item in schedule.placed if item.task != task)
    assert faults(problem, replace(schedule, placed=rest)) != []


def test_a_person_in_two_places_and_a_zone_too_full_are_named() -> None:
    problem = Problem((work("a", 2, uses={"z": 1}), work("b", 2, uses={"z": 1})), TWO, {"z": 1}, horizon=9)
    both = Schedule((Placed(0, 0, 2, (0,)), Placed(1, 1, 3, (0,))), False, "greedy", frozenset("ab"))
    assert sorted(faults(problem, both)) == ["2 of z are taken at 1, of 1", "p-a is in two places at 1"]


lengths = st.integers(1, 6)


@st.composite
def problems(draw_) -> Problem:
    count = draw_(st.integers(1, 6))
    tasks = [
        work(f"j{n}", draw_(lengths), people=draw_(st.integers(1, 2)), uses={"z": 1} if draw_(st.booleans()) else {})
        for n in range(count)
    ]
    users = tuple(sorted(draw_(st.sets(st.integers(0, count - 1), min_size=1))))
    tasks += [Task(kind, kind, 1, 1, BOTH, step="s", because=users) for kind in ("open", "close")]
    musts = frozenset(f"j{n}" for n in draw_(st.sets(st.integers(0, count - 1))))
    values = {f"j{n}": draw_(st.integers(1, 9)) for n in range(count)}
    spans = (Span("s", count, count + 1, users, stands=draw_(st.booleans())),)
    return Problem(tuple(tasks), TWO, {"z": 1}, (), spans, (), (musts,), values, draw_(st.integers(3, 20)))


def worth(problem: Problem, schedule: Schedule) -> tuple[int, int, int]:
    inside = schedule.inside
    return len(inside & problem.musts), sum(problem.values.get(group, 0) for group in inside), -schedule.finish


@settings(max_examples=times(10, 100))
@given(problems())
def test_every_plan_passes_the_checker_and_the_solver_is_never_worse_than_greedy(problem: Problem) -> None:
    at_once = greedy(problem)
    assert faults(problem, at_once) == []
    assert worth(problem, best(problem)) >= worth(problem, at_once)


@settings(max_examples=times(3, 20))
@given(problems())
def test_the_same_problem_gives_the_same_plan(problem: Problem) -> None:
    assert best(problem) == best(problem)


def test_minutes_are_rounded_up_to_the_grid_of_fifteen_seconds() -> None:
    assert [units(Fraction(m)) for m in ("0", "0.25", "0.26", "4.5", "2.1")] == [0, 1, 2, 18, 9]


# The critical path A-B-C-E-F-J-L-N of the textbook project of 14 activities (Hillier & Lieberman, Introduction to
# Operations Research, PERT/CPM; inputs from memory, re-computed): mean 44, variance 9.
PATH = [(1, 2, 3), (2, 3.5, 8), (6, 9, 18), (1, 4.5, 5), (4, 4, 10), (3, 9, 9), (1, 5.5, 7), (5, 5.5, 9)]


def test_a_serial_chain_played_out_agrees_with_the_closed_form_and_the_textbook() -> None:
    points = [ThreePoint(*(Fraction(str(value)) for value in row)) for row in PATH]
    assert serial(points) == (44, 9)
    random = Random(7)
    totals = [sum(draw(point, random) for point in points) for _ in range(20_000)]
    assert fmean(totals) == pytest.approx(44, abs=0.1)
    # Each PERT-beta has a variance near ((p − o)/6)², exact only for some shapes: (m − o)(p − m)/7 + … lies close.
    assert pvariance(totals) == pytest.approx(9, rel=0.15)
    # 0.8413 is the normal distribution's share below the mean plus one standard deviation.
    assert sum(total <= 47 for total in totals) / len(totals) == pytest.approx(0.8413, abs=0.03)


def test_a_chain_of_tasks_ends_in_time_as_often_as_the_chain_alone() -> None:
    points = tuple(ThreePoint(*(Fraction(str(value)) for value in row)) for row in PATH)
    tasks = tuple(Task(f"t{n}", "work", units(p.expected), 1, (0,), minutes=p) for n, p in enumerate(points))
    horizon = 46 * 4  # in time is to the end of the due minute
    placed, at = [], 0
    for number, task in enumerate(tasks):
        placed.append(Placed(number, at, at + task.units, (0,)))
        at += task.units
    problem = Problem(tasks, (TWO[0],), before=tuple((n, n + 1) for n in range(len(tasks) - 1)), horizon=horizon)
    played = chance(problem, Schedule(tuple(placed), True, "solver"), runs=4000)
    assert played.on_time[""] == pytest.approx(0.8413, abs=0.04)
    assert set(played.critical.values()) == {1.0}
    again = chance(problem, Schedule(tuple(placed), True, "solver"), runs=4000)
    assert played == again


SM = """\
projects                      :  1
jobs (incl. supersource/sink ):  5
horizon                       :  12
RESOURCES
  - renewable                 :  1   R
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          3           2   3   4
   2        1          1           5
   3        1          1           5
   4        1          1           5
   5        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1
------------------------------------------------------------------------
  1      1     0       0
  2      1     3       2
  3      1     4       2
  4      1     5       1
  5      1     0       0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1
    3
************************************************************************
"""


def test_a_textbook_project_is_read_and_solved_by_the_same_core() -> None:
    # By hand: the two that take 2 of 3 cannot meet, 3 + 4 = 7; the third fits beside them.
    problem = read_sm(SM)
    found = solve(problem, None, QUICK)
    assert found is not None
    assert (found.finish, found.proven, faults(problem, found)) == (7, True, [])

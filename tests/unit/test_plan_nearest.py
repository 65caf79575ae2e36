"""A plan made again stays near to the one that was shown: its people first, then its order."""

from dataclasses import replace
from fractions import Fraction

import pytest
from bench.replans import rest
from bench.services import service

from longer import some
from shuntbook.plan.build import Visit, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.choose import choose
from shuntbook.plan.nearest import SLACK, Told, candidates, changes, kept, last_of
from shuntbook.plan.problem import Piece, Placed, Problem, Schedule, Span, Task, Worker
from shuntbook.plan.solve import Effort, solve
from shuntbook.setup.rates import ThreePoint

QUICK = Effort(deterministic_s=2.0)
WORKERS = tuple(Worker(f"p-{n}", True, False) for n in range(2))
NAMES = "abcdef"


def work(name: str, units: int = 8, **more) -> Task:
    return Task(name, "work", units, **{"people": 1, "may": (0, 1), "group": name, **more})


def problem(**changed: Task) -> Problem:
    """Six jobs of two minutes for two people who are alike: 24 units, in many orders."""
    tasks = tuple(changed.get(name, work(name)) for name in NAMES)
    return Problem(tasks, WORKERS, levels=(frozenset(NAMES),), horizon=60)


def shown(*lanes: str) -> list[Told]:
    """A plan as it was shown: what each person does, one after the other."""
    return [Told(name, 8 * at, (f"p-{who}",)) for who, lane in enumerate(lanes) for at, name in enumerate(lane)]


def again(made: Problem, before: list) -> Schedule:
    found = choose(made, 0, QUICK, solve, last_of(made, before)).schedule
    assert faults(made, found) == []
    return found


def who_does(made: Problem, found: Schedule) -> dict[str, tuple[int, int]]:
    return {made.tasks[item.task].name: (item.start, item.workers[0]) for item in found.placed}


# Whatever the solver would take of the many plans that are as good, each of these can be the one that people look at.
@pytest.mark.parametrize("lanes", [("abc", "def"), ("fed", "cba"), ("bdf", "eca")])
def test_with_nothing_changed_nothing_changes(lanes: tuple[str, str]) -> None:
    made = problem()
    found = again(made, shown(*lanes))
    expected = {name: (start, int(next(iter(people))[-1])) for name, start, people, *_ in shown(*lanes)}
    assert who_does(made, found) == expected
    at_once = choose(made, 0, Effort(), None, last_of(made, shown(*lanes))).schedule
    assert who_does(made, at_once) == expected


def test_what_takes_longer_moves_what_comes_after_it_within_a_minute_and_changes_nobody() -> None:
    made = problem(b=work("b", 8 + SLACK))
    found = again(made, shown("abc", "def"))
    assert changes(made, last_of(made, shown("abc", "def")), found) == (0, 0)
    assert who_does(made, found)["c"] == (16 + SLACK, 0)
    assert found.finish == 24 + SLACK


def test_where_that_is_too_late_as_few_as_can_be_get_another_person() -> None:
    # b takes 24 units: 8 + 24 + 8 = 40 for one, 24 for the other; with one job handed over both have 32.
    made = problem(b=work("b", 24))
    found = again(made, shown("abc", "def"))
    assert found.finish <= 32 + SLACK
    assert changes(made, last_of(made, shown("abc", "def")), found)[0] == 1


# With everybody at what was shown to them it would end a minute later, within what staying near may cost, but too
# seldom in time: then as few as can be do something else, and nobody looks for all of it again.
@pytest.mark.parametrize("lanes", [("abc", "def"), ("def", "abc"), ("bca", "fed")])
def test_where_a_minute_later_is_too_uncertain_the_nearest_that_ends_sooner_is_taken(lanes: tuple[str, str]) -> None:
    def unsure(name: str, minutes: int) -> Task:
        points = ThreePoint(Fraction(minutes - 1), Fraction(minutes), Fraction(minutes + 1))
        return work(name, 4 * minutes, minutes=points)

    lengths = {**dict.fromkeys(NAMES, 2), "b": 3, "d": 1}
    made = replace(problem(**{name: unsure(name, minutes) for name, minutes in lengths.items()}), horizon=28)
    last = last_of(made, shown(*lanes))
    found = choose(made, 99, QUICK, solve, last).schedule
    assert faults(made, found) == []
    assert found.finish == 24
    assert changes(made, last, found)[0] == 2


def test_what_is_new_finds_its_place_and_what_is_gone_leaves_the_rest() -> None:
    made = problem()
    assert changes(made, last_of(made, shown("ac", "def")), again(made, shown("ac", "def"))) == (0, 0)
    assert changes(made, last_of(made, shown("agbc", "def")), again(made, shown("agbc", "def"))) == (0, 0)


def test_a_better_plan_is_not_given_up_for_a_near_one() -> None:
    values = dict.fromkeys(NAMES, 1)
    made = replace(problem(), levels=(), values={**values, "f": 9}, horizon=16)
    found = again(made, shown("ab", "cd"))
    assert "f" in found.inside
    assert len(found.inside) == 4


def test_people_and_pairs_are_counted() -> None:
    made = problem()
    before = {n: Placed(n, 8 * (n % 3), 8 * (n % 3) + 8, (n // 3,)) for n in range(6)}
    swapped = {**before, 0: replace(before[0], start=8, end=16), 1: replace(before[1], start=0, end=8)}
    other = {**swapped, 5: replace(before[5], workers=(0,))}
    assert changes(made, before, Schedule(tuple(other.values()), False, "solver")) == (1, 1)


def test_what_is_one_of_several_in_an_inspection_is_as_the_new_plan_has_it() -> None:
    look = Task("look", "inspect", 2, 1, (0, 1), pieces=(Piece("x", 1), Piece("y", 1)))
    made = Problem((work("a"), look), WORKERS, levels=(frozenset("axy"),), horizon=30)
    last = last_of(made, [Told("a", 0, ("p-0",)), Told("look", 0, ("p-1",))])
    assert candidates(made, last, frozenset("x"))[0] == {"a", "x"}
    assert candidates(made, {}, frozenset("x"))[0] == {"x"}


def test_what_an_inspection_was_of_is_kept_where_it_was_told() -> None:
    look = Task("look", "inspect", 2, 1, (0, 1), pieces=(Piece("x", 1), Piece("y", 1)), car="41")
    other = replace(look, name="look again", pieces=(Piece("z", 1),))
    made = Problem((replace(work("a"), car="41"), look, other), WORKERS, levels=(frozenset("axyz"),), horizon=30)
    last = last_of(made, [Told("a", 0, ("p-0",)), Told("look", 0, ("p-1",), ("y",))])
    # The other inspection was not told of: it is as the new plan has it.
    assert candidates(made, last, frozenset("xz"))[0] == {"a", "y", "z"}
    assert candidates(made, last, frozenset("x"))[0] == {"a", "y"}


def test_a_task_of_a_team_is_found_by_its_car() -> None:
    both = tuple(replace(work("a"), car=car, group=f"{car}/a") for car in ("41", "42"))
    look = Task("look", "inspect", 2, 1, (0, 1), pieces=(Piece("42/x", 1), Piece("42/y", 1)), car="42")
    made = Problem((*both, look), WORKERS, horizon=30)
    told = [Told("a", 4, ("p-1",), (), "42"), Told("look", 12, ("p-0",), ("x",), "42"), Told("a", 0, ("p-0",), (), "9")]
    last = last_of(made, told)
    assert last == {1: Placed(1, 4, 12, (1,)), 2: Placed(2, 12, 14, (0,), frozenset({"42/x"}))}


# Services in which what idle hands do (15-16), or the chance (15-18), once made another plan of the same.
@pytest.mark.parametrize("seed", some([9, 16, 18], 3))
@pytest.mark.parametrize("part", [0, 3])
def test_a_service_of_which_nothing_changed_is_planned_as_it_was_shown(seed: int, part: int) -> None:
    setup, queue, _ = service(seed, 15, 2 + seed % 5)
    first = setup.event.services[0]
    visit = Visit(queue, first, 0, units_for_work(first, None))
    made = build(setup, [visit], workers_of(setup, None, {})).problem
    before = choose(made, 80, QUICK, solve).schedule
    asked = made if not part else rest(made, before, before.finish // part, None)
    found = choose(asked, 80, QUICK, solve, {item.task: item for item in before.placed}).schedule
    assert faults(asked, found) == []
    assert found.placed == before.placed


def test_a_plan_is_taken_to_the_letter_before_it_is_moved() -> None:
    # On the ground before the car is lifted: a plan made at once would have it after.
    tasks = (
        work("a", 2, ground=True),
        work("b", 2),
        Task("up", "open", 1, 1, (0, 1), because=(1,)),
        Task("down", "close", 1, 1, (0, 1), because=(1,)),
    )
    made = Problem(tasks, WORKERS, spans=(Span("stands", 2, 3, (1,), stands=True),), horizon=20)
    before = [Told("a", 0, ("p-0",)), Told("up", 2, ("p-0",)), Told("b", 3, ("p-1",)), Told("down", 5, ("p-0",))]
    found = next(kept(made, frozenset("ab"), last_of(made, before)))
    placed = {(made.tasks[item.task].name, item.start, (f"p-{item.workers[0]}",)) for item in found.placed}
    assert placed == {(told.name, told.start, told.people) for told in before}

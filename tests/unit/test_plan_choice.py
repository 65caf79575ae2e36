"""What could be in a plan, asked without times, and a choice by itself: held against small cases worked by hand."""

from dataclasses import replace
from fractions import Fraction

import pytest

from shuntbook.plan.choice import Master, counting, of_choice, worthwhile
from shuntbook.plan.crews import alike
from shuntbook.plan.goals import Counted, Goal
from shuntbook.plan.problem import Piece, Problem, Reached, Shorter, Span, Task, Worker
from shuntbook.plan.solve import Effort, Found, _early, _least_end, _less, _open, solve
from shuntbook.plan.stages import unproven
from shuntbook.setup.rates import ThreePoint

ONE = (Worker("p-a", True, False),)
QUICK = Effort(deterministic_s=1.0)


def work(name: str, units: int = 2, **more) -> Task:
    return Task(name, "work", units, **{"people": 1, "may": (0,), "group": name, **more})


def valued(*units: int, horizon: int, **values: int) -> Problem:
    tasks = tuple(work(name, long) for name, long in zip("abc", units, strict=False))
    return Problem(tasks, ONE, values=values, horizon=horizon)


def test_the_best_choice_is_the_knapsack_of_what_one_person_has_time_for() -> None:
    # 3 + 4 = 7 units are worth 9, 5 alone 6, 3 + 5 does not fit into 7.
    inside, reached = Master(valued(3, 4, 5, horizon=7, a=4, b=5, c=6), 0.1).best() or (None, None)
    assert (inside, reached) == (frozenset("ab"), [Reached("value", 9, 9)])


def test_another_choice_is_as_good_until_all_that_are_were_cut_off() -> None:
    # Of three that are worth the same two fit: three pairs, and no fourth.
    master = Master(valued(2, 2, 2, horizon=4, a=1, b=1, c=1), 0.1)
    master.hold([Reached("value", 2, 2)])
    found = []
    for _ in range(3):
        inside, is_certain = master.another()
        assert inside is not None
        assert is_certain
        found.append("".join(sorted(inside)))
        master.cut(inside)
    assert sorted(found) == ["ab", "ac", "bc"]
    assert master.another() == (None, True)


def test_a_choice_by_itself_has_its_tasks_at_their_lengths_and_no_others() -> None:
    tasks = (
        work("wheel", 9, shorter=Shorter((3,), 1)),
        work("arm", 4),
        Task("open", "open", 1, 1, (0,), because=(1,)),
        Task("close", "close", 1, 1, (0,), because=(1,)),
        work("lamp"),
        Task("look", "inspect", 3, 1, (0,), pieces=(Piece("arm", 2), Piece("lamp", 1))),
    )
    whole = Problem(tasks, ONE, before=((1, 5), (4, 5)), spans=(Span("way", 2, 3, (1,), (0,)),), horizon=30)
    both, numbers = of_choice(whole, {"wheel", "arm"})
    assert numbers == [0, 1, 2, 3, 5]
    assert [(task.name, task.units) for task in both.tasks] == [
        ("wheel", 1),
        ("arm", 4),
        ("open", 1),
        ("close", 1),
        ("look", 2),
    ]
    assert (both.before, both.groups) == (((1, 4),), ())
    assert both.spans == (Span("way", 2, 3, (1,), (0,)),)
    wheel, numbers = of_choice(whole, {"wheel"})
    assert (numbers, wheel.tasks[0].units, wheel.spans) == ([0], 9, ())


def test_what_has_no_value_is_no_choice_unless_it_shortens_something() -> None:
    plain = valued(2, 2, horizon=4, a=1)
    assert worthwhile(plain, {"a", "b"}) == {"a"}
    assert counting(plain, {"a", "b"}) == {"a"}
    fetched = replace(plain, tasks=(work("a", 9, shorter=Shorter((1,), 1)), plain.tasks[1]))
    assert counting(fetched, {"a", "b"}) == {"a", "b"}


@pytest.mark.parametrize(("first", "counts"), [(1, True), (3, True), (4, False), (6, False)])
def test_an_inspection_without_value_counts_where_those_after_it_take_less_than_they_would_alone(
    first: int, counts: bool
) -> None:
    # b alone takes 6; with a before it a's units and 2: less where a takes 3 or fewer.
    further = ThreePoint(Fraction(1, 2), Fraction(1, 2), Fraction(1, 2))
    look = Task("look", "inspect", 8, 1, (0,), pieces=(Piece("a", first), Piece("b", 6)), further=further)
    problem = Problem((work("a"), work("b"), look), ONE, values={"b": 1}, horizon=20)
    assert ("a" in counting(problem, {"a", "b"})) is counts


def test_what_is_cut_off_takes_with_it_whatever_has_all_of_it_and_as_long() -> None:
    # a alone takes 9 and cannot be done; with b it is fetched in 1, and that choice stays.
    tasks = (work("a", 9, shorter=Shorter((1,), 1)), work("b", 2), work("c", 2))
    problem = Problem(tasks, ONE, values={"a": 5, "c": 1}, horizon=11)
    master = Master(problem, 0.1)
    master.cut({"a"})
    inside, reached = master.best() or (None, None)
    assert (inside, reached) == ({"a", "b", "c"}, [Reached("value", 6, 6)])
    master.cut({"a", "b"})
    inside, _ = master.best() or (None, None)
    assert inside == {"c"}


def test_what_can_only_be_fetched_beside_work_without_value_is_planned_with_it() -> None:
    tasks = (work("a", 9, shorter=Shorter((1,), 1)), work("b", 2))
    found = solve(Problem(tasks, ONE, values={"a": 5}, horizon=5), None, QUICK)
    assert found is not None
    assert (found.inside, found.finish, found.proven) == ({"a", "b"}, 3, True)


def test_choices_that_cannot_be_done_are_tried_one_after_the_other_until_one_can() -> None:
    # Hands are enough for more, but all need the same place: 3 + 3 of 5 units.
    two = (*ONE, Worker("p-b", True, False))
    tasks = tuple(work(name, 3, may=(0, 1), uses={"pit": 1}) for name in "abc")
    found = solve(Problem(tasks, two, {"pit": 1}, values={"a": 3, "b": 2, "c": 1}, horizon=5), None, QUICK)
    assert found is not None
    assert (found.inside, found.proven) == ({"a"}, True)
    assert found.goals[0] == Reached("value", 3, 3)


def test_of_choices_that_are_as_good_the_one_that_ends_first_is_taken_and_proven() -> None:
    found = solve(valued(3, 2, 4, horizon=4, a=1, b=1, c=1), None, QUICK)
    assert found is not None
    assert (found.inside, found.finish, found.proven) == ({"b"}, 2, True)


@pytest.mark.parametrize(
    ("bound", "expected"),
    # 2 of the first level and 1 of the second of three each: 2 x 4 + 1 = 9 of 15.
    [
        (9, [Reached(0, 2, 2), Reached(1, 1, 1)]),
        (11, [Reached(0, 2, 2), Reached(1, 1, 3)]),
        (13, [Reached(0, 2, 3), Reached(1, 1, 3)]),
    ],
)
def test_a_bound_of_all_levels_says_what_is_known_of_each(bound: int, expected: list[Reached]) -> None:
    levels = (Counted(0, dict.fromkeys("abc", 1), 3), Counted(1, dict.fromkeys("xyz", 1), 3))
    goal = Goal(0, None, True, levels, (4, 1))
    assert goal.reached(9, bound, "abx") == expected
    assert not goal.is_best("abx")
    assert goal.is_best("abcxyz")


def test_where_the_time_runs_out_it_says_before_when_no_plan_ends_that_reaches_as_much() -> None:
    # Two of 3 and 4 units for one person: 7. That a plan ends at 9 leaves open whether one ends at 7 or 8.
    problem = valued(3, 4, horizon=20, a=1, b=1)
    found = Found({0: (0, 3), 1: (5, 9)}, frozenset("ab"), [])
    assert _open(problem, found, [Reached("value", 2, 2)]) == Reached("finish", 9, 7)
    assert _open(problem, found, []) == Reached("finish", 9, 0)


@pytest.mark.parametrize("most", [7, 8, 9, 20])
def test_the_least_end_of_what_is_as_good_is_found_from_wherever_it_is_looked_for(most: int) -> None:
    problem = valued(3, 4, horizon=20, a=1, b=1)
    assert _least_end(problem, [Reached("value", 2, 2)], most) == 7
    assert _least_end(problem, [Reached("value", 1, 2)], most) == 3


def test_an_end_that_its_bound_proves_is_no_proof_of_the_looks_after_it(monkeypatch) -> None:
    problem = valued(3, 4, horizon=7, a=1, b=1)
    begun = Found({0: (0, 3), 1: (3, 7)}, frozenset("ab"), [Reached("value", 2, 2)])
    open_looks = [*begun.reached, Reached("finish", 7, 7), Reached("looks", 3, 0)]
    monkeypatch.setattr("shuntbook.plan.solve.early", lambda *_: replace(begun, reached=open_looks))
    found = _early(problem, alike, begun, QUICK)
    assert [row.proven for row in found.reached] == [True, True, False]


def test_without_what_is_worth_least_a_choice_keeps_its_levels() -> None:
    problem = replace(valued(1, 1, 1, horizon=9, a=1, b=5, c=3), levels=(frozenset("a"),))
    assert list(_less(problem, frozenset("abc"))) == [frozenset("ab"), frozenset("a")]


def test_a_goal_that_was_not_come_to_says_what_is_there_of_it_and_what_could_be() -> None:
    goal = Goal("value", None, True, (Counted("value", {"a": 3, "b": 4}, 7),), (1,))
    left = unproven(Found({}, frozenset("b"), [Reached(0, 1, 1)]), goal)
    assert left is not None
    assert left.reached == [Reached(0, 1, 1), Reached("value", 4, 7)]
    assert not left.proven

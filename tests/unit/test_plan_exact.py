"""The planner against every plan there is: tiny problems whose plans are all tried, one start and one person at a time.

The search below knows nothing of models and bounds: it tries each set of groups, each start, each choice of people, and
lets the checker judge. What is best of that, by the goals in their order, the solver has to reach and to prove.
"""

from collections.abc import Iterator
from itertools import combinations
from random import Random
from typing import Any

import pytest

from shuntbook.plan.check import faults
from shuntbook.plan.greedy import greedy
from shuntbook.plan.naming import as_good
from shuntbook.plan.problem import Apart, Kind, Piece, Placed, Problem, Reached, Schedule, Shorter, Span, Task, Worker
from shuntbook.plan.solve import Effort, Found, solve

Goals = tuple[int, int, int, int]
NOT_YET = ("is missing", "is needed and not in the plan")
"""What is wrong with a plan only because it is not whole yet."""


def goals(problem: Problem, schedule: Schedule) -> Goals:
    """Return the four goals in their order, more is better: musts, value, finish of each car, worker-units."""
    ends: dict[str, int] = {}
    for item in schedule.placed:
        car = problem.tasks[item.task].car
        ends[car] = max(ends.get(car, 0), item.end)
    value = sum(problem.values.get(group, 0) for group in schedule.inside)
    work = sum(len(item.workers) * (item.end - item.start) for item in schedule.placed)
    return len(problem.musts & schedule.inside), value, -sum(ends.values()), -work


def best_of_all(problem: Problem) -> Goals | None:
    """Return what the best of all plans reaches; None where not even the empty one is valid."""
    best: Goals | None = None
    for count in range(len(problem.groups) + 1):
        for inside in combinations(problem.groups, count):
            for schedule in every_plan(problem, frozenset(inside)):
                reached = goals(problem, schedule)
                best = reached if best is None else max(best, reached)
    return best


def every_plan(problem: Problem, inside: frozenset[str]) -> Iterator[Schedule]:
    """Yield every valid plan of these groups that ends earlier than those before it."""
    wanted = [n for n, _ in enumerate(problem.tasks) if is_in(problem, n, inside)]
    long = {n: length(problem, n, inside, wanted) for n in wanted}
    # What the length of another depends on comes first, so that a plan that is not whole yet has its true lengths.
    wanted.sort(key=lambda n: (problem.tasks[n].shorter is not None, n))
    earliest_end = [-(10**9)]

    def grow(placed: tuple[Placed, ...]) -> Iterator[Schedule]:
        schedule = Schedule(placed, False, "greedy", inside)
        if any(not fault.endswith(NOT_YET) for fault in faults(problem, schedule)):
            return
        if goals(problem, schedule)[2] <= earliest_end[0]:
            return
        if len(placed) == len(wanted):
            if not faults(problem, schedule):
                earliest_end[0] = goals(problem, schedule)[2]
                yield schedule
            return
        number = wanted[len(placed)]
        for start in range(problem.horizon - long[number] + 1):
            for people in combinations(range(len(problem.workers)), problem.tasks[number].people):
                yield from grow((*placed, Placed(number, start, start + long[number], people)))

    return grow(())


def is_in(problem: Problem, number: int, inside: frozenset[str]) -> bool:
    task = problem.tasks[number]
    if task.because:
        return any(is_in(problem, other, inside) for other in task.because)
    if task.pieces:
        return any(piece.group in inside for piece in task.pieces)
    return not task.group or task.group in inside


def length(problem: Problem, number: int, inside: frozenset[str], wanted: list[int]) -> int:
    task = problem.tasks[number]
    if task.pieces:
        return sum(piece.units for piece in task.pieces if piece.group in inside)
    if task.shorter and set(task.shorter.because) & set(wanted):
        return task.shorter.units
    return task.units


def reaches_the_optimum(problem: Problem) -> Schedule:
    """Assert that the solver's plan is the best of all and proven, the one made at once valid; return the solver's."""
    at_once = greedy(problem)
    assert faults(problem, at_once) == []
    found = solve(problem, at_once, Effort(deterministic_s=5.0))
    assert found is not None
    assert faults(problem, found) == []
    best = best_of_all(problem)
    assert best is not None
    assert goals(problem, at_once) <= best
    assert (goals(problem, found), found.proven, found.by) == (best, True, "solver")
    return found


class Maker:
    """Puts a random problem together, of five tasks at most."""

    def __init__(self, seed: int) -> None:
        self.chance = Random(seed)
        self.count = self.chance.choice([2, 2, 3])
        self.tasks: list[Task] = []
        self.before: list[tuple[int, int]] = []
        self.apart: list[Apart] = []
        self.spans: list[Span] = []

    def some(self, least: int) -> tuple[int, ...]:
        many = self.chance.randint(least, self.count)
        return tuple(sorted(self.chance.sample(range(self.count), many)))

    def task(self, name: str, kind: Kind = "work", **more: Any) -> int:
        people = self.chance.choice([1, 1, 1, 2]) if kind == "work" else 1
        may = self.some(people)
        zone = self.chance.choice(["", "z", "z"])
        uses = {zone: min(people, self.chance.choice([1, 2]))} if zone else {}
        said: dict[str, Any] = {"people": people, "may": may, "zone": zone, "uses": uses, **more}
        long = said.pop("units", self.chance.randint(1, 3))
        self.tasks.append(Task(name, kind, long, **said))
        return len(self.tasks) - 1

    def work(self, name: str) -> int:
        alone, ground = self.chance.random() < 0.12, self.chance.random() < 0.12
        number = self.task(name, group=name, alone=alone, ground=ground)
        task = self.tasks[number]
        window: dict[str, Any] = {}
        if self.chance.random() < 0.2:
            window["skilled"] = (self.chance.choice(task.may),)
        odd = self.chance.random()
        if odd < 0.12:
            window["earliest"] = self.chance.randint(1, 3)
        elif odd < 0.24:
            window["latest"] = self.chance.randint(2, 6)
        elif odd < 0.32:
            window["fixed"] = self.chance.randint(0, 2)
        self.tasks[number] = Task(**{**vars(task), **window})
        return number

    def look(self, works: list[int]) -> int:
        pieces = tuple(Piece(self.tasks[n].group, self.chance.randint(1, 2)) for n in works)
        if len(works) > 1 and self.chance.random() < 0.7:
            look = self.task("look", "inspect", units=sum(piece.units for piece in pieces), pieces=pieces)
        else:
            works = works[:1]
            look = self.task("look", "inspect", units=1, group=self.tasks[works[0]].group)
        self.before += [(n, look) for n in works]
        self.apart.append(Apart(look, tuple(works)))
        return look

    def way(self, works: list[int], look: int | None) -> None:
        users = tuple(works[: self.chance.randint(1, len(works))])
        is_open = self.chance.random() < 0.15
        opens = None if is_open else self.task("open", "open", units=self.chance.randint(0, 2), because=users)
        closes = self.task("close", "close", units=1, because=() if is_open else users)
        holds = {"stands": 1} if self.chance.random() < 0.3 else {}
        within = () if look is None else (look,)
        self.spans.append(Span("s", opens, closes, users, within, self.chance.random() < 0.6, holds))
        if len(works) > 1 and self.chance.random() < 0.5:
            last = self.tasks[works[-1]]
            self.tasks[works[-1]] = Task(**{**vars(last), "shorter": Shorter((closes,), 1)})

    def problem(self) -> Problem:
        works = [self.work(name) for name in "abcd"[: self.chance.choice([2, 2, 3, 3, 4])]]
        look = self.look(works[:2]) if len(works) < 4 and self.chance.random() < 0.6 else None
        if len(self.tasks) <= 3 and self.chance.random() < 0.7:
            self.way(works, look)
        elif len(self.tasks) <= 4 and self.chance.random() < 0.5:
            nuts = self.task("nuts", "check", units=1, because=(works[0],), ground=True)
            self.before.append((works[0], nuts))
            self.apart.append(Apart(nuts, (works[0],)))
        names = [self.tasks[n].group for n in works]
        if self.chance.random() < 0.3:
            self.before.append((works[1], works[0]))
        away = [self.chance.choice([0, 0, 0, 2]) for _ in range(self.count)]
        return Problem(
            tuple(self.tasks),
            tuple(Worker(f"p-{n}", True, True, from_unit=away[n]) for n in range(self.count)),
            {"z": 2, "stands": 1},
            tuple(self.before),
            tuple(self.spans),
            tuple(self.apart),
            (frozenset(name for name in names if self.chance.random() < 0.4),),
            {name: self.chance.randint(0, 4) for name in names},
            self.chance.randint(4, 8),
        )


@pytest.mark.parametrize("seed", range(60))
def test_the_solver_reaches_the_best_of_all_plans(seed: int) -> None:
    reaches_the_optimum(Maker(seed).problem())


ALIKE = tuple(Worker(f"p-{n}", True, True) for n in range(3))


def work(name: str, long: int, **more) -> Task:
    return Task(name, "work", long, **{"people": 1, "may": (0, 1), "group": name, **more})


def looked_at(horizon: int, people: int = 2) -> Problem:
    """Two jobs and one look at both, by people who are all alike: nobody looks at what he did himself."""
    may = tuple(range(people))
    pieces = (Piece("a", 1), Piece("b", 1))
    tasks = (work("a", 2, may=may), work("b", 2, may=may), Task("look", "inspect", 2, 1, may, pieces=pieces))
    return Problem(
        tasks,
        ALIKE[:people],
        before=((0, 2), (1, 2)),
        apart=(Apart(2, (0, 1)),),
        values={"a": 2, "b": 3},
        horizon=horizon,
    )


@pytest.mark.parametrize(
    ("horizon", "people", "inside", "finish"),
    # Two people: both repairs by one of them, 2 + 2, then the other looks at both, 2. In less, one repair and its look.
    [(6, 2, "ab", 6), (5, 2, "b", 3), (4, 2, "b", 3), (4, 3, "ab", 4), (2, 3, "", 0)],
)
def test_counted_they_would_be_enough_and_named_they_are_not(
    horizon: int, people: int, inside: str, finish: int
) -> None:
    found = reaches_the_optimum(looked_at(horizon, people))
    assert (found.inside, found.finish) == (frozenset(inside), finish)


def test_a_chain_of_who_may_not_do_what_takes_three_people_although_each_pair_is_two() -> None:
    tasks = tuple(work(name, 1, may=(0, 1, 2)) for name in "abc")
    rules = (Apart(0, (1,)), Apart(1, (2,)), Apart(2, (0,)))
    three = Problem(tasks, ALIKE, apart=rules, levels=(frozenset("abc"),), horizon=4)
    assert reaches_the_optimum(three).finish == 1
    two = Problem(tuple(work(name, 1) for name in "abc"), ALIKE[:2], apart=rules, levels=(frozenset("abc"),), horizon=4)
    assert len(reaches_the_optimum(two).inside) == 2


def test_people_are_named_where_the_time_ran_out_before_the_last_goal() -> None:
    problem = looked_at(6)
    # Value was reached, 5; nothing was found for an early finish or for little work.
    half = Found({0: (0, 2), 1: (0, 2), 2: (2, 4)}, frozenset("ab"), [Reached("value", 5, 6)])
    found = as_good(problem, half, Effort())
    assert found is not None
    assert (found.inside, found.reached, found.proven) == (frozenset("ab"), half.reached, False)


def test_what_is_too_long_for_the_time_is_left_out_and_does_not_keep_out_the_rest() -> None:
    tasks = (
        work("wheel", 9, shorter=Shorter((3,), 1)),
        work("arm", 8),
        Task("open", "open", 1, 1, (0, 1), because=(1,)),
        Task("close", "close", 1, 1, (0, 1), because=(1,)),
        work("lamp", 2),
    )
    spans = (Span("wheel-off", 2, 3, (1,), (0,)),)
    problem = Problem(tasks, ALIKE[:2], spans=spans, values={"wheel": 5, "arm": 5, "lamp": 1}, horizon=6)
    assert reaches_the_optimum(problem).inside == {"lamp"}


def test_what_takes_no_time_needs_nobody_to_be_there_yet() -> None:
    workers = (Worker("p-a", True, False), Worker("p-b", True, False, from_unit=4))
    opened, closed = Task("open", "open", 0, 1, (1,), because=(0,)), Task("close", "close", 1, 1, (0,), because=(0,))
    tasks = (work("arm", 2, may=(0,)), opened, closed)
    problem = Problem(tasks, workers, spans=(Span("s", 1, 2, (0,)),), values={"arm": 1}, horizon=3)
    assert reaches_the_optimum(problem).inside == {"arm"}


def test_what_is_under_way_stays_where_it_is_and_what_had_to_be_first_comes_no_more() -> None:
    tasks = (work("hub", 2), work("arm", 3, fixed=1, may=(1,), skilled=(1,)), work("lamp", 2))
    problem = Problem(
        tasks, ALIKE[:2], before=((0, 1),), levels=(frozenset({"arm"}),), values={"hub": 9, "lamp": 1}, horizon=6
    )
    found = reaches_the_optimum(problem)
    assert (found.inside, found.finish) == ({"arm", "lamp"}, 4)


def test_two_that_are_under_way_by_the_same_person_do_not_both_stay_and_the_plan_made_at_once_is_valid() -> None:
    tasks = (work("arm", 3, fixed=0, may=(1,)), work("hose", 3, fixed=1, may=(1,)))
    problem = Problem(tasks, ALIKE[:2], levels=(frozenset({"arm", "hose"}),), horizon=6)
    assert len(reaches_the_optimum(problem).inside) == 1


def test_a_task_ends_by_its_own_latest_and_starts_when_its_people_are_there() -> None:
    workers = (Worker("p-a", True, False), Worker("p-b", True, False, from_unit=3))
    tasks = (work("early", 2, latest=4), work("both", 2, people=2), work("late", 1, earliest=5, may=(1,)))
    problem = Problem(tasks, workers, values={"early": 1, "both": 1, "late": 1}, horizon=6)
    found = reaches_the_optimum(problem)
    assert {problem.tasks[item.task].name: item.start for item in found.placed} == {"early": 0, "both": 3, "late": 5}


def test_two_cars_share_one_set_of_stands_and_each_ends_as_early_as_it_can() -> None:
    tasks: list[Task] = []
    spans: list[Span] = []
    for place, car in enumerate(("41", "42")):
        first = len(tasks)
        tasks += [
            work(f"{car}/arm", 1 + place, may=(place,), car=car),
            Task("open", "open", 1, 1, (place,), because=(first,), car=car),
            Task("close", "close", 1, 1, (place,), because=(first,), car=car),
        ]
        spans.append(Span("stands", first + 1, first + 2, (first,), stands=True, holds={"stands": 1}, car=car))
    musts = frozenset({"41/arm", "42/arm"})
    problem = Problem(tuple(tasks), ALIKE[:2], {"stands": 1}, spans=tuple(spans), levels=(musts,), horizon=7)
    # The shorter first: 3, then 3 + 4. The sum of both ends is least so.
    assert sorted(goals_of_cars(problem, reaches_the_optimum(problem))) == [3, 7]


def goals_of_cars(problem: Problem, schedule: Schedule) -> list[int]:
    return [max(i.end for i in schedule.placed if problem.tasks[i.task].car == car) for car in problem.cars]

"""Choices tried one by one: what is cut off and what stays a bound; hands and zones that stops take in whole."""

from collections.abc import Collection
from dataclasses import replace

import pytest
from bench.services import service

from shuntbook.plan import tries
from shuntbook.plan.alone import Tried, tried
from shuntbook.plan.build import Visit, build, units_for_work, workers_of
from shuntbook.plan.choice import Master, of_choice
from shuntbook.plan.crews import alike
from shuntbook.plan.fits import loads
from shuntbook.plan.found import USUAL
from shuntbook.plan.greedy import greedy
from shuntbook.plan.model import Model
from shuntbook.plan.problem import Apart, Placed, Problem, Span, Task, Worker
from shuntbook.plan.run import WAYS, Search, decide
from shuntbook.plan.tries import best_choice, first_levels

WORKERS = tuple(Worker(f"p-{n}", True, True) for n in range(2))


def work(name: str, units: int, **more) -> Task:
    return Task(name, "work", units, **{"people": 1, "may": (0, 1), "group": name, "zone": "corner", **more})


def lifted(**more) -> Problem:
    """A job on stands, one round the car and one on the bench; one person at a time lifts it."""
    tasks = (
        work("hose", 6, uses={"corner": 1}),
        work("wing", 7),
        work("bench", 5, zone=""),
        Task("up", "open", 3, 1, (0, 1), because=(0,), moves=True),
        Task("down", "close", 2, 1, (0, 1), because=(0,), moves=True),
        work("fuel", 2, alone=True, uses={"corner": 1}),
    )
    spans = (Span("stands", 3, 4, (0,), stands=True),)
    return Problem(tasks, WORKERS, {"corner": 2}, spans=spans, **{"horizon": 40, **more})


def most(problem: Problem, placed: Collection[Placed]) -> list[tuple[int, int]]:
    """Return for each load the most that is taken of it at any time, and what there is."""
    found = []
    for load in loads(problem):
        takes = {**load.amounts, **load.stops}
        times = [(item.start, item.end, takes[item.task]) for item in placed if item.task in takes]
        at = [sum(many for start, end, many in times if start <= now < end) for now in range(problem.horizon)]
        found.append((max(at), load.capacity))
    return found


# Services whose plans made at once have the car lifted, or fuel open.
@pytest.mark.parametrize("seed", [0, 1, 2, 3, 4, 6, 7, 8])
def test_no_plan_takes_more_than_all_while_the_car_moves_or_fuel_is_open(seed: int) -> None:
    setup, queue, _ = service(seed, 15, 2 + seed % 5)
    first = setup.event.services[0]
    visit = Visit(queue, first, 0, units_for_work(first, None))
    problem = build(setup, [visit], workers_of(setup, None, {})).problem
    assert any(load.stops for load in loads(problem))
    plan = greedy(problem)
    assert any(problem.tasks[item.task].moves or problem.tasks[item.task].alone for item in plan.placed)
    assert all(taken <= capacity for taken, capacity in most(problem, plan.placed))


def test_who_works_at_a_moving_car_or_beside_open_fuel_is_one_too_many() -> None:
    problem = lifted()
    away = [Placed(3, 0, 3, (0,)), Placed(2, 0, 5, (1,))]
    assert all(taken <= there for taken, there in most(problem, away)), "the bench is away from the car"
    at_it = [Placed(3, 0, 3, (0,)), Placed(1, 0, 7, (1,))]
    assert any(taken > there for taken, there in most(problem, at_it))
    fuel = [Placed(5, 0, 2, (0,)), Placed(2, 0, 5, (1,))]
    assert any(taken > there for taken, there in most(problem, fuel)), "open fuel stops the bench, too"


@pytest.mark.parametrize(("horizon", "is_possible"), [(13, True), (12, False)])
def test_what_is_lost_while_the_car_moves_is_seen(horizon: int, is_possible: bool) -> None:
    # Up 3, the wing's 8 beside the hose, down 2: nobody works at the wing while the car moves.
    problem = lifted(horizon=horizon)
    problem = replace(problem, tasks=(problem.tasks[0], replace(problem.tasks[1], units=8), *problem.tasks[2:]))
    attempt = tried(problem, alike, ["hose", "wing"], 0.1)
    assert (attempt.found is not None, attempt.impossible) == (is_possible, not is_possible)


def chosen(**more) -> Problem:
    """Three jobs of which two fit: the worth of a and b is most."""
    tasks = tuple(work(name, 5, may=(0,)) for name in "abc")
    return Problem(tasks, WORKERS, values={"a": 5, "b": 4, "c": 3}, **{"horizon": 10, **more})


def test_what_stays_open_is_set_aside_and_stays_the_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    def unsure(
        problem: Problem, crews: object, inside: Collection[str], seconds: float, *more: object, **_: bool
    ) -> Tried:
        found = tried(problem, alike, inside, seconds)
        return Tried(None, False, 0.1) if {"a", "b"} <= set(inside) else found

    monkeypatch.setattr(tries, "tried", unsure)
    best = best_choice(chosen(), alike, USUAL).found
    assert best is not None
    assert (best.inside, [(row.reached, row.bound) for row in best.reached]) == ({"a", "c"}, [(8, 9)])


def test_what_only_people_who_are_counted_can_do_is_cut_off() -> None:
    # Three tasks of a, no two by the same person, need three people. Counted, each two of them are enough.
    tasks = (*(replace(work(name, 1), group="a") for name in ("fit", "check", "look")), work("b", 1))
    problem = Problem(tasks, WORKERS, values={"a": 5, "b": 3}, horizon=9, apart=(Apart(1, (0,)), Apart(2, (0, 1))))
    assert tried(problem, alike, ["a", "b"], 0.1).found is not None
    best = best_choice(problem, alike, USUAL).found
    assert best is not None
    assert (best.inside, [(row.reached, row.bound) for row in best.reached]) == ({"b"}, [(3, 3)])


@pytest.mark.parametrize("seed", [1, 4])
def test_the_best_choice_asked_for_again_is_what_one_asked_for_the_first_time_finds(seed: int) -> None:
    setup, queue, _ = service(seed, 15, 2 + seed % 5)
    first = setup.event.services[0]
    visit = Visit(queue, first, 0, units_for_work(first, None))
    problem = build(setup, [visit], workers_of(setup, None, {})).problem
    master = Master(problem, 1.0)
    cut: list[frozenset[str]] = []
    for _ in range(12):
        afresh = Master(problem, 1.0)
        for inside in cut:
            afresh.cut(inside)
        again, anew = master.best(), afresh.best()
        assert again is not None
        assert anew is not None
        assert again[1] == anew[1]
        cut.append(again[0])
        master.cut(again[0])


@pytest.mark.parametrize("way", WAYS)
def test_each_way_of_searching_says_the_same(way: Search) -> None:
    for horizon, says in ((13, ("OPTIMAL", "FEASIBLE")), (12, ("INFEASIBLE",))):
        problem, _ = of_choice(lifted(horizon=horizon), ["hose", "wing"])
        wing = next(place for place, task in enumerate(problem.tasks) if task.name == "wing")
        longer = [replace(task, units=8) if n == wing else task for n, task in enumerate(problem.tasks)]
        problem = replace(problem, tasks=tuple(longer))
        _, status, _ = decide(Model(problem, alike(problem)), 1.0, [way])
        assert status in says


def test_levels_are_asked_about_from_all_of_them_to_the_first() -> None:
    levels: tuple[frozenset[str], ...] = (frozenset("ab"), frozenset(), frozenset("c"))
    problem = chosen(levels=levels)
    assert list(first_levels(problem, frozenset("abc"))) == [frozenset("ab")], "all is what was asked already"
    assert list(first_levels(problem, frozenset("acx"))) == [frozenset("ac"), frozenset("a")]
    assert list(first_levels(problem, frozenset("x"))) == []

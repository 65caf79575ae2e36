"""What no goal asks about is in the order a chief would give it, and nothing else is the worse for it."""

from dataclasses import replace

import pytest

from shuntbook.plan.check import faults
from shuntbook.plan.problem import Piece, Placed, Problem, Schedule, Span, Task, Worker
from shuntbook.plan.tidy import in_order, open_no_longer, signed_last, without_waiting

WORKERS = (Worker("p-a", True, False), Worker("p-b", True, False))
UP, LEVELS, DOWN, JOB, OTHER = range(5)


def work(name: str, units: int, may: tuple[int, ...] = (0, 1), **more) -> Task:
    return Task(name, "work", units, 1, may, group=name, **more)


def problem(zone: str = "") -> Problem:
    """A bonnet that the levels need, two jobs that do not; half a minute up, half a minute down."""
    tasks = (
        Task("open bonnet-up", "open", 2, 1, (0, 1), because=(LEVELS,), zone=zone),
        work("levels", 12, zone="engine-bay"),
        Task("close bonnet-up", "close", 2, 1, (0, 1), because=(LEVELS,), zone=zone),
        work("job", 20, zone="left-side"),
        work("other", 20, zone="right-side"),
    )
    groups = frozenset({"levels", "job", "other"})
    return Problem(tasks, WORKERS, spans=(Span("bonnet-up", UP, DOWN, (LEVELS,)),), levels=(groups,), horizon=80)


def plan(made: Problem, **at: tuple[int, int]) -> Schedule:
    """Return a plan that keeps every rule, of when each begins and who does it."""
    numbers = {"up": UP, "levels": LEVELS, "down": DOWN, "job": JOB, "other": OTHER}
    placed = [
        Placed(numbers[name], start, start + made.tasks[numbers[name]].units, (who,))
        for name, (start, who) in at.items()
    ]
    found = Schedule(tuple(placed), True, "solver", frozenset(made.groups))
    assert faults(made, found) == []
    return found


def tidied(made: Problem, before: Schedule, *, accepts: bool = True) -> dict[int, tuple[int, int]]:
    found = open_no_longer(made, before, lambda _: accepts)
    assert faults(made, found) == []
    assert open_no_longer(made, found, lambda _: accepts) == found, "once is enough"
    return {item.task: (item.start, item.workers[0]) for item in found.placed}


def test_a_bonnet_goes_up_just_before_it_is_needed_and_comes_down_after_it() -> None:
    made = problem()
    before = plan(made, up=(0, 0), job=(2, 1), other=(30, 1), levels=(24, 0), down=(60, 1))
    assert tidied(made, before) == {UP: (22, 0), JOB: (2, 1), OTHER: (30, 1), LEVELS: (24, 0), DOWN: (36, 0)}


def test_who_has_no_gap_before_it_does_first_what_they_do_alone() -> None:
    made = problem()
    before = plan(made, up=(0, 0), job=(2, 0), other=(2, 1), levels=(22, 1), down=(34, 1))
    assert tidied(made, before) == {JOB: (0, 0), UP: (20, 0), OTHER: (2, 1), LEVELS: (22, 1), DOWN: (34, 1)}


def test_somebody_else_who_is_free_then_may_do_it() -> None:
    made = problem()
    before = plan(made, up=(0, 0), job=(2, 0), levels=(22, 0), down=(60, 0), other=(34, 0))
    assert tidied(made, before)[DOWN] == (34, 1)


@pytest.mark.parametrize("why", ["a corner", "too little", "less likely in time", "under way"])
def test_what_stays_as_it_is(why: str) -> None:
    made = problem("front-left" if why == "a corner" else "")
    start = 19 if why == "too little" else 0
    before = plan(made, up=(start, 0), job=(30, 1), levels=(22, 0), down=(34, 0), other=(50, 1))
    if why == "under way":
        tasks = (replace(made.tasks[UP], fixed=0), *made.tasks[1:])
        made = replace(made, tasks=tasks)
    expected = {item.task: (item.start, item.workers[0]) for item in before.placed}
    assert tidied(made, before, accepts=why != "less likely in time") == expected


PIPES, HELD, LOOK = range(3)


def repaired(*, begun: bool = False, before: tuple[tuple[int, int], ...] = ()) -> Problem:
    """Pipes that are repaired, then held under pressure by somebody with the driver, and inspected."""
    tasks = (
        work("pipes", 10, zone="under"),
        Task("held", "check", 9, 2, (0, 1, 2), guests=(2,), group="pipes", zone="under"),
        Task("look", "inspect", 8, 1, (1,), pieces=(Piece("pipes", 8),), zone="under", fixed=10 if begun else None),
    )
    workers = (*WORKERS, Worker("p-driver", False, False, crew=True))
    order = ((PIPES, HELD), (PIPES, LOOK), *before)
    return Problem(tasks, workers, before=order, levels=(frozenset({"pipes"}),), horizon=80)


def signed(made: Problem, *, accepts: bool = True, driver_from: int = 0) -> dict[int, tuple[int, int, tuple[int, ...]]]:
    workers = (*made.workers[:2], replace(made.workers[2], from_unit=driver_from))
    made = replace(made, workers=workers)
    placed = (Placed(PIPES, 0, 10, (0,)), Placed(LOOK, 10, 18, (1,)), Placed(HELD, 20, 29, (1, 2)))
    before = Schedule(placed, True, "solver", frozenset({"pipes"}))
    assert faults(made, before) == []
    found = signed_last(made, before, lambda _: accepts)
    assert faults(made, found) == []
    assert signed_last(made, found, lambda _: accepts) == found
    return {item.task: (item.start, item.end, item.workers) for item in found.placed}


def test_the_pedal_is_held_before_the_inspection_is_signed() -> None:
    assert signed(repaired()) == {PIPES: (0, 10, (0,)), HELD: (10, 19, (1, 2)), LOOK: (21, 29, (1,))}


def test_where_that_cannot_be_the_inspection_stays_first() -> None:
    as_it_was = {PIPES: (0, 10, (0,)), LOOK: (10, 18, (1,)), HELD: (20, 29, (1, 2))}
    assert signed(repaired(begun=True)) == as_it_was
    assert signed(repaired(before=((LOOK, HELD),))) == as_it_was
    assert signed(repaired(), driver_from=12) == as_it_was
    assert signed(repaired(), accepts=False) == as_it_was


def test_nobody_waits_where_their_next_task_could_be_done() -> None:
    made = problem()
    before = plan(made, up=(4, 0), levels=(10, 0), down=(26, 0), job=(3, 1), other=(30, 1))
    found = without_waiting(made, before)
    assert faults(made, found) == []
    # What opens the bonnet stays: it goes up just before it is needed.
    assert {item.task: item.start for item in found.placed} == {UP: 4, LEVELS: 6, DOWN: 18, JOB: 0, OTHER: 20}
    assert {item.task: item.workers for item in found.placed} == {item.task: item.workers for item in before.placed}
    assert in_order(made, found, lambda _: True) == found

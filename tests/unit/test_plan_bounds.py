"""What is known before a solver looks: heads and tails by hand, and that nothing that fits is ruled out by them."""

import pytest

from shuntbook.plan.bounds import bounds_of, surely_with
from shuntbook.plan.greedy import greedy
from shuntbook.plan.problem import Piece, Problem, Span, Task, Worker
from shuntbook.plan.solve import Effort, solve

WORKERS = tuple(Worker(f"p-{n}", True, True, from_unit=4 * n) for n in range(2))


def work(name: str, units: int, **more) -> Task:
    return Task(name, "work", units, **{"people": 1, "may": (0, 1), "group": name, "zone": "corner", **more})


def corner(horizon: int = 40, **more) -> Problem:
    """A job behind a wheel behind stands, its inspection, and one that two do beside the car."""
    tasks = (
        work("hose", 6),
        Task("look", "inspect", 2, 1, (0, 1), pieces=(Piece("hose", 2), Piece("disc", 3)), zone="corner"),
        Task("up", "open", 3, 1, (0, 1), because=(0, 1, 3, 4), moves=True),
        Task("off", "open", 1, 1, (0, 1), because=(0, 1)),
        Task("on", "close", 2, 1, (0, 1), because=(0, 1)),
        Task("down", "close", 2, 1, (0, 1), because=(0, 1, 3, 4), moves=True),
        Task("nuts", "check", 1, 1, (0, 1), because=(4,), ground=True, zone="corner"),
        work("bench", 5, people=2, zone=""),
    )
    spans = (Span("stands", 2, 5, (0, 1, 3, 4), stands=True), Span("wheel", 3, 4, (0, 1)))
    return Problem(tasks, WORKERS, before=((0, 1), (5, 6)), spans=spans, horizon=horizon, **more)


def test_heads_and_tails_are_what_is_surely_in_before_and_after() -> None:
    heads, tails = bounds_of(corner()).heads, bounds_of(corner()).tails
    # Up 3, off 1; then the hose. After it at least the look at it, 2, the wheel on, 2, down, 2, and the nuts, 1.
    assert (heads[0], tails[0]) == (4, 2 + 2 + 2 + 1)
    assert (heads[2], tails[2]) == (0, 2), "it comes down again; what it is lifted for is not sure"
    assert (heads[6], tails[6]) == (3 + 1 + 2 + 2, 0)
    assert heads[7] == 4, "the second of the two is there from then on"


def test_what_is_in_with_a_task_is_its_group_its_access_and_what_follows_from_these() -> None:
    problem = corner()
    assert surely_with(problem, 0) == {0, 1, 2, 3, 4, 5, 6}
    assert surely_with(problem, 1) == {1, 2, 3, 4, 5, 6}, "the disc may be what is inspected"
    assert surely_with(problem, 7) == {7}


@pytest.mark.parametrize(("horizon", "inside"), [(17, "hose"), (16, "")])
def test_what_just_fits_is_in_and_what_does_not_is_proven_not_to(horizon: int, inside: str) -> None:
    # Up 3, off 1, hose 6, look 2, on 2, down 2, nuts 1: 17 for two people, of whom none looks at his own work.
    problem = corner(horizon, levels=(frozenset({"hose"}),))
    found = solve(problem, greedy(problem), Effort(deterministic_s=2.0))
    assert found is not None
    assert (found.inside, found.proven) == ({inside} - {""}, True)

"""What counts as growth is tried, too: leaks planted by hand are found, and what only warms up is none."""

from dataclasses import replace

import pytest

from .at_rest import LANE_THREADS, Held, Reading, bounds, halves, what_grows

BOUNDS = bounds(server_mib=24, solver_mib=24)
SERVER = Held(rss_mib=200, threads=30, handles=25, database=60)
SOLVER = Held(rss_mib=100, threads=2, handles=3)


def life() -> list[Reading]:
    """Return the readings of one life, a minute from one to the next, of a server that holds the same all the while."""
    return [Reading(60 * place, 1, 100 * place, 4.0, SERVER, SOLVER) for place in range(9)]


def with_server(**growth: float) -> list[Reading]:
    """Return the readings of a server that holds so much more of something at each one."""
    return [replace(one, server=_grown(SERVER, place, growth)) for place, one in enumerate(life())]


def with_solver(**growth: float) -> list[Reading]:
    return [replace(one, solver=_grown(SOLVER, place, growth)) for place, one in enumerate(life())]


def _grown(held: Held, times: int, growth: dict[str, float]) -> Held:
    return replace(held, **{what: getattr(held, what) + more * times for what, more in growth.items()})


def test_what_stays_as_it_was_grows_not() -> None:
    assert what_grows(life(), BOUNDS) == []


@pytest.mark.parametrize(
    ("readings", "named"),
    [
        (with_server(rss_mib=10), "MiB of the server's memory, 10.00 a minute"),
        (with_server(handles=1), "handles of the server, 1.00 a minute"),
        (with_server(threads=LANE_THREADS), "threads of the server"),
        (with_server(deleted=1), "handles of files that are gone"),
        (with_server(database=30), "handles of the database per thread"),
        (with_solver(rss_mib=10), "MiB of the solver's memory, 10.00 a minute"),
        (with_solver(handles=1), "handles of the solver"),
        (with_solver(threads=1), "threads of the solver"),
        ([replace(one, wal_mib=place * 4.0) for place, one in enumerate(life())], "MiB of the write-ahead log"),
    ],
)
def test_a_leak_is_named_with_how_much_it_is(readings: list[Reading], named: str) -> None:
    (said,) = what_grows(readings, BOUNDS)
    assert named in said


def test_what_warms_up_in_the_first_third_is_no_leak() -> None:
    cold = [replace(one, server=replace(SERVER, rss_mib=80 + 40 * place)) for place, one in enumerate(life()[:3])]
    assert what_grows([*cold, *life()[3:]], BOUNDS) == []


def test_one_reading_that_is_off_is_no_leak() -> None:
    readings = life()
    readings[-1] = replace(readings[-1], server=replace(SERVER, rss_mib=900, handles=40))
    assert what_grows(readings, BOUNDS) == []


def test_lives_are_held_against_themselves_alone_and_short_ones_against_nothing() -> None:
    short = [replace(one, life=2) for one in with_server(rss_mib=100)[:5]]
    larger = [replace(one, life=3, server=replace(SERVER, rss_mib=900)) for one in life()]
    assert what_grows([*life(), *short, *larger], BOUNDS) == []


def test_the_halves_are_of_what_comes_after_the_first_third() -> None:
    assert halves([(60.0 * place, float(place)) for place in range(9)]) == (4, 7, 3)
    # An odd one in the middle belongs to neither.
    assert halves([(60.0 * place, float(place)) for place in range(10)]) == (4, 8, 4)

"""The board of a plan in the making: what its whole numbers say, against looking at one moment after the other."""

from hypothesis import given
from hypothesis import strategies as st

from shuntbook.plan.board import Board
from shuntbook.plan.problem import Problem, Task, Worker

HORIZON = 30
BUSY = st.lists(st.integers(0, (1 << HORIZON) - 1), min_size=3, max_size=3)


def board_of(busy: list[int], task: Task) -> Board:
    workers = tuple(Worker(f"p-{number}", mechanic=True, inspector=False) for number in range(len(busy)))
    board = Board(Problem((task,), workers, horizon=HORIZON))
    board.busy = list(busy)
    return board


@given(BUSY, st.integers(0, 3), st.integers(0, 4))
def test_the_moments_with_enough_hands_are_those_at_which_so_many_are_free(
    busy: list[int], people: int, long: int
) -> None:
    board = board_of(busy, Task("a", "work", long, people, (0, 1, 2), car="41"))
    enough = board.enough_hands((0, 1, 2), people, long)
    told = [bool(enough >> moment & 1) for moment in range(HORIZON)]
    assert told == [len(board.free_workers(moment, long)) >= people for moment in range(HORIZON)]


@given(BUSY, st.integers(1, 3), st.integers(1, 4), st.integers(0, 9), st.integers(0, 9))
def test_a_task_starts_at_each_moment_that_leaves_it_time_and_hands_and_at_no_other(
    busy: list[int], people: int, long: int, earliest: int, from_unit: int
) -> None:
    board = board_of(busy, Task("a", "work", long, people, (0, 1, 2), car="41", earliest=earliest))
    enough = board.enough_hands((0, 1, 2), people, long)
    moments = range(max(earliest, from_unit), HORIZON - long + 1)
    wanted = [moment for moment in moments if len(board.free_workers(moment, long)) >= people]
    assert list(board.starts(0, long, from_unit, enough)) == wanted


def test_what_is_under_way_starts_where_it_did_if_its_people_are_free() -> None:
    task = Task("a", "work", 2, 1, (0, 1, 2), car="41", fixed=3)
    board = board_of([0b11000, 0, 0], task)
    assert list(board.starts(0, 2, 0, board.enough_hands((0, 1), 1, 2))) == [3]
    assert list(board.starts(0, 2, 0, board.enough_hands((0, 1), 2, 2))) == []

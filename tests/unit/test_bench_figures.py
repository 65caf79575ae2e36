"""What the bench calculates from its raw figures, against a calculation by hand and the definitions that it names."""

import pytest
from bench.figures import dropped_frames, kilobytes, long_tasks, spread
from bench.hand_line import SLOW_3G, Lane


def test_of_an_even_number_of_runs_the_median_lies_between_the_middle_two() -> None:
    found = spread([30, 10, 20, 100])
    assert (found.median, found.worst, found.runs) == (25, 100, 4)
    assert found.says("ms") == "25 ms, worst 100 (4 runs)"


def test_nothing_measured_is_no_figure() -> None:
    with pytest.raises(ValueError, match="run the bench again"):
        spread([])


def test_a_task_is_long_from_above_50_ms() -> None:
    """W3C, Long Tasks API: a task whose duration exceeds 50 ms."""
    assert long_tasks([50.0, 12.0, 51.0, 180.0]) == [180.0, 51.0]


def test_frames_that_were_due_and_not_drawn() -> None:
    """At 60 frames a second one is due every 16.7 ms: 0 → 100 ms is six frames, of which one was drawn."""
    assert dropped_frames([0, 16.6, 33.4, 50.0]) == (0, 3)
    assert dropped_frames([0, 100]) == (5, 6)
    assert dropped_frames([0, 17, 50, 67]) == (1, 4)
    assert dropped_frames([0, 5]) == (0, 1)  # two callbacks within a frame are no more than one
    assert dropped_frames([]) == (0, 0)


def test_a_transfer_is_never_told_smaller_than_it_was() -> None:
    assert [kilobytes(size) for size in (0, 1, 1000, 1001)] == ["0 kB", "1 kB", "1 kB", "2 kB"]


def test_slow_3g_takes_a_second_for_50_kilobytes_and_the_way(monkeypatch: pytest.MonkeyPatch) -> None:
    """400 kbit/s are 50,000 bytes a second; 400 ms there and back are 0.2 s one way."""
    monkeypatch.setattr("time.monotonic", lambda: 100.0)
    lane = Lane()
    assert lane.take(50_000) == 0  # as fast as it goes
    lane.speed = SLOW_3G
    assert lane.take(50_000) == pytest.approx(101.2)
    assert lane.take(25_000) == pytest.approx(101.7)  # after what came before
    assert lane.behind_s() == pytest.approx(1.5)
    assert lane.passed == 125_000

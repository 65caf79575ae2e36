"""What is calculated from raw measurements: median and worst, long tasks, dropped frames, sizes as people read them."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

LONG_MS = 50.0
"""A task longer than this is a long one (W3C, Long Tasks API)."""


@dataclass(frozen=True)
class Spread:
    """Median and worst of several runs of the same; of an even number the mean of the middle two."""

    median: float
    worst: float
    runs: int

    def says(self, unit: str, digits: int = 0) -> str:
        """Return it for a line of the table."""
        return f"{self.median:.{digits}f} {unit}, worst {self.worst:.{digits}f} ({self.runs} runs)"


def spread(values: Sequence[float]) -> Spread:
    """Return median and worst (largest). Errors: ValueError where there is no value."""
    if not values:
        raise ValueError("nothing was measured, so there is no median; run the bench again")
    return Spread(median(values), max(values), len(values))


def long_tasks(tasks_ms: Iterable[float]) -> list[float]:
    """Return the durations that are more than 50 ms, longest first."""
    return sorted((task for task in tasks_ms if task > LONG_MS), reverse=True)


def dropped_frames(stamps_ms: Sequence[float], per_s: float = 60.0) -> tuple[int, int]:
    """Return frames that were due and not drawn, and frames that were due, from the times at which frames began.

    A gap of two frames' length has dropped one; gaps are rounded, since stamps jitter.
    """
    frame_ms = 1000 / per_s
    due = [max(1, round((later - sooner) / frame_ms)) for sooner, later in pairwise(stamps_ms)]
    return sum(due) - len(due), sum(due)


def kilobytes(size: int) -> str:
    """Return bytes as kB (1000 bytes), rounded up: a transfer is never told smaller than it was."""
    return f"{math.ceil(size / 1000)} kB"

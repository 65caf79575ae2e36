"""The tasks that a job has in the plan, and what is asked of the job while they are made."""

from dataclasses import dataclass, field

from shuntbook.queue.answer import Job
from shuntbook.setup.rates import Operation
from shuntbook.setup.words import UNKNOWN

SEAT = ("bleed", "bled", "pedal", "lock-to-lock", "full-lock")
"""Parts of names of what needs somebody in the seat."""


@dataclass
class JobTasks:
    """The tasks of one job: the work, what has to be done before its access closes, what on the ground, the look."""

    job: Job
    row: Operation | None
    work: int | None = None
    inside: list[int] = field(default_factory=list)
    ground: list[int] = field(default_factory=list)
    nuts: bool = False


def is_unknown(job: Job) -> bool:
    """Return whether nobody knows yet what is to be done: looking is the work. A row may name its action `inspect`."""
    return job.condition == UNKNOWN


def in_the_seat(name: str) -> bool:
    """Return whether somebody sits in the seat for it, pumping or steering."""
    return any(word in name for word in SEAT)

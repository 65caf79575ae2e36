"""A planning problem in checked integers on a 15 s grid, of which a service and a textbook project are both cases.

A task takes time, people and counted resources (places in a zone, stands). Tasks of one group are in the plan
together or not at all. A span (an access step) opens before and closes after all that needs it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import Literal

GRID_S = 15
"""Seconds of one unit of the grid."""

Kind = Literal["open", "work", "inspect", "check", "close", "routine"]


@dataclass(frozen=True)
class Worker:
    """Somebody who can work: not before `from_unit`, with the tasks' words of skill."""

    person: str
    mechanic: bool
    inspector: bool
    skills: frozenset[str] = frozenset()
    from_unit: int = 0


@dataclass(frozen=True)
class Task:
    """Something that takes `units` of the grid, `people` at once out of `may` (worker numbers), and resources.

    skilled: at least one of these has to be among them, where any are named. group: the job or routine that it
    belongs to, "" for what is always done. zone: where, "" beside the car.
    """

    name: str
    kind: Kind
    units: int
    people: int = 0
    may: tuple[int, ...] = ()
    skilled: tuple[int, ...] = ()
    group: str = ""
    job: str | None = None
    step: str | None = None
    zone: str = ""
    uses: Mapping[str, int] = field(default_factory=dict)
    ground: bool = False
    alone: bool = False

    def __post_init__(self) -> None:
        """Refuse the impossible in words."""
        if self.units < 0:
            raise ValueError(f"{self.name} takes {self.units} units; a task takes 0 or more")
        if self.people < 0 or self.people > len(self.may):
            raise ValueError(f"{self.name} needs {self.people} people of {len(self.may)} who may")


@dataclass(frozen=True)
class Span:
    """An access step: tasks `opens` and `closes` around the `users`.

    after: tasks that come with it once it is closed, such as the look at a wheel's nuts. stands: the car is off the
    ground meanwhile.
    """

    name: str
    opens: int
    closes: int
    users: tuple[int, ...]
    stands: bool = False
    after: tuple[int, ...] = ()


@dataclass(frozen=True)
class Apart:
    """Nobody who does one of `others` may do `task`: an inspector who did not repair, a checker who did not fit."""

    task: int
    others: tuple[int, ...]


@dataclass(frozen=True)
class Problem:
    """Everything that a plan has to respect, and what it is good for.

    before: (earlier, later) task numbers, binding where both are in. musts: groups of the first goal. values: what
    a group is worth, for the second. horizon: units until the end.
    """

    tasks: tuple[Task, ...]
    workers: tuple[Worker, ...] = ()
    resources: Mapping[str, int] = field(default_factory=dict)
    before: tuple[tuple[int, int], ...] = ()
    spans: tuple[Span, ...] = ()
    apart: tuple[Apart, ...] = ()
    musts: frozenset[str] = frozenset()
    values: Mapping[str, int] = field(default_factory=dict)
    horizon: int = 0

    def __post_init__(self) -> None:
        """Refuse what no plan could ever fit."""
        for task in self.tasks:
            for resource, amount in task.uses.items():
                if amount > self.resources.get(resource, 0):
                    raise ValueError(f"{task.name} needs {amount} of {resource}, of which there are fewer")

    @property
    def of_spans(self) -> frozenset[int]:
        """Tasks that are in where their span is: opening, closing, what comes after."""
        return frozenset(n for span in self.spans for n in (span.opens, span.closes, *span.after))

    @cached_property
    def earlier(self) -> Mapping[int, frozenset[int]]:
        """For each task those that have to be before it."""
        return _together((later, earlier) for earlier, later in self.before)

    @cached_property
    def never_both(self) -> Mapping[int, frozenset[int]]:
        """For each task those that nobody does beside it, from either side."""
        pairs = [(apart.task, other) for apart in self.apart for other in apart.others]
        return _together(pair for one, other in pairs for pair in ((one, other), (other, one)))

    @property
    def groups(self) -> tuple[str, ...]:
        """Jobs and routine work that may be in the plan or not, in order of their first task."""
        return tuple(dict.fromkeys(task.group for task in self.tasks if task.group))


def _together(pairs: Iterable[tuple[int, int]]) -> dict[int, frozenset[int]]:
    found: dict[int, set[int]] = {}
    for one, other in pairs:
        found.setdefault(one, set()).add(other)
    return {one: frozenset(others) for one, others in found.items()}


@dataclass(frozen=True)
class Placed:
    """A task in a plan: when it starts and ends, in units, and who does it (worker numbers, ascending)."""

    task: int
    start: int
    end: int
    workers: tuple[int, ...]


@dataclass(frozen=True)
class Schedule:
    """A plan in numbers: the tasks that are in it, whether it is proven to be the best, and who made it."""

    placed: tuple[Placed, ...]
    proven: bool
    by: Literal["solver", "greedy"]

    @property
    def finish(self) -> int:
        """When the last task ends, in units."""
        return max((item.end for item in self.placed), default=0)


def units(minutes: Fraction) -> int:
    """Return expected minutes as whole units of the grid, rounded up."""
    seconds = minutes * 60
    return -((-seconds.numerator) // (seconds.denominator * GRID_S))

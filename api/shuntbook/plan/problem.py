"""A planning problem in checked integers on a 15 s grid, of which a service and a textbook project are both cases.

A task takes time, people and counted resources (places in a zone, a set of stands). A group is a job or a piece of
routine work: its tasks are in the plan together or not at all. A span (an access step) lies around all that needs it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from shuntbook.setup.rates import ThreePoint

GRID_S = 15
"""Seconds of one unit of the grid."""

By = Literal["solver", "greedy"]
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
class Piece:
    """One of several looks that are done in one go; it is in where its group is."""

    group: str
    units: int
    minutes: ThreePoint | None = None


@dataclass(frozen=True)
class Shorter:
    """How long a task takes where one of the tasks `because` is in anyway: the wheel comes off for another job."""

    because: tuple[int, ...]
    units: int
    minutes: ThreePoint | None = None


@dataclass(frozen=True)
class Task:
    """Something that takes `units` of the grid, `people` at once out of `may` (worker numbers), and resources.

    When it is in the plan: where one of the tasks `because` is (opening a way, checking a wheel's nuts), where one of
    its `pieces` is, where its `group` is, else always. skilled: one of these has to be among them, where any are
    named. zone: where, "" beside the car. car: whose ground and whose fire risk. Window in units: starts not before
    `earliest`, ends not after `latest` (None: the horizon); `fixed`: it has started then.
    """

    name: str
    kind: Kind
    units: int
    people: int = 0
    may: tuple[int, ...] = ()
    skilled: tuple[int, ...] = ()
    group: str = ""
    because: tuple[int, ...] = ()
    pieces: tuple[Piece, ...] = ()
    shorter: Shorter | None = None
    job: str | None = None
    step: str | None = None
    zone: str = ""
    uses: Mapping[str, int] = field(default_factory=dict)
    ground: bool = False
    alone: bool = False
    car: str = ""
    earliest: int = 0
    latest: int | None = None
    fixed: int | None = None
    minutes: ThreePoint | None = None

    def __post_init__(self) -> None:
        """Refuse the impossible in words."""
        if self.units < 0:
            raise ValueError(f"{self.name} takes {self.units} units; a task takes 0 or more")
        if self.people < 0 or self.people > len(self.may):
            raise ValueError(f"{self.name} needs {self.people} people of {len(self.may)} who may")

    @property
    def groups(self) -> tuple[str, ...]:
        """The groups that put it into the plan by themselves."""
        return tuple(piece.group for piece in self.pieces) or ((self.group,) if self.group else ())


@dataclass(frozen=True)
class Span:
    """An access step: opened before and closed after its `users`, and after those `within` that are in with it.

    opens None: it is open already. stands: the car is off the ground meanwhile. holds: resources taken from opening
    to closing.
    """

    name: str
    opens: int | None
    closes: int
    users: tuple[int, ...]
    within: tuple[int, ...] = ()
    stands: bool = False
    holds: Mapping[str, int] = field(default_factory=dict)
    car: str = ""


@dataclass(frozen=True)
class Apart:
    """Nobody who does one of `others` may do `task`: an inspector who did not repair, a checker who did not fit."""

    task: int
    others: tuple[int, ...]


@dataclass(frozen=True)
class Problem:
    """Everything that a plan has to respect, and what it is good for.

    before: (earlier, later) task numbers, binding where both are in. musts: groups of the first goal. values: what a
    group is worth, for the second. horizon: units until the end.
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
    def groups(self) -> tuple[str, ...]:
        """Jobs and routine work that may be in the plan or not, in order of their first task."""
        return tuple(dict.fromkeys(group for task in self.tasks for group in task.groups))

    @property
    def cars(self) -> tuple[str, ...]:
        """The cars of the tasks, in order of their first."""
        return tuple(dict.fromkeys(task.car for task in self.tasks))

    def latest(self, number: int) -> int:
        """Return by when a task has to end."""
        latest = self.tasks[number].latest
        return self.horizon if latest is None else min(latest, self.horizon)


@dataclass(frozen=True)
class Placed:
    """A task in a plan: when it starts and ends, in units, and who does it (worker numbers, ascending)."""

    task: int
    start: int
    end: int
    workers: tuple[int, ...]


@dataclass(frozen=True)
class Schedule:
    """A plan in numbers: groups and tasks that are in it, whether it is proven to be the best, who made it."""

    placed: tuple[Placed, ...]
    proven: bool
    by: By
    inside: frozenset[str] = frozenset()

    @property
    def finish(self) -> int:
        """When the last task ends, in units."""
        return max((item.end for item in self.placed), default=0)


def units(minutes: Fraction) -> int:
    """Return expected minutes as whole units of the grid, rounded up."""
    seconds = minutes * 60
    return -((-seconds.numerator) // (seconds.denominator * GRID_S))

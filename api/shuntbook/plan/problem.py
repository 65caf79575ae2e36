"""A planning problem in checked integers on a 15 s grid, of which a service and a textbook project are both cases.

A task takes time, people and counted resources (places in a zone, a set of stands). A group is a job or a piece of
routine work: its tasks are in the plan together or not at all. A span (an access step) lies around all that needs it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from math import ceil
from typing import Literal

from shuntbook.setup.rates import ThreePoint

GRID_S = 15
"""Seconds of one unit of the grid."""

PER_MINUTE = 60 // GRID_S

By = Literal["solver", "greedy"]
Kind = Literal["open", "work", "inspect", "check", "close", "routine"]


@dataclass(frozen=True)
class Worker:
    """Somebody who can work: not before `from_unit`, with the tasks' words of skill.

    crew: driver or co-driver, who helps where the rate table lets one of them; cars: of these, of all where empty.
    """

    person: str
    mechanic: bool
    inspector: bool
    skills: frozenset[str] = frozenset()
    from_unit: int = 0
    crew: bool = False
    cars: tuple[str, ...] = ()


@dataclass(frozen=True)
class Piece:
    """One of several inspections that are done in one go; it is in where its group is. `units` where no minutes are."""

    group: str
    units: int
    minutes: ThreePoint | None = None

    @property
    def exact(self) -> Fraction:
        """Its expected length in units, not rounded: what is done in one go is rounded once."""
        return exact_units(self.minutes.expected) if self.minutes is not None else Fraction(self.units)


@dataclass(frozen=True)
class Shorter:
    """How long a task takes where one of the tasks `because` is in anyway: the wheel comes off for another job."""

    because: tuple[int, ...]
    units: int
    minutes: ThreePoint | None = None


@dataclass(frozen=True)
class Task:
    """Something that takes `units` of the grid, `people` at once out of `may` (worker numbers), and resources.

    guests: those of `may` of whom one at most may be among them (driver and co-driver). further: what each piece after
    the first takes, where that differs. moves: the car goes up or down meanwhile. early: it waits for no repair,
    and the sooner it is known what it finds, the better.

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
    guests: tuple[int, ...] = ()
    group: str = ""
    because: tuple[int, ...] = ()
    pieces: tuple[Piece, ...] = ()
    further: ThreePoint | None = None
    shorter: Shorter | None = None
    job: str | None = None
    step: str | None = None
    zone: str = ""
    uses: Mapping[str, int] = field(default_factory=dict)
    ground: bool = False
    alone: bool = False
    moves: bool = False
    early: bool = False
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

    @cached_property
    def groups(self) -> tuple[str, ...]:
        """The groups that put it into the plan by themselves."""
        return tuple(piece.group for piece in self.pieces) or ((self.group,) if self.group else ())

    @property
    def touches(self) -> bool:
        """Whether somebody touches, leans into, is in or under the car for it: nobody does while the car moves."""
        return bool(self.zone) or self.kind in ("open", "close")

    @property
    def shortest(self) -> int:
        """The least that it may take, in units, where it is in."""
        short = min((ceil(piece.exact) for piece in self.pieces), default=self.units)
        return min(short, self.shorter.units) if self.shorter else short


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

    before: (earlier, later) task numbers, binding where both are in. levels: groups of which as many as can be are in,
    each level before the next; most: what of each level can be in at most, where that is known. values: what a group
    is worth, after those. horizon: units until the end. last: the plan last shown, which a plan is to be near to.
    """

    tasks: tuple[Task, ...]
    workers: tuple[Worker, ...] = ()
    resources: Mapping[str, int] = field(default_factory=dict)
    before: tuple[tuple[int, int], ...] = ()
    spans: tuple[Span, ...] = ()
    apart: tuple[Apart, ...] = ()
    levels: tuple[frozenset[str], ...] = ()
    values: Mapping[str, int] = field(default_factory=dict)
    horizon: int = 0
    most: tuple[int, ...] = ()
    last: tuple["Placed", ...] = ()

    def __post_init__(self) -> None:
        """Refuse what no plan could ever fit."""
        for task in self.tasks:
            for resource, amount in task.uses.items():
                if amount > self.resources.get(resource, 0):
                    raise ValueError(f"{task.name} needs {amount} of {resource}, of which there are fewer")

    @cached_property
    def musts(self) -> frozenset[str]:
        """The groups of all levels: what is done before anything is done for its value."""
        return frozenset().union(*self.levels)

    @cached_property
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
    """A task in a plan: when it starts and ends, in units, and who does it (worker numbers, ascending).

    pieces: of a plan last shown, the groups that an inspection was of; None where that was not said.
    """

    task: int
    start: int
    end: int
    workers: tuple[int, ...]
    pieces: frozenset[str] | None = None


@dataclass(frozen=True)
class Reached:
    """What a plan reaches of a goal, what no plan could better, and whether that is proven to be the same.

    goal: the place of a level, "value", "finish" (units, all cars), "looks" (sum of starts, units) or "work"
    (worker-units).
    """

    goal: int | str
    reached: int
    bound: int

    @property
    def proven(self) -> bool:
        """Whether nothing better is possible."""
        return self.reached == self.bound


@dataclass(frozen=True)
class Schedule:
    """A plan in numbers: groups and tasks that are in it, whether it is proven to be the best, who made it.

    goals: what it reaches of each goal, in their order, as far as that was worked out.
    """

    placed: tuple[Placed, ...]
    proven: bool
    by: By
    inside: frozenset[str] = frozenset()
    goals: tuple[Reached, ...] = ()

    @property
    def finish(self) -> int:
        """When the last task ends, in units."""
        return max((item.end for item in self.placed), default=0)


def exact_units(minutes: Fraction) -> Fraction:
    """Return minutes in units of the grid, not rounded."""
    return minutes * 60 / GRID_S


def units(minutes: Fraction) -> int:
    """Return expected minutes as whole units of the grid, rounded up."""
    seconds = minutes * 60
    return -((-seconds.numerator) // (seconds.denominator * GRID_S))

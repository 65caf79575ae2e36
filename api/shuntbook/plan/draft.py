"""A planning problem in the making: tasks numbered as they come, who may do them, where there is room."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import IntEnum
from fractions import Fraction
from typing import Literal

from shuntbook.plan.problem import Apart, Task, Worker
from shuntbook.setup.event import Resource
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import Service
from shuntbook.setup.rates import Access

FIRE = "fire-risk"
"""The word by which a resource says that open fuel and welding bind it."""
EXTINGUISHER = {"extinguisher": 1}
"""What there is of them where an event does not say."""


Why = Literal["time", "value", "risk", "part", "people", "official"]


class Level(IntEnum):
    """The goals that count jobs and routine work, the first before all others."""

    BEGUN = 0
    """What is under way: a plan keeps it."""
    KNOWN = 1
    """Safety-critical, with a known condition."""
    UNKNOWN = 2
    """Safety-critical, of which the condition was only reported or felt."""
    CRITICAL = 3
    """What else is safety-critical."""
    VITAL = 4
    """Routine work that is vital."""
    MUST = 5
    """Jobs that must be done."""
    ROUTINE = 6
    """Routine work that must be done."""


HELD = (Level.KNOWN, Level.UNKNOWN, Level.CRITICAL, Level.VITAL)
"""What a car leaves late for rather than without."""


@dataclass(frozen=True)
class Obstacle:
    """Why a job cannot be planned, in a word and in a sentence."""

    why: Why
    reason: str


@dataclass(frozen=True)
class Progress:
    """What of a service is behind it, in units since the car came in.

    now: nothing new starts before. under_way: starting unit and people by job or task name. done: names of tasks
    (access, routine, checks) that are finished. open_steps: access that is open, (step, zone or "").
    finished: jobs that were finished at this service, whose checks may be still to come.
    """

    now: int = 0
    under_way: Mapping[str, tuple[int, tuple[str, ...]]] = field(default_factory=dict)
    done: frozenset[str] = frozenset()
    open_steps: frozenset[tuple[str, str]] = frozenset()
    finished: frozenset[str] = frozenset()


@dataclass
class Draft:
    """A problem being made of one car or several, one after the other; `car` and its window are those being added.

    aboard: who sits in the car by the log. without: groups that are not to be planned. one_each: as in `PlanModel`.
    """

    setup: Setup
    workers: list[Worker]
    car: str = ""
    service: Service | None = None
    earliest: int = 0
    latest: int | None = None
    progress: Progress = field(default_factory=Progress)
    repaired: Mapping[str, frozenset[str]] = field(default_factory=dict)
    aboard: frozenset[str] = frozenset()
    several: bool = False
    without: frozenset[str] = frozenset()
    tasks: list[Task] = field(default_factory=list)
    before: list[tuple[int, int]] = field(default_factory=list)
    apart: list[Apart] = field(default_factory=list)
    levels: dict[Level, set[str]] = field(default_factory=lambda: {level: set() for level in Level})
    worth: dict[str, Fraction] = field(default_factory=dict)
    left_out: dict[str, Obstacle] = field(default_factory=dict)
    one_each: list[Mapping[str, frozenset[int]]] = field(default_factory=list)

    def add(self, task: Task) -> int:
        """Add a task and return its number."""
        self.tasks.append(task)
        return len(self.tasks) - 1

    def who(self, *, mechanic: bool = False, inspector: bool = False) -> tuple[int, ...]:
        """Return the workers of either role, all of them where none is asked for."""
        anybody = not mechanic and not inspector
        return tuple(
            n
            for n, w in enumerate(self.workers)
            if not w.crew and (anybody or (mechanic and w.mechanic) or (inspector and w.inspector))
        )

    def crew(self) -> tuple[int, ...]:
        """Return the workers who sit in this car: one of them may help where the rate table says so.

        Those whom the log has in it; by the set-up alone where it has none of them.
        """
        may = tuple(n for n, w in enumerate(self.workers) if w.crew and (not w.cars or self.car in w.cars))
        return tuple(n for n in may if self.workers[n].person in self.aboard) or may

    def others(self, workers: Sequence[int], jobs: Sequence[str]) -> tuple[int, ...]:
        """Return those workers who have not repaired any of these jobs already, as far as the log tells."""
        theirs = frozenset[str]().union(*(self.repaired.get(job, ()) for job in jobs))
        return tuple(n for n in workers if self.workers[n].person not in theirs)

    def named(self, name: str) -> str:
        """Return the name of a group, a zone or a step as this car's own, where there are several cars."""
        return f"{self.car}/{name}" if self.several else name

    def room(self, zone: str) -> int | None:
        """Return how many a zone holds, None where there is no limit."""
        found = self.setup.car_map.zones.get(zone)
        return None if found is None else found.people

    def places(self, zone: str, people: int, *, seat: bool = False) -> dict[str, int]:
        """Return what a task takes of the zones: its people's places; somebody in the seat fills the cabin."""
        room = self.room(zone)
        uses = {self.named(zone): people} if room is not None and people else {}
        for cabin in self.setup.car_map.zones.values() if seat else ():
            if cabin.kind == "cabin":
                uses[self.named(cabin.zone)] = cabin.people
        return uses

    def held_by(self, name: str) -> dict[str, int]:
        """Return the counted resources that a step, an action or fire risk binds, as far as there are any."""
        held = {r.resource: 1 for r in self._bound_by(name) if r.count}
        return EXTINGUISHER if name == FIRE and not self._bound_by(FIRE) else held

    def missing(self, *names: str) -> Obstacle | None:
        """Return why steps, actions or fire risk cannot be: what they bind is not there; None where it is."""
        gone = sorted({r.resource for name in names for r in self._bound_by(name) if not r.count})
        return Obstacle("part", f"not there: {', '.join(gone)}") if gone else None

    def _bound_by(self, name: str) -> list[Resource]:
        """Open fuel and welding bind an extinguisher, whether the event says so or not."""
        every = self.setup.event.resources
        found = [r for r in every if name in r.held_by]
        return found or [r for r in every if name == FIRE and "extinguisher" in r.resource][:1]

    def resources(self) -> dict[str, int]:
        """Return the counted resources that there are beside the places on the cars."""
        return {**EXTINGUISHER, **{r.resource: r.count for r in self.setup.event.resources}}

    def steps(self, names: Sequence[str]) -> list[Access]:
        """Return access steps with those that have to be open before them, by name."""
        found: dict[str, Access] = {}
        todo = list(names)
        while todo:
            name = todo.pop()
            if name not in found and name in self.setup.rates.access:
                found[name] = self.setup.rates.access[name]
                todo += found[name].needs
        return [found[name] for name in sorted(found)]

    def lacks(self, people: int, may: Sequence[int], what: str, zone: str = "") -> Obstacle | None:
        """Return why nothing can be done that takes so many people at once in a zone, None where it can."""
        if people > len(may):
            return Obstacle("people", f"{what} takes {people}; {len(may)} who may are there")
        room = self.room(zone)
        if room is not None and people > room:
            return Obstacle("people", f"{what} takes {people}; {self.setup.car_map.zones[zone].label} holds {room}")
        return None

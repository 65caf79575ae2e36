"""What a team's plan is made of: each car's part, on a clock that starts when the first comes in."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from shuntbook.kit.times import instant
from shuntbook.plan.build import PlanModel, Visit, build
from shuntbook.plan.context import PlanContext, Shown, shown_of
from shuntbook.plan.draft import Progress
from shuntbook.plan.nearest import Told
from shuntbook.plan.problem import GRID_S, PER_MINUTE, Worker
from shuntbook.plan.progress import progress_of, units_since
from shuntbook.plan.solve import Effort

EFFORT = Effort(deterministic_s=0.5)
"""What a team's plan may take: its models are twice as large, and what half a minute more would find is seldom more."""


@dataclass(frozen=True)
class ShownCar:
    """A car's part of a team's plan last shown; offset_s: when its clock starts on that of all."""

    car: str
    offset_s: int
    tasks: tuple[Shown, ...]


@dataclass(frozen=True)
class ShownTeam:
    """The team's plan last shown; starts_at None: its clock is taken as that of the new one."""

    starts_at: datetime | None
    cars: tuple[ShownCar, ...]


def shown_team(said: Mapping[str, Any] | None) -> ShownTeam | None:
    """Return what of a team plan's JSON can be compared. Errors: KeyError, TypeError, ValueError for what is none."""
    if said is None:
        return None
    starts = said.get("starts_at")
    cars = sorted(said["cars"], key=lambda car: str(car["car"]))
    return ShownTeam(
        instant(starts) if isinstance(starts, str) else starts,
        tuple(ShownCar(car["car"], car.get("offset_s") or 0, shown_of(car)) for car in cars),
    )


@dataclass(frozen=True)
class Team:
    """What a team's plan is made of: each car's part, when it comes in after the first (units), who is there.

    at: from when the rest is planned.
    """

    cars: Sequence[PlanContext]
    zero: datetime
    offsets: Sequence[int]
    workers: Sequence[Worker]
    at: datetime | None = None
    previous: ShownTeam | None = None
    effort: Effort = field(default_factory=lambda: EFFORT)

    def each(self) -> Iterator[tuple[str, PlanContext, int]]:
        """Yield each car with what its plan is made of and when it comes in."""
        return ((one.queue.car, one, offset) for one, offset in zip(self.cars, self.offsets, strict=True))

    def due(self, late: Mapping[str, int]) -> dict[str, int]:
        """Return by when each car has to be done that leaves so many minutes late, in units."""
        return {
            car: offset + one.work_units + max(one.overdue_min, late.get(car, 0)) * PER_MINUTE
            for car, one, offset in self.each()
        }

    def built(self, late: Mapping[str, int], without: frozenset[str] = frozenset()) -> PlanModel:
        """Return the problem of all cars where these leave so many minutes late; without: not to be planned."""
        due = self.due(late)
        visits = [
            Visit(
                one.queue,
                one.service,
                offset,
                due[car],
                self._progress(one, offset),
                repaired=one.repaired,
                due=one.due,
                aboard=one.aboard,
            )
            for car, one, offset in self.each()
        ]
        return build(self.cars[0].setup, visits, self.workers, without)

    def told(self) -> list[Told]:
        """Return the plan last shown on the clock of this one."""
        if self.previous is None:
            return []
        begun = self.previous.starts_at
        shift = 0 if begun is None else round((begun - self.zero).total_seconds())
        return [
            Told(task.task, (task.start_s + car.offset_s + shift) // GRID_S, task.people, task.jobs, car.car)
            for car in self.previous.cars
            for task in car.tasks
        ]

    def _progress(self, one: PlanContext, offset: int) -> Progress:
        """Return what is behind a car on the clock of all; for one that is not in yet nothing starts in the past."""
        if self.at is None:
            return Progress()
        if one.story.entered is None:
            return Progress(now=units_since(self.zero, self.at))
        own = progress_of(one.story, one.queue, one.setup, self.at)
        under = {name: (start + offset, people) for name, (start, people) in own.under_way.items()}
        return replace(own, now=own.now + offset, under_way=under)

"""What a plan is asked for and made of: the request, the queue, the log's story of the service, the time for work."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from shuntbook.kit.times import minutes_after, within_reach
from shuntbook.plan.answer import Frame
from shuntbook.plan.build import PlanModel, Visit, build
from shuntbook.plan.problem import PER_MINUTE, Worker
from shuntbook.plan.progress import Timeline, allowed_minutes, progress_of
from shuntbook.plan.solve import Effort
from shuntbook.plan.told import Lateness
from shuntbook.queue.answer import Queue
from shuntbook.setup.event import Routine
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import Service

ANY_TIME = 24 * 60 * PER_MINUTE
"""Long enough for everything: what has to be done is looked for within a day."""
READY_BY = "ready-by"
"""Stands for the service where a car restarts and has no service's time but an hour to be ready by."""


@dataclass(frozen=True)
class Shown:
    """A task of the plan last shown: its name, its start in seconds, its people; jobs: those that it inspected."""

    task: str
    start_s: int
    people: tuple[str, ...]
    jobs: tuple[str, ...] = ()


def shown_of(said: Mapping[str, Any] | None) -> tuple[Shown, ...]:
    """Return the tasks of a plan's JSON that was shown, as they can be compared."""
    tasks = said["tasks"] if said else ()
    shown = (Shown(t["task"], t["start_s"], tuple(t["people"]), tuple(t.get("jobs") or ())) for t in tasks)
    return tuple(sorted(shown, key=_place))


def _place(shown: Shown) -> tuple[int, str]:
    return shown.start_s, shown.task


@dataclass(frozen=True)
class PlanRequest:
    """What is to be planned: a service, how many mechanics (None: all), minutes (None: the service's own).

    away: from which minute on somebody is there. at: from when the rest is planned. ready_by: in place of a service.
    on_time_percent: the chance to end in time that is kept (0: everything; None: the event's own). previous: the plan
    last shown.
    """

    service: str
    mechanics: int | None = None
    minutes: int | None = None
    away: tuple[tuple[str, int], ...] = ()
    at: datetime | None = None
    ready_by: datetime | None = None
    on_time_percent: float | None = None
    previous: tuple[Shown, ...] = ()
    effort: Effort = field(default_factory=Effort)


@dataclass(frozen=True)
class PlanContext:
    """All that a plan is made of: the queue, the set-up, the log's story of the service, people, the time for work.

    due: routine work of this car alone: parts whose life is over. aboard: who sits in the car by the log.
    """

    wish: PlanRequest
    queue: Queue
    setup: Setup
    service: Service | None
    story: Timeline
    minutes: int
    work_units: int
    workers: Sequence[Worker]
    used_min: int
    overdue_min: int = 0
    repaired: Mapping[str, frozenset[str]] = field(default_factory=dict)
    due: Sequence[Routine] = ()
    aboard: frozenset[str] = frozenset()

    def built(
        self,
        late: int | None = None,
        workers: Sequence[Worker] | None = None,
        without: frozenset[str] = frozenset(),
    ) -> PlanModel:
        """Return the problem with the end so many minutes late (None: as few as can be), or with other people.

        without: jobs that are not to be planned.
        """
        progress = progress_of(self.story, self.queue, self.setup, self.wish.at)
        over = self.overdue_min if late is None else late
        latest = self.work_units + over * PER_MINUTE
        visit = Visit(self.queue, self.service, 0, latest, progress, self.repaired, self.due, self.aboard)
        return build(self.setup, [visit], self.workers if workers is None else workers, without)

    @property
    def starts(self) -> datetime | None:
        """Zero of the tasks' clock: when the car has been driven in, by the itinerary while it is not in."""
        zero = self.comes_in
        return None if zero is None else within_reach(zero + self.story.driving_in)

    @property
    def comes_in(self) -> datetime | None:
        """When the car came in, else when the itinerary has it."""
        return self.story.entered or (self.service.arrive if self.service is not None else None)

    @property
    def left_min(self) -> int:
        """How many minutes late the car may still leave."""
        return allowed_minutes(self.used_min, self.setup.event.regulations) if self.service is not None else 0

    @property
    def percent(self) -> float:
        """The chance to end in time, in percent, that value is taken on for."""
        if self.wish.on_time_percent is not None:
            return self.wish.on_time_percent
        return float(self.setup.event.rows["planning"][0]["on_time_percent"])

    def penalty_s(self, late: int) -> int:
        """Return what leaving so many minutes late costs."""
        return late * self.setup.event.regulations.late_penalty_s_per_minute


def frame_of(scene: PlanContext, late: int = 0) -> Frame:
    """Return what a plan stands in that ends so many minutes late."""
    rules, zero = scene.setup.event.regulations, scene.comes_in
    progress = progress_of(scene.story, scene.queue, scene.setup, scene.wish.at)
    last = scene.service is None or scene.service is scene.setup.event.services[-1]
    return Frame(
        service=scene.service.service if scene.service is not None else READY_BY,
        minutes=scene.minutes,
        work_units=scene.work_units,
        entered_at=_text(scene.story.entered),
        starts_at=_text(scene.starts),
        due_out=_text(minutes_after(zero, scene.minutes)) if zero is not None else None,
        now_units=progress.now,
        lateness=Lateness(
            scene.used_min, scene.left_min, rules.late_penalty_s_per_minute, rules.early_penalty_s_per_minute
        ),
        last_service=last,
        late_min=late,
        penalty_s=scene.penalty_s(late),
    )


def _text(time: datetime | None) -> str | None:
    return None if time is None else time.isoformat()

"""Makes a planning problem of a car's queue, the routine work of a service and the people who are there."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import lcm

from shuntbook.plan.access import Ways
from shuntbook.plan.draft import Draft, Obstacle, Progress
from shuntbook.plan.inspections import add_looks
from shuntbook.plan.jobs import JobTasks, add_job, in_window
from shuntbook.plan.problem import GRID_S, Problem, Span, Task, Worker, units
from shuntbook.queue.answer import Queue
from shuntbook.setup.event import Routine
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import Service
from shuntbook.setup.rates import ThreePoint


@dataclass(frozen=True)
class PlanModel:
    """A problem with what the plan says beside it: why a job cannot be planned."""

    problem: Problem
    left_out: Mapping[str, Obstacle]


@dataclass(frozen=True)
class Visit:
    """A car at a service: its queue, from when to when there is time for work (units), what is behind it.

    repaired: by job who has repaired what an inspector has still to look at.
    """

    queue: Queue
    service: Service | None
    earliest: int
    latest: int
    progress: Progress = field(default_factory=Progress)
    repaired: Mapping[str, frozenset[str]] = field(default_factory=dict)

    @property
    def car(self) -> str:
        """The car."""
        return self.queue.car


def workers_of(setup: Setup, mechanics: int | None, away_units: Mapping[str, int]) -> list[Worker]:
    """Return the event's first `mechanics` mechanics and its inspectors, in the set-up's order.

    away_units: from when somebody is there, in units.
    """
    found, taken = [], 0
    for person in setup.event.people:
        is_mechanic, is_inspector = "mechanic" in person.roles, "inspector" in person.roles
        if is_mechanic and mechanics is not None and taken >= mechanics:
            continue
        if is_mechanic or is_inspector:
            taken += is_mechanic
            skills, from_unit = frozenset(person.skills), away_units.get(person.person, 0)
            found.append(Worker(person.person, is_mechanic, is_inspector, skills, from_unit))
    return found


def units_for_work(service: Service, minutes: int | None, late_minutes: int = 0) -> int:
    """Return the time for work of a service in units: control to control, less driving in and out."""
    whole = (service.minutes if minutes is None else minutes) + late_minutes - Fraction(service.in_and_out_minutes)
    return max(0, int(whole * 60 / GRID_S))


def build(setup: Setup, visits: Sequence[Visit], workers: Sequence[Worker]) -> PlanModel:
    """Return the problem of one car at one service, or of several cars that share people and resources."""
    draft = Draft(setup, list(workers), several=len(visits) > 1)
    resources = draft.resources()
    spans: list[Span] = []
    for visit in visits:
        draft.car, draft.service, draft.progress = visit.car, visit.service, visit.progress
        draft.repaired = visit.repaired
        draft.earliest, draft.latest = max(visit.earliest, visit.progress.now), visit.latest
        resources |= {draft.named(zone.zone): zone.people for zone in setup.car_map.zones.values()}
        spans += _car(draft, visit)
    problem = Problem(
        tuple(draft.tasks),
        tuple(draft.workers),
        resources,
        tuple(dict.fromkeys(draft.before)),
        tuple(spans),
        tuple(draft.apart),
        frozenset(draft.musts),
        _scaled(draft.worth),
        max((visit.latest for visit in visits), default=0),
    )
    return PlanModel(problem, draft.left_out)


def _car(draft: Draft, visit: Visit) -> list[Span]:
    """Add all tasks of a car; return its spans."""
    jobs = [tasks for job in visit.queue.jobs if (tasks := add_job(draft, job)) is not None]
    looks = add_looks(draft, jobs)
    ways = Ways(draft)
    for place, tasks in enumerate(jobs):
        ways.for_job(tasks, looks.get(place))
    for routine in draft.setup.event.routine:
        if visit.service is None or not routine.services or visit.service.service in routine.services:
            _routine(draft, ways, routine)
    _afters(draft, jobs)
    return ways.spans(jobs)


def _routine(draft: Draft, ways: Ways, routine: Routine) -> None:
    minutes = ThreePoint(*(Fraction(value) for value in routine.minutes))
    name = f"routine {routine.task}"
    group, may = draft.named(name), draft.who(mechanic=True)
    if name in draft.progress.done:
        return
    lacks = [draft.lacks(routine.mechanics, may, routine.task, routine.zone)]
    for step in draft.steps(routine.access):
        lacks.append(draft.missing(step.step))
        lacks.append(draft.lacks(step.mechanics, may, step.step, routine.zone if step.per == "zone" else ""))
    reason = next(filter(None, lacks), None)
    if reason is not None:
        draft.left_out[group] = reason
        return
    task = Task(
        name=name,
        kind="routine",
        units=units(minutes.expected),
        people=routine.mechanics,
        may=may,
        group=group,
        zone=routine.zone,
        uses=draft.places(routine.zone, routine.mechanics),
        minutes=minutes,
    )
    ways.for_routine(draft.add(in_window(draft, task)), routine.access, routine.zone)
    if routine.must_do:
        draft.musts.add(group)
    draft.worth[group] = Fraction(0)


def _afters(draft: Draft, jobs: Sequence[JobTasks]) -> None:
    """What the rate table names as `after`: jobs of that component, in the same zone where there are any."""
    planned = [tasks for tasks in jobs if tasks.work is not None]
    begun = {n for n, task in enumerate(draft.tasks) if task.fixed is not None}
    for tasks in planned:
        for name in tasks.row.after if tasks.row is not None else ():
            named = [other for other in planned if name in (other.job.component, other.job.job) and other is not tasks]
            near = [other for other in named if other.job.zone == tasks.job.zone] or named
            pairs = [(other.work, tasks.work) for other in near]
            # What is under way came first, whatever the table says: the other is still to do.
            draft.before += [
                (a, b) for a, b in pairs if a is not None and b is not None and (a in begun or b not in begun)
            ]


def _scaled(worth: Mapping[str, Fraction]) -> dict[str, int]:
    """Return whole numbers in the same proportions."""
    common = lcm(*(value.denominator for value in worth.values()))
    return {group: int(value * common) for group, value in worth.items()}

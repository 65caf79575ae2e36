"""Makes a planning problem of a car's queue, the routine work of a service and the people who are there."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import lcm

from shuntbook.plan.access import Ways
from shuntbook.plan.draft import Draft, Level, Obstacle, Progress
from shuntbook.plan.inspections import add_inspections
from shuntbook.plan.job_tasks import JobTasks
from shuntbook.plan.jobs import add_job
from shuntbook.plan.problem import GRID_S, Problem, Span, Worker
from shuntbook.plan.routine import Planned, add_routine, keep_when
from shuntbook.queue.answer import Queue
from shuntbook.setup.event import Routine
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import Service
from shuntbook.setup.rates import Rates


@dataclass(frozen=True)
class PlanModel:
    """A problem with what the plan says beside it: why a job cannot be planned. scale: its values to the table's.

    one_each: places inspected one by one, with who may inspect each job there (worker numbers): nobody may all of them.
    """

    problem: Problem
    left_out: Mapping[str, Obstacle]
    scale: int = 1
    one_each: Sequence[Mapping[str, frozenset[int]]] = ()

    def kept_apart_by(self, inside: frozenset[str]) -> frozenset[str]:
        """Return the jobs outside a plan without which one person could inspect together what is inspected in it."""
        found = frozenset[str]()
        for may in self.one_each:
            there = inside & may.keys()
            if len(there) > 1 and frozenset.intersection(*(may[group] for group in there)):
                found |= may.keys() - there
        return found


@dataclass(frozen=True)
class Visit:
    """A car at a service: its queue, from when to when there is time for work (units), what is behind it.

    repaired: by job who worked on what an inspector has still to look at. due: routine work of this car alone: parts
    whose life is over. aboard: who sits in the car by the log; by the set-up alone where it has nobody.
    """

    queue: Queue
    service: Service | None
    earliest: int
    latest: int
    progress: Progress = field(default_factory=Progress)
    repaired: Mapping[str, frozenset[str]] = field(default_factory=dict)
    due: Sequence[Routine] = ()
    aboard: frozenset[str] = frozenset()

    @property
    def car(self) -> str:
        """The car."""
        return self.queue.car


def workers_of(setup: Setup, mechanics: int | None, away_units: Mapping[str, int]) -> list[Worker]:
    """Return the event's first `mechanics` mechanics and its inspectors, in the set-up's order.

    away_units: from when somebody is there, in units. Drivers and co-drivers follow where a row lets them help.
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
    return [*found, *_crew(setup, away_units)] if _names_crew(setup.rates) else found


def _crew(setup: Setup, away_units: Mapping[str, int]) -> list[Worker]:
    """Return who sits in a car and is neither mechanic nor inspector."""
    found = []
    for row in setup.event.rows["people"]:
        if not {"mechanic", "inspector"} & set(row["roles"]) and {"driver", "co-driver"} & set(row["roles"]):
            from_unit, cars = away_units.get(row["person"], 0), tuple(row["cars"])
            found.append(Worker(row["person"], False, False, frozenset(), from_unit, crew=True, cars=cars))
    return found


def _names_crew(rates: Rates) -> bool:
    tables = (rates.operations, rates.access, rates.checks)
    return any(row.crew for table in tables for row in table.values())


def units_for_work(service: Service, minutes: int | None, late_minutes: int = 0) -> int:
    """Return the time for work of a service in units: control to control, less driving in and out."""
    whole = (service.minutes if minutes is None else minutes) + late_minutes - Fraction(service.in_and_out_minutes)
    return max(0, int(whole * 60 / GRID_S))


def build(
    setup: Setup, visits: Sequence[Visit], workers: Sequence[Worker], without: frozenset[str] = frozenset()
) -> PlanModel:
    """Return the problem of one car at one service, or of several cars that share people and resources.

    without: jobs that are not to be planned, by the names of their groups.
    """
    draft = Draft(setup, list(workers), several=len(visits) > 1, without=without)
    resources = draft.resources()
    spans: list[Span] = []
    for visit in visits:
        draft.car, draft.service, draft.progress = visit.car, visit.service, visit.progress
        draft.repaired, draft.aboard = visit.repaired, visit.aboard
        draft.earliest, draft.latest = max(visit.earliest, visit.progress.now), visit.latest
        resources |= {draft.named(zone.zone): zone.people for zone in setup.car_map.zones.values()}
        spans += _car(draft, visit)
    _keep_what_is_begun(draft)
    resources |= _in_use(spans, resources)
    scale = lcm(*(value.denominator for value in draft.worth.values()))
    problem = Problem(
        tuple(draft.tasks),
        tuple(draft.workers),
        resources,
        tuple(dict.fromkeys(draft.before)),
        tuple(spans),
        tuple(draft.apart),
        tuple(frozenset(groups) for groups in draft.levels.values()),
        _scaled(draft.worth, scale),
        max((visit.latest for visit in visits), default=0),
    )
    return PlanModel(problem, draft.left_out, scale, draft.one_each)


def _car(draft: Draft, visit: Visit) -> list[Span]:
    """Add all tasks of a car; return its spans."""
    jobs = [tasks for job in visit.queue.jobs if (tasks := add_job(draft, job)) is not None]
    inspections = add_inspections(draft, jobs)
    ways = Ways(draft)
    for place, tasks in enumerate(jobs):
        ways.for_job(tasks, inspections.get(place))
        if place in inspections:
            ways.for_inspection(tasks, inspections[place])
    routine: list[Planned] = []
    for one in (*draft.setup.event.routine, *visit.due):
        if visit.service is None or not one.services or visit.service.service in one.services:
            routine += add_routine(draft, ways, one)
    _afters(draft, jobs)
    spans = ways.spans(jobs)
    keep_when(draft, routine, spans)
    return spans


def _in_use(spans: Sequence[Span], resources: Mapping[str, int]) -> dict[str, int]:
    """Return the resources of which more are in use, by the log, than the event says there are: so many there are."""
    used: dict[str, int] = {}
    for span in spans:
        for resource, amount in span.holds.items() if span.opens is None else ():
            used[resource] = used.get(resource, 0) + amount
    return {resource: amount for resource, amount in used.items() if amount > resources.get(resource, 0)}


def _keep_what_is_begun(draft: Draft) -> None:
    """What is under way comes before all else; it counts in its own level, too: where not all of it can go on, the
    brake does and the lamp waits, and a car leaves late for a brake that is begun as for one that is not.
    """
    draft.levels[Level.BEGUN] |= {task.group for task in draft.tasks if task.fixed is not None and task.group}


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


def _scaled(worth: Mapping[str, Fraction], scale: int) -> dict[str, int]:
    """Return whole numbers in the same proportions."""
    return {group: int(value * scale) for group, value in worth.items()}

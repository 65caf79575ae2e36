"""Plans a service: the queue as it stands, the people who are there, the best that fits, and what minutes buy."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from fractions import Fraction
from typing import Any
from zoneinfo import ZoneInfo

from shuntbook.flow import answers
from shuntbook.fold.voids import standing
from shuntbook.kit.errors import NotFound, NotPossible
from shuntbook.kit.times import instant, instant_or_none, minutes_after
from shuntbook.plan.answer import Buys, Frame, Hands, Lateness, Later, Needs, Plan, plan_answer
from shuntbook.plan.build import PlanModel, Visit, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.greedy import greedy
from shuntbook.plan.namable import can_be_named
from shuntbook.plan.ontime import RUNS, chance
from shuntbook.plan.problem import GRID_S, Problem, Schedule, Worker
from shuntbook.plan.progress import (
    KINDS,
    Timeline,
    allowed_minutes,
    progress_of,
    repaired_by,
    timeline_of,
    used_minutes,
)
from shuntbook.plan.solve import Effort, solve
from shuntbook.queue.answer import Queue
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import CarRestarts
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import Service
from shuntbook.store import log, setups
from shuntbook.store.database import Store

PER_MINUTE = 60 // GRID_S
ANY_TIME = 24 * 60 * PER_MINUTE
"""Long enough for everything: what the musts take is looked for within a day."""
AT_ONCE_RUNS = 400
"""Fewer runs tell the chance of a plan that will be replaced well enough, and it is there the sooner."""
READY_BY = "ready-by"
"""Stands for the service where a car restarts and has no service's time but an hour to be ready by."""

Solve = Callable[[Problem, Schedule | None, Effort], Schedule | None]


@dataclass(frozen=True)
class PlanRequest:
    """What is to be planned: a service, how many mechanics (None: all), minutes (None: the service's own).

    away: from which minute on somebody is there. at: from when the rest is planned. ready_by: in place of a service.
    """

    service: str
    mechanics: int | None = None
    minutes: int | None = None
    away: tuple[tuple[str, int], ...] = ()
    at: datetime | None = None
    ready_by: datetime | None = None
    effort: Effort = field(default_factory=Effort)


BESIDE = Effort(deterministic_s=0.3, in_full=False)
"""How much the solver may work on each question of what one more minute buys."""
HANDS = Effort(deterministic_s=0.6)


@dataclass(frozen=True)
class PlanContext:
    """All that a plan is made of: the queue, the set-up, the log's story of the service, people, the time for work."""

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

    def built(self, late: int | None = None, workers: Sequence[Worker] | None = None) -> PlanModel:
        """Return the problem with the end so many minutes late (None: as few as can be), or with other people."""
        progress = progress_of(self.story, self.queue, self.setup, self.wish.at)
        over = self.overdue_min if late is None else late
        visit = Visit(self.queue, self.service, 0, self.work_units + over * PER_MINUTE, progress, self.repaired)
        return build(self.setup, [visit], self.workers if workers is None else workers)

    @property
    def left_min(self) -> int:
        """How many minutes late the car may still leave."""
        return allowed_minutes(self.used_min, self.setup.event.regulations)


def plan(store: Store, event: str, car: str, wish: PlanRequest, solver: Solve = solve) -> Plan:
    """Return the whole plan of a car's service. Errors: as `plans`."""
    *_, last = plans(store, event, car, wish, solver)
    return last


def plan_at_once(store: Store, event: str, car: str, wish: PlanRequest) -> Plan:
    """Return the plan that is there without a solver. Errors: as `plans`."""
    scene = context_of(store, event, car, wish)
    built = scene.built()
    return _answer(scene, built, _checked(built, greedy(built.problem)), Buys(), runs=AT_ONCE_RUNS)


def plans(store: Store, event: str, car: str, wish: PlanRequest, solver: Solve = solve) -> Iterator[Plan]:
    """Yield the solver's plan, then the same with what minutes and hands buy.

    A plan that breaks a rule is never yielded. Errors: NotFound; NotPossible where nobody is there.
    """
    scene = context_of(store, event, car, wish)
    built = scene.built()
    best = _best(built, wish.effort, solver)
    yield _answer(scene, built, best, Buys())
    needs = _needs(scene, built, best, solver)
    buys = Buys(needs, _later(scene, built, best, solver), _hands(scene, best, solver), settled=True)
    yield _answer(scene, built, best, buys)


def context_of(store: Store, event: str, car: str, wish: PlanRequest) -> PlanContext:
    """Gather what a plan is made of. Errors: NotFound; NotPossible where nobody is there."""
    queue = answers.queue(store, event, car)
    with store.read() as db:
        setup = setups.get(db, event)
        entries = standing(log.of_kinds(db, event, car, [*KINDS, "entry.voided"]), setup.event)
    workers = workers_of(setup, wish.mechanics, {person: minute * PER_MINUTE for person, minute in wish.away})
    if not workers:
        raise NotPossible("nobody is there to work: the event has no mechanic and no inspector")
    if wish.ready_by is not None or (wish.service in ("", READY_BY)):
        return _overnight(wish, queue, setup, entries, workers)
    service = service_of(setup, wish.service)
    minutes = service.minutes if wish.minutes is None else wish.minutes
    story = timeline_of(entries, service.service, ZoneInfo(setup.event.timezone))
    used = used_minutes(entries, setup.event, service)
    work, repaired = units_for_work(service, wish.minutes), repaired_by(entries, queue)
    return _overdue(PlanContext(wish, queue, setup, service, story, minutes, work, workers, used, repaired=repaired))


def _overdue(scene: PlanContext) -> PlanContext:
    """A car whose time is over still has its wheels put on: the end is then as few minutes late as that takes."""
    if _closes(scene, 0) or not _closes(scene, ANY_TIME // PER_MINUTE):
        return scene
    return replace(scene, overdue_min=next(late for late in range(1, ANY_TIME) if _closes(scene, late)))


def _closes(scene: PlanContext, late: int) -> bool:
    """Return whether what is open can be closed so many minutes late."""
    problem = scene.built(late).problem
    return not faults(problem, greedy(replace(problem, musts=frozenset(), values={})))


def service_of(setup: Setup, name: str) -> Service:
    """Return a service of the itinerary. Errors: NotFound."""
    place = setup.event.service_index(name)
    if place is None:
        known = ", ".join(service.service for service in setup.event.services)
        raise NotFound(f"event {setup.event.event!r} has no service {name!r}; its services are {known}")
    return setup.event.services[place]


def _overnight(
    wish: PlanRequest, queue: Queue, setup: Setup, entries: Sequence[Entry], workers: Sequence[Worker]
) -> PlanContext:
    """A car that restarts: from a moment on until it has to be ready."""
    restarts = [entry for entry in entries if isinstance(entry.data, CarRestarts)]
    ready = wish.ready_by or _ready_by(restarts)
    start = wish.at or (instant(restarts[-1].at) if restarts else None)
    if ready is None or start is None:
        raise NotPossible("say by when the car has to be ready, and from when there is time, or choose a service")
    minutes, repaired = max(0, int((ready - start).total_seconds() // 60)), repaired_by(entries, queue)
    wish, story, work = replace(wish, at=None), Timeline(start), minutes * PER_MINUTE
    return PlanContext(wish, queue, setup, None, story, minutes, work, workers, 0, repaired=repaired)


def _ready_by(restarts: Sequence[Entry]) -> datetime | None:
    for entry in reversed(restarts):
        said = entry.data.ready_by if isinstance(entry.data, CarRestarts) else None
        if (time := instant_or_none(said)) is not None:
            return time
    return None


def _best(built: PlanModel, effort: Effort, solver: Solve, start: Schedule | None = None) -> Schedule:
    """Return the solver's plan where it has one that keeps every rule, else the one made at once."""
    start = start or greedy(built.problem)
    found = solver(built.problem, start, effort)
    best = found if found is not None and not faults(built.problem, found) else start
    return _checked(built, best)


def _checked(built: PlanModel, schedule: Schedule) -> Schedule:
    wrong = faults(built.problem, schedule)
    if wrong:
        raise NotPossible(f"no valid plan was found: {wrong[0]}")
    return schedule


def _needs(scene: PlanContext, built: PlanModel, best: Schedule, solver: Solve) -> Needs | None:
    """Return the least time that the musts take, where they do not all fit."""
    # What too few people are there for fits no time at all; it has its own reason.
    musts = frozenset(group for group in built.problem.musts if can_be_named(built.problem, group))
    if musts <= best.inside:
        return None
    tasks = tuple(replace(task, latest=None) for task in built.problem.tasks)
    only_musts = replace(built.problem, tasks=tasks, values={}, musts=musts, horizon=ANY_TIME)
    start = greedy(only_musts)
    if musts <= start.inside:
        only_musts = replace(only_musts, horizon=start.finish)
    least = solver(only_musts, start, HANDS) or start
    if not musts <= least.inside:
        return None
    work = Fraction(least.finish * GRID_S, 60)
    inside = Fraction(scene.service.in_and_out_minutes) if scene.service is not None else Fraction(0)
    minutes = -int(-(work + inside) // 1)
    late = max(0, minutes - scene.minutes)
    allowed = scene.service is not None and late <= scene.left_min
    return Needs(minutes, late, late * scene.setup.event.regulations.late_penalty_s_per_minute if allowed else None)


def _later(scene: PlanContext, built: PlanModel, best: Schedule, solver: Solve) -> list[Later]:
    """Return what each minute late buys, up to the limit."""
    wanted = {g for g in built.problem.groups if g in built.problem.musts or built.problem.values.get(g)}
    found, longest = [], best
    for late in range(scene.overdue_min + 1, (scene.left_min if scene.service is not None else 0) + 1):
        # A plan that fits a shorter service fits a longer one.
        if not wanted <= longest.inside:
            longest = _best(scene.built(late), BESIDE, solver, longest)
        penalty = late * scene.setup.event.regulations.late_penalty_s_per_minute
        found.append(Later(late, penalty, *_changes(best, longest), longest.proven))
    return found


def _hands(scene: PlanContext, best: Schedule, solver: Solve) -> list[Hands]:
    """Return what one mechanic fewer and one more, of no special skill, would change."""
    mechanics = [n for n, worker in enumerate(scene.workers) if worker.mechanic]
    fewer = [worker for n, worker in enumerate(scene.workers) if n != mechanics[-1]] if len(mechanics) > 1 else None
    more = [*scene.workers, Worker("one more", mechanic=True, inspector=False)]
    found = []
    for count, workers in ((len(mechanics) - 1, fewer), (len(mechanics) + 1, more)):
        if workers is not None:
            built = scene.built(workers=workers)
            # Who has one pair of hands more can do all that was planned without them.
            other = _best(built, HANDS, solver, best if count > len(mechanics) else None)
            found.append(Hands(count, *_changes(best, other), other.finish * GRID_S, other.proven))
    return found


def _changes(before: Schedule, after: Schedule) -> tuple[tuple[str, ...], tuple[str, ...]]:
    return tuple(sorted(after.inside - before.inside)), tuple(sorted(before.inside - after.inside))


def _answer(scene: PlanContext, built: PlanModel, schedule: Schedule, buys: Buys, runs: int = RUNS) -> Plan:
    played = chance(built.problem, schedule, runs=runs)
    if scene.overdue_min:
        played = replace(played, on_time=dict.fromkeys(played.on_time, 0.0))
    return plan_answer(scene.queue, scene.setup, frame_of(scene), built, schedule, played, buys, scene.story.done)


def frame_of(scene: PlanContext) -> Frame:
    """Return what a plan stands in."""
    rules, service = scene.setup.event.regulations, scene.service
    entered = scene.story.entered
    zero = entered or (service.arrive if service is not None else None)
    progress = progress_of(scene.story, scene.queue, scene.setup, scene.wish.at)
    last = service is None or service is scene.setup.event.services[-1]
    return Frame(
        service.service if service is not None else READY_BY,
        scene.minutes,
        scene.work_units,
        _text(entered),
        _text(minutes_after(zero, scene.minutes)) if zero is not None else None,
        progress.now,
        Lateness(
            scene.used_min,
            scene.left_min if service is not None else 0,
            rules.late_penalty_s_per_minute,
            rules.early_penalty_s_per_minute,
        ),
        last,
    )


def _text(time: datetime | None) -> str | None:
    return None if time is None else time.isoformat()


def away_of(said: Any) -> tuple[tuple[str, int], ...]:
    """Return who is there from which minute, as it can be compared."""
    return tuple(sorted((said or {}).items()))

"""Plans a service: the queue as it stands, the people who are there, the best that fits, and what minutes buy."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from shuntbook.flow import answers
from shuntbook.flow.lives import due_for
from shuntbook.kit.errors import NotFound, NotPossible
from shuntbook.kit.times import instant, instant_or_none
from shuntbook.plan.answer import Buys
from shuntbook.plan.build import units_for_work, workers_of
from shuntbook.plan.buys import hands_of, later_of
from shuntbook.plan.check import faults
from shuntbook.plan.choose import Solve
from shuntbook.plan.context import ANY_TIME, READY_BY, PlanContext, PlanRequest
from shuntbook.plan.greedy import greedy
from shuntbook.plan.problem import PER_MINUTE, Worker
from shuntbook.plan.progress import Timeline, aboard_of, repaired_by, timeline_of, used_minutes
from shuntbook.plan.shown import answer_of, make
from shuntbook.plan.solve import solve
from shuntbook.plan.told import Plan
from shuntbook.queue.answer import Queue
from shuntbook.queue.car import car_log
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import CarRestarts
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import Service
from shuntbook.store import log, setups
from shuntbook.store.database import Store

AT_ONCE_RUNS = 400
"""Fewer runs tell the chance of a plan that will be replaced well enough, and it is there the sooner."""


def plan(store: Store, event: str, car: str, wish: PlanRequest, solver: Solve = solve) -> Plan:
    """Return the whole plan of a car's service. Errors: as `plans`."""
    *_, last = plans(store, event, car, wish, solver)
    return last


def plan_at_once(store: Store, event: str, car: str, wish: PlanRequest) -> Plan:
    """Return the plan that is there without a solver. Errors: as `plans`."""
    scene = context_of(store, event, car, wish)
    made = make(scene, None)
    return answer_of(scene, made, made.buys, runs=AT_ONCE_RUNS)


def plans(store: Store, event: str, car: str, wish: PlanRequest, solver: Solve = solve) -> Iterator[Plan]:
    """Yield the solver's plan, then the same with what minutes and hands buy.

    A plan that breaks a rule is never yielded. Errors: NotFound; NotPossible where nobody is there.
    """
    scene = context_of(store, event, car, wish)
    made = make(scene, solver)
    yield answer_of(scene, made, made.buys)
    later = later_of(scene, made.schedule, made.late, solver, made.start)
    hands = hands_of(scene, made.schedule, made.late, solver, made.start)
    yield answer_of(scene, made, Buys(made.buys.needs, later, hands, settled=True))


def context_of(store: Store, event: str, car: str, wish: PlanRequest) -> PlanContext:
    """Gather what a plan is made of. Errors: NotFound; NotPossible where nobody is there."""
    queue = answers.queue(store, event, car)
    with store.read() as db:
        setup = setups.get(db, event)
        of_car = car_log(log.of_car(db, event, car), setup)
        due = due_for(db, setup, queue)
    entries, repaired = of_car.entries, repaired_by(of_car, queue, setup)
    aboard = aboard_of(entries, setup)
    workers = workers_of(setup, wish.mechanics, {person: minute * PER_MINUTE for person, minute in wish.away})
    if all(worker.crew for worker in workers):
        raise NotPossible("nobody is there to work: the event has no mechanic and no inspector")
    if wish.ready_by is not None or (wish.service in ("", READY_BY)):
        made = _overnight(wish, queue, setup, entries, workers)
        return replace(made, repaired=repaired, due=due, aboard=aboard)
    service = service_of(setup, wish.service)
    minutes = service.minutes if wish.minutes is None else wish.minutes
    story = timeline_of(entries, service.service, ZoneInfo(setup.event.timezone))
    story = replace(story, driving_in=timedelta(minutes=float(service.driving_in)))
    used = used_minutes(entries, setup.event, service)
    work = units_for_work(service, wish.minutes)
    scene = PlanContext(wish, queue, setup, service, story, minutes, work, workers, used)
    return _overdue(replace(scene, repaired=repaired, due=due, aboard=aboard))


def _overdue(scene: PlanContext) -> PlanContext:
    """A car whose time is over still has its wheels put on: the end is then as few minutes late as that takes."""
    if _closes(scene, 0) or not _closes(scene, ANY_TIME // PER_MINUTE):
        return scene
    return replace(scene, overdue_min=next(late for late in range(1, ANY_TIME) if _closes(scene, late)))


def _closes(scene: PlanContext, late: int) -> bool:
    """Return whether what is open can be closed so many minutes late."""
    problem = scene.built(late).problem
    return not faults(problem, greedy(replace(problem, levels=(), values={})))


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
    minutes = max(0, int((ready - start).total_seconds() // 60))
    wish, story, work = replace(wish, at=None), Timeline(start), minutes * PER_MINUTE
    return PlanContext(wish, queue, setup, None, story, minutes, work, workers, 0)


def _ready_by(restarts: Sequence[Entry]) -> datetime | None:
    for entry in reversed(restarts):
        said = entry.data.ready_by if isinstance(entry.data, CarRestarts) else None
        if (time := instant_or_none(said)) is not None:
            return time
    return None


def away_of(said: Any) -> tuple[tuple[str, int], ...]:
    """Return who is there from which minute, as it can be compared."""
    return tuple(sorted((said or {}).items()))

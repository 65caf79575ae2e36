"""Plans several cars whose services overlap, with the people, stands and tools that they share."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from msgspec.structs import asdict

from shuntbook.flow.planning import context_of
from shuntbook.kit.errors import NotPossible
from shuntbook.plan.answer import Buys, CarPlan, Picture, Resource, TeamPlan, plan_answer
from shuntbook.plan.build import PlanModel, Visit, build, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.choose import Solve, choose
from shuntbook.plan.context import PlanContext, PlanRequest, frame_of
from shuntbook.plan.ontime import chance
from shuntbook.plan.problem import GRID_S, PER_MINUTE
from shuntbook.plan.progress import units_since
from shuntbook.plan.solve import Effort, solve
from shuntbook.store.database import Store


@dataclass(frozen=True)
class TeamPlanRequest:
    """Which cars come to which services; how many mechanics (None: all); who is there from which minute on."""

    visits: tuple[tuple[str, str], ...]
    mechanics: int | None = None
    away: tuple[tuple[str, int], ...] = ()
    effort: Effort = field(default_factory=Effort)


def team_plan(store: Store, event: str, wish: TeamPlanRequest, solver: Solve = solve) -> TeamPlan:
    """Return one plan for all cars, on one clock that starts when the first comes in.

    Errors: NotFound; NotPossible where a car stands twice, a service has no time, or nobody is there.
    """
    scenes = [context_of(store, event, car, PlanRequest(service, wish.mechanics)) for car, service in wish.visits]
    if len({car for car, _ in wish.visits}) < len(scenes):
        raise NotPossible("a car can be at one service at a time; name each car once")
    arrivals = [_arrival(scene) for scene in scenes]
    zero = min(arrivals)
    offsets = [units_since(zero, arrival) for arrival in arrivals]
    built = _built(scenes, offsets, wish)
    chosen = choose(built.problem, scenes[0].percent, wish.effort, solver)
    schedule = chosen.schedule
    if faults(built.problem, schedule):
        raise NotPossible("no valid plan was found")
    picture = Picture(built, schedule, chance(built.problem, schedule), chosen.shares, chosen.buffer)
    cars = []
    for scene, offset in zip(scenes, offsets, strict=True):
        frame = replace(frame_of(scene), offset=offset)
        answer = plan_answer(scene.queue, scene.setup, frame, picture, Buys(settled=True))
        cars.append(CarPlan(**asdict(answer), offset_s=offset * GRID_S))
    return TeamPlan(
        event=event,
        starts_at=zero.isoformat(),
        proven=schedule.proven,
        by=schedule.by,
        finish_s=schedule.finish * GRID_S,
        cars=cars,
        resources=[Resource(r.resource, r.count) for r in scenes[0].setup.event.resources],
    )


def _arrival(scene: PlanContext) -> datetime:
    """Return when work on a car can start: when it really came in, else by the itinerary, and has been driven in."""
    arrival = scene.starts
    if arrival is None:
        name = scene.service.service if scene.service is not None else ""
        raise NotPossible(f"service {name!r} has no `arrive` in event.toml, and car {scene.queue.car} is not in")
    return arrival


def _built(scenes: Sequence[PlanContext], offsets: Sequence[int], wish: TeamPlanRequest) -> PlanModel:
    away = {person: minute * PER_MINUTE for person, minute in wish.away}
    workers = workers_of(scenes[0].setup, wish.mechanics, away)
    visits = [
        Visit(scene.queue, scene.service, offset, offset + scene.work_units, repaired=scene.repaired, due=scene.due)
        for scene, offset in zip(scenes, offsets, strict=True)
    ]
    return build(scenes[0].setup, visits, workers)

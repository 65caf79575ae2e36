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
from shuntbook.plan.choose import Chosen, Solve, choose, choose_at_once
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
    scene = _scene(store, event, wish)
    return _answer(scene, choose(scene.model.problem, scene.first.percent, wish.effort, solver))


def team_plan_at_once(store: Store, event: str, wish: TeamPlanRequest) -> TeamPlan:
    """Return the plan that is there without a solver. Errors: as `team_plan`."""
    scene = _scene(store, event, wish)
    return _answer(scene, choose_at_once(scene.model.problem, scene.first.percent))


@dataclass(frozen=True)
class _Scene:
    """What a team's plan is made of: each car's part, when it comes in after the first, and the problem of all."""

    cars: Sequence[PlanContext]
    zero: datetime
    offsets: Sequence[int]
    model: PlanModel

    @property
    def first(self) -> PlanContext:
        return self.cars[0]


def _scene(store: Store, event: str, wish: TeamPlanRequest) -> _Scene:
    if len({car for car, _ in wish.visits}) < len(wish.visits):
        raise NotPossible("a car can be at one service at a time; name each car once")
    scenes = [context_of(store, event, car, PlanRequest(service, wish.mechanics)) for car, service in wish.visits]
    arrivals = [_arrival(scene) for scene in scenes]
    zero = min(arrivals)
    offsets = [units_since(zero, arrival) for arrival in arrivals]
    return _Scene(scenes, zero, offsets, _built(scenes, offsets, wish))


def _answer(scene: _Scene, chosen: Chosen) -> TeamPlan:
    problem, schedule = scene.model.problem, chosen.schedule
    if faults(problem, schedule):
        raise NotPossible("no valid plan was found")
    picture = Picture(scene.model, schedule, chance(problem, schedule), chosen.shares, chosen.buffer)
    cars = []
    for one, offset in zip(scene.cars, scene.offsets, strict=True):
        frame = replace(frame_of(one), offset=offset)
        answer = plan_answer(one.queue, one.setup, frame, picture, Buys(settled=True))
        cars.append(CarPlan(**asdict(answer), offset_s=offset * GRID_S))
    return TeamPlan(
        event=scene.first.setup.event.event,
        starts_at=scene.zero.isoformat(),
        proven=schedule.proven,
        by=schedule.by,
        finish_s=schedule.finish * GRID_S,
        cars=cars,
        resources=[Resource(r.resource, r.count) for r in scene.first.setup.event.resources],
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

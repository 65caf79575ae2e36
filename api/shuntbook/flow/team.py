"""Plans several cars whose services overlap, with the people, stands and tools that they share."""

from dataclasses import dataclass, field
from datetime import datetime

from shuntbook.flow.planning import context_of
from shuntbook.kit.errors import NotPossible
from shuntbook.plan.build import workers_of
from shuntbook.plan.choose import Solve
from shuntbook.plan.context import PlanContext, PlanRequest
from shuntbook.plan.problem import PER_MINUTE
from shuntbook.plan.progress import units_since
from shuntbook.plan.solve import Effort, solve
from shuntbook.plan.team import team_answer
from shuntbook.plan.team_context import EFFORT, ShownTeam, Team
from shuntbook.plan.told import TeamPlan
from shuntbook.store.database import Store


@dataclass(frozen=True)
class TeamPlanRequest:
    """Which cars come to which services; how many mechanics (None: all); who is there from which minute on.

    at: from when the rest is planned. on_time_percent: the chance to end in time that is kept for each car (0:
    everything; None: the event's own). previous: the team's plan last shown.
    """

    visits: tuple[tuple[str, str], ...]
    mechanics: int | None = None
    away: tuple[tuple[str, int], ...] = ()
    at: datetime | None = None
    on_time_percent: float | None = None
    previous: ShownTeam | None = None
    effort: Effort = field(default_factory=lambda: EFFORT)


def team_plan(store: Store, event: str, wish: TeamPlanRequest, solver: Solve = solve) -> TeamPlan:
    """Return one plan for all cars, on one clock that starts when the first comes in.

    Errors: NotFound; NotPossible where a car stands twice, a service has no time, or nobody is there.
    """
    return team_answer(_team(store, event, wish), solver)


def team_plan_at_once(store: Store, event: str, wish: TeamPlanRequest) -> TeamPlan:
    """Return the plan that is there without a solver. Errors: as `team_plan`."""
    return team_answer(_team(store, event, wish), None)


def _team(store: Store, event: str, wish: TeamPlanRequest) -> Team:
    if len({car for car, _ in wish.visits}) < len(wish.visits):
        raise NotPossible("a car can be at one service at a time; name each car once")
    cars = [
        context_of(
            store,
            event,
            car,
            PlanRequest(service, wish.mechanics, at=wish.at, on_time_percent=wish.on_time_percent),
        )
        for car, service in wish.visits
    ]
    arrivals = [_arrival(scene) for scene in cars]
    zero = min(arrivals)
    away = {person: minute * PER_MINUTE for person, minute in wish.away}
    workers = workers_of(cars[0].setup, wish.mechanics, away)
    offsets = [units_since(zero, arrival) for arrival in arrivals]
    return Team(cars, zero, offsets, workers, wish.at, wish.previous, wish.effort)


def _arrival(scene: PlanContext) -> datetime:
    """Return when work on a car can start: when it really came in, else by the itinerary, and has been driven in."""
    arrival = scene.starts
    if arrival is None:
        name = scene.service.service if scene.service is not None else ""
        raise NotPossible(f"service {name!r} has no `arrive` in event.toml, and car {scene.queue.car} is not in")
    return arrival

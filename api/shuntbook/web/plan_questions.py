"""What the planner can be asked: the service of one car, or those of several at once.

Two questions that are equal are one, which is what lets it be solved once, whoever asks it how often.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Protocol

from msgspec.structs import replace

from shuntbook.flow import answers
from shuntbook.flow.planning import plan_at_once, plans
from shuntbook.flow.team import TeamPlanRequest, team_plan, team_plan_at_once
from shuntbook.plan.choose import Solve
from shuntbook.plan.context import PlanRequest
from shuntbook.plan.told import Plan, TeamPlan
from shuntbook.store.database import Store

Hashes = tuple[str, ...]
"""The hashes of the queues that a plan is made of."""


class Question(Protocol):
    """What is asked to be planned. Two that are equal are one: it is solved once, whoever asks how often."""

    def hashes(self, store: Store) -> Hashes:
        """Return the hashes of the queues as they stand. Errors: NotFound."""

    def at_once(self, store: Store) -> Any:
        """Return the plan made without a solver. Errors: NotFound, NotPossible."""

    def solved(self, store: Store, solver: Solve) -> Iterator[Any]:
        """Yield ever better plans. Errors: NotFound, NotPossible, SolverGone."""

    def made_of(self, plan: Any) -> Hashes:
        """Return the hashes of the queues that a plan was made of."""

    def marked(self, plan: Any, now: Hashes) -> Any:
        """Return a plan that says whether it is stale."""


@dataclass(frozen=True)
class OfCar:
    """The plan of one car's service."""

    event: str
    car: str
    wish: PlanRequest

    def hashes(self, store: Store) -> Hashes:
        """Return the hashes of the queues as they stand. Errors: NotFound."""
        return (answers.queue(store, self.event, self.car).hash,)

    def at_once(self, store: Store) -> Plan:
        """Return the plan made without a solver. Errors: NotFound, NotPossible."""
        return plan_at_once(store, self.event, self.car, self.wish)

    def solved(self, store: Store, solver: Solve) -> Iterator[Plan]:
        """Yield ever better plans. Errors: NotFound, NotPossible, SolverGone."""
        return plans(store, self.event, self.car, self.wish, solver)

    def made_of(self, plan: Plan) -> Hashes:
        """Return the hashes of the queues that a plan was made of."""
        return (plan.queue,)

    def marked(self, plan: Plan, now: Hashes) -> Plan:
        """Return a plan that says whether it is stale."""
        return replace(plan, stale=(plan.queue,) != now)


@dataclass(frozen=True)
class OfTeam:
    """The plan of several cars whose services overlap."""

    event: str
    wish: TeamPlanRequest

    def hashes(self, store: Store) -> Hashes:
        """Return the hashes of the queues as they stand. Errors: NotFound."""
        return tuple(answers.queue(store, self.event, car).hash for car, _ in self.wish.visits)

    def at_once(self, store: Store) -> TeamPlan:
        """Return the plan made without a solver. Errors: NotFound, NotPossible."""
        return team_plan_at_once(store, self.event, self.wish)

    def solved(self, store: Store, solver: Solve) -> Iterator[TeamPlan]:
        """Yield ever better plans. Errors: NotFound, NotPossible, SolverGone."""
        yield team_plan(store, self.event, self.wish, solver)

    def made_of(self, plan: TeamPlan) -> Hashes:
        """Return the hashes of the queues that a plan was made of."""
        return tuple(car.queue for car in plan.cars)

    def marked(self, plan: TeamPlan, now: Hashes) -> TeamPlan:
        """Return a plan that says whether it is stale."""
        cars = [replace(car, stale=car.queue != hash_now) for car, hash_now in zip(plan.cars, now, strict=True)]
        return replace(plan, cars=cars)

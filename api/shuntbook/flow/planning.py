"""Plans a service: the queue as it stands, the people who are there, the best that fits, and what minutes buy."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cache

from shuntbook.flow import answers
from shuntbook.kit.errors import NotFound, NotPossible
from shuntbook.plan.answer import Json, Later, Needs, groups_in, plan_answer
from shuntbook.plan.build import Built, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.greedy import greedy
from shuntbook.plan.ontime import chance
from shuntbook.plan.problem import Schedule
from shuntbook.plan.solve import Effort, solve
from shuntbook.setup.event import Regulations, Service
from shuntbook.setup.folder import Setup
from shuntbook.store import setups
from shuntbook.store.database import Store


@dataclass(frozen=True)
class Wish:
    """What is to be planned: a service, how many mechanics (None: all), minutes (None: the service's own).

    away_units: from when somebody is there; solver: False takes the plan that is there at once; beside: False leaves
    out what more minutes need and buy, each of which is a plan of its own.
    """

    service: str
    mechanics: int | None = None
    minutes: int | None = None
    away_units: tuple[tuple[str, int], ...] = ()
    solver: bool = True
    beside: bool = True
    effort: Effort = field(default_factory=Effort)


BESIDE = Effort(deterministic_s=1.0)
"""How much the solver may work on each question of what one more minute buys."""


def plan(store: Store, event: str, car: str, wish: Wish) -> Json:
    """Return the plan of a car's service.

    Errors: NotFound; NotPossible where nobody is there. A plan that breaks a rule is never returned.
    """
    queue = answers.queue(store, event, car)
    setup = setups.get(store.db, event)
    service = _service(setup, wish.service)
    built = _built(queue, setup, service, wish, 0)
    schedule = _best(built, wish)
    minutes = service.minutes if wish.minutes is None else wish.minutes

    @cache
    def inside(late: int) -> frozenset[str]:
        longer = _built(queue, setup, service, wish, late)
        return groups_in(longer, _best(longer, replace(wish, effort=BESIDE)))

    before, rules = groups_in(built, schedule), setup.event.regulations
    needs = _needs(rules, minutes, built.problem.musts, before, inside) if wish.beside else None
    later = _later(rules, before, frozenset(built.problem.groups), inside) if wish.beside else []
    return plan_answer(
        queue, service.service, minutes, built, schedule, chance(built.problem, schedule, built.minutes), needs, later
    )


Inside = Callable[[int], frozenset[str]]
"""What is in the plan where the car leaves so many minutes late."""


def _service(setup: Setup, name: str) -> Service:
    place = setup.event.service_index(name)
    if place is None:
        known = ", ".join(service.service for service in setup.event.services)
        raise NotFound(f"event {setup.event.event!r} has no service {name!r}; its services are {known}")
    return setup.event.services[place]


def _built(queue: Json, setup: Setup, service: Service, wish: Wish, late: int) -> Built:
    workers = workers_of(setup, wish.mechanics, dict(wish.away_units))
    if not workers:
        raise NotPossible("nobody is there to work: the event has no mechanic and no inspector")
    return build(queue, setup, service, workers, units_for_work(service, wish.minutes, late))


def _best(built: Built, wish: Wish) -> Schedule:
    at_once = greedy(built.problem)
    found = solve(built.problem, at_once, wish.effort) if wish.solver else None
    best = found if found is not None and not faults(built.problem, found) else at_once
    wrong = faults(built.problem, best)
    if wrong:
        raise NotPossible(f"no valid plan was found: {wrong[0]}")
    return best


def _needs(
    rules: Regulations, minutes: int, musts: frozenset[str], before: frozenset[str], inside: Inside
) -> Needs | None:
    """Return the least time that the musts take, where they do not all fit."""
    if musts <= before:
        return None
    # Never past the limit: what does not fit by then is for another day.
    for late in range(1, rules.late_limit_minutes + 1):
        if musts <= inside(late):
            return Needs(minutes + late, late, late * rules.late_penalty_s_per_minute)
    return Needs(minutes + rules.late_limit_minutes + 1, rules.late_limit_minutes + 1, None)


def _later(rules: Regulations, before: frozenset[str], everything: frozenset[str], inside: Inside) -> list[Later]:
    """Return what each minute late buys, until all is in or the limit is reached."""
    found, late = [], 0
    while late < rules.late_limit_minutes and before != everything:
        late += 1
        adds = tuple(sorted(inside(late) - before))
        if adds:
            found.append(Later(late, late * rules.late_penalty_s_per_minute, adds))
            before = before | inside(late)
    return found

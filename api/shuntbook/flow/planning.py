"""Plans a service: the queue as it stands, the people who are there, the best that fits, and what minutes buy."""

from dataclasses import dataclass, field, replace

from shuntbook.flow import answers
from shuntbook.kit.errors import NotFound, NotPossible
from shuntbook.plan.answer import Json, Later, Needs, groups_in, plan_answer
from shuntbook.plan.build import Built, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.greedy import greedy
from shuntbook.plan.ontime import chance
from shuntbook.plan.problem import Schedule
from shuntbook.plan.solve import Effort, solve
from shuntbook.setup.event import Service
from shuntbook.setup.folder import Setup
from shuntbook.store import setups
from shuntbook.store.database import Store


@dataclass(frozen=True)
class Wish:
    """What is to be planned: a service, how many mechanics (None: all), minutes (None: the service's own).

    away_units: from when somebody is there; solver: False takes the plan that is there at once.
    """

    service: str
    mechanics: int | None = None
    minutes: int | None = None
    away_units: tuple[tuple[str, int], ...] = ()
    solver: bool = True
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
    needs = _needs(queue, setup, service, wish, built, schedule)
    later = _later(queue, setup, service, wish, built, schedule)
    return plan_answer(
        queue, service.service, minutes, built, schedule, chance(built.problem, schedule, built.minutes), needs, later
    )


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


def _needs(queue: Json, setup: Setup, service: Service, wish: Wish, built: Built, schedule: Schedule) -> Needs | None:
    """Return the least time that the musts take, where they do not all fit."""
    musts = built.problem.musts
    if musts <= groups_in(built, schedule):
        return None
    rules = setup.event.regulations
    minutes = service.minutes if wish.minutes is None else wish.minutes
    # Never past the limit: what does not fit by then is for another day.
    for late in range(1, rules.late_limit_minutes + 1):
        longer = _built(queue, setup, service, wish, late)
        if musts <= groups_in(longer, _best(longer, replace(wish, effort=BESIDE))):
            return Needs(minutes + late, late, late * rules.late_penalty_s_per_minute)
    return Needs(minutes + rules.late_limit_minutes + 1, rules.late_limit_minutes + 1, None)


def _later(queue: Json, setup: Setup, service: Service, wish: Wish, built: Built, schedule: Schedule) -> list[Later]:
    """Return what each minute late buys, until all is in or the limit is reached."""
    rules = setup.event.regulations
    before = groups_in(built, schedule)
    everything = frozenset(built.problem.groups)
    found, late = [], 0
    while late < rules.late_limit_minutes and before != everything:
        late += 1
        longer = _built(queue, setup, service, wish, late)
        inside = groups_in(longer, _best(longer, replace(wish, effort=BESIDE)))
        adds = tuple(sorted(inside - before))
        if adds:
            found.append(Later(late, late * rules.late_penalty_s_per_minute, adds))
            before = before | inside
    return found

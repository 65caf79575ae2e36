"""Reads the queue, the release and the cost sheet of an event from what the store keeps up to date."""

from shuntbook.cost.answer import Costs
from shuntbook.cost.sheet import cost_sheet
from shuntbook.cost.statement_answer import Statements
from shuntbook.cost.statements import statements_of_car
from shuntbook.flow.cost_memory import TELLING, CostMemory, entries_of
from shuntbook.fold.voids import standing
from shuntbook.kit.errors import NotFound
from shuntbook.queue.answer import Queue, Release, Standing, queue_answer, release_answer
from shuntbook.queue.car import car_log
from shuntbook.queue.passes import Passes, passes_that_do_not_count
from shuntbook.queue.totals import add_up
from shuntbook.setup.folder import Setup
from shuntbook.store import first_rules, log, projections, quarantine, setups
from shuntbook.store.collecting import collecting_later
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.up_to_date import up_to_date


def queue(store: Store, event: str, car: str) -> Queue:
    """Return the repair queue of a car. Errors: NotFound for an event or car that is not held."""
    with up_to_date(store) as db:
        setup = setups.get(db, event)
        return queue_answer(_standing(db, setup, car), setup)


def release(store: Store, event: str, car: str) -> Release:
    """Return what the log says about letting the car go. Errors: NotFound."""
    return release_answer(queue(store, event, car))


def passes(store: Store, event: str, car: str) -> Passes:
    """Return the passes of a car that cover less than they name. Errors: NotFound."""
    with store.read() as db:
        setup = setups.get(db, event)
        _known(db, setup, car)
        entries = log.of_car(db, event, car)
        return passes_that_do_not_count(entries, setup, car, first_rules.passes(db, event, car))


def costs(
    store: Store, event: str, car: str | None = None, rates: str | None = None, memory: CostMemory | None = None
) -> Costs:
    """Return the cost sheet of an event, or of one car, with the rate table in force or an older one.

    memory: of the sheets before. Errors: NotFound.
    """
    with collecting_later(), memory or CostMemory() as known, store.read() as db:
        setup = setups.with_rates(db, event, rates) if rates else setups.get(db, event)
        if car is not None and car not in setup.event.cars:
            raise NotFound(f"event {event!r} has no car {car!r}; its cars are {', '.join(setup.event.cars)}")
        cars = [car] if car else sorted({*setup.event.cars, *log.cars(db, event)})
        if memory is None:
            return cost_sheet({name: log.telling(db, event, TELLING, car=name) for name in cars}, setup, car)
        held = known.at(db, store.log_id, event, rates)
        return cost_sheet(entries_of(held, cars), setup, car, held.cars)


def statements(store: Store, event: str, car: str) -> Statements:
    """Return the draft of a car's statement and those that were issued. Errors: NotFound."""
    with store.read() as db:
        setup = setups.get(db, event)
        if car not in setup.event.cars:
            raise NotFound(f"event {event!r} has no car {car!r}; its cars are {', '.join(setup.event.cars)}")
        return statements_of_car(car, car_log(log.of_car(db, event, car), setup), setup)


def _standing(db: Database, setup: Setup, car: str) -> Standing:
    event = setup.event.event
    entries = _known(db, setup, car)
    holding = quarantine.holding(db, event, car)
    return Standing(
        car=car,
        entries=entries,
        jobs=projections.jobs(db, event, car),
        used=add_up(projections.used(db, event)),
        releases=standing(log.of_kinds(db, event, car, ["car.released"]), setup.event),
        set_aside=holding.named,
        set_aside_more=holding.more,
    )


def _known(db: Database, setup: Setup, car: str) -> int:
    """Return how many entries a car of the event has. Errors: NotFound for one without, that is not in the set-up."""
    event = setup.event.event
    entries = log.count(db, event, car)
    if car not in setup.event.cars and not entries:
        raise NotFound(f"event {event!r} has no car {car!r}; its cars are {', '.join(setup.event.cars)}")
    return entries

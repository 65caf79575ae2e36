"""Reads which parts of a car are due by their life, and gives what is due to the plan as routine work."""

from collections.abc import Collection

from shuntbook.kit.errors import NotFound
from shuntbook.lives.answer import Lives
from shuntbook.lives.calendar import Logged
from shuntbook.lives.due import due_routine, lives_of
from shuntbook.lives.fitted import REPLACES
from shuntbook.queue.answer import Queue
from shuntbook.setup.event import Routine
from shuntbook.setup.folder import Setup
from shuntbook.store import log, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store


def lives(store: Store, event: str, car: str, among: Collection[str] | None = None) -> Lives:
    """Return the parts of a car that have a life, the most pressing first.

    among: the events that the caller is in, whose stories are told (None: all). Errors: NotFound.
    """
    with store.read() as db:
        setup = setups.get(db, event)
        if car not in setup.event.cars and not log.count(db, event, car):
            raise NotFound(f"event {event!r} has no car {car!r}; its cars are {', '.join(setup.event.cars)}")
        return lives_in(db, setup, car, among)


def lives_in(db: Database, setup: Setup, car: str, among: Collection[str] | None = None) -> Lives:
    """Return the same of a car that is there; without `[[lives]]` no other event is read for it."""
    own = setup.event.event
    events = setups.events(db) if setup.event.lives else [own]
    return lives_of([_logged(db, setup if name == own else setups.get(db, name)) for name in events], own, car, among)


def due_for(db: Database, setup: Setup, queue: Queue) -> list[Routine]:
    """Return what is due on the queue's car as routine work of any service."""
    if not setup.event.lives:
        return []
    renewed = [job.job for job in queue.jobs if not job.over and job.action in REPLACES]
    return due_routine(lives_in(db, setup, queue.car), setup, renewed)


def _logged(db: Database, setup: Setup) -> Logged:
    event = setup.event.event
    cars = {*setup.event.cars, *log.cars(db, event)}
    return Logged(setup, {car: log.of_car(db, event, car) for car in sorted(cars)})

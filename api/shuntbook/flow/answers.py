"""Reads the queue, the release and the cost sheet of an event from what the store keeps up to date."""

from sqlite_utils import Database

from shuntbook.fold.voids import standing
from shuntbook.kit.errors import NotFound
from shuntbook.queue.answer import Standing, queue_answer, release_answer
from shuntbook.queue.release import Json
from shuntbook.queue.totals import add_up
from shuntbook.setup.folder import Setup
from shuntbook.store import aside, derived, log, setups
from shuntbook.store.database import Store


def queue(store: Store, event: str, car: str) -> Json:
    """Return the repair queue of a car. Errors: NotFound for an event or car that is not held."""
    with store.read() as db:
        setup = setups.get(db, event)
        return queue_answer(_standing(db, setup, car), setup)


def release(store: Store, event: str, car: str) -> Json:
    """Return what the log says about letting the car go. Errors: NotFound."""
    return release_answer(queue(store, event, car))


def _standing(db: Database, setup: Setup, car: str) -> Standing:
    event = setup.event.event
    entries = log.count(db, event, car)
    if car not in setup.event.cars and not entries:
        raise NotFound(f"event {event!r} has no car {car!r}; its cars are {', '.join(setup.event.cars)}")
    return Standing(
        car=car,
        entries=entries,
        jobs=derived.jobs(db, event, car),
        used=add_up(derived.used(db, event)),
        releases=standing(log.of_kinds(db, event, car, ["car.released"]), setup.event),
        set_aside=aside.waiting(db, event, car),
    )

"""What a phone is told so that it asks only for what it does not hold: versions to compare, and cars that changed."""

from collections.abc import Collection, Iterable, Sequence
from typing import NamedTuple

from shuntbook import __version__
from shuntbook.kit.canonical import sha256
from shuntbook.report.kinds import JOB_KINDS, REPORT_KINDS
from shuntbook.store import keys, log, people, quarantine, rebuilds, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.wire.setup_json import SHAPE

REACHES_ALL = (JOB_KINDS | REPORT_KINDS | {"entry.voided"}) - {"report.filed"}
"""Kinds that may change what jobs take from the van, of which every car of the event has its share."""


class Place(NamedTuple):
    """A car of an event."""

    event: str
    car: str


class Versions(NamedTuple):
    """Where the server is: the log's newest entry, and names for the set-ups and for what was set aside.

    A name says nothing but whether two of them are the same.
    """

    cursor: int
    setup: str
    set_aside: str


def versions(store: Store) -> Versions:
    """Return where the server is now."""
    with store.read() as db:
        return Versions(log.last_cursor(db), setup_version(db, store.log_id), quarantine.version(db))


def setup_version(db: Database, log_id: str, events: Sequence[str] | None = None) -> str:
    """Return the version of what `GET /setup` answers to whoever is in some events.

    Who is in all of them, or None, has the version that the news tell.
    """
    own = [] if events is None or set(events) == set(setups.events(db)) else ["", *sorted(events)]
    parts = [log_id, SHAPE, setups.versions(db), keys.version(db), people.version(db), rebuilds.version(db)]
    return sha256("\n".join([*parts, *own]).encode())


def answer_version(db: Database, log_id: str, event: str) -> str:
    """Return a name for all that the queues, costs and statements of an event follow from.

    It changes with each entry, with the event's set-up, with what was set aside, and with this program.
    """
    parts = [log_id, __version__, str(log.last_cursor(db)), setups.in_force(db, event) or "", quarantine.version(db)]
    return sha256("\n".join([*parts, event]).encode())


def changed_cars(db: Database, after: int, upto: int, events: Collection[str] | None = None) -> list[Place]:
    """Return the cars whose queue or costs may be others by the entries after one cursor and up to another.

    events: only cars of theirs.
    """
    found: set[Place] = set()
    for event, car, kind in log.touched(db, after, upto):
        if events is not None and event not in events:
            continue
        found.add(Place(event, car))
        if kind in REACHES_ALL:
            found.update(Place(event, one) for one in _cars(db, event))
    return sorted(found)


def _cars(db: Database, event: str) -> Iterable[str]:
    setup = setups.find(db, event)
    return setup.event.cars if setup else ()

"""What a phone is told so that it asks only for what it does not hold: versions to compare, and cars that changed."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from shuntbook import __version__
from shuntbook.kit.canonical import sha256
from shuntbook.report.kinds import JOB_KINDS, REPORT_KINDS
from shuntbook.store import keys, log, people, photos, quarantine, rebuilds, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.wire.setup_json import SHAPE
from shuntbook.wire.sight import Sees

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


def setup_version(db: Database, log_id: str, sees: Mapping[str, Sees] | None = None) -> str:
    """Return the version of what `GET /setup` answers to whoever sees so much of some events.

    Who is in all of them, or None, has the version that the news tell; who is shown less of them has it before a point.
    """
    own = [] if sees is None or set(sees) == set(setups.events(db)) else ["", *sorted(sees)]
    parts = [log_id, SHAPE, setups.versions(db), keys.version(db), people.version(db), rebuilds.version(db)]
    version = sha256("\n".join([*parts, *own]).encode())
    less = [f"{event} {one.tag}" for event, one in sorted((sees or {}).items()) if one.tag]
    return f"{version}.{sha256(chr(10).join(less).encode())[:16]}" if less else version


def answer_version(db: Database, log_id: str, event: str) -> str:
    """Return a name for all that the queues, costs and statements of an event follow from.

    It changes with each entry, with the event's set-up, with what was set aside, and with this program.
    """
    parts = [log_id, __version__, str(log.last_cursor(db)), setups.in_force(db, event) or "", quarantine.version(db)]
    return sha256("\n".join([*parts, event]).encode())


def paper_version(db: Database, log_id: str) -> str:
    """Return a name for all that the papers of any event are set from.

    A part's life is of several events, and a photo comes after the entry that names it.
    """
    parts = [log_id, __version__, str(log.last_cursor(db)), setups.versions(db), quarantine.version(db)]
    return sha256("\n".join([*parts, keys.version(db), people.version(db), photos.version(db)]).encode())


def changed_cars(db: Database, after: int, upto: int, sees: Mapping[str, Sees] | None = None) -> list[Place]:
    """Return the cars whose queue or costs may be others by the entries after one cursor and up to another.

    sees: only cars that are seen, of these events.
    """
    found: set[Place] = set()
    for event, car, kind in log.touched(db, after, upto):
        if sees is not None and event not in sees:
            continue
        found.add(Place(event, car))
        if kind in REACHES_ALL:
            found.update(Place(event, one) for one in _cars(db, event))
    return sorted(one for one in found if sees is None or sees[one.event].sees_car(one.car))


def _cars(db: Database, event: str) -> Iterable[str]:
    setup = setups.find(db, event)
    return setup.event.cars if setup else ()

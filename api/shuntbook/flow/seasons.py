"""Answers what a season teaches: observed rates, spares to carry, damage by event; and puts accepted rates in force."""

from collections.abc import Collection, Iterable
from decimal import Decimal
from typing import NamedTuple

from shuntbook.cost.sheet import cost_sheet
from shuntbook.kit.errors import NotPossible
from shuntbook.season.accepted import FILE, with_minutes
from shuntbook.season.observed import Observed, Seen, observe, observed_answer
from shuntbook.season.rounds import Held
from shuntbook.season.season import Season
from shuntbook.season.season import season as season_of
from shuntbook.season.spares import Next, Spares
from shuntbook.season.spares import spares as spares_of
from shuntbook.season.timed import Accepted, OperationKey, OperationName, changed_operation
from shuntbook.setup.folder import RATES, Setup, read_setup
from shuntbook.setup.rates import ThreePoint
from shuntbook.store import log, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.refresh import rebuild

Among = Collection[str] | None
"""The events that are read: those that the caller manages; None for all, on the server's own machine."""


def observed(store: Store, event: str, among: Among = None) -> Observed:
    """Return what the timed jobs of events say of the rate table of one. Errors: NotFound."""
    with store.read() as db:
        setup = setups.get(db, event)
        return observed_answer(observe(_held(db, among), setup.rates), setup.event)


class Wanted(NamedTuple):
    """The event to pack for; km and cars None for those of the event's own set-up; cover in percent."""

    km: Decimal | None
    cars: int | None
    cover: int


def spares(store: Store, event: str, wanted: Wanted, among: Among = None) -> Spares:
    """Return what to carry to an event.

    Errors: NotFound; NotPossible where no event held says anything.
    """
    with store.read() as db:
        setup = setups.get(db, event)
        past = _held(db, among)
        own_km = sum((stage.km for stage in setup.event.stages), Decimal(0))
        ahead = Next(wanted.km or own_km, wanted.cars or len(setup.event.cars), wanted.cover)
        own = next((held for held in past if held.setup.event.event == event), None)
        return spares_of(past, setup, own, ahead)


def season(store: Store, among: Among = None) -> Season:
    """Return the damage of each event, and estimate against actual minutes of each operation."""
    with store.read() as db:
        return season_of(_held(db, among))


def accept(store: Store, version: str, operations: Iterable[OperationName], among: Among = None) -> Accepted:
    """Put the suggested minutes of some operations in force, for the events whose table this version is.

    The suggestions are calculated again in the same transaction: what was shown may have changed. Errors: NotPossible
    where no event has that table any more, or nothing is suggested for an operation; BadSetup.
    """
    with store.write() as db:
        events = [event for event in _events(db, among) if setups.get(db, event).rates.version == version]
        if not events:
            raise NotPossible(f"the rate table {version[:8]} is not in force any more; look at the suggestions again")
        seen = observe(_held(db, among), setups.get(db, events[0]).rates)
        changed = _suggested(seen, operations)
        taken = [_put(db, event, changed) for event in events]
        now = taken[0].rates
        told = [changed_operation(seen.rates.operations[key], now.operations[key]) for key in sorted(changed)]
        return Accepted(now.version, version, events, told)


def _suggested(seen: Seen, operations: Iterable[OperationName]) -> dict[OperationKey, ThreePoint]:
    known, found = seen.suggestions(), {}
    for one in operations:
        key = (one.component, one.condition, one.zone)
        if key not in known or one.action != seen.rates.operations[key].action:
            name = " ".join(filter(None, (*key, one.action)))
            raise NotPossible(f"nothing is suggested for {name} any more; look at the suggestions again")
        found[key] = known[key]
    return found


def _put(db: Database, event: str, changed: dict[OperationKey, ThreePoint]) -> Setup:
    """Put the event's own files in force again with other minutes, checked as any upload is."""
    files = setups.files_of(db, event, setups.in_force(db, event) or "")
    files[RATES + FILE] = with_minutes(files[RATES + FILE], changed)
    setup = read_setup(files)
    if setups.put(db, setup, files):
        rebuild(db, event)
    return setup


def _held(db: Database, among: Among) -> list[Held]:
    return [_held_event(db, event) for event in _events(db, among)]


def _events(db: Database, among: Among) -> list[str]:
    return [event for event in setups.events(db) if among is None or event in among]


def _held_event(db: Database, event: str) -> Held:
    setup = setups.get(db, event)
    cars = {name: log.of_car(db, event, name) for name in sorted({*setup.event.cars, *log.cars(db, event)})}
    entries = [entry for of_car in cars.values() for entry in of_car]
    return Held(setup, cost_sheet(cars, setup, None), entries)

"""Takes set-ups, rate tables and photos that were sent, all or nothing."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from typing import Any

from shuntbook.flow import rebuilding
from shuntbook.flow.ingest import try_again
from shuntbook.flow.joining import demand_shutting_out
from shuntbook.flow.members import Member, demand_people
from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import BadKey, BadPhoto, BadSetup, ChangedMeanwhile, Fault
from shuntbook.kit.signing import public_key
from shuntbook.report.attached import Attached, identify
from shuntbook.setup.defaults import without_first
from shuntbook.setup.difference import difference
from shuntbook.setup.folder import RATES, Setup, read_setup
from shuntbook.setup.rates_files import version_of
from shuntbook.store import keys, photos, rebuilds, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.keys import DeviceKey
from shuntbook.store.rebuilds import Doer
from shuntbook.store.refresh import rebuild

Files = Mapping[str, bytes]


def put_setup(
    store: Store,
    event: str,
    files: Files,
    now: str,
    trusted: Mapping[str, str] | None = None,
    edited: str | None = None,
    by: Member | None = None,
) -> Setup:
    """Put the set-up files of an event in force.

    trusted: entries (id → digest) that a lost server had taken without a signature. edited: the version that these
    files were made from, "" for an event that was not there; None = whatever is in force. by: who asks; None is the
    machine's owner. Errors: BadSetup with every fault, ChangedMeanwhile where another version is in force by now,
    NotAllowed and NotPossible for what is not the caller's to bring; nothing is changed then.
    """
    _read_as(event, files)
    with store.write() as db:
        files = _as_meant(db, event, files, edited)
        setup = _read_as(event, files)
        _still(setups.in_force(db, event) or "", edited, setup.event.name)
        if by is not None:
            demand_people(db, by, setup.event)
            _end_if_first(db, edited)
            _note_trusted(db, event, trusted or {}, Doer(by.person, now))
        if setups.put(db, setup, files):
            rebuild(db, event)
        keys.trust(db, (trusted or {}).items())
        try_again(db, now)
    return setup


def _as_meant(db: Database, event: str, files: Files, edited: str | None) -> Files:
    """Return files with the car map and the check lists that they are to have, where they bring none of their own.

    Whoever edited the version in force took out what is not there. A new event that was begun from one of release 0.1
    has today's, as every new event has; files that stand for themselves, as a folder does, keep what is in force.
    """
    if edited is None:
        return setups.following(db, event, files)
    return files if edited else without_first(files)


def _end_if_first(db: Database, edited: str | None) -> None:
    # Who writes a first event of its own on an empty server begins a log, and brings none back.
    if edited == "" and not setups.events(db):
        rebuilds.end(db)


def _note_trusted(db: Database, event: str, trusted: Mapping[str, str], doer: Doer) -> None:
    if any(not keys.is_trusted(db, name, digest) for name, digest in trusted.items()):
        what = "Bringing digests of entries that were trusted without a signature"
        rebuilding.note(db, doer, "trusted", [event], what)


def check_setup(
    store: Store,
    event: str,
    files: Callable[[], Files],
    against: str | None = None,
    edited: str | None = None,
) -> dict[str, Any]:
    """Return the faults of set-up files, or warnings and what they change against the version in force; keep nothing.

    files: brings them; what it refuses is a fault like any other. against: another event to compare with, for one that
    is not held yet. edited: as `put_setup` has it. Errors: NotFound.
    """
    with store.read() as db:
        try:
            sent = files()
            _read_as(event, sent)
            setup = _read_as(event, _as_meant(db, event, sent, edited if against is None else ""))
        except BadSetup as bad:
            faults = [fault.as_json() for fault in bad.faults]
            return {"faults": faults, "warnings": [], "difference": [], "version": None}
        before = setups.find(db, event) if against is None else setups.get(db, against)
        return {
            "faults": [],
            "warnings": [warning.as_json() for warning in setup.warnings],
            "difference": difference(before, setup),
            "version": setups.in_force(db, event),
        }


def _read_as(event: str, files: Files) -> Setup:
    setup = read_setup(files)
    if setup.event.event != event:
        raise BadSetup([Fault("event.toml", 0, "event", f"says {setup.event.event!r}, the address {event!r}")])
    return setup


def _still(in_force: str, edited: str | None, name: str) -> None:
    if edited is None or edited == in_force:
        return
    if not edited:
        raise ChangedMeanwhile(
            f"an event of this id is held already; give {name!r} another event id. Nothing was changed"
        )
    raise ChangedMeanwhile(
        f"{name!r} was changed on another device since this draft was begun. Nothing was changed and the draft is kept:"
        " bring it onto the version in force, look at what changes, and put it in force again"
    )


def put_devices(store: Store, devices: Sequence[DeviceKey], now: str, by: Member | None = None) -> int:
    """Take over devices of a server that was lost, so that what they signed is believed; return how many entries
    that were set aside for want of a key are believed now. A key that is known is never replaced.

    by: who asks; None is the machine's owner. Errors: BadKey; NotPossible for what only a rebuild allows; NotAllowed.
    """
    with store.write() as db:
        if by is not None:
            _demand_devices(db, devices, by, now)
        for device in devices:
            for key in filter(None, (device.key, device.second_key)):
                try:
                    public_key(key)
                except ValueError as error:
                    raise BadKey(f"device {device.device}: {error}") from error
            keys.put(db, device)
        return try_again(db, now)


def _demand_devices(db: Database, devices: Sequence[DeviceKey], by: Member, now: str) -> None:
    """Let a rebuild bring what is not known here, and a manager shut out a device of the own people at any time."""
    known = keys.all_of(db)
    rebuilding.note(
        db,
        Doer(by.person, now),
        "device",
        [one.device for one in devices if _is_more(one, known.get(one.device))],
        "Bringing devices of others, or a higher last number of one that is blocked,",
    )
    for one in devices:
        if one.shut_out_at is not None and not rebuilds.is_under_way(db) and known[one.device].shut_out_at is None:
            demand_shutting_out(db, by, known[one.device].person)


def _is_more(brought: DeviceKey, held: DeviceKey | None) -> bool:
    """Return whether more would be believed by it: a key that is not known, a number above the one kept here."""
    if held is None:
        return True
    return held.shut_out_at is not None and (brought.last_seq or 0) > (held.last_seq or 0)


def put_rates(store: Store, rates: Files, among: Collection[str] | None = None) -> tuple[str, list[str]]:
    """Put a rate table in force for every event held, or those `among` them; return its version and the events.

    Errors: BadSetup with every fault, of the events that don't fit it, too; nothing is changed then.
    """
    named = {RATES + name: data for name, data in rates.items()}
    with store.write() as db:
        events = [event for event in setups.events(db) if among is None or event in among]
        if not events:
            raise BadSetup([Fault("event.toml", 0, "", "no event is held here yet; load one first")])
        for event, setup, files in _with_rates(db, events, named):
            if setups.put(db, setup, files):
                rebuild(db, event)
    return version_of(rates), events


def _with_rates(db: Database, events: Sequence[str], named: Files) -> list[tuple[str, Setup, Files]]:
    """Return events with their set-ups and files as they are with a rate table. Errors: BadSetup with all faults."""
    found: list[tuple[str, Setup, Files]] = []
    faults: list[Fault] = []
    for event in events:
        before = setups.files_of(db, event, setups.in_force(db, event) or "")
        files = {**{name: data for name, data in before.items() if not name.startswith(RATES)}, **named}
        try:
            found.append((event, read_setup(files), files))
        except BadSetup as bad:
            faults += [_of_event(fault, event) for fault in bad.faults]
    if faults:
        raise BadSetup(faults)
    return found


def _of_event(fault: Fault, event: str) -> Fault:
    """Return a fault that says which event's file it is in, where each event has a file of that name."""
    return fault if fault.file.startswith(RATES) else replace(fault, what=f"in event {event!r}, {fault.what}")


def put_photo(store: Store, digest: str, data: bytes, now: str) -> tuple[Attached, bool]:
    """Keep a photo whose bytes have this SHA-256; return what it is and whether it is new here.

    Errors: BadPhoto where the bytes are others, damaged, too large or no picture.
    """
    if sha256(data) != digest:
        raise BadPhoto(
            f"the bytes have SHA-256 {sha256(data)}, not {digest}; the upload was cut or damaged. Send again"
        )
    held = photos.find(store.db, digest)
    if held is not None and photos.is_whole(store, digest):
        return held, False
    picture = identify(data)
    photos.put_file(store, digest, data)
    with store.write() as db:
        photos.put_row(db, digest, picture, len(data), now)
    return picture, True

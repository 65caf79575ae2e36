"""Takes set-ups, rate tables and photos that were sent, all or nothing."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from shuntbook.flow.ingest import try_again
from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import BadKey, BadPhoto, BadSetup, ChangedMeanwhile, Fault
from shuntbook.kit.signing import public_key
from shuntbook.report.attached import Attached, identify
from shuntbook.setup.difference import difference
from shuntbook.setup.folder import RATES, Setup, read_setup
from shuntbook.store import keys, photos, setups
from shuntbook.store.database import Store
from shuntbook.store.keys import DeviceKey
from shuntbook.store.refresh import rebuild

Files = Mapping[str, bytes]


def put_setup(
    store: Store,
    event: str,
    files: Files,
    now: str,
    trusted: Mapping[str, str] | None = None,
    edited: str | None = None,
) -> Setup:
    """Put the set-up files of an event in force.

    trusted: entries (id → digest) that a lost server had taken without a signature. edited: the version that these
    files were made from, "" for an event that was not there; None = whatever is in force. Errors: BadSetup with every
    fault, ChangedMeanwhile where another version is in force by now; nothing is changed then.
    """
    setup = _read_as(event, files)
    with store.write() as db:
        _still(setups.in_force(db, event) or "", edited, setup.event.name)
        if setups.put(db, setup, files):
            rebuild(db, event)
        keys.trust(db, (trusted or {}).items())
        try_again(db, now)
    return setup


def check_setup(store: Store, event: str, files: Callable[[], Files], against: str | None = None) -> dict[str, Any]:
    """Return the faults of set-up files, or warnings and what they change against the version in force; keep nothing.

    files: brings them; what it refuses is a fault like any other. against: another event to compare with, for one that
    is not held yet. Errors: NotFound.
    """
    try:
        setup = _read_as(event, files())
    except BadSetup as bad:
        faults = [fault.as_json() for fault in bad.faults]
        return {"faults": faults, "warnings": [], "difference": [], "version": None}
    with store.read() as db:
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


def put_devices(store: Store, devices: Iterable[DeviceKey], now: str) -> int:
    """Take over devices of a server that was lost, so that what they signed is believed; return how many entries
    that were set aside for want of a key are believed now. A key that is known is never replaced.

    Errors: BadKey.
    """
    with store.write() as db:
        for device in devices:
            if device.key is not None:
                try:
                    public_key(device.key)
                except ValueError as error:
                    raise BadKey(f"device {device.device}: {error}") from error
            keys.put(db, device)
        return try_again(db, now)


def put_rates(store: Store, rates: Files) -> tuple[str, list[str]]:
    """Put a rate table in force for every event held; return its version and the events.

    Errors: BadSetup with every fault; nothing is changed then.
    """
    named = {RATES + name: data for name, data in rates.items()}
    with store.write() as db:
        events = setups.events(db)
        version = ""
        for event in events:
            before = setups.files_of(db, event, setups.in_force(db, event) or "")
            files = {name: data for name, data in before.items() if not name.startswith(RATES)} | named
            setup = read_setup(files)
            version = setup.rates.version
            if setups.put(db, setup, files):
                rebuild(db, event)
    if not events:
        raise BadSetup([Fault("event.toml", 0, "", "no event is held here yet; load one first")])
    return version, events


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

"""Takes set-ups, rate tables and photos that were sent, all or nothing."""

from collections.abc import Iterable, Mapping

from shuntbook.flow.receive import try_again
from shuntbook.flow.refresh import rebuild
from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import BadKey, BadPhoto, BadSetup, Fault
from shuntbook.kit.signing import public_key
from shuntbook.report.photo import Picture, look_at
from shuntbook.setup.folder import RATES, Setup, read_setup
from shuntbook.store import keys, photos, setups
from shuntbook.store.database import Store
from shuntbook.store.keys import DeviceKey

Files = Mapping[str, bytes]


def put_setup(store: Store, event: str, files: Files, now: str, trusted: Mapping[str, str] | None = None) -> Setup:
    """Put the set-up files of an event in force.

    trusted: entries (id → digest) that a lost server had taken without a signature. Errors: BadSetup with every
    fault; nothing is changed then.
    """
    setup = read_setup(files)
    if setup.event.event != event:
        raise BadSetup([Fault("event.toml", 0, "event", f"says {setup.event.event!r}, the address {event!r}")])
    with store.write() as db:
        if setups.put(db, setup, files):
            rebuild(db, event)
        keys.trust(db, (trusted or {}).items())
        try_again(db, now)
    return setup


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


def put_photo(store: Store, digest: str, data: bytes, now: str) -> tuple[Picture, bool]:
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
    picture = look_at(data)
    photos.put_file(store, digest, data)
    with store.write() as db:
        photos.put_row(db, digest, picture, len(data), now)
    return picture, True

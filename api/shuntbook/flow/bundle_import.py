"""Takes a bundle in: checked whole before anything of it is taken, its entries judged as over HTTP.

Then it goes in by turns, so that a server on the same folder waits for none of them longer than for a phone's batch.
Where the disk fills in between, the same import again brings the rest.
"""

import base64
import binascii
import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

import msgspec

from shuntbook.flow.ingest import PAGE, Batch, believe, take, waiting_again
from shuntbook.flow.trust import Judge
from shuntbook.kit.errors import BadPhoto, BadSetup, Fault, StoreUnavailable
from shuntbook.kit.signing import public_key
from shuntbook.report.attached import Attached, identify
from shuntbook.setup.defaults import with_first
from shuntbook.setup.folder import Setup, read_setup
from shuntbook.store import keys, photos, printed, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.keys import DeviceKey
from shuntbook.store.quarantine import Waiting
from shuntbook.store.refresh import rebuild
from shuntbook.wire.bundle_check import Bundle
from shuntbook.wire.bundle_file import DEVICES, ENTRIES, SET_ASIDE, TRUSTED, setup_name

T = TypeVar("T")
PAUSE_S = 0.1
"""Between turns. SQLite's own wait for a lock looks again after at most 100 ms (sqlite3.c, sqliteDefaultBusyCallback,
from memory)."""


@dataclass(frozen=True)
class Choice:
    """What the machine's owner lets a bundle do.

    setup: its set-ups are believed also where this machine holds an event already, and take the place of those held
    here; a set-up says who is manager. trust: its list of devices, and the entries that it says
    were taken without a signature, are believed also where this machine holds an event already.
    """

    setup: bool = False
    trust: bool = False


@dataclass
class Imported:
    """What a bundle brought.

    Entries: new, held already, set aside (with id or None, code, what), believed now that their key or set-up is
    here. New photos, events whose set-up was taken and whose new set-up was refused, new devices; `untrusted`: how
    many devices it names that were not taken.
    """

    new: int = 0
    held: int = 0
    set_aside: list[dict[str, str | None]] = field(default_factory=list)
    believed: int = 0
    photos: int = 0
    setups: list[str] = field(default_factory=list)
    setups_refused: list[str] = field(default_factory=list)
    devices: int = 0
    untrusted: int = 0


@dataclass(frozen=True)
class _Content:
    entries: list[bytes]
    setups: list[tuple[Setup, Mapping[str, bytes]]]
    devices: list[DeviceKey]
    trusted: dict[str, str]
    pictures: dict[str, tuple[Attached, int]]


class _Device(msgspec.Struct):
    device: str
    person: str
    key: dict[str, str] | None
    shut_out_at: str | None = None
    last_seq: int | None = None
    second_key: dict[str, str] | None = None


class _Numbered(msgspec.Struct):
    device: str
    seq: int


def import_bundle(store: Store, source: Path, choice: Choice, now: str) -> Imported:
    """Take a bundle in; the same one again changes nothing.

    On a machine that holds no event yet, the bundle's devices and trusted entries are believed, as its set-ups are:
    importing is the owner's act. Errors: BadBundle, BadSetup with all faults; nothing is changed then.
    """
    with Bundle(source) as bundle:
        content = _read(bundle)
        for digest, data in bundle.photos():
            photos.put_file(store, digest, data)
        papers = list(bundle.papers())
    imported = Imported()
    with store.write() as db:
        believed = choice.trust or not setups.events(db)
        _take_beside(db, content, choice, believed, imported)
    try:
        _by_turns(store, content.entries, lambda db, some: _take_entries(db, some, believed, imported, now))
        _by_turns(store, waiting_again(store.db), lambda db, some: _believe(db, some, imported, now))
        _by_turns(store, list(content.pictures.items()), lambda db, some: _take_pictures(db, some, imported, now))
        # A paper is shown as the one that went out: it is believed where the bundle's devices are.
        for entry, paper, data in papers if believed else ():
            printed.keep(store, entry, paper, data)
    except StoreUnavailable as error:
        what = f"{error.__cause__ or error}. A part of the bundle is in"
        raise StoreUnavailable(f"{what}; free the disk or the lock and import it again: all counts once") from error
    return imported


def _by_turns(store: Store, items: Sequence[T], take_some: Callable[[Database, Sequence[T]], None]) -> None:
    """Take items so many at a time, each turn a transaction of its own, and let others write in between."""
    for start in range(0, len(items), PAGE):
        if start:
            time.sleep(PAUSE_S)
        with store.write() as db:
            take_some(db, items[start : start + PAGE])


def _take_beside(db: Database, content: _Content, choice: Choice, believed: bool, imported: Imported) -> None:
    known = keys.all_of(db)
    strange = [device for device in content.devices if device.device not in known]
    if believed:
        for device in content.devices:
            keys.put(db, device)
        keys.trust(db, content.trusted.items())
        imported.devices = len(strange)
    else:
        imported.untrusted = len(strange)
    _take_setups(db, content, choice.setup or not setups.events(db), imported)


def _take_setups(db: Database, content: _Content, believe_them: bool, imported: Imported) -> None:
    for setup, files in content.setups:
        event = setup.event.event
        if not believe_them and setups.in_force(db, event) is None:
            imported.setups_refused.append(event)
        elif believe_them and _put_setup(db, setup, files):
            rebuild(db, event)
            imported.setups.append(event)


def _put_setup(db: Database, setup: Setup, files: Mapping[str, bytes]) -> bool:
    followed = setups.following(db, setup.event.event, files)
    return setups.put(db, setup if followed == files else read_setup(followed, stored=True), followed)


def _take_entries(db: Database, entries: Sequence[bytes], believed: bool, imported: Imported, now: str) -> None:
    taken = take(db, Batch(entries, 0, None, None, now, None), Judge(db, held_elsewhere=believed))
    imported.new += taken.added
    imported.held += len(taken.accepted) - taken.added
    imported.set_aside += [{"id": name, "code": fault.code, "what": str(fault)} for name, fault in taken.rejected]


def _believe(db: Database, waiting: Sequence[Waiting], imported: Imported, now: str) -> None:
    imported.believed += believe(db, waiting, now)


def _take_pictures(
    db: Database, pictures: Sequence[tuple[str, tuple[Attached, int]]], imported: Imported, now: str
) -> None:
    for digest, (picture, size) in pictures:
        imported.photos += photos.find(db, digest) is None
        photos.put_row(db, digest, picture, size, now)


def _read(bundle: Bundle) -> _Content:
    faults: list[str] = []
    held = list(bundle.lines(ENTRIES))
    content = _Content(
        [*held, *_unpacked(bundle, faults)],
        _setups(bundle),
        _numbered(_devices(bundle, faults), held),
        _trusted(bundle, faults),
        _pictures(bundle, faults),
    )
    if faults:
        raise bundle.damaged(faults)
    return content


def _setups(bundle: Bundle) -> list[tuple[Setup, Mapping[str, bytes]]]:
    found: list[tuple[Setup, Mapping[str, bytes]]] = []
    faults: list[Fault] = []
    for event, packed in bundle.setups().items():
        try:
            files = packed if bundle.manifest.defaults else with_first(packed)
            setup = read_setup(files)
        except BadSetup as bad:
            faults += [Fault(setup_name(event, one.file), one.row, one.column, one.what) for one in bad.faults]
            continue
        if setup.event.event != event:
            what = f"says {setup.event.event!r}, its place in the bundle {event!r}"
            faults.append(Fault(setup_name(event, "event.toml"), 0, "event", what))
        found.append((setup, files))
    if faults:
        raise BadSetup(faults)
    return found


def _devices(bundle: Bundle, faults: list[str]) -> list[DeviceKey]:
    try:
        devices = msgspec.json.decode(bundle.read(DEVICES) or b"[]", type=list[_Device])
        for device in devices:
            for key in filter(None, (device.key, device.second_key)):
                public_key(key)
    except (msgspec.DecodeError, ValueError) as error:
        faults.append(f"{DEVICES}: {error}")
        return []
    return [DeviceKey(*msgspec.structs.astuple(one)) for one in devices]


def _numbered(devices: list[DeviceKey], held: list[bytes]) -> list[DeviceKey]:
    """Give a shut-out that came without a number the highest that the bundle's log holds of its device."""
    open_ones = {one.device for one in devices if one.shut_out_at is not None and one.last_seq is None}
    if not open_ones:
        return devices
    highest: dict[str, int] = {}
    for raw in held:
        # What is no entry of the right shape is set aside later, by its own fault.
        with suppress(msgspec.DecodeError):
            entry = msgspec.json.decode(raw, type=_Numbered)
            highest[entry.device] = max(entry.seq, highest.get(entry.device, 0))
    return [one._replace(last_seq=highest.get(one.device)) if one.device in open_ones else one for one in devices]


def _trusted(bundle: Bundle, faults: list[str]) -> dict[str, str]:
    try:
        return msgspec.json.decode(bundle.read(TRUSTED) or b"{}", type=dict[str, str])
    except msgspec.DecodeError as error:
        faults.append(f"{TRUSTED}: {error}")
        return {}


def _unpacked(bundle: Bundle, faults: list[str]) -> list[bytes]:
    try:
        return [base64.b64decode(line, validate=True) for line in bundle.lines(SET_ASIDE)]
    except binascii.Error as error:
        faults.append(f"{SET_ASIDE}: {error}")
        return []


def _pictures(bundle: Bundle, faults: list[str]) -> dict[str, tuple[Attached, int]]:
    found = {}
    for digest, data in bundle.photos():
        try:
            found[digest] = (identify(data), len(data))
        except BadPhoto as bad:
            faults.append(f"photos/{digest}: {bad}")
    return found

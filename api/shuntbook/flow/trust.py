"""Decides whether an entry may be believed: its signature, its author, the device it came from."""

from functools import lru_cache
from typing import NamedTuple

import msgspec
from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePublicKey

from shuntbook.kit.canonical import digest_of
from shuntbook.kit.errors import BadEntry
from shuntbook.kit.signing import is_good, public_key, signed_text
from shuntbook.report.entry import Entry
from shuntbook.report.timely import odd_time
from shuntbook.report.working import CarReleased, InspectionFailed, InspectionPassed
from shuntbook.setup.event import SIGNATURES
from shuntbook.store import keys, setups
from shuntbook.store.connection import Database

TRY_AGAIN = ("unsigned", "unknown-device", "shut-out")
"""Codes of entries that may be believed once a set-up, a device's key or the last number of a shut-out arrives."""
_JOIN_AGAIN = (
    "Open a new join link on that phone, over https, so that it signs what comes next; a manager can accept this entry"
)
_PIN = "Open a new join link on that phone, over https, choose a PIN, and say it again"
_BRING_KEYS = "It counts by itself once a manager's phone that knew the device reaches this server"


class Judge:
    """Judges entries by the keys and set-ups that the store holds now, and by their times.

    `believed` are the entries judged good without a signature of their own: they are to be trusted from now on.
    `held_elsewhere`: they come out of a log that is believed, and a log's own entries count at any time.
    """

    def __init__(self, db: Database, held_elsewhere: bool = False) -> None:
        self._db = db
        self._held_elsewhere = held_elsewhere
        self._devices: dict[str, keys.DeviceKey | None] = {}
        self._demanded: dict[str, _Demands] = {}
        self.believed: list[tuple[str, str]] = []

    def refusal(self, entry: Entry, raw: bytes) -> BadEntry | None:
        """Return why an entry cannot be believed, None where it can."""
        fault = self._fault(entry, raw)
        return None if fault and keys.is_trusted(self._db, entry.id, digest_of(raw)) else fault

    def verify(self, entry: Entry, raw: bytes) -> None:
        """Verify a signature now, so that the judgement, made while the store is locked, finds it verified."""
        device, signature = self._device(entry), _signature(raw)
        if signature is not None and device is not None and device.key is not None:
            _matches(signature, raw, msgspec.json.encode(device.key))

    def _fault(self, entry: Entry, raw: bytes) -> BadEntry | None:
        device = self._device(entry)
        if device is not None and device.shut_out_at is not None and entry.seq > (device.last_seq or 0):
            what = f"device {entry.device} is blocked; of its entries those up to number {device.last_seq or 0} count"
            return BadEntry("shut-out", f"{what}, this one is number {entry.seq}. A manager has to look", "device")
        if not self._held_elsewhere and (odd := odd_time(entry)) is not None:
            return odd
        if not self._demands(entry.event).signature:
            self.believed.append((entry.id, digest_of(raw)))
            return None
        signature = _signature(raw)
        if signature is None:
            what = f"the entry has no signature, and this event demands one. {_JOIN_AGAIN}"
            return BadEntry("unsigned", what, "sig")
        if device is None:
            return BadEntry("unknown-device", f"device {entry.device} is not known here. {_BRING_KEYS}", "device")
        if device.key is None:
            what = f"device {entry.device} joined without a key, so that nothing shows who wrote this. {_JOIN_AGAIN}"
            return BadEntry("unknown-device", what, "device")
        if device.person != entry.person:
            what = f"{device.person} joined on device {entry.device}, not {entry.person}"
            return BadEntry("wrong-author", what, "person")
        key = device.second_key if device.second_key and asks_pin(entry) else device.key
        if not _matches(signature, raw, msgspec.json.encode(key)):
            return BadEntry("bad-signature", "the signature does not fit: the entry was changed or forged", "sig")
        return None if device.second_key or not asks_pin(entry) else self._without_pin(entry, raw)

    def _without_pin(self, entry: Entry, raw: bytes) -> BadEntry | None:
        """Return why what asks for a PIN is not believed of a device that has none, where its event demands one.

        Where it does not, what was taken is believed from now on: that an event demands it later undoes nothing.
        """
        if self._demands(entry.event).pin:
            return BadEntry("no-pin", f"{entry.device} joined without a PIN, and this event demands one. {_PIN}", "sig")
        self.believed.append((entry.id, digest_of(raw)))
        return None

    def _device(self, entry: Entry) -> keys.DeviceKey | None:
        """Return what is known of an entry's device: of hundreds that joined, a batch is of one or of a few."""
        if entry.device not in self._devices:
            self._devices[entry.device] = keys.find(self._db, entry.device)
        return self._devices[entry.device]

    def _demands(self, event: str) -> "_Demands":
        if event not in self._demanded:
            setup = setups.find(self._db, event)
            said = _Demands(setup.event.signatures_demanded, setup.event.pin_demanded) if setup else _Demands()
            self._demanded[event] = said
        return self._demanded[event]


class _Demands(NamedTuple):
    """What an event demands of its entries: that they are signed, and some by the key of a PIN."""

    signature: bool = SIGNATURES == "on"
    pin: bool = False


def asks_pin(entry: Entry) -> bool:
    """Return whether an entry is signed by the key that only its person's PIN unlocks, where the device has one.

    Those are inspections, and releases with a reason, as each release on hold has one.
    """
    if isinstance(entry.data, CarReleased):
        return bool(entry.data.reason)
    return isinstance(entry.data, InspectionPassed | InspectionFailed)


class Signature(msgspec.Struct):
    """The signature of an entry, if it has one."""

    sig: str | None = None


def _signature(raw: bytes) -> str | None:
    return msgspec.json.decode(raw, type=Signature).sig


@lru_cache(maxsize=512)  # a batch is judged twice: before the store is locked, and then by what it holds
def _matches(signature: str, raw: bytes, key: bytes) -> bool:
    try:
        message = signed_text(raw)
    except ValueError:
        return False
    return is_good(signature, message, _key(key))


@lru_cache(maxsize=256)
def _key(jwk: bytes) -> EllipticCurvePublicKey:
    return public_key(msgspec.json.decode(jwk))

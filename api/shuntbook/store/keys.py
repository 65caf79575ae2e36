"""Public keys of devices, and the entries that were taken without a signature."""

import json
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from shuntbook.kit.errors import NotFound
from shuntbook.store.connection import Database


class DeviceKey(NamedTuple):
    """A device, the one person who joined on it, its public key as a JWK (None: it has none), when it was shut out.

    last_seq: of a device that was shut out, the last of its numbers that is believed; None for any other device, and
    where a release that kept no such number shut it out. second_key: signs what the person's PIN is asked for; None
    where the device joined without a PIN.
    """

    device: str
    person: str
    key: dict[str, Any] | None
    shut_out_at: str | None
    last_seq: int | None = None
    second_key: dict[str, Any] | None = None


def put(db: Database, device: DeviceKey) -> None:
    """Keep a device; one that is known keeps its person and key, and stays shut out.

    Where a shut-out brings no number, the highest that the log holds of the device is the last believed. Of two
    numbers the higher one counts, so that the order in which phones bring them changes nothing.
    """
    last_seq = None
    if device.shut_out_at is not None:
        last_seq = highest_seq(db, device.device) if device.last_seq is None else device.last_seq
    db.conn.execute(
        "INSERT INTO device_key (device, person, key, shut_out_at, last_seq, second_key) VALUES (?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (device) DO UPDATE SET"
        " shut_out_at = coalesce(device_key.shut_out_at, excluded.shut_out_at),"
        " last_seq = max(coalesce(device_key.last_seq, excluded.last_seq),"
        " coalesce(excluded.last_seq, device_key.last_seq))",
        [device.device, device.person, _text(device.key), device.shut_out_at, last_seq, _text(device.second_key)],
    )


def put_second(db: Database, device: str, key: dict[str, Any]) -> bool:
    """Keep the key that only the PIN of a device's person unlocks; return whether there was none yet."""
    sql = "UPDATE device_key SET second_key = ? WHERE device = ? AND second_key IS NULL AND key IS NOT NULL"
    return bool(db.conn.execute(sql, [_text(key), device]).rowcount)


def shut_out(db: Database, device: str, now: str) -> None:
    """Shut a device out; the highest number that the log holds of it is the last believed. Errors: NotFound."""
    known = find(db, device)
    if known is None:
        raise NotFound(f"no device {device!r} ever joined here")
    if known.shut_out_at is None:
        put(db, known._replace(shut_out_at=now))


def highest_seq(db: Database, device: str) -> int:
    """Return the highest number that the log holds of a device, 0 where it holds none."""
    return int(db.conn.execute("SELECT coalesce(max(seq), 0) FROM entry WHERE device = ?", [device]).fetchone()[0])


def all_of(db: Database) -> dict[str, DeviceKey]:
    """Return all devices that ever joined, by name."""
    return {row[0]: _device(row) for row in db.conn.execute(f"SELECT {_COLUMNS} FROM device_key ORDER BY device")}


def find(db: Database, device: str) -> DeviceKey | None:
    """Return a device that ever joined, None where none of that name did."""
    row = db.conn.execute(f"SELECT {_COLUMNS} FROM device_key WHERE device = ?", [device]).fetchone()
    return _device(row) if row else None


def version(db: Database) -> str:
    """Return a text that is the same while no device joined, was given a second key or was shut out.

    Each sync names it: devices are counted, since none ever goes and no key is taken back; only those that are shut
    out, which are few, are listed.
    """
    devices, seconds = db.conn.execute("SELECT count(*), count(second_key) FROM device_key").fetchone()
    out = "SELECT device, shut_out_at, last_seq FROM device_key WHERE shut_out_at IS NOT NULL ORDER BY device"
    return json.dumps([devices, seconds, db.conn.execute(out).fetchall()])


def trust(db: Database, digests: Iterable[tuple[str, str]]) -> None:
    """Take entries (id, digest of their canonical form) as good without a signature of their own."""
    db.conn.executemany("INSERT OR IGNORE INTO trusted VALUES (?, ?)", list(digests))


def trusted(db: Database) -> Mapping[str, str]:
    """Return the digests of all entries taken without a signature, by id."""
    return dict(db.conn.execute("SELECT id, sha256 FROM trusted").fetchall())


def trusted_of(db: Database, event: str) -> dict[str, str]:
    """Return the digests of an event's entries taken without a signature, by id."""
    sql = "SELECT id, sha256 FROM trusted JOIN entry USING (id) WHERE event = ? ORDER BY id"
    return dict(db.conn.execute(sql, [event]).fetchall())


def is_trusted(db: Database, name: str, digest: str) -> bool:
    """Return whether this very entry was taken without a signature before."""
    row = db.conn.execute("SELECT sha256 FROM trusted WHERE id = ?", [name]).fetchone()
    return row is not None and row[0] == digest


_COLUMNS = ", ".join(DeviceKey._fields)


def _device(row: tuple[Any, ...]) -> DeviceKey:
    device, person, key, shut_out_at, last_seq, second_key = row
    return DeviceKey(device, person, _key(key), shut_out_at, last_seq, _key(second_key))


def _text(key: dict[str, Any] | None) -> str | None:
    return None if key is None else json.dumps(key, sort_keys=True)


def _key(text: str | None) -> dict[str, Any] | None:
    return json.loads(text) if text else None

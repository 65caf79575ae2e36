"""Public keys of devices, and the entries that were taken without a signature."""

import json
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from shuntbook.store.connection import Database


class DeviceKey(NamedTuple):
    """A device, the one person who joined on it, its public key as a JWK (None: it has none), when it was shut out."""

    device: str
    person: str
    key: dict[str, Any] | None
    shut_out_at: str | None


def put(db: Database, device: DeviceKey) -> None:
    """Keep a device; one that is known keeps its person and key, and stays shut out."""
    key = None if device.key is None else json.dumps(device.key, sort_keys=True)
    db.conn.execute(
        "INSERT INTO device_key VALUES (?, ?, ?, ?) ON CONFLICT (device) DO UPDATE SET"
        " shut_out_at = coalesce(device_key.shut_out_at, excluded.shut_out_at)",
        [device.device, device.person, key, device.shut_out_at],
    )


def all_of(db: Database) -> dict[str, DeviceKey]:
    """Return all devices that ever joined, by name."""
    rows = db.conn.execute("SELECT device, person, key, shut_out_at FROM device_key ORDER BY device")
    return {row[0]: DeviceKey(row[0], row[1], json.loads(row[2]) if row[2] else None, row[3]) for row in rows}


def version(db: Database) -> str:
    """Return a text that is the same while no device joined or was shut out."""
    sql = "SELECT group_concat(device || ' ' || coalesce(shut_out_at, ''), char(10)) FROM"
    return db.conn.execute(f"{sql} (SELECT * FROM device_key ORDER BY device)").fetchone()[0] or ""


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

"""Who joined on which device: invites that work once, tokens kept as hashes."""

import hashlib
import secrets
from typing import Any, NamedTuple

from shuntbook.kit.errors import NotFound, NotJoined
from shuntbook.store import keys
from shuntbook.store.connection import Database
from shuntbook.store.keys import DeviceKey

ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""Letters and digits that are not mistaken for one another when read aloud."""


class Device(NamedTuple):
    """A phone on which a person joined."""

    device: str
    person: str


class UnknownCode(NotFound):
    """The invite was never made here."""


class UsedCode(NotFound):
    """The invite was used already."""


def invite(db: Database, person: str, now: str, expires_at: str) -> str:
    """Make a join code for a person; it works once, until it runs out. Only its hash is kept."""
    code = "-".join("".join(secrets.choice(ALPHABET) for _ in range(4)) for _ in range(3))
    sql = "INSERT INTO invite (code_hash, person, made_at, expires_at) VALUES (?, ?, ?, ?)"
    db.conn.execute(sql, [_hash(code), person, now, expires_at])
    return code


def join(db: Database, code: str, key: dict[str, Any] | None, now: str) -> tuple[Device, str]:
    """Redeem a code; return the new device and its token, of which only the hash is kept.

    key: the device's public JWK, checked by the caller. Errors: UnknownCode for a code that was never made,
    UsedCode for one that was used or ran out.
    """
    spent = _hash(code.strip().upper())
    row = db.conn.execute("SELECT person, used_at, expires_at FROM invite WHERE code_hash = ?", [spent]).fetchone()
    if row is None:
        raise UnknownCode("this join code is not known here; ask the manager for a new link")
    if row[1] is not None:
        raise UsedCode("this join code was used already; a code works once. Ask the manager for a new link")
    if row[2] is not None and row[2] < now:
        raise UsedCode("this join code has run out; ask the manager for a new link")
    device = Device(f"d-{secrets.token_hex(4)}", row[0])
    token = secrets.token_urlsafe(32)
    db.conn.execute("UPDATE invite SET used_at = ? WHERE code_hash = ?", [now, spent])
    db.conn.execute("INSERT INTO device VALUES (?, ?, ?, ?, NULL)", [*device, _hash(token), now])
    keys.put(db, DeviceKey(device.device, device.person, key, None))
    return device, token


def who(db: Database, token: str) -> Device:
    """Return the device that a token belongs to. Errors: NotJoined."""
    row = db.conn.execute(
        "SELECT device, person, shut_out_at FROM device WHERE token_hash = ?",
        [_hash(token)],
    ).fetchone()
    if row is None:
        raise NotJoined("this phone has not joined here; open a join link again. Nothing on the phone is lost")
    if row[2] is not None:
        raise NotJoined("this phone was shut out; ask the manager for a new link. Nothing on the phone is lost")
    return Device(row[0], row[1])


def shut_out(db: Database, device: str, now: str) -> None:
    """Shut a device out: its token ends, what it writes from now on is set aside. Errors: NotFound."""
    keys.shut_out(db, device, now)
    db.conn.execute("UPDATE device SET shut_out_at = coalesce(shut_out_at, ?) WHERE device = ?", [now, device])


def devices(db: Database) -> list[dict[str, object]]:
    """Return who joined on what, and when."""
    return list(db.query("SELECT device, person, joined_at, shut_out_at FROM device ORDER BY joined_at, device"))


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()

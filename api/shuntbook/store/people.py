"""Who joined on which device: invites that work once, tokens kept as hashes."""

import hashlib
import secrets
from typing import NamedTuple

from sqlite_utils import Database

from shuntbook.kit.errors import NotFound, NotJoined

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


def invite(db: Database, person: str, now: str) -> str:
    """Make a join code for a person; it works once. Only its hash is kept."""
    code = "-".join("".join(secrets.choice(ALPHABET) for _ in range(4)) for _ in range(3))
    db.conn.execute("INSERT INTO invite VALUES (?, ?, ?, NULL)", [_hash(code), person, now])
    return code


def join(db: Database, code: str, now: str) -> tuple[Device, str]:
    """Redeem a code; return the new device and its token, of which only the hash is kept.

    Errors: UnknownCode for a code that was never made, UsedCode for one that was used.
    """
    spent = _hash(code.strip().upper())
    row = db.conn.execute("SELECT person, used_at FROM invite WHERE code_hash = ?", [spent]).fetchone()
    if row is None:
        raise UnknownCode("this join code is not known here; ask the manager for a new link")
    if row[1] is not None:
        raise UsedCode("this join code was used already; a code works once. Ask the manager for a new link")
    device, token = (
        Device(f"d-{secrets.token_hex(4)}", row[0]),
        secrets.token_urlsafe(32),
    )
    db.conn.execute("UPDATE invite SET used_at = ? WHERE code_hash = ?", [now, spent])
    db.conn.execute("INSERT INTO device VALUES (?, ?, ?, ?, NULL)", [*device, _hash(token), now])
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
    """Shut a device out: its token ends, its entries are set aside from now on. Errors: NotFound."""
    done = db.conn.execute(
        "UPDATE device SET shut_out_at = coalesce(shut_out_at, ?) WHERE device = ?",
        [now, device],
    )
    if done.rowcount == 0:
        raise NotFound(f"no device {device!r} ever joined here")


def shut_out_devices(db: Database) -> frozenset[str]:
    """Return the devices that were shut out."""
    return frozenset(row[0] for row in db.conn.execute("SELECT device FROM device WHERE shut_out_at IS NOT NULL"))


def devices(db: Database) -> list[dict[str, object]]:
    """Return who joined on what, and when."""
    return list(db.query("SELECT device, person, joined_at, shut_out_at FROM device ORDER BY joined_at, device"))


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()

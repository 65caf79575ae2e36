"""Who joined on which device: invites that work once, tokens kept as hashes."""

import hashlib
import json
import secrets
from collections.abc import Sequence
from typing import Any, NamedTuple

from shuntbook.kit.errors import NotFound, NotJoined
from shuntbook.store import keys
from shuntbook.store.connection import Database
from shuntbook.store.keys import DeviceKey

ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""Letters and digits that are not mistaken for one another when read aloud."""


class Device(NamedTuple):
    """A phone on which a person joined, and whether it did so in the log as it is now."""

    device: str
    person: str
    in_this_log: bool = False


class SecondInvite(NamedTuple):
    """An invite for a person who had a device: who made it (None: the machine's owner), when, which device came."""

    invite: int
    person: str
    invited_by: str | None
    at: str
    device: str | None


class UnknownCode(NotFound):
    """The invite was never made here."""


class UsedCode(NotFound):
    """The invite was used already."""


def invite(db: Database, person: str, now: str, expires_at: str, invited_by: str | None = None) -> str:
    """Make a join code for a person; it works once, until it runs out. Only its hash is kept.

    One for a person who has a device is told to everybody until that person, or an owner, says that it is known.
    """
    code = "-".join("".join(secrets.choice(ALPHABET) for _ in range(4)) for _ in range(3))
    sql = "INSERT INTO invite (code_hash, person, made_at, expires_at) VALUES (?, ?, ?, ?)"
    db.conn.execute(sql, [_hash(code), person, now, expires_at])
    if devices_of(db, person):
        row = [_hash(code), person, invited_by, now]
        db.conn.execute("INSERT INTO second_invite (code_hash, person, invited_by, at) VALUES (?, ?, ?, ?)", row)
    return code


def devices_of(db: Database, person: str) -> list[str]:
    """Return the devices of a person that were not shut out."""
    sql = "SELECT device FROM device_key WHERE person = ? AND shut_out_at IS NULL ORDER BY device"
    return [row[0] for row in db.conn.execute(sql, [person])]


def second_invites(db: Database) -> list[SecondInvite]:
    """Return the invites for people who had a device that nobody said are known, oldest first."""
    sql = "SELECT number, person, invited_by, at, device FROM second_invite WHERE known_at IS NULL ORDER BY number"
    return [SecondInvite(*row) for row in db.conn.execute(sql)]


def version(db: Database) -> str:
    """Return a text that is the same while nobody is named as an owner, invited again, or says that it is known."""
    owners = db.conn.execute("SELECT count(*) FROM owner").fetchone()[0]
    invites = db.conn.execute("SELECT count(*), count(device), count(known_at) FROM second_invite").fetchone()
    return f"{owners} {invites}"


def know(db: Database, invite: int, now: str) -> None:
    """Note that an invite is known to the person it is for, or to an owner. Errors: NotFound."""
    sql = "UPDATE second_invite SET known_at = ? WHERE number = ? AND known_at IS NULL"
    if db.conn.execute(sql, [now, invite]).rowcount == 0:
        raise NotFound("no such invite waits to be confirmed; somebody may have done it")


def sent_events(db: Database, device: str) -> list[str] | None:
    """Return of which events a device was sent entries; None where it never asked, or a release sent it all."""
    row = db.conn.execute("SELECT events FROM device WHERE device = ?", [device]).fetchone()
    return list(json.loads(row[0])) if row and row[0] else None


def note_sent(db: Database, device: str, events: Sequence[str]) -> None:
    """Keep of which events a device is sent entries from now on."""
    db.conn.execute("UPDATE device SET events = ? WHERE device = ?", [json.dumps(sorted(events)), device])


def note_sent_as(db: Database, device: str, beside: str) -> None:
    """Keep that a device was sent entries of the same events as another one on the same phone, which shares its cursor.

    Of a device that is not known, is shut out or joined another log, nothing follows.
    """
    db.conn.execute(
        "UPDATE device SET events = other.events FROM (SELECT events FROM device WHERE device = ? AND"
        " shut_out_at IS NULL AND log_id = (SELECT value FROM meta WHERE key = 'log_id')) AS other WHERE device = ?",
        [beside, device],
    )


def join(
    db: Database, code: str, key: dict[str, Any] | None, now: str, second_key: dict[str, Any] | None = None
) -> tuple[Device, str]:
    """Redeem a code; return the new device and its token, of which only the hash is kept.

    key, second_key: the device's public JWKs, checked by the caller. Errors: UnknownCode for a code that was never
    made, UsedCode for one that was used or ran out.
    """
    spent = _hash(code.strip().upper())
    row = db.conn.execute("SELECT person, used_at, expires_at FROM invite WHERE code_hash = ?", [spent]).fetchone()
    if row is None:
        raise UnknownCode("this join code is not known here; ask the manager for a new link")
    if row[1] is not None:
        raise UsedCode("this join code was used already; a code works once. Ask the manager for a new link")
    if row[2] is not None and row[2] < now:
        raise UsedCode("this join code has run out; ask the manager for a new link")
    device = Device(f"d-{secrets.token_hex(4)}", row[0], True)
    token = secrets.token_urlsafe(32)
    db.conn.execute("UPDATE invite SET used_at = ? WHERE code_hash = ?", [now, spent])
    db.conn.execute("UPDATE second_invite SET device = ? WHERE code_hash = ?", [device.device, spent])
    # It was sent nothing yet, whatever cursor its phone has from a device before it: it may have been in no event.
    db.conn.execute(
        "INSERT INTO device (device, person, token_hash, joined_at, log_id, events)"
        " SELECT ?, ?, ?, ?, value, '[]' FROM meta WHERE key = 'log_id'",
        [device.device, device.person, _hash(token), now],
    )
    keys.put(db, DeviceKey(device.device, device.person, key, None, None, second_key))
    return device, token


def joined_at(db: Database, device: str) -> str:
    """Return when a device joined, as RFC 3339. Errors: NotFound."""
    row = db.conn.execute("SELECT joined_at FROM device WHERE device = ?", [device]).fetchone()
    if row is None:
        raise NotFound(f"no device {device!r} ever joined here")
    return str(row[0])


def who(db: Database, token: str) -> Device:
    """Return the device that a token belongs to. Errors: NotJoined."""
    row = db.conn.execute(
        "SELECT device, person, shut_out_at, log_id = (SELECT value FROM meta WHERE key = 'log_id') FROM device"
        " WHERE token_hash = ?",
        [_hash(token)],
    ).fetchone()
    if row is None:
        raise NotJoined("this phone has not joined here; open a join link again. Nothing on the phone is lost")
    if row[2] is not None:
        raise NotJoined("this phone is blocked; ask the manager for a new link. Nothing on the phone is lost")
    return Device(row[0], row[1], bool(row[3]))


def shut_out(db: Database, device: str, now: str) -> None:
    """Shut a device out: its token ends, what it writes from now on is set aside. Errors: NotFound."""
    keys.shut_out(db, device, now)
    db.conn.execute("UPDATE device SET shut_out_at = coalesce(shut_out_at, ?) WHERE device = ?", [now, device])


def devices(db: Database) -> list[dict[str, object]]:
    """Return who joined on what, and when."""
    return list(db.query("SELECT device, person, joined_at, shut_out_at FROM device ORDER BY joined_at, device"))


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()

"""Lets people in and shuts devices out."""

from datetime import datetime, timedelta
from typing import Any

from shuntbook.flow.clock import rfc3339
from shuntbook.flow.members import Member, demand_owner, member
from shuntbook.kit.errors import BadKey, NotFound, NotPossible
from shuntbook.kit.signing import public_key
from shuntbook.store import keys, owners, people, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.people import Device

INVITE_LASTS = timedelta(days=7)
PIN_WITHIN = timedelta(minutes=10)
"""A PIN is chosen at joining: so long after it the phone is taken to be still in the hands of who joined."""


def invite(store: Store, person: str, now: str, by: Member | None = None) -> str:
    """Make a join code for a person of any event held; it runs out after a week.

    by: who asks; None is the machine's owner. A manager invites people of the own events, an owner anybody whom an
    event names. Errors: NotFound, NotAllowed.
    """
    expires_at = datetime.fromisoformat(now) + INVITE_LASTS
    with store.write() as db:
        invited = member(db, person)
        if by is not None and not _manages(by, invited):
            demand_owner(by, f"Inviting {person}, who is in no event of yours,")
        return people.invite(db, person, now, rfc3339(expires_at), by.person if by else None)


def join(
    store: Store,
    code: str,
    key: dict[str, Any] | None,
    now: str,
    second_key: dict[str, Any] | None = None,
    beside: str | None = None,
) -> tuple[Device, str, Member]:
    """Redeem a join code; return the device, its token and who it is. The first who joins an empty server owns it.

    key: the device's public key as a JWK; second_key: that which only the person's PIN unlocks; beside: a device that
    joined on the same phone before. Errors: NotFound, UsedCode, BadKey.
    """
    for one in filter(None, (key, second_key)):
        demand_key(one)
    with store.write() as db:
        is_first = not setups.events(db) and not keys.all_of(db) and not owners.named(db)
        device, token = people.join(db, code, key, now, second_key)
        if beside is not None:
            people.note_sent_as(db, device.device, beside)
        if is_first:
            owners.name(db, device.person, now)
        return device, token, member(db, device.person)


def put_second_key(store: Store, device: str, key: dict[str, Any], now: str) -> None:
    """Keep the key of a PIN that was chosen just after joining; it is never replaced.

    Errors: BadKey; NotPossible where there is one already, or the device joined too long ago: whoever holds a shared
    phone would choose the PIN of somebody who joined on it.
    """
    demand_key(key)
    with store.write() as db:
        since = datetime.fromisoformat(now) - datetime.fromisoformat(people.joined_at(db, device))
        if since > PIN_WITHIN or not keys.put_second(db, device, key):
            raise NotPossible("a PIN is chosen at joining; join again on this phone, with a new link, to choose one")


def demand_key(key: dict[str, Any]) -> None:
    """Refuse what is no public key of the curve. Errors: BadKey."""
    try:
        public_key(key)
    except ValueError as error:
        raise BadKey(f"{error}; load the app again and open the link once more") from error


def join_link(url: str, code: str) -> str:
    """Return the link that opens the app and joins; the code travels in the fragment, which no server sees."""
    return f"{url.rstrip('/')}/#/join/{code}"


def shut_out(store: Store, device: str, now: str, by: Member | None = None) -> None:
    """Shut a device out: a manager one of people of the own events, an owner any. Errors: NotFound, NotAllowed."""
    with store.write() as db:
        known = keys.all_of(db).get(device)
        if known is not None and by is not None:
            demand_shutting_out(db, by, known.person)
        people.shut_out(db, device, now)


def demand_shutting_out(db: Database, by: Member, person: str) -> None:
    """Refuse to shut out a device of somebody whose manager the caller is not. Errors: NotAllowed."""
    try:
        mine = _manages(by, member(db, person, in_this_log=False))
    except NotFound:
        mine = False
    if not mine:
        demand_owner(by, f"Shutting out a device of {person}, who is in no event of yours,")


def know_invite(store: Store, invite: int, now: str, by: Member, device: str) -> None:
    """Note that an invite for a person who had a device is known: by that person there, or by an owner.

    Errors: NotFound; NotAllowed, also on the device that joined by it.
    """
    with store.write() as db:
        found = next((one for one in people.second_invites(db) if one.invite == invite), None)
        if found is None or found.person != by.person or found.device == device:
            demand_owner(by, "Saying that another's invite is known")
        people.know(db, invite, now)


def name_owner(store: Store, person: str, now: str) -> None:
    """Name an owner of the log; the machine's owner does it. Errors: NotFound where no event held knows the person."""
    with store.write() as db:
        member(db, person)
        owners.name(db, person, now)


def _manages(who: Member, other: Member) -> bool:
    return any(event in who.managed for event in other.events)

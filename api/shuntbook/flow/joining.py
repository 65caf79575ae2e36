"""Lets people in and shuts devices out."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from shuntbook.flow.clock import rfc3339
from shuntbook.kit.errors import BadKey, NotAllowed, NotFound, NotJoined
from shuntbook.kit.signing import public_key
from shuntbook.setup.event import Person
from shuntbook.store import people, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.people import Device

INVITE_LASTS = timedelta(days=7)


@dataclass(frozen=True)
class Member:
    """A person as the set-ups in force know them: name, roles of all events together, events they are in."""

    person: str
    name: str
    roles: tuple[str, ...]
    events: tuple[str, ...]


def invite(store: Store, person: str, now: str) -> str:
    """Make a join code for a person of any event held; it runs out after a week. Errors: NotFound."""
    expires_at = datetime.fromisoformat(now) + INVITE_LASTS
    with store.write() as db:
        member(db, person)
        return people.invite(db, person, now, rfc3339(expires_at))


def join(store: Store, code: str, key: dict[str, Any] | None, now: str) -> tuple[Device, str, Member]:
    """Redeem a join code; return the device, its token and who it is.

    key: the device's public key as a JWK. Errors: NotFound, UsedCode, BadKey.
    """
    if key is not None:
        try:
            public_key(key)
        except ValueError as error:
            raise BadKey(f"{error}; load the app again and open the link once more") from error
    with store.write() as db:
        device, token = people.join(db, code, key, now)
        return device, token, member(db, device.person)


def caller(store: Store, token: str) -> tuple[Device, Member]:
    """Return whose token it is, with the roles in force now.

    Errors: NotJoined, also where the person was taken out of every event: the token is good again once put back.
    """
    device = people.who(store.db, token)
    try:
        return device, member(store.db, device.person)
    except NotFound as error:
        raise NotJoined(
            f"{device.person} is in no event held here any more; ask the manager to put {device.person} back into"
            " event.toml. Nothing on the phone is lost"
        ) from error


def join_link(url: str, code: str) -> str:
    """Return the link that opens the app and joins; the code travels in the fragment, which no server sees."""
    return f"{url.rstrip('/')}/#/join/{code}"


def shut_out(store: Store, device: str, now: str) -> None:
    """Shut a device out. Errors: NotFound."""
    with store.write() as db:
        people.shut_out(db, device, now)


def demand(who: Member, role: str, what: str) -> None:
    """Refuse a call that needs a role. Errors: NotAllowed."""
    if role not in who.roles:
        roles = ", ".join(who.roles) or "without a role"
        raise NotAllowed(f"{what} is for a {role}; {who.name} is {roles}. Ask a {role} to do it")


def member(db: Database, person: str) -> Member:
    """Return a person as the set-ups in force know them.

    On a server that holds no event yet, whoever the machine's owner invited counts as manager, so that a
    phone can bring the set-ups back. Errors: NotFound.
    """
    events = setups.events(db)
    if not events:
        return Member(person, person, ("manager",), ())
    found: dict[str, Person] = {}
    for event in events:
        for someone in setups.get(db, event).event.people:
            if someone.person == person:
                found[event] = someone
    if not found:
        raise NotFound(f"no event held here has a person {person!r}; fix event.toml and load it again")
    roles = dict.fromkeys(role for someone in found.values() for role in someone.roles)
    name = next(iter(found.values())).name
    return Member(person, name, tuple(roles), tuple(found))

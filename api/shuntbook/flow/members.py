"""Who somebody is to this log: in which events, with which roles there, and whether its owner."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from shuntbook.kit.errors import NotAllowed, NotFound, NotJoined
from shuntbook.setup.event import Event, Person
from shuntbook.store import owners, people, rebuilds, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.people import Device
from shuntbook.wire.sight import Sees, Sight, sight_of


@dataclass(frozen=True)
class Member:
    """A person as the set-ups in force know them.

    roles_in: by event, of those that the person is in; a role counts in its own event only. others: events held that
    the person is not in. is_bringing: in no event held, let into a rebuild to bring what the log lacks. sees: by event,
    of those that the person is in.
    """

    person: str
    name: str
    roles_in: Mapping[str, tuple[str, ...]]
    others: tuple[str, ...] = ()
    is_owner: bool = False
    is_bringing: bool = False
    sees: Mapping[str, Sees] = field(default_factory=dict)

    @property
    def events(self) -> tuple[str, ...]:
        """Return the events that the person is in."""
        return tuple(self.roles_in)

    @property
    def roles(self) -> tuple[str, ...]:
        """Return the roles of all events together: what a phone shows before it has a set-up."""
        if self.is_bringing:
            return ("manager",)
        return tuple(dict.fromkeys(role for roles in self.roles_in.values() for role in roles))

    @property
    def managed(self) -> tuple[str, ...]:
        """Return the events that the person is manager of."""
        return tuple(event for event, roles in self.roles_in.items() if "manager" in roles)

    @property
    def unmanaged(self) -> tuple[str, ...]:
        """Return the events held that the person is not manager of."""
        return tuple(event for event in (*self.roles_in, *self.others) if event not in self.managed)

    def roles_at(self, event: str | None) -> tuple[str, ...]:
        """Return the roles in an event; those of all events for none, or for one that is not held here."""
        if event in self.others:
            return ()
        return self.roles_in.get(event, self.roles) if event is not None else self.roles

    def sees_at(self, event: str) -> Sees:
        """Return what is seen of an event; of one that is not held here, what the roles of all together see."""
        known = self.sees.get(event)
        return known or sight_of(Person(self.person, self.name, self.roles))


def caller(store: Store, token: str) -> tuple[Device, Member]:
    """Return whose token it is, with the roles in force now.

    Errors: NotJoined, also where the person was taken out of every event: the token is good again once put back.
    """
    device = people.who(store.db, token)
    try:
        return device, member(store.db, device.person, device.in_this_log)
    except NotFound as error:
        raise NotJoined(
            f"{device.person} is in no event held here any more; ask the manager to put {device.person} back into"
            " event.toml. Nothing on the phone is lost"
        ) from error


def member(db: Database, person: str, in_this_log: bool = True) -> Member:
    """Return a person as the set-ups in force know them.

    In a rebuild whoever was let into this very log and is in no event of it may bring what it lacks; so may the first
    on a server that holds nothing yet. Errors: NotFound.
    """
    found: dict[str, Person] = {}
    events = setups.events(db)
    for event in events:
        for someone in setups.get(db, event).event.people:
            if someone.person == person:
                found[event] = someone
    others = tuple(event for event in events if event not in found)
    roles_in = {event: tuple(someone.roles) for event, someone in found.items()}
    if not found and not (in_this_log and rebuilds.is_under_way(db)) and events:
        raise NotFound(f"no event held here has a person {person!r}; fix event.toml and load it again")
    name = next((someone.name for someone in found.values()), person)
    sees = {event: sight_of(someone) for event, someone in found.items()}
    return Member(person, name, roles_in, others, is_owner(db, person, roles_in), not found, sees)


def is_owner(db: Database, person: str, roles_in: Mapping[str, tuple[str, ...]]) -> bool:
    """Return whether a person owns this log."""
    if owners.is_every_manager(db):
        return any("manager" in roles for roles in roles_in.values())
    return person in owners.named(db)


def all_owners(db: Database) -> list[str]:
    """Return everybody who owns this log."""
    if not owners.is_every_manager(db):
        return owners.named(db)
    everybody = (someone for event in setups.events(db) for someone in setups.get(db, event).event.people)
    return sorted({someone.person for someone in everybody if "manager" in someone.roles})


def demand(who: Member, role: str, what: str, event: str | None = None) -> None:
    """Refuse a call that needs a role; of an event, the role there. Errors: NotAllowed."""
    demand_in(who, event)
    if role not in who.roles_at(event):
        roles = ", ".join(who.roles_at(event)) or "without a role"
        raise NotAllowed(f"{what} is for a {role}; {who.name} is {roles}. Ask a {role} to do it")


def demand_sight(who: Member, least: Sight, what: str, event: str) -> None:
    """Refuse what somebody does not see of an event. Errors: NotAllowed."""
    demand_in(who, event)
    if not who.sees_at(event).may(least):
        demand(who, "manager" if least is Sight.MANAGER else "mechanic", what, event)


def demand_car(who: Member, event: str, car: str) -> None:
    """Refuse what is of a car that the caller is not shown. Errors: NotAllowed."""
    demand_in(who, event)
    sees = who.sees_at(event)
    if not sees.sees_car(car):
        cars = ", ".join(sorted(sees.cars))
        raise NotAllowed(f"the set-up shows {who.name} car {cars} and no other. Ask a mechanic about car {car}")


def demand_in(who: Member, event: str | None) -> None:
    """Refuse what is of an event that the caller is not in. Errors: NotAllowed."""
    if event in who.others:
        raise NotAllowed(f"{who.name} is not in event {event!r}. Ask its manager to add {who.person} to its people")


def demand_owner(who: Member, what: str) -> None:
    """Refuse a call that is for an owner of the log. Errors: NotAllowed."""
    if not who.is_owner:
        raise NotAllowed(
            f"{what} is for an owner of this log, and {who.name} is none. Ask an owner; whoever keeps the server names"
            " one with `shuntbook serve --owner PERSON`"
        )


TRUSTED_ROLES = ("inspector", "manager")
"""Roles that an owner gives: what they say ends holds, or lets others say so."""


def demand_people(db: Database, who: Member, event: Event) -> None:
    """Refuse a set-up that lets new people in, or makes somebody inspector or manager, where no owner brings it.

    In a rebuild a manager brings set-ups as they were. Errors: NotAllowed.
    """
    if who.is_owner or rebuilds.is_under_way(db):
        return
    held = [setups.get(db, name).event for name in setups.events(db)]
    known = {someone.person for one in held for someone in one.people}
    before = next((one for one in held if one.event == event.event), None)
    new = [someone.person for someone in event.people if someone.person not in known]
    raised = [
        f"{someone.person} as {role}"
        for someone in event.people
        for role in TRUSTED_ROLES
        if before is not None and role in someone.roles and not before.has_role(someone.person, role)
    ]
    if new or raised:
        demand_owner(who, f"Adding {', '.join([*new, *raised])}")

"""What of the set-ups, the devices and the log's state somebody is shown: that of the events that the person is in."""

from typing import Any

from shuntbook.flow.members import Member, all_owners
from shuntbook.store import first_rules, keys, log, people, rebuilds, setups
from shuntbook.store.connection import Database
from shuntbook.wire.setup_json import setup_json
from shuntbook.wire.sight import setup_seen


def seen_by(db: Database, who: Member) -> dict[str, Any]:
    """Return what `GET /setup` says to a person, but for the log's id."""
    shown = [setups.get(db, event) for event in who.events]
    persons = {someone.person for setup in shown for someone in setup.event.people} | {who.person}
    # Who was taken out of an event has written entries of it, which other phones have to judge all the same.
    wrote = log.devices_of(db, who.events)
    devices = [one for one in keys.all_of(db).values() if one.person in persons or one.device in wrote]
    return {
        "events": [setup_seen(setup_json(setup), who.sees_at(setup.event.event)) for setup in shown],
        "devices": [device._asdict() for device in devices],
        "owners": [person for person in all_owners(db) if person in persons],
        "rebuild": rebuilds.is_under_way(db),
        "first_rules": first_rules.were_in_force(db),
        "second_invites": [one._asdict() for one in people.second_invites(db) if one.person in persons],
    }

"""What is asked before a car leaves service: what stands between the work that was done on it and the road.

Asked at its release, and held until answered there; the queue, its order and hash, and whether the car is on hold know
nothing of it. Common practice, no source.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from msgspec import Struct

from shuntbook.queue.car import CarLog, car_log
from shuntbook.report.entry import Entry
from shuntbook.report.working import Answered, CarReleased, Inspection
from shuntbook.setup.folder import Setup
from shuntbook.setup.looks import looks_in_force
from shuntbook.setup.words import split_key

WHEEL_OFF = "wheel-off"
"""The access step that takes a wheel off, by its name."""
ON_THE_HUB = ("wheel", "tyre", "studs-and-nuts")
"""Components whose repair takes the wheel off, whatever the rate table says."""
HOLDS_WHEEL = "wheel-hold"
"""The group of arms, uprights and struts: work on their bolts moves the toe."""


class Ask(Struct, frozen=True):
    """One thing asked at the release, of the whole car or of one place; the entries behind it, ascending.

    ask: `nuts` torqued on the ground; `toe` and steering wheel straight; `pedal` firm with the engine running; `tools`
    counted. not_by: who may not answer for the nuts, since they worked there.
    """

    ask: Literal["nuts", "toe", "pedal", "tools"]
    place: str
    entries: list[str]
    not_by: list[str]


@dataclass(frozen=True)
class _Work:
    """A finished work, a start that none ends, or an inspection with the wheel off; by: who worked."""

    entry: str
    job: str
    by: frozenset[str]
    wheel_off: bool
    repair: bool


def asks(entries: Iterable[Entry], setup: Setup) -> list[Ask]:
    """Return what is asked at the next release of a car, from all its entries in any order.

    Work is asked about until a standing `car.released` names its entry in an answer that is ok: so what arrives late is
    asked about again, whatever the clocks. Tools are asked about at each release. Nuts come by the zone's name.
    """
    log = car_log(entries, setup)
    works = sorted(_works(log, setup), key=lambda work: work.entry)
    said = [one for entry in log.entries if isinstance(entry.data, CarReleased) for one in entry.data.answers if one.ok]
    repairs = [work for work in works if work.repair]
    nuts = [_nuts(zone, works, said) for zone in sorted(setup.car_map.zones)]
    toe = _whole_car("toe", [work for work in repairs if _moves_toe(work.job, setup)], said)
    pedal = _whole_car("pedal", [work for work in repairs if _group(work.job, setup) == "brake"], said)
    tools = _whole_car("tools", works, said)
    return [one for one in (*nuts, toe, pedal) if one.entries] + [tools]


def _works(log: CarLog, setup: Setup) -> Iterator[_Work]:
    for key, acts in log.acts.items():
        off = _takes_wheel_off(key, setup)
        repairs = log.acts_on(key).repairs
        ended = {name for one in repairs for name in one.data.ends}
        yield from (_Work(one.id, key, one.repairers, off, True) for one in repairs)
        for entry in acts:
            if entry.kind == "job.started" and entry.id not in ended:
                yield _Work(entry.id, key, frozenset({entry.person}), off, True)
            if isinstance(entry.data, Inspection) and _seen_behind_the_wheel(key, entry.data, setup):
                yield _Work(entry.id, key, frozenset(), True, False)


def _nuts(zone: str, works: list[_Work], said: list[Answered]) -> Ask:
    rows = [one for one in said if one.ask == "nuts" and one.place == zone]
    here = [work for work in works if work.wheel_off and split_key(work.job)[0] == zone]
    left = [work for work in here if not any(_vouches(row, work) for row in rows)]
    return Ask("nuts", zone, [work.entry for work in left], sorted({name for work in left for name in work.by}))


def _vouches(row: Answered, work: _Work) -> bool:
    """Return whether an answer counts for the nuts after that work: somebody else than who worked there did it."""
    return work.entry in row.entries and bool(row.by) and row.by not in work.by


def _whole_car(ask: Literal["toe", "pedal", "tools"], works: list[_Work], said: list[Answered]) -> Ask:
    answered = {name for row in said if row.ask == ask for name in row.entries}
    return Ask(ask, "", [work.entry for work in works if work.entry not in answered], [])


def _takes_wheel_off(key: str, setup: Setup) -> bool:
    """Return whether a repair there may have had the wheel off: what holds, steers or stops it, or by a row."""
    zone, component = split_key(key)
    if not _is_corner(zone, setup):
        return False
    rows = [row for row in setup.rates.operations.values() if row.component == component and row.zone in ("", zone)]
    return (
        component in ON_THE_HUB
        or setup.car_map.safety_critical(zone, component)
        or any(WHEEL_OFF in row.access for row in rows)
    )


def _seen_behind_the_wheel(key: str, inspection: Inspection, setup: Setup) -> bool:
    """Return whether a check that is made with the wheel off was made at a corner."""
    off = {row.check for rows in looks_in_force(setup.event.looks).values() for row in rows if row.at == "off"}
    made = any(one.ok is not None and one.check in off for one in inspection.checks)
    return made and _is_corner(split_key(key)[0], setup)


def _moves_toe(key: str, setup: Setup) -> bool:
    zone, component = split_key(key)
    group = _group(key, setup)
    arm = group == HOLDS_WHEEL and component not in ON_THE_HUB and _is_corner(zone, setup)
    return group == "steering" or arm


def _is_corner(zone: str, setup: Setup) -> bool:
    known = setup.car_map.zones.get(zone)
    return known is not None and known.kind == "corner"


def _group(key: str, setup: Setup) -> str | None:
    return setup.car_map.group_of(split_key(key)[1])

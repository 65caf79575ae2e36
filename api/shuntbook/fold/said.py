"""What one version says by itself: direct, bare and knock-on, one condition per key."""

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal

from msgspec import Struct

from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.words import UNKNOWN, Condition, job_key, split_key

How = Literal["direct", "bare", "knock-on", "retracted", "failed"]
PRECEDENCE: dict[How, int] = {"direct": 0, "bare": 1, "knock-on": 2}


class Said(Struct, frozen=True):
    """A condition that a version gives a key, and how it came to."""

    key: str
    condition: Condition
    how: How


def said_by(version: Entry, car_map: CarMap) -> dict[str, Said]:
    """Return what a version says, by key: direct before knock-on, the worse condition first.

    A withdrawn version says nothing.
    """
    if not isinstance(version.data, Body):
        return {}
    body = version.data
    said: dict[str, Said] = {}
    for item in _all(body, car_map):
        known = said.get(item.key)
        if known is None or _rank(item, car_map) < _rank(known, car_map):
            said[item.key] = item
    return said


def counts(version: Entry, item: Said, car_map: CarMap) -> bool:
    """Return whether what a version says is a finding.

    Of a hand-over only what is safety-critical counts, and nothing bare: the rest was there before, a
    baseline for costs and no job.
    """
    if not isinstance(version.data, Body) or version.data.where != "hand-over":
        return True
    return item.how != "bare" and car_map.safety_critical(*split_key(item.key))


def _all(body: Body, car_map: CarMap) -> Iterator[Said]:
    zone = body.zone or UNKNOWN
    for key, condition in _direct(body, zone, car_map):
        yield from _with_knock_on(key, condition, zone, car_map)
    if not body.findings and not body.symptoms:
        yield Said(job_key(zone, UNKNOWN), UNKNOWN, "bare")


def _direct(body: Body, zone: str, car_map: CarMap) -> Iterator[tuple[str, Condition]]:
    for finding in body.findings:
        yield job_key(zone, finding.component), finding.condition
    for symptom in body.symptoms:
        # A symptom is never lost: what the map does not know, or has nothing to check for here, is the zone's unknown.
        for key in car_map.checks_of(symptom, zone) or [job_key(zone, UNKNOWN)]:
            yield key, UNKNOWN


@lru_cache(maxsize=4096)
def _with_knock_on(key: str, condition: Condition, zone: str, car_map: CarMap) -> tuple[Said, ...]:
    """Return a direct finding and what it makes suspect: of a season's reports, most say what others said."""
    return (Said(key, condition, "direct"), *_knock_on(key, condition, zone, car_map))


def _knock_on(source: str, condition: str, zone: str, car_map: CarMap) -> Iterator[Said]:
    """Yield what a direct finding `source` makes suspect; `zone` is the version's, for `here` and `across`."""
    own_zone, component = split_key(source)
    for rule in car_map.knock_on_by_component.get(component, ()):
        if condition in rule.conditions:
            for other in rule.same_zone:
                if car_map.lists(own_zone, other):
                    yield Said(job_key(own_zone, other), UNKNOWN, "knock-on")
            for also in rule.also:
                for key in car_map.placed(also, zone):
                    if car_map.lists(*split_key(key)):
                        yield Said(key, UNKNOWN, "knock-on")


def _rank(item: Said, car_map: CarMap) -> tuple[int, int, int]:
    group, place = car_map.severity(split_key(item.key)[1], item.condition)
    return (PRECEDENCE[item.how], -group, -place)

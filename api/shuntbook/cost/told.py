"""What a car's log tells about each report, for the money: where and when, who drove, what was there before.

Days and drivers come from the times that people and phones put down: they sort what is shown and charge nobody by
themselves. A report's own times are those of the version that was filed first.
"""

from bisect import bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property, partial

from msgspec import Struct

from shuntbook.cost.incidents import Incident, incidents
from shuntbook.fold.report import Report
from shuntbook.fold.versions import Versions
from shuntbook.kit.kept import Kept
from shuntbook.queue.car import CarLog
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import DriverChanged
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.words import UNKNOWN, job_key

HAND_OVER = "hand-over"


class Told(Struct, frozen=True):
    """One report: its body as it stands (of several heads, the one with the smallest id)."""

    report: str
    body: Body
    when: datetime
    person: str
    driver: str | None
    incident: Incident

    @property
    def found_alone(self) -> bool:
        """Found in the workshop, with no hit named that it came from."""
        return self.body.where == "workshop" and self.incident.grouping is None and len(self.incident.reports) == 1


@dataclass(frozen=True)
class Mark:
    """What was there at the hand-over: the worst that stands of a key, with the entries and photos that show it."""

    key: str
    condition: str
    severity: tuple[int, int]
    entries: tuple[str, ...]
    photos: tuple[str, ...]


@dataclass(frozen=True)
class CarTold:
    """The reports of a car by subject, the entries that say what was there before, and the marks of then by key."""

    reports: Mapping[str, Told]
    hand_over_entries: frozenset[str]
    marks: Mapping[str, Mark]
    car_map: CarMap

    def was_there(self, entry: str, key: str, condition: str, how: str) -> bool:
        """Return whether a finding was there at the hand-over: said there, or said again no worse than there.

        A look (condition unknown) is never said again: a new hit asks for it.
        """
        if entry in self.hand_over_entries:
            return True
        known = self.marks.get(key)
        if known is None or how != "direct" or condition == UNKNOWN:
            return False
        return self.car_map.severity(key.partition("/")[2], condition) <= known.severity

    @cached_property
    def incidents(self) -> list[Incident]:
        """Every incident of the car, by name."""
        by_name = {told.incident.incident: told.incident for told in self.reports.values()}
        return [by_name[name] for name in sorted(by_name)]


class Reported(Struct, frozen=True):
    """A report by itself, its body as it stands, who filed it first and when; entries of a hand-over."""

    report: Report
    body: Body
    person: str
    when: datetime
    at_hand_over: tuple[str, ...]


@dataclass(frozen=True)
class ToldMemory:
    """Of one car: each report by itself, each incident, and each report with its incident and driver."""

    reported: Kept[Reported] = field(default_factory=Kept)
    incidents: Kept[Incident] = field(default_factory=Kept)
    told: Kept[Told] = field(default_factory=Kept)


def told_of_car(log: CarLog, car_map: CarMap, kept: ToldMemory | None = None) -> CarTold:
    """Return what a car's log tells about its reports."""
    kept = kept or ToldMemory()
    reported = {
        subject: kept.reported.of(subject, report, partial(_reported, subject, report))
        for subject, report in log.reports.items()
    }
    behind = {subject: one.body.caused_by for subject, one in reported.items()}
    hits = incidents(log.of_kind("incident.grouped"), behind, kept.incidents)
    drivers = Drivers(log.of_kind("driver.changed"))
    reports = {}
    for subject, one in reported.items():
        hit = hits[subject]
        # What is found days later was broken by whoever drove when it was hit.
        driver = drivers.at(min(reported[report].when for report in hit.reports))
        told = partial(Told, subject, one.body, one.when, one.person, driver, hit)
        reports[subject] = kept.told.of(subject, (one, driver, hit), told)
    before = [one for one in reported.values() if one.at_hand_over]
    entries = frozenset(name for one in before for name in one.at_hand_over)
    return CarTold(reports, entries, _marks((one.report.versions for one in before), car_map), car_map)


def _reported(subject: str, report: Report) -> Reported:
    versions = report.versions
    filed = _filed(subject, versions)
    before = tuple([name for name, entry in versions.by_id.items() if _at_hand_over(entry)])
    return Reported(report, _body(versions), filed.person, filed.when, before)


class Drivers:
    """Who drove when, by the `driver.changed` entries."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        changes = sorted((e.when, e.id, e.data.driver) for e in entries if isinstance(e.data, DriverChanged))
        self._times = [when for when, _, _ in changes]
        self._names = [driver for _, _, driver in changes]

    def at(self, when: datetime) -> str | None:
        """Return who drove at that time, None before anybody said."""
        place = bisect_right(self._times, when)
        return self._names[place - 1] if place else None


def _filed(subject: str, versions: Versions) -> Entry:
    """Return the version that was filed first; where it is not here yet, the first that is."""
    return versions.by_id.get(subject) or next(iter(versions.by_id.values()))


def _body(versions: Versions) -> Body:
    for name in versions.heads:
        data = versions.by_id[name].data
        if isinstance(data, Body):
            return data
    return Body()


def _marks(reports: Iterable[Versions], car_map: CarMap) -> dict[str, Mark]:
    found: dict[str, Mark] = {}
    for versions in reports:
        for name in versions.heads:
            entry = versions.by_id[name]
            if _at_hand_over(entry) and isinstance(entry.data, Body):
                for mark in _marks_of(name, entry.data, car_map):
                    known = found.get(mark.key)
                    found[mark.key] = _both(known, mark) if known else mark
    return found


def _marks_of(name: str, body: Body, car_map: CarMap) -> list[Mark]:
    photos = tuple(body.photos)
    return [
        Mark(
            job_key(body.zone, finding.component),
            finding.condition,
            car_map.severity(finding.component, finding.condition),
            (name,),
            photos,
        )
        for finding in body.findings
        if body.zone
    ]


def _both(one: Mark, other: Mark) -> Mark:
    worse = max(one, other, key=lambda mark: mark.severity)
    entries, photos = sorted({*one.entries, *other.entries}), sorted({*one.photos, *other.photos})
    return replace(worse, entries=tuple(entries), photos=tuple(photos))


def _at_hand_over(entry: Entry) -> bool:
    return isinstance(entry.data, Body) and entry.data.where == HAND_OVER

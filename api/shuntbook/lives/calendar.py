"""The events that a car's parts have lived through: in the order they were held, with the stages that each car ran."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from functools import cached_property
from zoneinfo import ZoneInfo

from shuntbook.cost.driven import ran
from shuntbook.fold.versions import versions_of
from shuntbook.kit.times import day_in, is_plausible, within_reach
from shuntbook.queue.car import CarLog, car_log
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import REPORT_KINDS, ServiceEntered, ServiceLeft, StageNothingSeen
from shuntbook.setup.event import Event
from shuntbook.setup.folder import Setup


@dataclass(frozen=True)
class Logged:
    """An event as it is held: its set-up, and the entries of each of its cars."""

    setup: Setup
    cars: Mapping[str, Sequence[Entry]]

    @property
    def event(self) -> Event:
        """The event."""
        return self.setup.event

    @cached_property
    def days(self) -> tuple[date, date] | None:
        """The first and the last day, by the services' times and the log; None where neither says one."""
        zone = self.event.timezone
        arrivals = [day_in(service.arrive, zone) for service in self.event.services if service.arrive]
        told = [day_in(at, zone) for log in self.cars.values() for entry in log if is_plausible(at := entry.when)]
        every = sorted(arrivals or told)
        # What is typed in weeks later is no day of the event; where no service has a time, nothing else tells.
        return (every[0], every[-1]) if every else None


@dataclass(frozen=True)
class CarRun:
    """One car at one event: its log, and for each stage whether the car ran it or is still to run it."""

    logged: Logged
    car: str
    log: CarLog
    runs: Sequence[bool]

    @cached_property
    def started(self) -> bool:
        """Whether the log says anything of the car; an event that it says nothing of counts for nothing."""
        return bool(self.log.entries)

    def done_by(self, when: datetime) -> int:
        """Return how many stages lay behind the car then: up to the last that was told of, or before a service."""
        return max((place + 1 for at, place in self._told if at <= when), default=0)

    @property
    def done(self) -> int:
        """How many stages lie behind the car, as far as the log says."""
        return max((place + 1 for _, place in self._told), default=0)

    @cached_property
    def _told(self) -> list[tuple[datetime, int]]:
        places = [*_reported(self.log.entries), *_named(self.log.entries, self.logged.event)]
        found = [(when, self.logged.event.stage_index(stage)) for when, stage in places]
        return [(when, place) for when, place in found if place is not None]


def calendar(events: Iterable[Logged], until: str) -> list[Logged]:
    """Return the events in the order they were held, up to and with `until`."""

    def begins(logged: Logged) -> tuple[date, str]:
        return (logged.days[0] if logged.days else date.max, logged.event.event)

    ordered = sorted(events, key=begins)
    place = next(place for place, logged in enumerate(ordered) if logged.event.event == until)
    return ordered[: place + 1]


def car_run(logged: Logged, car: str) -> CarRun:
    """Return one car at one event."""
    log = car_log(logged.cars.get(car, ()), logged.setup)
    return CarRun(logged, car, log, ran(log, logged.event))


def midnight(day: date, event: Event) -> datetime:
    """Return the beginning of a day of an event: what was fitted on it was fitted before its first stage."""
    return within_reach(datetime.combine(day, time(), ZoneInfo(event.timezone)))


def heads_of(entries: Sequence[Entry]) -> list[tuple[datetime, Entry]]:
    """Return the versions of reports that stand, each with when its report was first put down."""
    found = []
    for subject in {entry.subject for entry in entries if entry.kind in REPORT_KINDS}:
        versions = versions_of(entry for entry in entries if entry.subject == subject and entry.kind in REPORT_KINDS)
        first = min(entry.when for entry in versions.by_id.values())
        found += [(first, versions.by_id[name]) for name in versions.heads]
    return sorted(found, key=lambda one: (one[0], one[1].id))


def _reported(entries: Sequence[Entry]) -> list[tuple[datetime, str]]:
    bodies = [(when, entry.data) for when, entry in heads_of(entries) if isinstance(entry.data, Body)]
    return [(when, body.stage) for when, body in bodies if body.stage is not None and body.where == "stage"]


def _named(entries: Sequence[Entry], event: Event) -> list[tuple[datetime, str]]:
    found = [(entry.when, entry.data.stage) for entry in entries if isinstance(entry.data, StageNothingSeen)]
    for entry in entries:
        if isinstance(entry.data, ServiceEntered | ServiceLeft):
            place = event.service_index(entry.data.service)
            found += [(entry.when, event.services[place].after)] if place is not None else []
    return found

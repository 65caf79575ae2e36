"""Everything of one car that its documents are made of, with what stands in it picked out by kind."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import cached_property
from typing import Any, TypeVar

from shuntbook.fold.voids import standing
from shuntbook.kit.times import instant, is_plausible
from shuntbook.lives.answer import Life
from shuntbook.queue.answer import Job, Queue
from shuntbook.queue.car import CarLog, car_log
from shuntbook.report.entry import Entry
from shuntbook.setup.folder import Setup

Json = dict[str, Any]
Kind = TypeVar("Kind")


@dataclass(frozen=True)
class Kept:
    """What the store keeps beside an entry: when it was received, and when it was said if typed in later."""

    received_at: str = ""
    said_at: str = ""


@dataclass(frozen=True)
class CarFile:
    """One car's set-up, log and queue. `kept` by entry id; `used`: parts used by all cars; `photos`: those held.

    lives: the parts that have a life, for a paper that tells of them.
    """

    setup: Setup
    car: str
    entries: tuple[Entry, ...]
    queue: Queue
    kept: Mapping[str, Kept] = field(default_factory=dict)
    used: Mapping[str, Any] = field(default_factory=dict)
    photos: frozenset[str] = frozenset()
    lives: tuple[Life, ...] = ()

    @cached_property
    def standing(self) -> list[Entry]:
        """The entries that nobody took back, by the time that they were written."""
        return by_time(standing(self.entries, self.setup.event))

    @cached_property
    def _by_kind(self) -> dict[type, list[Entry]]:
        # Looked up for each entry of a record: once through the log for each would cost its square.
        groups: dict[type, list[Entry]] = {}
        for entry in self.standing:
            groups.setdefault(type(entry.data), []).append(entry)
        return groups

    @cached_property
    def log(self) -> CarLog:
        """The same, sorted by what they are about."""
        return car_log(self.entries, self.setup)

    @cached_property
    def jobs(self) -> dict[str, Job]:
        """The queue's jobs by key, in the queue's order."""
        return {job.job: job for job in self.queue.jobs}

    def of(self, kind: type[Kind]) -> list[tuple[Entry, Kind]]:
        """Return the entries that stand of one kind, with their data, by time."""
        return [(entry, entry.data) for entry in self._by_kind.get(kind, []) if isinstance(entry.data, kind)]

    def last(self, kind: type[Kind]) -> tuple[Entry, Kind] | None:
        """Return the newest entry that stands of one kind."""
        found = self.of(kind)
        return found[-1] if found else None

    @property
    def newest(self) -> datetime:
        """When the newest entry was written: the date of what is made of the log. A clock gone mad dates no paper."""
        times = (instant(entry.at) for entry in self.entries)
        return max(filter(is_plausible, times), default=datetime(2000, 1, 1, tzinfo=UTC))


def by_time(entries: Iterable[Entry]) -> list[Entry]:
    """Sort entries by when they were written; ids settle what is equal."""
    return sorted(entries, key=lambda entry: (instant(entry.at), entry.id))

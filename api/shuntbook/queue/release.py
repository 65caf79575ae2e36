"""Hold or nothing open: what the log says about letting the car go. It never says more than the log holds."""

from collections.abc import Iterable, Sequence
from typing import Literal

from msgspec import UNSET, Struct, UnsetType

from shuntbook.queue.job import Job
from shuntbook.report.entry import Entry
from shuntbook.report.working import CarReleased
from shuntbook.setup.event import Event

Needs = Literal["review", "re-inspection", "official", "inspection"]


class HoldReason(Struct, frozen=True):
    """Why a car is on hold; job is null for entries set aside."""

    job: str | None
    needs: Needs
    entries: list[str]
    more: int | UnsetType = UNSET
    """How many more there are than `entries` names; absent where it names all."""

    @property
    def count(self) -> int:
        """How many entries are behind it."""
        return len(self.entries) + (0 if self.more is UNSET else self.more)


class ReleasedUnseen(Struct, frozen=True):
    """Safety-critical findings that a release did not cover."""

    released: str
    service: str
    job: str
    entries: list[str]


def hold_reasons(jobs: Sequence[Job], set_aside: Iterable[str], more: int = 0) -> list[HoldReason]:
    """Return why the car is on hold, in the queue's order; an empty list means nothing open in the log.

    set_aside: ids (or digests) of entries that a manager has still to look at; they come first.
    more: how many more there are, where they are too many to be named.
    """
    review = sorted(set(set_aside))
    reasons = [HoldReason(None, "review", review, more or UNSET)] if review else []
    for job in jobs:
        if job.safety_critical and job.inspection != "passed":
            reasons.append(HoldReason(job.job, _needs(job), job.uncovered))
    return reasons


def _needs(job: Job) -> Needs:
    if job.inspection == "failed":
        return "re-inspection"
    return "official" if job.group == "cage" else "inspection"


def released_unseen(jobs: Sequence[Job], releases: Iterable[Entry], event: Event) -> list[ReleasedUnseen]:
    """Return safety-critical findings from before a service that its release did not cover, nor any pass.

    releases: the car's `car.released` entries that stand. Sorted by (released, job).
    """
    facts = sorted((entry.id, entry.data) for entry in releases if isinstance(entry.data, CarReleased))
    seen = frozenset(name for _, data in facts for name in data.covers)
    missed = [(job.job, _missed(job, seen, event)) for job in jobs if job.safety_critical] if facts else []
    found = []
    for released, data in facts:
        last = _last_stage_before(data.service, event)
        for job, places in sorted(missed):
            entries = sorted({entry for entry, place in places if place is None or place <= last})
            if entries:
                found.append(ReleasedUnseen(released, data.service, job, entries))
    return found


def _missed(job: Job, seen: frozenset[str], event: Event) -> list[tuple[str, int | None]]:
    """Return the job's findings that neither a pass nor a release covers, each with its stage's place."""
    return [(item.entry, event.stage_index(item.stage)) for item in job.unpassed if seen.isdisjoint(item.covered_by)]


def _last_stage_before(service: str, event: Event) -> int:
    """Return the place of the stage that the service follows; -1 where it comes before all, or is not known."""
    known = event.service_index(service)
    after = event.stage_index(event.services[known].after) if known is not None else None
    return -1 if after is None else after

"""The queue as phones, commands, plans and documents read it, with its hash.

The hash is the SHA-256 of the queue's JSON without `hash`, in the form of RFC 8785.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Annotated, Literal

from msgspec import Meta, Struct
from msgspec.structs import asdict, replace

from shuntbook.kit.canonical import plain, sha256
from shuntbook.kit.money import quantity, two_decimals
from shuntbook.queue.estimate import Estimate as Rated
from shuntbook.queue.estimate import estimate, inspect_access
from shuntbook.queue.job import OVER, Inspection, State
from shuntbook.queue.job import Job as Folded
from shuntbook.queue.rank import Ranked, rank, with_next_inspections
from shuntbook.queue.release import HoldReason, ReleasedUnseen, hold_reasons, released_unseen
from shuntbook.queue.totals import QueueTotals, Withholdable, totals
from shuntbook.report.entry import Entry
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Rates
from shuntbook.setup.words import Condition


class PartShort(Struct, frozen=True):
    """A part that a job needs; short is what the van lacks of it."""

    part: str
    qty: float
    unit_cost: Annotated[str, Withholdable]
    short: Annotated[float, Meta(extra_json_schema={"type": ["number", "null"]})]


class Estimate(Struct, frozen=True):
    """What a job takes by the rate table; access left out. Money as text with the currency's decimals."""

    minutes_best: float
    minutes_likely: float
    minutes_worst: float
    minutes_expected: float
    mechanics: int
    access: list[str]
    labour: Annotated[str, Withholdable]
    parts: list[PartShort]
    parts_cost: Annotated[str, Withholdable]
    total: Annotated[str, Withholdable]
    currency: str


class Job(Struct, frozen=True):
    """A job of the repair queue."""

    job: str
    zone: str
    component: str
    group: str | None
    safety_critical: bool
    must_do: bool
    condition: Condition
    action: str
    no_rate: bool
    knock_on: bool
    retracted: bool
    state: State
    inspection: Inspection
    findings: list[str]
    uncovered: list[str]
    reports: list[str]
    photos: list[str]
    two_versions: bool
    estimate: Estimate

    @property
    def over(self) -> bool:
        """Whether nothing is left to repair."""
        return self.state in OVER

    @property
    def to_inspect(self) -> bool:
        """Whether it is safety-critical and an inspector has still to pass it."""
        return self.inspection in ("needed", "failed")


class _Verdict(Struct, frozen=True, kw_only=True):
    """Hold or nothing open, and why. Keyword-only fields of a base follow a class's own in JSON."""

    release: Literal["hold", "nothing-open"]
    hold_reasons: list[HoldReason]
    released_unseen: list[ReleasedUnseen]


class _OfCar(_Verdict, frozen=True):
    """What a queue and a release begin with: whose they are, and what they were made of."""

    event: str
    car: str
    entries: int
    rates: str


class Release(_OfCar, frozen=True):
    """What the log says about letting a car go: hold, or nothing open in the log."""

    hash: str


class _Content(_OfCar, frozen=True, kw_only=True):
    """All of a queue that its hash is made of."""

    jobs: list[Job]
    totals: QueueTotals


class Queue(_Content, frozen=True, kw_only=True):
    """The repair queue of a car."""

    hash: str


@dataclass(frozen=True)
class Standing:
    """Everything of one car that its queue is made of.

    entries: how many entries of this event and car there are; used: parts used by all cars of the event;
    releases: `car.released` entries that stand; set_aside: entries that a manager has still to look at,
    and set_aside_more: how many there are beyond those.
    """

    car: str
    entries: int
    jobs: Sequence[Folded]
    used: Mapping[str, Decimal]
    releases: Sequence[Entry]
    set_aside: Sequence[str]
    set_aside_more: int = 0


def queue_answer(standing: Standing, setup: Setup) -> Queue:
    """Return the queue of one car."""
    rates = setup.rates
    pairs = [(job, _rated(job, setup)) for job in standing.jobs]
    ranked = with_next_inspections(rank(pairs, _stock(standing, setup)), setup.car_map, rates)
    jobs = [item.job for item in ranked]
    reasons = hold_reasons(jobs, standing.set_aside, standing.set_aside_more)
    content = _Content(
        event=setup.event.event,
        car=standing.car,
        entries=standing.entries,
        rates=rates.version,
        release="hold" if reasons else "nothing-open",
        hold_reasons=reasons,
        released_unseen=released_unseen(jobs, standing.releases, setup.event),
        jobs=[_job(item, rates) for item in ranked],
        totals=totals(ranked, rates),
    )
    return Queue(**asdict(content), hash=sha256(plain(content)))


def release_answer(queue: Queue) -> Release:
    """Return what a queue says about letting the car go."""
    return Release(**{field: getattr(queue, field) for field in Release.__struct_fields__})


def _job(item: Ranked, rates: Rates) -> Job:
    job = item.job
    return Job(
        job=job.job,
        zone=job.zone,
        component=job.component,
        group=job.group,
        safety_critical=job.safety_critical,
        must_do=item.must_do,
        condition=job.condition,
        action=item.estimate.action,
        no_rate=item.estimate.no_rate,
        knock_on=job.knock_on,
        retracted=job.retracted,
        state=job.state,
        inspection=job.inspection,
        findings=job.findings,
        uncovered=job.uncovered,
        reports=job.reports,
        photos=job.photos,
        two_versions=job.two_versions,
        estimate=_estimate(item, rates),
    )


def _estimate(item: Ranked, rates: Rates) -> Estimate:
    fixed = _fixed(item.estimate, rates)
    if not fixed.parts:
        return fixed
    return replace(fixed, parts=[replace(part, short=quantity(item.short[part.part])) for part in fixed.parts])


@lru_cache(maxsize=8192)
def _fixed(est: Rated, rates: Rates) -> Estimate:
    """Return an estimate as it is wherever the job stands in the queue: with nothing short yet."""
    text = rates.currency.text
    parts = [
        PartShort(part, quantity(qty), text(rates.parts[part].unit_cost), short=0) for part, qty in est.parts.items()
    ]
    return Estimate(
        minutes_best=two_decimals(est.minutes.best),
        minutes_likely=two_decimals(est.minutes.likely),
        minutes_worst=two_decimals(est.minutes.worst),
        minutes_expected=two_decimals(est.minutes.expected),
        mechanics=est.mechanics,
        access=list(est.access),
        labour=text(est.labour),
        parts=parts,
        parts_cost=text(est.parts_cost),
        total=text(est.total),
        currency=rates.currency.code,
    )


def _rated(job: Folded, setup: Setup) -> Rated:
    access = inspect_access(job.zone, job.component, setup.car_map, setup.rates)
    return estimate(job.zone, job.component, job.group, job.condition, setup.rates, access)


def _stock(standing: Standing, setup: Setup) -> dict[str, Decimal]:
    return {part: max(Decimal(0), loaded - standing.used.get(part, Decimal(0))) for part, loaded in setup.van.items()}

"""The order of the queue, and which parts run short in that order."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from shuntbook.queue.estimate import Estimate, next_inspection
from shuntbook.queue.job import OVER, Job
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.rates import Rates
from shuntbook.setup.words import UNKNOWN


@dataclass(frozen=True)
class Ranked:
    """A job with its estimate, in the queue's order; `short` is what the van lacks of each part."""

    job: Job
    estimate: Estimate
    short: Mapping[str, Decimal]

    @property
    def must_do(self) -> bool:
        """Whether the car should not go out without it."""
        return must_do(self.job, self.estimate)

    @property
    def over(self) -> bool:
        """Whether nothing is left to repair."""
        return self.job.state in OVER


def must_do(job: Job, estimate: Estimate) -> bool:
    """Return whether a job must be done: safety-critical and not passed, or the rate table's row says so."""
    if job.safety_critical and job.inspection != "passed":
        return True
    return estimate.row_must_do and job.state not in OVER


def rank(pairs: Iterable[tuple[Job, Estimate]], stock: Mapping[str, Decimal]) -> list[Ranked]:
    """Order jobs with their estimates, and hand out the van's stock in that order.

    Finished and accepted last; safety-critical first; then must-do; then value per mechanic-minute; then
    the key by code point.
    """
    left = dict(stock)
    return [Ranked(job, est, _take(job, est, left)) for job, est in sorted(pairs, key=_order)]


def with_next_inspections(ranked: Iterable[Ranked], car_map: CarMap, rates: Rates) -> list[Ranked]:
    """Return the queue with the rate table's shorter minutes for each further inspection in a zone of the car map.

    Of the jobs of a zone that are to be inspected and not over, the first in the order keeps its minutes. Inspections
    have no value, so that the order stays as it is.
    """
    inspected: set[str] = set()
    return [_as_next(item, inspected, car_map, rates) for item in ranked]


def _as_next(item: Ranked, inspected: set[str], car_map: CarMap, rates: Rates) -> Ranked:
    zone = item.job.zone
    if item.over or item.job.condition != UNKNOWN or zone not in car_map.zones:
        return item
    further = next_inspection(item.estimate.access, rates) if zone in inspected else None
    inspected.add(zone)
    return replace(item, estimate=further) if further else item


def _order(pair: tuple[Job, Estimate]) -> tuple[bool, bool, bool, tuple[float, Fraction], str]:
    job, est = pair
    return (
        job.state in OVER,
        not job.safety_critical,
        not must_do(job, est),
        est.worth_falling,
        job.job,
    )


def _take(job: Job, est: Estimate, left: dict[str, Decimal]) -> dict[str, Decimal]:
    if job.state in OVER:
        return {part: Decimal(0) for part in est.parts}
    short = {}
    for part, qty in est.parts.items():
        have = left.get(part, Decimal(0))
        short[part] = max(Decimal(0), qty - have)
        left[part] = max(Decimal(0), have - qty)
    return short

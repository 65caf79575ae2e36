"""The queue as phones, commands and files read it: one JSON value with its hash."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from shuntbook.kit.canonical import plain, sha256
from shuntbook.kit.money import quantity, two_decimals
from shuntbook.queue.estimate import Estimate, estimate
from shuntbook.queue.job import Job
from shuntbook.queue.rank import Ranked, rank
from shuntbook.queue.release import Json, hold_reasons, released_unseen
from shuntbook.queue.totals import totals
from shuntbook.report.entry import Entry
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Rates


@dataclass(frozen=True)
class Standing:
    """Everything of one car that its queue is made of.

    entries: how many entries of this event and car there are; used: parts used by all cars of the event;
    releases: `car.released` entries that stand; set_aside: entries that a manager has still to look at.
    """

    car: str
    entries: int
    jobs: Sequence[Job]
    used: Mapping[str, Decimal]
    releases: Sequence[Entry]
    set_aside: Sequence[str]


def queue_answer(standing: Standing, setup: Setup) -> Json:
    """Return the queue of one car as JSON, with `hash`: SHA-256 of its RFC 8785 form without `hash`."""
    ranked = rank(
        [(job, _estimate(job, setup.rates)) for job in standing.jobs],
        _stock(standing, setup),
    )
    jobs = [item.job for item in ranked]
    reasons = hold_reasons(jobs, standing.set_aside)
    answer: Json = {
        "event": setup.event.event,
        "car": standing.car,
        "entries": standing.entries,
        "rates": setup.rates.version,
        "release": "hold" if reasons else "nothing-open",
        "hold_reasons": reasons,
        "released_unseen": released_unseen(jobs, standing.releases, setup.event),
        "jobs": [job_json(item, setup.rates) for item in ranked],
        "totals": totals(ranked, setup.rates),
    }
    return {**answer, "hash": sha256(plain(answer))}


def release_answer(queue: Json) -> Json:
    """Return what a queue says about letting the car go."""
    fields = (
        "event",
        "car",
        "entries",
        "rates",
        "hash",
        "release",
        "hold_reasons",
        "released_unseen",
    )
    return {field: queue[field] for field in fields}


def job_json(item: Ranked, rates: Rates) -> Json:
    """Return one job of the queue as JSON."""
    job = item.job
    return {
        "job": job.job,
        "zone": job.zone,
        "component": job.component,
        "group": job.group,
        "safety_critical": job.safety_critical,
        "must_do": item.must_do,
        "condition": job.condition,
        "action": item.estimate.action,
        "no_rate": item.estimate.no_rate,
        "knock_on": job.knock_on,
        "retracted": job.retracted,
        "state": job.state,
        "inspection": job.inspection,
        "findings": job.findings,
        "uncovered": job.uncovered,
        "reports": job.reports,
        "photos": job.photos,
        "two_versions": job.two_versions,
        "estimate": _estimate_json(item, rates),
    }


def _estimate_json(item: Ranked, rates: Rates) -> Json:
    fixed, parts = _fixed_json(item.estimate, rates)
    if not parts:
        return fixed
    return {**fixed, "parts": [{**part, "short": quantity(item.short[part["part"]])} for part in parts]}


@lru_cache(maxsize=8192)
def _fixed_json(est: Estimate, rates: Rates) -> tuple[Json, list[Json]]:
    """Return what of an estimate stays the same wherever the job stands in the queue, and its parts."""
    text = rates.currency.text
    parts = [
        {"part": part, "qty": quantity(qty), "unit_cost": text(rates.parts[part].unit_cost)}
        for part, qty in est.parts.items()
    ]
    fixed = {
        "minutes_best": two_decimals(est.minutes.best),
        "minutes_likely": two_decimals(est.minutes.likely),
        "minutes_worst": two_decimals(est.minutes.worst),
        "minutes_expected": two_decimals(est.minutes.expected),
        "mechanics": est.mechanics,
        "access": list(est.access),
        "labour": text(est.labour),
        "parts": [],
        "parts_cost": text(est.parts_cost),
        "total": text(est.total),
        "currency": rates.currency.code,
    }
    return fixed, parts


def _estimate(job: Job, rates: Rates) -> Estimate:
    return estimate(job.zone, job.component, job.group, job.condition, rates)


def _stock(standing: Standing, setup: Setup) -> dict[str, Decimal]:
    return {part: max(Decimal(0), loaded - standing.used.get(part, Decimal(0))) for part, loaded in setup.van.items()}

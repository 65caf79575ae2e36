"""Shows a job's estimate, and the totals of the jobs that are left."""

from fractions import Fraction
from typing import Any

from .carmap import component_of, zone_of
from .folder import Folder
from .jobs import Job
from .money import (
    decimals_of,
    done_with,
    expected,
    half_up,
    labour,
    mechanics_of,
    minutes_of,
    money,
    number,
    parts_needed,
    row_of,
    split,
)


def job_labour(folder: Folder, job: Job) -> Fraction:
    """A job's labour line: expected minutes of all its mechanics."""
    return labour(folder, expected(minutes_of(folder, job)) * mechanics_of(folder, job))


def job_parts_cost(folder: Folder, job: Job) -> Fraction:
    """A job's line of parts: quantities by unit costs, exact, the sum rounded once."""
    needed = parts_needed(row_of(folder, job))
    exact = sum((qty * Fraction(folder.parts[part]["unit_cost"]) for part, qty in needed.items()), Fraction(0))
    return half_up(exact, decimals_of(folder.rates["currency"]))


def access_of(folder: Folder, job: Job) -> list[Any]:
    """The access steps that the job's row lists, or that an inspection needs, ascending."""
    row = row_of(folder, job)
    if row:
        return sorted(set(split(row["access"])))
    return sorted(set(inspection_access(folder, job))) if job.condition == "unknown" else []


def inspection_access(folder: Folder, job: Job) -> list[Any]:
    """What an inspection needs open: as the component says, whatever the zone, else by the kind of the zone."""
    component: dict[str, Any] = folder.car_map.get("components", {}).get(component_of(job.key), {})
    by_kind: dict[str, Any] = folder.rates.get("inspect_access", {})
    kind = folder.car_map.get("zones", {}).get(zone_of(job.key), {}).get("kind")
    steps: list[Any] = component["inspect_access"] if "inspect_access" in component else by_kind.get(kind, [])
    return steps


def parts_shown(folder: Folder, job: Job, short: dict[tuple[str, str], Fraction]) -> list[Any]:
    """The job's parts, ascending by name."""
    currency = folder.rates["currency"]
    return [
        {
            "part": part,
            "qty": number(qty),
            "unit_cost": money(Fraction(folder.parts[part]["unit_cost"]), currency),
            "short": number(short[job.key, part]),
        }
        for part, qty in sorted(parts_needed(row_of(folder, job)).items())
    ]


def estimate(folder: Folder, job: Job, short: dict[tuple[str, str], Fraction]) -> dict[str, Any]:
    """Minutes, people, access, parts and money of a job; access is named but not in the money."""
    minutes = minutes_of(folder, job)
    currency = folder.rates["currency"]
    work, parts_cost = job_labour(folder, job), job_parts_cost(folder, job)
    return {
        "minutes_best": number(minutes[0]),
        "minutes_likely": number(minutes[1]),
        "minutes_worst": number(minutes[2]),
        "minutes_expected": number(expected(minutes)),
        "mechanics": mechanics_of(folder, job),
        "access": access_of(folder, job),
        "labour": money(work, currency),
        "parts": parts_shown(folder, job, short),
        "parts_cost": money(parts_cost, currency),
        "total": money(work + parts_cost, currency),
        "currency": currency,
    }


def access_steps(folder: Folder, jobs: list[Any]) -> list[Any]:
    """The steps that some jobs need, each once: once for the car, or once a zone, as (step, zone or "")."""
    steps = set()
    for job in jobs:
        for step in access_of(folder, job):
            steps.add((step, zone_of(job.key) if folder.access[step]["per"] == "zone" else ""))
    return sorted(steps)


def step_minutes(folder: Folder, step: str) -> Fraction:
    """Mechanic-minutes to open and close a step."""
    row = folder.access[step]
    return (Fraction(row["minutes_open"]) + Fraction(row["minutes_close"])) * int(row["mechanics"])


def totals(folder: Folder, jobs: list[Any]) -> dict[str, Any]:
    """Sums over the jobs neither finished nor accepted; totals add rounded lines, minutes are exact until shown."""
    left = [job for job in jobs if not done_with(job)]
    steps = access_steps(folder, left)
    access_minutes = sum((step_minutes(folder, step) for step, _ in steps), Fraction(0))
    work_minutes = [expected(minutes_of(folder, job)) * mechanics_of(folder, job) for job in left]
    work = sum((job_labour(folder, job) for job in left), Fraction(0))
    work += sum((labour(folder, step_minutes(folder, step)) for step, _ in steps), Fraction(0))
    parts_cost = sum((job_parts_cost(folder, job) for job in left), Fraction(0))
    currency = folder.rates["currency"]
    return {
        "mechanic_minutes": number(sum(work_minutes, Fraction(0)) + access_minutes),
        "access_minutes": number(access_minutes),
        "labour": money(work, currency),
        "parts_cost": money(parts_cost, currency),
        "total": money(work + parts_cost, currency),
    }

"""Reads an event folder's queue for one car, as the JSON dict with its hash."""

import hashlib
import json
from pathlib import Path
from typing import Any

from .entries import without_undone
from .estimates import estimate, totals
from .findings import with_said
from .folder import Folder, read_folder
from .jobs import jobs_of, shown
from .money import action_of, must_do, ordered, row_of, shortages, with_further
from .release import hold_reasons, released_unseen


def queue(folder: Path, event: str, car: str, default_car_map: Path | None) -> dict[str, Any]:
    """The queue of one car of the event in the folder; `default_car_map` is the package's own map."""
    read = with_said(without_undone(read_folder(folder, event, car, default_car_map)))
    jobs = with_further(read, ordered(read, jobs_of(read)))
    reasons = hold_reasons(jobs)
    answer = {
        "event": event,
        "car": car,
        "entries": read.count,
        "rates": read.rates_version,
        "release": "hold" if reasons else "nothing-open",
        "hold_reasons": reasons,
        "released_unseen": released_unseen(read, jobs),
        "jobs": jobs_shown(read, jobs),
        "totals": totals(read, jobs),
    }
    return answer | {"hash": hash_of(answer)}


def jobs_shown(read: Folder, jobs: list[Any]) -> list[Any]:
    """The jobs in queue order, each with its estimate."""
    short = shortages(read, jobs)
    return [
        shown(read, job)
        | {
            "must_do": must_do(read, job),
            "action": action_of(read, job),
            "no_rate": job.condition != "unknown" and row_of(read, job) is None,
            "estimate": estimate(read, job, short),
        }
        for job in jobs
    ]


def hash_of(answer: dict[str, Any]) -> str:
    """SHA-256 of the queue without its hash, in the canonical form of RFC 8785."""
    return hashlib.sha256(canonical(answer).encode("utf-8")).hexdigest()


def canonical(value: object) -> str:
    """JSON by RFC 8785: names sorted by UTF-16 unit, no spaces, letters as they are, numbers in their shortest form.

    Good for what a queue holds: text, truth values, null, whole numbers, and floats of two decimals.
    """
    if isinstance(value, dict):
        names = sorted(value, key=lambda name: name.encode("utf-16-be"))
        return "{" + ",".join(f"{canonical(name)}:{canonical(value[name])}" for name in names) + "}"
    if isinstance(value, list):
        return "[" + ",".join(canonical(one) for one in value) + "]"
    if isinstance(value, float):
        return repr(value)
    return json.dumps(value, ensure_ascii=False)

"""A plan as JSON: tasks on a clock with people, what is left out and why, what minutes buy."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shuntbook.plan.build import Built
from shuntbook.plan.ontime import Chance
from shuntbook.plan.problem import GRID_S, Placed, Schedule

Json = dict[str, Any]


@dataclass(frozen=True)
class Later:
    """What leaving so many minutes late buys: the jobs that come in, the penalty in seconds."""

    leave_late_min: int
    penalty_s: int
    adds: tuple[str, ...]


@dataclass(frozen=True)
class Needs:
    """The least that the musts take: minutes control to control, minutes late, penalty; None: past the limit."""

    minutes: int
    leave_late_min: int
    penalty_s: int | None


def plan_answer(
    queue: Json,
    service: str,
    minutes: int,
    built: Built,
    schedule: Schedule,
    chance: Chance,
    needs: Needs | None,
    later: Sequence[Later],
) -> Json:
    """Return a plan as phones and commands read it."""
    problem = built.problem
    return {
        "event": queue["event"],
        "car": queue["car"],
        "service": service,
        "minutes": minutes,
        "rates": queue["rates"],
        "queue": queue["hash"],
        "stale": False,
        "proven": schedule.proven,
        "by": schedule.by,
        "finish_s": schedule.finish * GRID_S,
        "spare_s": (problem.horizon - schedule.finish) * GRID_S,
        "on_time": round(chance.on_time, 3),
        "tasks": [_task(built, item, chance) for item in _in_order(schedule)],
        "left_out": left_out(queue, built, schedule),
        "needs": None if needs is None else vars(needs),
        "later": [{**vars(item), "adds": list(item.adds)} for item in later],
    }


def groups_in(built: Built, schedule: Schedule) -> frozenset[str]:
    """Return the jobs and routine work that are in a plan."""
    return frozenset(built.problem.tasks[item.task].group for item in schedule.placed) - {""}


def left_out(queue: Json, built: Built, schedule: Schedule) -> list[Json]:
    """Return what is not in the plan, why, and which of its parts to put in the car, in the queue's order."""
    inside = groups_in(built, schedule)
    names = [job["job"] for job in queue["jobs"]]
    reasons: Mapping[str, str] = built.left_out
    found = []
    for group in sorted(
        {*built.problem.groups, *reasons} - inside,
        key=lambda g: (g not in names, names.index(g) if g in names else 0, g),
    ):
        job = next((job for job in queue["jobs"] if job["job"] == group), None)
        found.append({"job": group, "reason": reasons.get(group, "no time for it"), "put_in_car": _aboard(job)})
    return found


def _aboard(job: Json | None) -> list[Json]:
    """Return the parts of a job that the van has: the crew may need them on the road."""
    parts = job["estimate"]["parts"] if job is not None else []
    return [{"part": part["part"], "qty": part["qty"]} for part in parts if not part["short"]]


def _in_order(schedule: Schedule) -> list[Placed]:
    return sorted(schedule.placed, key=lambda item: (item.start, item.end, item.task))


def _task(built: Built, item: Placed, chance: Chance) -> Json:
    task = built.problem.tasks[item.task]
    return {
        "task": task.name,
        "kind": task.kind,
        "job": task.job,
        "step": task.step,
        "start_s": item.start * GRID_S,
        "end_s": item.end * GRID_S,
        "people": [built.problem.workers[worker].person for worker in item.workers],
        "zone": task.zone,
        "critical": round(chance.critical.get(item.task, 0.0), 2),
    }

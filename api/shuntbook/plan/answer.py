"""A plan as JSON: tasks on a clock with people, what is left out and why, what minutes and hands buy."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from shuntbook.plan.build import Built
from shuntbook.plan.carry import carried
from shuntbook.plan.namable import TOO_FEW, can_be_named
from shuntbook.plan.ontime import Chance
from shuntbook.plan.problem import GRID_S, Placed, Schedule
from shuntbook.queue.answer import Queue
from shuntbook.setup.folder import Setup

Json = dict[str, Any]


@dataclass(frozen=True)
class Later:
    """What leaving so many minutes late buys: jobs that come in and drop out, the penalty in seconds."""

    leave_late_min: int
    penalty_s: int
    adds: tuple[str, ...]
    drops: tuple[str, ...]
    proven: bool


@dataclass(frozen=True)
class Needs:
    """The least that the musts take: minutes control to control, minutes late, penalty; None: past the limit."""

    minutes: int
    leave_late_min: int
    penalty_s: int | None


@dataclass(frozen=True)
class Hands:
    """What another number of mechanics changes: jobs that come in and drop out, when the work ends."""

    mechanics: int
    adds: tuple[str, ...]
    drops: tuple[str, ...]
    finish_s: int
    proven: bool


@dataclass(frozen=True)
class Frame:
    """What a plan stands in: the service, its clock, the lateness that the log has and the rules allow."""

    service: str
    minutes: int
    work_units: int
    entered_at: str | None
    due_out: str | None
    now_units: int
    used_min: int
    left_min: int
    late_s: int
    early_s: int
    last_service: bool
    offset: int = 0


@dataclass(frozen=True)
class Buys:
    """What minutes and hands buy; `settled` False: it is still being worked out."""

    needs: Needs | None = None
    later: Sequence[Later] = ()
    hands: Sequence[Hands] = ()
    settled: bool = False


def plan_answer(
    queue: Queue,
    setup: Setup,
    frame: Frame,
    built: Built,
    schedule: Schedule,
    chance: Chance,
    buys: Buys,
    done: Sequence[Any] = (),
) -> Json:
    """Return a plan as phones and commands read it; times in seconds from when the car came in."""
    car = queue.car
    mine = [item for item in _in_order(schedule) if built.problem.tasks[item.task].car == car]
    finish = max((item.end for item in mine), default=frame.offset) - frame.offset
    return {
        "event": queue.event,
        "car": car,
        "service": frame.service,
        "minutes": frame.minutes,
        "rates": queue.rates,
        "queue": queue.hash,
        "stale": False,
        "proven": schedule.proven,
        "by": schedule.by,
        "finish_s": finish * GRID_S,
        "spare_s": max(0, frame.work_units - finish) * GRID_S,
        "on_time": round(chance.on_time.get(car, 1.0), 3),
        "tasks": [told for item in mine for told in _told(built, schedule, item, chance, frame)],
        "left_out": left_out(queue, setup, built, schedule, last_service=frame.last_service),
        "needs": None if buys.needs is None else asdict(buys.needs),
        "later": [_lists(item) for item in buys.later],
        "settled": buys.settled,
        "work_s": frame.work_units * GRID_S,
        "entered_at": frame.entered_at,
        "due_out": frame.due_out,
        "now_s": frame.now_units * GRID_S,
        "people": [
            {"person": w.person, "mechanic": w.mechanic, "inspector": w.inspector, "from_s": w.from_unit * GRID_S}
            for w in built.problem.workers
        ],
        "done": [asdict(item) for item in done],
        "hands": [_lists(item) for item in buys.hands],
        "lateness": {
            "used_min": frame.used_min,
            "left_min": frame.left_min,
            "late_penalty_s_per_minute": frame.late_s,
            "early_penalty_s_per_minute": frame.early_s,
        },
    }


def left_out(queue: Queue, setup: Setup, built: Built, schedule: Schedule, *, last_service: bool) -> list[Json]:
    """Return what is not in the plan, why, and which of its parts and tools to put in the car, in the queue's order."""
    car = queue.car
    several = len(built.problem.cars) > 1
    jobs = {f"{car}/{job.job}" if several else job.job: job for job in queue.jobs}
    groups = [group for group in (*built.problem.groups, *built.left_out) if _is_of(group, car, several)]
    places = {name: place for place, name in enumerate(jobs)}
    found = []
    for group in sorted(set(groups) - schedule.inside, key=lambda g: (places.get(g, len(places)), g)):
        why, reason = _why(built, group)
        told = carried(jobs.get(group), why, setup, last_service=last_service)
        name = group.removeprefix(f"{car}/") if several else group
        found.append({"job": name, "reason": reason, "why": why, **told})
    return found


def _is_of(group: str, car: str, several: bool) -> bool:
    return not several or group.startswith(f"{car}/")


def _why(built: Built, group: str) -> tuple[str, str]:
    known = built.left_out.get(group)
    if known is not None:
        return known.why, known.reason
    if not can_be_named(built.problem, group):
        return "people", TOO_FEW
    if group in built.problem.musts or built.problem.values.get(group):
        return "time", "no time for it"
    return "value", "worth nothing in the rate table: it is done when hands are free"


def _lists(item: Later | Hands) -> Json:
    return {**asdict(item), "adds": list(item.adds), "drops": list(item.drops)}


def _in_order(schedule: Schedule) -> list[Placed]:
    return sorted(schedule.placed, key=lambda item: (item.start, item.end, item.task))


def _told(built: Built, schedule: Schedule, item: Placed, chance: Chance, frame: Frame) -> list[Json]:
    """Return a task as JSON; a look at several things is told as one look after the other, by one person."""
    task = built.problem.tasks[item.task]
    one = {
        "task": task.name,
        "kind": task.kind,
        "job": task.job,
        "step": task.step,
        "start_s": (item.start - frame.offset) * GRID_S,
        "end_s": (item.end - frame.offset) * GRID_S,
        "people": [built.problem.workers[worker].person for worker in item.workers],
        "zone": task.zone,
        "critical": round(chance.critical.get(item.task, 0.0), 2),
        "state": "planned" if task.fixed is None else "under-way",
    }
    told, start = [], item.start - frame.offset
    for piece in task.pieces:
        if piece.group in schedule.inside:
            job = piece.group.removeprefix(f"{task.car}/")
            end = start + piece.units
            times = {"start_s": start * GRID_S, "end_s": end * GRID_S}
            told.append({**one, "task": f"inspect {job}", "job": job, **times})
            start = end
    return told or [one]

"""The answer of a plan: tasks on a clock with people, what is left out and why, what minutes and hands buy."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from shuntbook.plan.build import PlanModel
from shuntbook.plan.carry import PutInCar, To, carried
from shuntbook.plan.draft import Why
from shuntbook.plan.namable import TOO_FEW, can_be_named
from shuntbook.plan.ontime import Chance
from shuntbook.plan.problem import GRID_S, By, Kind, Placed, Schedule
from shuntbook.plan.progress import PlanDone
from shuntbook.queue.answer import Queue
from shuntbook.setup.folder import Setup


class PlanTask(Struct, frozen=True):
    """A task on the clock, in seconds from when the work can start."""

    task: str
    kind: Kind
    job: str | None
    step: str | None
    start_s: int
    end_s: int
    people: list[str]
    zone: str
    critical: float
    state: Literal["planned", "under-way"]


class PlanPerson(Struct, frozen=True):
    """Somebody who is there to work, from so many seconds on."""

    person: str
    mechanic: bool
    inspector: bool
    from_s: int


class LeftOut(Struct, frozen=True):
    """What is not in the plan, and why; to: who may do it later, with which parts and tools put aboard."""

    job: str
    reason: str
    why: Why
    to: To
    put_in_car: list[PutInCar]
    tools: list[str]


class Later(Struct, frozen=True):
    """What leaving so late buys; proven: whether no plan of that length could do more."""

    leave_late_min: int
    penalty_s: int
    adds: tuple[str, ...]
    drops: tuple[str, ...]
    proven: bool


class Needs(Struct, frozen=True):
    """The least time that all musts take; penalty_s is null past the event's limit."""

    minutes: int
    leave_late_min: int
    penalty_s: int | None


class Hands(Struct, frozen=True):
    """What one mechanic more or fewer changes: jobs that come in and drop out, when the work ends."""

    mechanics: int
    adds: tuple[str, ...]
    drops: tuple[str, ...]
    finish_s: int
    proven: bool


class Lateness(Struct, frozen=True):
    """Minutes late that the log has of earlier controls, and what the event still allows at this one."""

    used_min: int
    left_min: int
    late_penalty_s_per_minute: int
    early_penalty_s_per_minute: int


class Plan(Struct, frozen=True):
    """The plan of one car at one service; queue is the hash of the queue that it was made of.

    work_s: the time for work. entered_at: when the car really came in, zero of the tasks' clock. now_s: from when the
    rest was planned. settled: false while what minutes and hands buy is still being worked out.
    """

    event: str
    car: str
    service: str
    minutes: int
    rates: str
    queue: str
    stale: bool
    proven: bool
    by: By
    finish_s: int
    spare_s: int
    on_time: float
    tasks: list[PlanTask]
    left_out: list[LeftOut]
    needs: Needs | None
    later: list[Later]
    settled: bool
    work_s: int
    entered_at: str | None
    due_out: str | None
    now_s: int
    people: list[PlanPerson]
    done: list[PlanDone]
    hands: list[Hands]
    lateness: Lateness


class CarPlan(Plan, frozen=True):
    """One car's part of a team's plan; offset_s: when it comes in, on the clock of all."""

    offset_s: int


class Resource(Struct, frozen=True):
    """Something that the cars share."""

    resource: str
    count: int


class TeamPlan(Struct, frozen=True):
    """One plan for several cars, on a clock that starts when the first comes in."""

    event: str
    starts_at: str
    proven: bool
    by: By
    finish_s: int
    cars: list[CarPlan]
    resources: list[Resource]


@dataclass(frozen=True)
class Frame:
    """What a plan stands in: the service, its clock, the lateness that the log has and the rules allow."""

    service: str
    minutes: int
    work_units: int
    entered_at: str | None
    due_out: str | None
    now_units: int
    lateness: Lateness
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
    built: PlanModel,
    schedule: Schedule,
    chance: Chance,
    buys: Buys,
    done: Sequence[PlanDone] = (),
) -> Plan:
    """Return a plan as phones and commands read it; times in seconds from when the car came in."""
    mine = [item for item in _in_order(schedule) if built.problem.tasks[item.task].car == queue.car]
    finish = max((item.end for item in mine), default=frame.offset) - frame.offset
    return Plan(
        event=queue.event,
        car=queue.car,
        service=frame.service,
        minutes=frame.minutes,
        rates=queue.rates,
        queue=queue.hash,
        stale=False,
        proven=schedule.proven,
        by=schedule.by,
        finish_s=finish * GRID_S,
        spare_s=max(0, frame.work_units - finish) * GRID_S,
        on_time=round(chance.on_time.get(queue.car, 1.0), 3),
        tasks=[told for item in mine for told in _told(built, schedule, item, chance, frame)],
        left_out=left_out(queue, setup, built, schedule, last_service=frame.last_service),
        needs=buys.needs,
        later=list(buys.later),
        settled=buys.settled,
        work_s=frame.work_units * GRID_S,
        entered_at=frame.entered_at,
        due_out=frame.due_out,
        now_s=frame.now_units * GRID_S,
        people=[PlanPerson(w.person, w.mechanic, w.inspector, w.from_unit * GRID_S) for w in built.problem.workers],
        done=list(done),
        hands=list(buys.hands),
        lateness=frame.lateness,
    )


def left_out(queue: Queue, setup: Setup, built: PlanModel, schedule: Schedule, *, last_service: bool) -> list[LeftOut]:
    """Return what is not in the plan, why, and which of its parts and tools to put in the car, in the queue's order."""
    car, several = queue.car, len(built.problem.cars) > 1
    jobs = {f"{car}/{job.job}" if several else job.job: job for job in queue.jobs}
    groups = [group for group in (*built.problem.groups, *built.left_out) if _is_of(group, car, several)]
    places = {name: place for place, name in enumerate(jobs)}
    found = []
    for group in sorted(set(groups) - schedule.inside, key=lambda g: (places.get(g, len(places)), g)):
        why, reason = _why(built, group)
        name = group.removeprefix(f"{car}/") if several else group
        found.append(LeftOut(name, reason, why, *carried(jobs.get(group), why, setup, last_service=last_service)))
    return found


def _is_of(group: str, car: str, several: bool) -> bool:
    return not several or group.startswith(f"{car}/")


def _why(built: PlanModel, group: str) -> tuple[Why, str]:
    known = built.left_out.get(group)
    if known is not None:
        return known.why, known.reason
    if not can_be_named(built.problem, group):
        return "people", TOO_FEW
    if group in built.problem.musts or built.problem.values.get(group):
        return "time", "no time for it"
    return "value", "worth nothing in the rate table: it is done when hands are free"


def _in_order(schedule: Schedule) -> list[Placed]:
    return sorted(schedule.placed, key=lambda item: (item.start, item.end, item.task))


def _told(built: PlanModel, schedule: Schedule, item: Placed, chance: Chance, frame: Frame) -> list[PlanTask]:
    """Return a task of the answer; a look at several things is told as one look after the other, by one person."""
    task, start = built.problem.tasks[item.task], item.start - frame.offset
    one = PlanTask(
        task=task.name,
        kind=task.kind,
        job=task.job,
        step=task.step,
        start_s=start * GRID_S,
        end_s=(item.end - frame.offset) * GRID_S,
        people=[built.problem.workers[worker].person for worker in item.workers],
        zone=task.zone,
        critical=round(chance.critical.get(item.task, 0.0), 2),
        state="planned" if task.fixed is None else "under-way",
    )
    told = []
    for piece in task.pieces:
        if piece.group in schedule.inside:
            job, end = piece.group.removeprefix(f"{task.car}/"), start + piece.units
            times = {"start_s": start * GRID_S, "end_s": end * GRID_S}
            told.append(replace(one, task=f"inspect {job}", job=job, **times))
            start = end
    return told or [one]

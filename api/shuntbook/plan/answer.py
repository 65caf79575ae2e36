"""Fills what is told of a plan: tasks on a clock with people, what is left out and why, what minutes and hands buy."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from shuntbook.plan.build import PlanModel
from shuntbook.plan.carry import carried
from shuntbook.plan.draft import Level, Why
from shuntbook.plan.namable import TOO_FEW, can_be_named
from shuntbook.plan.obstacles import NO_TIME
from shuntbook.plan.ontime import Chance
from shuntbook.plan.problem import GRID_S, Placed, Reached, Schedule
from shuntbook.plan.progress import PlanDone
from shuntbook.plan.told import (
    Choice,
    GoalReached,
    Hands,
    Lateness,
    Later,
    LeftOut,
    Needs,
    Other,
    Plan,
    PlanPerson,
    PlanTask,
)
from shuntbook.queue.answer import Queue
from shuntbook.setup.folder import Setup


@dataclass(frozen=True)
class Frame:
    """What a plan stands in: the service, its clock, the lateness that the log has and the rules allow."""

    service: str
    minutes: int
    work_units: int
    entered_at: str | None
    starts_at: str | None
    due_out: str | None
    now_units: int
    lateness: Lateness
    last_service: bool
    offset: int = 0
    late_min: int = 0
    penalty_s: int = 0


@dataclass(frozen=True)
class Picture:
    """A plan in numbers with all that is told of it: the problem, the chance, that of plans with what is left out."""

    built: PlanModel
    schedule: Schedule
    chance: Chance
    shares: Mapping[str, float] = field(default_factory=dict)
    buffer: int = 0


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
    picture: Picture,
    buys: Buys,
    done: Sequence[PlanDone] = (),
    others: Sequence[Other] = (),
) -> Plan:
    """Return a plan as phones and commands read it; times in seconds from when work can start."""
    schedule = picture.schedule
    mine = _of_car(queue.car, picture)
    finish = _finish(mine, frame)
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
        late_min=frame.late_min,
        penalty_s=frame.penalty_s,
        on_time=_on_time(queue.car, picture),
        buffer_s=picture.buffer * GRID_S,
        choice="on-time",
        others=list(others),
        goals=[_goal(picture.built, one) for one in schedule.goals],
        tasks=[_told(picture, item, frame) for item in mine],
        left_out=left_out(queue, setup, picture, last_service=frame.last_service),
        needs=buys.needs,
        later=list(buys.later),
        settled=buys.settled,
        work_s=frame.work_units * GRID_S,
        entered_at=frame.entered_at,
        starts_at=frame.starts_at,
        due_out=frame.due_out,
        now_s=frame.now_units * GRID_S,
        people=_people(picture.built, mine),
        done=list(done),
        hands=list(buys.hands),
        lateness=frame.lateness,
    )


def _people(built: PlanModel, placed: Sequence[Placed]) -> list[PlanPerson]:
    """Return who is there; of those who sit in the car only who helps."""
    helping = {worker for item in placed for worker in item.workers}
    workers = [w for n, w in enumerate(built.problem.workers) if not w.crew or n in helping]
    return [PlanPerson(w.person, w.mechanic, w.inspector, w.from_unit * GRID_S) for w in workers]


def other_answer(choice: Choice, queue: Queue, setup: Setup, frame: Frame, picture: Picture) -> Other:
    """Return another plan that is at hand, as it is told beside the one that is shown."""
    mine = _of_car(queue.car, picture)
    finish = _finish(mine, frame)
    return Other(
        choice=choice,
        proven=picture.schedule.proven,
        by=picture.schedule.by,
        finish_s=finish * GRID_S,
        spare_s=max(0, frame.work_units - finish) * GRID_S,
        late_min=frame.late_min,
        penalty_s=frame.penalty_s,
        on_time=_on_time(queue.car, picture),
        tasks=[_told(picture, item, frame) for item in mine],
        left_out=left_out(queue, setup, picture, last_service=frame.last_service),
    )


def _of_car(car: str, picture: Picture) -> list[Placed]:
    return [item for item in _in_order(picture.schedule) if picture.built.problem.tasks[item.task].car == car]


def _finish(placed: Sequence[Placed], frame: Frame) -> int:
    return max((item.end for item in placed), default=frame.offset) - frame.offset


def _on_time(car: str, picture: Picture) -> float:
    return round(picture.chance.on_time.get(car, 1.0), 3)


def _goal(built: PlanModel, one: Reached) -> GoalReached:
    """Return a goal in the units that people read."""
    if isinstance(one.goal, int):
        name, factor = Level(one.goal).name.lower(), Fraction(1)
    else:
        factors = {"value": Fraction(1, built.scale), "work": Fraction(GRID_S, 60)}
        name, factor = one.goal, factors.get(one.goal, Fraction(GRID_S))
    return GoalReached(name, float(one.reached * factor), float(one.bound * factor), one.proven)


def left_out(queue: Queue, setup: Setup, picture: Picture, *, last_service: bool) -> list[LeftOut]:
    """Return what is not in the plan, why, and which of its parts and tools to put in the car, in the queue's order."""
    built, schedule = picture.built, picture.schedule
    car, several = queue.car, len(built.problem.cars) > 1
    jobs = {f"{car}/{job.job}" if several else job.job: job for job in queue.jobs}
    groups = [group for group in (*built.problem.groups, *built.left_out) if _is_of(group, car, several)]
    places = {name: place for place, name in enumerate(jobs)}
    found = []
    for group in sorted(set(groups) - schedule.inside, key=lambda g: (places.get(g, len(places)), g)):
        why, reason = _why(picture, group)
        name = group.removeprefix(f"{car}/") if several else group
        later = carried(jobs.get(group), why, setup, last_service=last_service)
        on_time = round(picture.shares[group], 3) if why == "risk" else None
        found.append(LeftOut(name, reason, why, *later, on_time))
    return found


def _is_of(group: str, car: str, several: bool) -> bool:
    return not several or group.startswith(f"{car}/")


def _why(picture: Picture, group: str) -> tuple[Why, str]:
    built = picture.built
    known = built.left_out.get(group)
    if known is not None:
        return known.why, known.reason
    if not can_be_named(built.problem, group):
        return "people", TOO_FEW
    if group in built.problem.musts:
        return NO_TIME.why, NO_TIME.reason
    if group in picture.shares:
        return "risk", f"with it the work ends in time in {picture.shares[group]:.0%} of the runs"
    if built.problem.values.get(group):
        return NO_TIME.why, NO_TIME.reason
    return "value", "no value in the rate table, and no gap for it"


def _in_order(schedule: Schedule) -> list[Placed]:
    return sorted(schedule.placed, key=lambda item: (item.start, item.end, item.task))


def _told(picture: Picture, item: Placed, frame: Frame) -> PlanTask:
    """Return a task of the answer; an inspection names all the jobs that it is of."""
    built, schedule = picture.built, picture.schedule
    task, start = built.problem.tasks[item.task], item.start - frame.offset
    prefix = f"{task.car}/" if len(built.problem.cars) > 1 else ""
    jobs = [piece.group.removeprefix(prefix) for piece in task.pieces if piece.group in schedule.inside]
    return PlanTask(
        task=task.name,
        kind=task.kind,
        job=jobs[0] if jobs else task.job,
        jobs=jobs,
        step=task.step,
        start_s=start * GRID_S,
        end_s=(item.end - frame.offset) * GRID_S,
        people=[built.problem.workers[worker].person for worker in item.workers],
        zone=task.zone,
        critical=round(picture.chance.critical.get(item.task, 0.0), 2),
        state="planned" if task.fixed is None else "under-way",
    )

"""What is told of a plan: the shapes of its JSON, as phones and commands read it; `answer` fills them."""

from typing import Literal

from msgspec import Struct

from shuntbook.plan.carry import PutInCar, To
from shuntbook.plan.draft import Why
from shuntbook.plan.problem import By, Kind
from shuntbook.plan.progress import PlanDone

Choice = Literal["on-time", "everything", "on-hold"]


class PlanTask(Struct, frozen=True):
    """A task on the clock, in seconds from when the work can start. jobs: those that an inspection is of, in order.

    A task whose zone is "" is away from the car; "car" is all round it.
    """

    task: str
    kind: Kind
    job: str | None
    jobs: list[str]
    step: str | None
    start_s: int
    end_s: int
    people: list[str]
    zone: str
    critical: float
    state: Literal["planned", "under-way"]


class PlanPerson(Struct, frozen=True):
    """Somebody who is there to work, from so many seconds on; neither: driver or co-driver, who helps."""

    person: str
    mechanic: bool
    inspector: bool
    from_s: int


class LeftOut(Struct, frozen=True):
    """What is not in the plan, and why; to: who may do it later, with which parts and tools put aboard.

    on_time: the chance to end in time with it, where that is why it is left out.
    """

    job: str
    reason: str
    why: Why
    to: To
    put_in_car: list[PutInCar]
    tools: list[str]
    on_time: float | None = None


class Later(Struct, frozen=True):
    """What leaving so late buys; proven: whether no plan of that length could do more.

    to_late_min: up to how many minutes late it is the same; penalty_s is that of `leave_late_min`.
    """

    leave_late_min: int
    to_late_min: int
    penalty_s: int
    adds: tuple[str, ...]
    drops: tuple[str, ...]
    proven: bool


class Needs(Struct, frozen=True):
    """The least time that safety-critical and vital work takes; penalty_s is null past the event's limit."""

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


class GoalReached(Struct, frozen=True):
    """What a plan reaches of a goal, and what no plan could better; proven where both are the same.

    goal: `begun`, `known`, `unknown`, `critical`, `vital`, `must`, `routine` count what is in; `value` is by the rate
    table, for the time for work less the buffer; `finish` and `looks` (the sum of their starts) are seconds, `work`
    mechanic-minutes.
    """

    goal: str
    reached: float
    bound: float
    proven: bool


class Other(Struct, frozen=True):
    """Another plan that is at hand: everything whatever the chance, or in time and on hold."""

    choice: Choice
    proven: bool
    by: By
    finish_s: int
    spare_s: int
    late_min: int
    penalty_s: int
    on_time: float
    tasks: list[PlanTask]
    left_out: list[LeftOut]


class Plan(Struct, frozen=True):
    """The plan of one car at one service; queue is the hash of the queue that it was made of.

    late_min: how many minutes late it ends, with the penalty, where what holds the car does not fit. on_time: the
    chance to end in time, to the end of the due minute, or of the minute that it is late by. buffer_s: by how much the
    time was shortened for what is done for its value, so that the chance is kept. goals: in their order.

    work_s: the time for work. entered_at: when the car really came in. starts_at: zero of the tasks' clock, when it has
    been driven in, by the itinerary while it is not in. now_s: from when the rest was planned. settled: false while
    what minutes and hands buy is still being worked out.
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
    late_min: int
    penalty_s: int
    on_time: float
    buffer_s: int
    choice: Choice
    others: list[Other]
    goals: list[GoalReached]
    tasks: list[PlanTask]
    left_out: list[LeftOut]
    needs: Needs | None
    later: list[Later]
    settled: bool
    work_s: int
    entered_at: str | None
    starts_at: str | None
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

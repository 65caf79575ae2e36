"""Who does later what a plan leaves out: the next service, the crew on the road, or whoever strips the car."""

from typing import Literal, NamedTuple

from msgspec import Struct

from shuntbook.plan.draft import Why
from shuntbook.plan.wheels import ON_THE_WHEEL
from shuntbook.queue.answer import Job
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Operation

ROAD_HANDS = 2
"""The crew are the two in the car."""
ROAD_MINUTES = 10
"""What takes longer, as a door does, is not done between two controls (common practice, no source)."""
To = Literal["next-service", "road", "after"]


class PutInCar(Struct, frozen=True):
    """A part to put in the car for a job that is left out."""

    part: str
    qty: float


class Carried(NamedTuple):
    """Who may do it later, with which parts and tools put aboard."""

    to: To
    put_in_car: list[PutInCar]
    tools: list[str]


def carried(job: Job | None, why: Why, setup: Setup, *, last_service: bool) -> Carried:
    """Return who does a job that is left out, and the parts and tools to put in the car for it.

    Something for the road is what two can do in ten minutes without opening anything, without a skill of their own and
    without fire risk, with parts that the van has; and a wheel, for which jack and brace are aboard (common practice,
    no source). What is safety-critical or for an official is never left to the road, nor anything after the last
    service.
    """
    later: To = "after" if last_service else "next-service"
    if job is None or job.over:
        return Carried(later, [], [])
    row = setup.rates.operation(job.component, job.condition, job.zone)
    may = not last_service and why in ("time", "value", "people")
    to: To = "road" if may and row is not None and on_the_road(job, row) else later
    tools = list(setup.event.tools.get(job.action, ())) if to == "road" else []
    # After the event the van is there: nothing goes into the car for it.
    return Carried(to, [] if to == "after" else _parts(job), tools)


def on_the_road(job: Job, row: Operation) -> bool:
    """Return whether the crew could do a job between services with what is put aboard."""
    by_hand = not row.access or job.component in ON_THE_WHEEL
    alone = row.mechanics <= ROAD_HANDS and not row.skill and not row.fire_risk
    alone = alone and row.minutes.expected <= ROAD_MINUTES
    return by_hand and alone and not job.safety_critical and not any(p.short for p in job.estimate.parts)


def _parts(job: Job) -> list[PutInCar]:
    """Return the parts of a job that the van has: the crew may need them on the road."""
    return [PutInCar(part.part, part.qty) for part in job.estimate.parts if not part.short]

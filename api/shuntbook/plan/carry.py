"""Who does later what a plan leaves out: the next service, the crew on the road, or whoever strips the car."""

from typing import Any

from shuntbook.plan.jobs import ON_THE_WHEEL
from shuntbook.queue.answer import Job
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Operation

ROAD_HANDS = 2
"""The crew are the two in the car."""


def carried(job: Job | None, why: str, setup: Setup, *, last_service: bool) -> dict[str, Any]:
    """Return `to`, and the parts and tools to put in the car for it.

    Something for the road is what two can do without opening anything, without a skill of their own and without fire
    risk, with parts that the van has; and a wheel, for which jack and brace are aboard (common practice, no source).
    What is safety-critical or for an official is never left to the road.
    """
    later = "after" if last_service else "next-service"
    if job is None or job.over:
        return {"to": later, "put_in_car": [], "tools": []}
    row = setup.rates.operation(job.component, job.condition, job.zone)
    to = "road" if why in ("time", "value", "people") and row is not None and on_the_road(job, row) else later
    tools = list(setup.event.tools.get(job.action, ())) if to == "road" else []
    return {"to": to, "put_in_car": _parts(job), "tools": tools}


def on_the_road(job: Job, row: Operation) -> bool:
    """Return whether the crew could do a job between services with what is put aboard."""
    by_hand = not row.access or job.component in ON_THE_WHEEL
    alone = row.mechanics <= ROAD_HANDS and not row.skill and not row.fire_risk
    return by_hand and alone and not job.safety_critical and not any(p.short for p in job.estimate.parts)


def _parts(job: Job) -> list[dict[str, Any]]:
    """Return the parts of a job that the van has: the crew may need them on the road."""
    return [{"part": part.part, "qty": part.qty} for part in job.estimate.parts if not part.short]

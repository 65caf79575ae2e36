"""What makes a job impossible, whatever the time: parts, people, skills, tools, ways to it, an official."""

from collections.abc import Iterator, Sequence

from shuntbook.plan.draft import FIRE, Draft, Obstacle
from shuntbook.plan.follow_ups import checks_of
from shuntbook.plan.job_tasks import is_unknown
from shuntbook.plan.official import CAGE
from shuntbook.queue.answer import Job
from shuntbook.queue.estimate import inspect_access
from shuntbook.setup.rates import Operation

NO_TIME = Obstacle("time", "no time for it")


def obstacle(draft: Draft, job: Job, row: Operation | None) -> Obstacle | None:
    """Return the first thing that makes a job impossible, None where nothing does."""
    return next(filter(None, _reasons(draft, job, row)), None)


def look_access(draft: Draft, job: Job) -> tuple[str, ...]:
    """Return the steps that an inspection of a job needs open."""
    return inspect_access(job.zone, job.component, draft.setup.car_map, draft.setup.rates)


def _reasons(draft: Draft, job: Job, row: Operation | None) -> Iterator[Obstacle | None]:
    """Yield what makes a job impossible, whatever the time, and that it is not to be planned."""
    if draft.named(job.job) in draft.without:
        yield NO_TIME
    if job.group == CAGE:
        yield Obstacle("official", "a cage waits for the official: stop, call them; its maker decides on repairs")
    short = [part.part for part in job.estimate.parts if part.short]
    if short and not job.over:
        yield Obstacle("part", f"not in the van: {', '.join(short)}")
    mechanics, inspectors = draft.who(mechanic=True), draft.others(draft.who(inspector=True), [job.job])
    repairs = not job.over and not (is_unknown(job) and job.to_inspect)
    people = job.estimate.mechanics if repairs else 0
    guests = draft.crew() if row is not None and row.crew else ()
    if repairs:
        may = (*mechanics, *guests[:1])
        yield from filter(None, [draft.lacks(people, may, f"to {job.action} it", job.zone)])
        skill = row.skill if row is not None else ""
        if skill and not any(skill in draft.workers[n].skills for n in mechanics):
            yield Obstacle("people", f"nobody is there with the skill {skill!r}")
        bound = [job.action, *([FIRE] if row is not None and row.fire_risk else [])]
        yield draft.missing(*bound)
        yield from _reasons_of_access(draft, job.estimate.access, job.zone, row)
        yield from _reasons_of_checks(draft, job, row)
    if job.to_inspect:
        yield from _reasons_of_access(draft, look_access(draft, job), job.zone, None)
    if job.to_inspect and not any(len(set(mechanics) - {n}) + len(guests[:1]) >= people for n in inspectors):
        yield Obstacle(
            "people",
            "no inspector is there who did not repair it" if draft.who(inspector=True) else "no inspector is there",
        )


def _reasons_of_access(draft: Draft, access: Sequence[str], zone: str, row: Operation | None) -> Iterator[Obstacle]:
    for step in draft.steps(access):
        yield from filter(None, [draft.missing(step.step)])
        place = zone if step.per == "zone" else ""
        may = (*draft.who(mechanic=True), *(draft.crew()[:1] if step.crew else ()))
        yield from filter(None, [draft.lacks(step.mechanics, may, step.step, place)])
        if row is not None and row.ground and step.moves:
            yield Obstacle("people", f"it is done on the ground, and {step.step} lifts the car: fix the rate table")


def _reasons_of_checks(draft: Draft, job: Job, row: Operation | None) -> Iterator[Obstacle]:
    for check in checks_of(draft, row):
        may = (*draft.who(), *(draft.crew()[:1] if check.crew else ()))
        yield from filter(None, [draft.lacks(check.mechanics, may, check.check)])
        if check.by == "inspector" and not draft.who(inspector=True):
            yield Obstacle("people", f"{check.check} is for an inspector; none is there")
        if check.by != "anyone" and check.mechanics + job.estimate.mechanics > len(may):
            yield Obstacle("people", f"{check.check} is for somebody else than who did the work: nobody is left")

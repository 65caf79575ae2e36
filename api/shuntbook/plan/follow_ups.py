"""The checks that follow a repair: before its access closes, or on the ground."""

from shuntbook.plan.draft import Draft
from shuntbook.plan.job_tasks import JobTasks, in_the_seat
from shuntbook.plan.problem import Apart, Task, units
from shuntbook.plan.wheels import NUT_CHECK, takes_wheel_off
from shuntbook.plan.window import in_window
from shuntbook.queue.answer import Job
from shuntbook.setup.rates import Check, Operation

AROUND = "car"
"""The zone of what goes on all round the car: it takes nobody's place."""


def checks_of(draft: Draft, row: Operation | None) -> list[Check]:
    """Return the checks that the rate table has follow an operation."""
    known = draft.setup.rates.checks
    return [known[name] for name in row.then if name in known] if row is not None else []


def checks_to_come(draft: Draft, job: Job) -> list[Check]:
    """Return the checks of a job that was finished at this service, its wheel's nuts aside, that nobody has done."""
    checks = [check for check in checks_of(draft, _row_of_finished(draft, job)) if check.check != NUT_CHECK]
    to_come = [check for check in checks if f"{check.check} {job.job}" not in draft.progress.done]
    guest = 1 if draft.crew() else 0
    return [c for c in to_come if len(_who_checks(draft, job, c)) + guest * c.crew >= c.mechanics]


def has_nuts_to_come(draft: Draft, job: Job) -> bool:
    """Return whether the nuts of a wheel that was fitted at this service are still to be checked."""
    row = _row_of_finished(draft, job)
    return row is not None and (takes_wheel_off(job, row) or NUT_CHECK in row.then)


def add_check(draft: Draft, tasks: JobTasks, check: Check) -> None:
    """Add a check that follows the work: before the access closes, or on the ground."""
    job, ground = tasks.job, check.when == "on-ground"
    room = draft.room(job.zone)
    # One looks, the other pumps or pulls from another side of the car.
    zone = AROUND if room is not None and check.mechanics > room else job.zone
    name, may = f"{check.check} {job.job}", draft.who() if tasks.work is not None else _who_checks(draft, job, check)
    guests = draft.crew() if check.crew else ()
    if name in draft.progress.done:
        return
    task = Task(
        name=name,
        kind="check",
        units=units(check.minutes.expected),
        people=check.mechanics,
        may=(*may, *guests),
        guests=guests,
        # Where it takes two, one of them is an inspector; the other pumps or holds.
        skilled=tuple(n for n in draft.who(inspector=True) if n in may) if check.by == "inspector" else (),
        group=draft.named(job.job),
        job=job.job,
        zone=zone,
        uses=draft.places(zone, check.mechanics, seat=in_the_seat(check.check)),
        ground=ground,
        minutes=check.minutes,
    )
    number = draft.add(in_window(draft, task))
    if tasks.work is not None:
        draft.before.append((tasks.work, number))
        if check.by != "anyone":
            draft.apart.append(Apart(number, (tasks.work,)))
    (tasks.ground if ground else tasks.inside).append(number)


def _row_of_finished(draft: Draft, job: Job) -> Operation | None:
    """Return what was done to a job that was finished at this service."""
    at_this_service = job.over and job.job in draft.progress.finished
    return draft.setup.rates.operation(job.component, job.condition, job.zone) if at_this_service else None


def _who_checks(draft: Draft, job: Job, check: Check) -> tuple[int, ...]:
    return draft.who() if check.by == "anyone" else draft.others(draft.who(), [job.job])

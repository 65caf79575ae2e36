"""The tasks of a job: the work and the checks that follow it; inspections are added zone by zone."""

from fractions import Fraction

from shuntbook.plan.draft import FIRE, Draft, Level
from shuntbook.plan.follow_ups import add_check, checks_of, checks_to_come, has_nuts_to_come
from shuntbook.plan.job_tasks import JobTasks, in_the_seat, is_unknown
from shuntbook.plan.obstacles import obstacle
from shuntbook.plan.official import CAGE, add_officials_look
from shuntbook.plan.problem import Task, units
from shuntbook.plan.wheels import NUT_CHECK, takes_wheel_off
from shuntbook.plan.window import in_window
from shuntbook.queue.answer import Job
from shuntbook.setup.rates import Operation, ThreePoint


def add_job(draft: Draft, job: Job) -> JobTasks | None:
    """Add the tasks of a job; None where nothing is to do, or where it cannot be done, with the reason."""
    nuts = has_nuts_to_come(draft, job)
    if job.over and not job.to_inspect and not nuts and not checks_to_come(draft, job):
        return None
    if job.group == CAGE and draft.service is None and job.to_inspect:
        add_officials_look(draft, job)
        return None
    row = None if job.over else draft.setup.rates.operation(job.component, job.condition, job.zone)
    tasks = JobTasks(job, row, nuts=nuts)
    reason = obstacle(draft, job, row)
    if reason is not None:
        draft.left_out[draft.named(job.job)] = reason
        return None
    # To inspect is the inspection itself where one is due.
    if not job.over and not (is_unknown(job) and job.to_inspect):
        _add_work(draft, tasks)
    for check in checks_to_come(draft, job):
        add_check(draft, tasks, check)
    level = _level_of(job, tasks)
    if level is not None:
        draft.levels[level].add(draft.named(job.job))
    draft.worth[draft.named(job.job)] = row.value if row is not None else Fraction(0)
    return tasks


def _level_of(job: Job, tasks: JobTasks) -> Level | None:
    """Return the goal that a job counts for, None where it is only worth doing."""
    if job.to_inspect or (job.safety_critical and job.must_do):
        if not is_unknown(job):
            return Level.KNOWN
        return Level.CRITICAL if job.knock_on or job.retracted else Level.UNKNOWN
    begun = job.over and (tasks.inside or tasks.ground)
    return Level.MUST if job.must_do or begun else None


def _add_work(draft: Draft, tasks: JobTasks) -> None:
    job, row = tasks.job, tasks.row
    group, people, may = draft.named(job.job), job.estimate.mechanics, draft.who(mechanic=True)
    guests = draft.crew() if row is not None and row.crew else ()
    skill = row.skill if row is not None else ""
    minutes = _minutes(draft, job, row)
    risk = bool(row and row.fire_risk)
    task = Task(
        name=f"{job.action} {job.job}",
        kind="work",
        units=units(minutes.expected),
        people=people,
        may=(*may, *guests),
        skilled=tuple(n for n in may if skill and skill in draft.workers[n].skills),
        guests=guests,
        group=group,
        job=job.job,
        zone=job.zone,
        uses={
            **draft.places(job.zone, people, seat=in_the_seat(job.action)),
            **draft.held_by(job.action),
            **(draft.held_by(FIRE) if risk else {}),
        },
        ground=bool(row and row.ground),
        alone=risk,
        minutes=minutes,
    )
    tasks.work = draft.add(in_window(draft, task))
    tasks.inside.append(tasks.work)
    tasks.nuts = takes_wheel_off(job, row)
    for check in checks_of(draft, row):
        if check.check == NUT_CHECK:
            tasks.nuts = True
        else:
            add_check(draft, tasks, check)


def _minutes(draft: Draft, job: Job, row: Operation | None) -> ThreePoint:
    if is_unknown(job):
        return draft.setup.rates.inspect(job.group)
    return row.minutes if row is not None else draft.setup.rates.assess_minutes

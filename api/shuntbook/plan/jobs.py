"""The tasks of a job: the work and the checks that follow it; inspections are added zone by zone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from shuntbook.plan.draft import FIRE, Draft, Level, Obstacle
from shuntbook.plan.problem import Apart, Task, units
from shuntbook.queue.answer import Job
from shuntbook.queue.estimate import inspect_access
from shuntbook.setup.rates import Check, Operation, ThreePoint
from shuntbook.setup.words import UNKNOWN

AROUND = "car"
"""The zone of what goes on all round the car: it takes nobody's place."""
CAGE, OFFICIAL = "cage", "wait for the official"
NUT_CHECK, WHEEL_OFF = "wheel-nut-torque", "wheel-off"
ON_THE_WHEEL, FITS = ("wheel", "tyre"), ("swap", "replace", "change", "fit", "refit")
FETCHING = ThreePoint(Fraction(0), Fraction(1, 2), Fraction(1))
"""A fresh wheel where the old one is off anyway costs only the fetching (common practice, no source)."""
SEAT = ("bleed", "bled", "pedal", "lock-to-lock", "full-lock")
"""Parts of names of what needs somebody in the seat."""


@dataclass
class JobTasks:
    """The tasks of one job: the work, what has to be done before its access closes, what on the ground, the look."""

    job: Job
    row: Operation | None
    work: int | None = None
    inside: list[int] = field(default_factory=list)
    ground: list[int] = field(default_factory=list)
    nuts: bool = False


def is_unknown(job: Job) -> bool:
    """Return whether nobody knows yet what is to be done: looking is the work. A row may name its action `inspect`."""
    return job.condition == UNKNOWN


def add_job(draft: Draft, job: Job) -> JobTasks | None:
    """Add the tasks of a job; None where nothing is to do, or where it cannot be done, with the reason."""
    nuts = _has_nuts_to_come(draft, job)
    if job.over and not job.to_inspect and not nuts and not _checks_to_come(draft, job):
        return None
    if job.group == CAGE and draft.service is None and job.to_inspect:
        _add_officials_look(draft, job)
        return None
    row = None if job.over else draft.setup.rates.operation(job.component, job.condition, job.zone)
    tasks = JobTasks(job, row, nuts=nuts)
    reason = next(filter(None, _reasons(draft, job, row)), None)
    if reason is not None:
        draft.left_out[draft.named(job.job)] = reason
        return None
    # To inspect is the inspection itself where one is due.
    if not job.over and not (is_unknown(job) and job.to_inspect):
        _add_work(draft, tasks)
    for check in _checks_to_come(draft, job):
        _add_check(draft, tasks, check)
    level = _level_of(draft, job, tasks)
    if level is not None:
        draft.levels[level].add(draft.named(job.job))
    draft.worth[draft.named(job.job)] = row.value if row is not None else Fraction(0)
    return tasks


def _level_of(draft: Draft, job: Job, tasks: JobTasks) -> Level | None:
    """Return the goal that a job counts for, None where it is only worth doing."""
    if job.to_inspect or (job.safety_critical and job.must_do):
        if not is_unknown(job):
            return Level.KNOWN
        felt = job.job in draft.direct if draft.direct is not None else not (job.knock_on or job.retracted)
        return Level.UNKNOWN if felt else Level.CRITICAL
    begun = job.over and (tasks.inside or tasks.ground)
    return Level.MUST if job.must_do or begun else None


def _checks_to_come(draft: Draft, job: Job) -> list[Check]:
    """Return the checks of a job that was finished at this service, its wheel's nuts aside, that nobody has done."""
    checks = [check for check in checks_of(draft, _row_of_finished(draft, job)) if check.check != NUT_CHECK]
    to_come = [check for check in checks if f"{check.check} {job.job}" not in draft.progress.done]
    guest = 1 if draft.crew() else 0
    return [c for c in to_come if len(_who_checks(draft, job, c)) + guest * c.crew >= c.mechanics]


def _row_of_finished(draft: Draft, job: Job) -> Operation | None:
    """Return what was done to a job that was finished at this service."""
    at_this_service = job.over and job.job in draft.progress.finished
    return draft.setup.rates.operation(job.component, job.condition, job.zone) if at_this_service else None


def _has_nuts_to_come(draft: Draft, job: Job) -> bool:
    row = _row_of_finished(draft, job)
    return row is not None and (takes_wheel_off(job, row) or NUT_CHECK in row.then)


def _who_checks(draft: Draft, job: Job, check: Check) -> tuple[int, ...]:
    return draft.who() if check.by == "anyone" else draft.others(draft.who(), [job.job])


def _add_officials_look(draft: Draft, job: Job) -> None:
    """With a night before it a car waits for the official, who is called at once; neither binds anybody of the team."""
    lead = ThreePoint(*[Fraction(draft.setup.event.regulations.official_lead_minutes)] * 3)
    called = next((n for n, task in enumerate(draft.tasks) if task.name == OFFICIAL and task.car == draft.car), None)
    if called is None:
        called = draft.add(in_window(draft, Task(OFFICIAL, "check", units(lead.expected), minutes=lead)))
    minutes = draft.setup.rates.inspect(CAGE)
    look = Task(
        name=f"official looks at {job.job}",
        kind="inspect",
        units=units(minutes.expected),
        group=draft.named(job.job),
        job=job.job,
        zone=job.zone,
        minutes=minutes,
    )
    number = draft.add(in_window(draft, look))
    draft.before.append((called, number))
    draft.levels[Level.KNOWN].add(draft.named(job.job))
    draft.worth[draft.named(job.job)] = Fraction(0)


def _reasons(draft: Draft, job: Job, row: Operation | None) -> Iterator[Obstacle | None]:
    """Yield what makes a job impossible, whatever the time."""
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


def look_access(draft: Draft, job: Job) -> tuple[str, ...]:
    """Return the steps that an inspection of a job needs open."""
    return inspect_access(job.zone, job.component, draft.setup.car_map, draft.setup.rates)


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


def checks_of(draft: Draft, row: Operation | None) -> list[Check]:
    """Return the checks that the rate table has follow an operation."""
    known = draft.setup.rates.checks
    return [known[name] for name in row.then if name in known] if row is not None else []


def takes_wheel_off(job: Job, row: Operation | None) -> bool:
    """Return whether the job itself is taking a wheel off and putting one on."""
    return row is not None and not row.ground and job.component in ON_THE_WHEEL and row.action in FITS


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
    tasks.work = draft.add(_in_window(draft, task))
    tasks.inside.append(tasks.work)
    tasks.nuts = takes_wheel_off(job, row)
    for check in checks_of(draft, row):
        if check.check == NUT_CHECK:
            tasks.nuts = True
        else:
            _add_check(draft, tasks, check)


def _in_window(draft: Draft, task: Task) -> Task:
    """Give a task the window of its car; one that is under way keeps its start and its people."""
    under_way = draft.progress.under_way.get(task.job or task.name) if task.kind != "inspect" else None
    task = replace(task, car=draft.car, earliest=max(task.earliest, draft.earliest), latest=draft.latest)
    if under_way is None or task.kind == "check":
        return task
    start, names = under_way
    theirs = tuple(n for n, worker in enumerate(draft.workers) if worker.person in names and n in task.may)
    fixed = replace(task, fixed=start, earliest=min(start, task.earliest))
    # Who else of the people needed is on it was not put down: the plan finds them.
    return (
        replace(fixed, skilled=(), may=theirs)
        if theirs and len(theirs) >= task.people
        else replace(fixed, skilled=theirs)
    )


def in_window(draft: Draft, task: Task) -> Task:
    """Return a task as one of the car being added."""
    return _in_window(draft, task)


def in_the_seat(name: str) -> bool:
    """Return whether somebody sits in the seat for it, pumping or steering."""
    return any(word in name for word in SEAT)


def _minutes(draft: Draft, job: Job, row: Operation | None) -> ThreePoint:
    if is_unknown(job):
        return draft.setup.rates.inspect(job.group)
    return row.minutes if row is not None else draft.setup.rates.assess_minutes


def _add_check(draft: Draft, tasks: JobTasks, check: Check) -> None:
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
    number = draft.add(_in_window(draft, task))
    if tasks.work is not None:
        draft.before.append((tasks.work, number))
        if check.by != "anyone":
            draft.apart.append(Apart(number, (tasks.work,)))
    (tasks.ground if ground else tasks.inside).append(number)

"""The rules of a valid plan about repairs, their checks, wheel nuts, routine work and what is left out."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby

from plan_rules_inspections import is_officials
from plan_told import AWAY, FITS, NUTS, ON_THE_WHEEL, OVER, Json, Told, clock, jobs_of, named, on_grid, overlap

FETCHED = Fraction(1, 2)
"""A fresh wheel where the old one is off anyway is only fetched (common practice, no source)."""


def a_task_takes_its_expected_minutes(told: Told) -> Iterator[str]:
    """Expected minutes, rounded up to the grid."""
    for task in told.tasks:
        lengths = sorted({on_grid(minutes) for minutes in _minutes(told, task)})
        if lengths and task["end_s"] - task["start_s"] not in lengths:
            yield f"{named(task)} lasts {clock(task['end_s'] - task['start_s'])}, not {clock(lengths[0])}"


def _minutes(told: Told, task: Json) -> list[Fraction]:
    """The expected minutes of a task; several where more than one reading is right."""
    rates = told.setup.rates
    if task["kind"] in ("open", "close"):
        step = rates.access[task["step"]]
        return [step.minutes_open if task["kind"] == "open" else step.minutes_close]
    if task["kind"] == "routine":
        best, likely, worst = (Fraction(minutes) for minutes in told.routine_of(task).minutes)
        return [(best + 4 * likely + worst) / 6]
    if task["kind"] == "inspect":
        return [] if is_officials(told, task) else [_minutes_of_inspection(told, task)]
    if task["kind"] == "work":
        return _minutes_of_work(told, told.jobs[task["job"]])
    check = rates.checks.get(task["task"].split()[0])
    return [check.minutes.expected] if check is not None else []


def _minutes_of_work(told: Told, job: Json) -> list[Fraction]:
    rates, row = told.setup.rates, told.row(job)
    if job["condition"] == "unknown":
        further = rates.inspect_next_minutes
        return [rates.inspect(job["group"]).expected, *([further.expected] if further else [])]
    own = (row.minutes if row is not None else rates.assess_minutes).expected
    return [own, FETCHED] if changes_wheel(told, job) and _is_off_anyway(told, job) else [own]


def _is_off_anyway(told: Told, job: Json) -> bool:
    others = [told.jobs[t["job"]] for t in told.of("work", zone=job["zone"]) if t["job"] != job["job"]]
    return told.span(("wheel-off", job["zone"])) is not None or any(changes_wheel(told, other) for other in others)


def _minutes_of_inspection(told: Told, task: Json) -> Fraction:
    """The first of the queue's order takes its own minutes, each further one those of the next."""
    rates, names = told.setup.rates, jobs_of(task)
    own = [rates.inspect(told.jobs[name]["group"]).expected for name in sorted(names, key=list(told.jobs).index)]
    further = rates.inspect_next_minutes
    return own[0] + (len(names) - 1) * further.expected if further else sum(own, Fraction(0))


def after_is_respected(told: Told) -> Iterator[str]:
    """A repair comes after those that its row names: in its own zone, else wherever they are."""
    for task in told.of("work"):
        row = told.row(told.jobs[task["job"]])
        for name in row.after if row is not None else ():
            wanted = (name, name.split("/")[-1])
            earlier = [t for t in told.of("work") if t is not task and _is_named(t["job"], wanted[0])]
            near = [t for t in earlier if told.jobs[t["job"]]["zone"] == told.jobs[task["job"]]["zone"]] or earlier
            yield from (f"{named(task)} comes before {named(t)}" for t in near if t["end_s"] > task["start_s"])


def _is_named(job: str, name: str) -> bool:
    return name in (job, job.split("/")[-1])


def open_fuel_stops_all_else(told: Told) -> Iterator[str]:
    """While a row with a fire risk is worked on nothing else goes on."""
    for task in told.of("work"):
        row = told.row(told.jobs[task["job"]])
        for other in told.tasks if row is not None and row.fire_risk else ():
            if other is not task and overlap(other, task["start_s"], task["end_s"]):
                yield f"{named(other)} goes on during {named(task)}"


def ground_work_is_on_the_ground(told: Told) -> Iterator[str]:
    """What the rate table does on the ground is done while the car is down."""
    for task in told.of("work"):
        row = told.row(told.jobs[task["job"]])
        if row is not None and row.ground:
            yield from _down(told, task)


def _down(told: Told, task: Json) -> Iterator[str]:
    if any(overlap(task, start, end) for start, end in told.in_the_air):
        yield f"{named(task)} is done while the car is off the ground"


# --- Checks ---


def then_checks_follow(told: Told) -> Iterator[str]:
    """Each check that a row names is there once, after the work, before closing or on the ground, by whom it says."""
    for job in told.queue["jobs"]:
        row, done = told.row(job), told.work_of(job["job"])
        for name in row.then if row is not None and done and job["group"] != "cage" else ():
            found = told.checks_of(job, name)
            if len(found) != 1:
                yield f"{name} of {job['job']} stands {len(found)} times"
            for task in found:
                yield from _one_check(told, done[0], task, name)


def _one_check(told: Told, done: Json, task: Json, name: str) -> Iterator[str]:
    check = told.setup.rates.checks[name]
    if task["start_s"] < done["end_s"]:
        yield f"{named(task)} comes before {named(done)} is done"
    if check.by != "anyone" and set(task["people"]) & set(done["people"]):
        yield f"{named(task)} is by who did {named(done)}"
    if check.by == "inspector" and not any("inspector" in told.roles(person) for person in task["people"]):
        yield f"{named(task)} is by no inspector"
    if check.when == "on-ground":
        yield from _down(told, task)


def wheel_nuts_are_checked_on_the_ground_by_another(told: Told) -> Iterator[str]:
    """The nuts of each corner whose wheel came off, by somebody else than who fitted it."""
    fitted = sorted(told.of("close", step="wheel-off") + _wheels_changed(told), key=lambda task: str(task["zone"]))
    for zone, tasks in groupby(fitted, key=lambda task: str(task["zone"])):
        checks = told.nuts_of(zone)
        if len(checks) != 1:
            yield f"the nuts of {zone} are checked {len(checks)} times"
        for task in tasks:
            for check in checks:
                if check["start_s"] < task["end_s"] or set(check["people"]) & set(task["people"]):
                    yield f"{named(check)} comes before {named(task)} is done, or is by the same people"
    for check in [t for t in told.of("check") if t["task"].split()[0] == NUTS]:
        yield from _down(told, check)


def _wheels_changed(told: Told) -> list[Json]:
    return [t for t in told.of("work") if changes_wheel(told, told.jobs[t["job"]])]


def changes_wheel(told: Told, job: Json) -> bool:
    """Whether a job takes a wheel off and puts one on."""
    row = told.row(job)
    return row is not None and not row.ground and job["component"] in ON_THE_WHEEL and row.action in FITS


# --- Routine work, and what is left out ---


def routine_keeps_its_when(told: Told) -> Iterator[str]:
    """`first`: before all else on the car; `ground`: once it is down for good; `last`: after all else."""
    for task in told.of("routine"):
        when, way = told.routine_row(task)["when"], told.needed_by(task)
        others = [t for t in told.tasks if t is not task and not _is_routine(told, t, when)]
        on_car = [t for t in others if t["zone"] != AWAY or t["kind"] in ("open", "close")]
        if when == "first":
            opened = [t for t in on_car if not (t["kind"] == "open" and (t["step"], t["zone"]) in way)]
            yield from (f"{named(t)} comes before {named(task)}" for t in opened if t["start_s"] < task["end_s"])
        if when == "last":
            closed = [t for t in others if not (t["kind"] == "close" and (t["step"], t["zone"]) in way)]
            yield from (f"{named(t)} comes after {named(task)}" for t in closed if t["end_s"] > task["start_s"])
        if when == "ground":
            lifts = [t for t in told.of("open", "close") if told.moves_car(t["step"])]
            yield from (f"{named(t)} comes after {named(task)}" for t in lifts if t["end_s"] > task["start_s"])


def _is_routine(told: Told, task: Json, when: str) -> bool:
    return bool(task["kind"] == "routine" and told.routine_row(task)["when"] == when)


def every_open_job_is_planned_or_left_out(told: Told) -> Iterator[str]:
    """Each job that is still to do, each routine work of the service: in the plan or left out, with a reason."""
    out = [item["job"] for item in told.plan["left_out"]]
    done = {t["job"] for t in told.of("work")} | {name for t in told.of("inspect") for name in jobs_of(t)}
    done |= {t["task"] for t in told.of("routine")}
    for name in [*_to_do(told), *_routine_due(told)]:
        if (name in done) == (name in out) or out.count(name) > 1:
            yield f"{name} is neither in the plan nor left out, or both"
    for task in told.of("work"):
        if told.jobs[task["job"]]["state"] in OVER or len(told.work_of(task["job"])) > 1:
            yield f"{named(task)} is done already, or stands twice"
    yield from (f"{item['job']} is left out for no reason" for item in told.plan["left_out"] if not item["reason"])


def _to_do(told: Told) -> list[str]:
    return [
        job["job"]
        for job in told.queue["jobs"]
        if job["state"] not in OVER or (job["safety_critical"] and job["inspection"] != "passed")
    ]


def _routine_due(told: Told) -> list[str]:
    service, over = told.service, [done["task"] for done in told.plan.get("done", ())]
    # A night before a restart is no service of the itinerary: all routine work is due.
    due = [r for r in told.setup.event.routine if not r.services or not service or service.service in r.services]
    return [f"routine {r.task}" for r in due if f"routine {r.task}" not in over]


RULES = (
    a_task_takes_its_expected_minutes,
    after_is_respected,
    open_fuel_stops_all_else,
    ground_work_is_on_the_ground,
    then_checks_follow,
    wheel_nuts_are_checked_on_the_ground_by_another,
    routine_keeps_its_when,
    every_open_job_is_planned_or_left_out,
)

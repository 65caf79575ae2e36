"""The rules about what is left out: nothing of a lower goal is in a plan that leaves a higher one out for time.

Whether a job could have been in is not told by a plan. What is told is whether it would fit into this one, with all
other tasks where they are and those of lower goals taken out: that is enough to say that it is wrongly left out, and
where it is not so, nothing is said.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from typing import Any

from plan_rules_inspections import fits_at, is_cabin, is_of_place
from plan_rules_jobs import changes_wheel
from plan_told import GRID_S, NUTS, OVER, Json, Told, clock, jobs_of, on_grid

KNOWN, REPORTED, SAFETY, VITAL, MUST, ROUTINE, VALUE, IDLE = range(1, 9)
"""The goals in their order; the last is what has no value."""
NAMES = (
    "", "safety-critical and known", "safety-critical and reported", "safety-critical", "vital routine", "must-do",
    "must-do routine", "worth doing", "without value",
)  # fmt: skip


def goal_of(told: Told, name: str) -> int:
    """Return the goal that a job, or a piece of routine work, counts for."""
    if name.startswith("routine "):
        row = next(row for row in told.setup.event.rows["routine"] if name == f"routine {row['task']}")
        return VITAL if row["vital"] else ROUTINE if row["must_do"] else IDLE
    job = told.jobs[name]
    if job["safety_critical"] and job["inspection"] != "passed":
        if job["condition"] != "unknown":
            return KNOWN
        return SAFETY if job["knock_on"] or job["retracted"] else REPORTED
    repair = told.row(job)
    return MUST if job["must_do"] else VALUE if repair is not None and repair.value else IDLE


def nothing_fits_that_is_left_out_for_time(told: Told) -> Iterator[str]:
    """What is left out for time fits neither as the plan stands nor in the place of anything of a lower goal."""
    yield from (what for goal, what in _wrongly_left_out(told) if goal != IDLE)


def idle_hands_do_what_has_no_value(told: Told) -> Iterator[str]:
    """What has no value is done where somebody is idle long enough."""
    yield from (what for goal, what in _wrongly_left_out(told) if goal == IDLE)


def _wrongly_left_out(told: Told) -> Iterator[tuple[int, str]]:
    # Of a team's plan the other cars bind people, too, which one car's part does not tell.
    for out in told.plan["left_out"] if "offset_s" not in told.plan else ():
        if out["why"] not in ("time", "value") or (out["job"] not in told.jobs and "routine" not in out["job"]):
            continue
        goal = goal_of(told, out["job"])
        stay = [t for t in told.tasks if _goal_of_task(told, t) <= goal]
        gone = sorted({n for t in told.tasks if t not in stay for n in groups_of(t)})
        start = _fits(told, out["job"], stay)
        if start is not None:
            instead = f" without {', '.join(gone)}" if gone and _fits(told, out["job"], told.tasks) is None else ""
            yield goal, f"{out['job']}, {NAMES[goal]}, is left out for time, and fits at {clock(start)}{instead}"


def groups_of(task: Json) -> list[str]:
    """The jobs, or the routine work, that a task is for; none for a step or a wheel's nuts, which stay anyway."""
    if task["kind"] == "routine":
        return [task["task"]]
    return jobs_of(task) if task["kind"] in ("work", "inspect") or NUTS not in task["task"] else []


def _goal_of_task(told: Told, task: Json) -> int:
    return min((goal_of(told, name) for name in groups_of(task)), default=KNOWN)


def _fits(told: Told, name: str, beside: list[Json]) -> int | None:
    """Return when the work of a job or routine could begin beside these tasks, None where that is not sure."""
    tasks = list(beside)
    begin = None
    for wanted in _chain(told, name):
        made = _earliest(told, wanted, tasks, begin)
        if made is None:
            return None
        begin = made["start_s"] if begin is None else begin
        tasks.append(made)
    return begin


def _chain(told: Told, name: str) -> list[Json]:
    """The tasks of a job in their order; one that nobody can do where this reading does not know its way about."""
    if name.startswith("routine "):
        return [_routine(told, name)]
    job = told.jobs[name]
    row = told.row(job)
    if job["group"] == "cage" or is_cabin(told, job["zone"]) or _is_hard(told, job):
        return [{"nobody": True}]
    inspected = job["safety_critical"] and job["inspection"] != "passed"
    works = job["state"] not in OVER and not (inspected and job["condition"] == "unknown")
    chain = [_work(told, job)] if works else []
    for check in row.then if works and row is not None else ():
        chain.append(_check(told, job, check))
    return [*chain, _inspection(told, job, works)] if inspected else chain


def _is_hard(told: Told, job: Json) -> bool:
    """Whether what a job brings with it is more than its own work, inspection and checks before closing."""
    row = told.row(job)
    checks = [told.setup.rates.checks[name] for name in row.then] if row is not None else []
    others = [told.row(told.jobs[t["job"]]) for t in told.of("work")]
    named = {name for other in others if other is not None for name in other.after}
    return (
        changes_wheel(told, job)
        or any(check.when == "on-ground" for check in checks)
        or (row is not None and bool(row.ground or row.fire_risk or row.after))
        or bool({job["job"], job["component"]} & named)
        or any(r.held_by for r in told.setup.event.resources if job["action"] in r.held_by)
    )


def _task(told: Told, kind: str, name: str, job: Json | None, minutes: Any, people: int, role: str) -> Json:
    task = {"task": name, "kind": kind, "job": job["job"] if job else None, "zone": job["zone"] if job else ""}
    return {**task, "step": None, "jobs": [], "length": on_grid(minutes), "many": people, "role": role, "apart": False}


def _work(told: Told, job: Json) -> Json:
    row, rates = told.row(job), told.setup.rates
    unknown = rates.inspect(job["group"]) if job["condition"] == "unknown" else rates.assess_minutes
    minutes = (row.minutes if row is not None else unknown).expected
    task = _task(told, "work", f"{job['action']} {job['job']}", job, minutes, job["estimate"]["mechanics"], "mechanic")
    return {**task, "skill": row.skill if row is not None else ""}


def _check(told: Told, job: Json, name: str) -> Json:
    check = told.setup.rates.checks[name]
    task = _task(told, "check", f"{name} {job['job']}", job, check.minutes.expected, check.mechanics, "")
    return {**task, "apart": check.by != "anyone", "one": "inspector" if check.by == "inspector" else ""}


def _inspection(told: Told, job: Json, repaired: bool) -> Json:
    """An inspection of its own, or one more thing to look at in the one that the place has."""
    same = [t for t in told.of("inspect") if is_of_place(told, t, job, repaired)]
    minutes, further = told.setup.rates.inspect(job["group"]).expected, told.setup.rates.inspect_next_minutes
    if not same:
        return {**_task(told, "inspect", f"inspect {job['job']}", job, minutes, 1, "inspector"), "apart": True}
    # After a repair it would have to be another one's, or at another time: that is not sure.
    more = on_grid(further.expected if further else minutes)
    return {"nobody": True} if repaired else {**same[0], "end_s": same[0]["end_s"] + more, "longer": same[0]}


def _routine(told: Told, name: str) -> Json:
    row = next(row for row in told.setup.event.rows["routine"] if name == f"routine {row['task']}")
    if row["when"] != "any" or row["zone"] == "car" or is_cabin(told, row["zone"]):
        return {"nobody": True}
    best, likely, worst = map(Fraction, row["minutes"])
    task = _task(told, "routine", name, None, (best + 4 * likely + worst) / 6, row["mechanics"], "mechanic")
    return {**task, "zone": row["zone"]}


def _earliest(told: Told, wanted: Json, beside: list[Json], begin: int | None) -> Json | None:
    """Return a task with the first time and people that it could have; None where there are none."""
    if "longer" in wanted:
        beside = [t for t in beside if t is not wanted["longer"]]
        late = wanted["end_s"] > told.plan["work_s"]
        return None if late or not fits_at(told, wanted, wanted["start_s"], beside) else wanted
    if wanted.get("nobody") or not wanted["length"]:
        return None
    after = [t for t in beside if "length" in t]
    start = max([told.plan.get("now_s", 0), *(t["end_s"] for t in after)])
    for moment in range(start, told.plan["work_s"] - wanted["length"] + 1, GRID_S):
        for people in combinations(_who(told, wanted, after), wanted["many"]):
            made = {**wanted, "start_s": moment, "end_s": moment + wanted["length"], "people": list(people)}
            if _named_well(told, wanted, people) and fits_at(told, made, moment, beside) and _way_stays(told, made):
                return made
    return None


def _who(told: Told, wanted: Json, after: list[Json]) -> list[str]:
    mechanics, inspectors = told.hired
    there = {"mechanic": mechanics, "inspector": inspectors}.get(wanted["role"], mechanics | inspectors)
    # Who repairs does not inspect: those who may inspect are kept for it where there are others.
    busy = {p for t in after if t["kind"] == "work" for p in t["people"]} if wanted["apart"] else set()
    return sorted(there - busy, key=lambda person: (person in inspectors, person))


def _named_well(told: Told, wanted: Json, people: tuple[str, ...]) -> bool:
    skill, one = wanted.get("skill"), wanted.get("one")
    return (not skill or any(told.has_skill(p, skill) for p in people)) and (
        not one or any(one in told.roles(p) for p in people)
    )


def _way_stays(told: Told, task: Json) -> bool:
    """An inspection comes before anything closes that its job needs open."""
    job = told.jobs.get(task["job"] or "")
    spans = [told.span(place) for place in told.way(job)] if job is not None else []
    return all(span is not None and task["end_s"] <= span[1] for span in spans)


def safety_is_not_left_out_while_late_is_allowed(told: Told) -> Iterator[str]:
    """Where safety-critical or vital work needs more time, and the event allows it, the plan has it and ends late."""
    needs = told.plan.get("needs")
    if told.plan.get("choice", "on-time") == "on-hold" or not needs or needs["penalty_s"] is None:
        return
    for out in told.plan["left_out"]:
        known = out["job"] in told.jobs or out["job"].startswith("routine ")
        if known and out["why"] == "time" and goal_of(told, out["job"]) <= VITAL:
            late, goal = needs["leave_late_min"], NAMES[goal_of(told, out["job"])]
            yield f"{out['job']}, {goal}, is left out, and {late} min late are allowed"


RULES = (
    nothing_fits_that_is_left_out_for_time,
    idle_hands_do_what_has_no_value,
    safety_is_not_left_out_while_late_is_allowed,
)

"""Judges a plan as it is told, from the rules alone: it knows queue, set-up and JSON, nothing of the planner.

Written a second time on purpose, like the oracle: `shuntbook.plan.check` judges the planner's own numbers and cannot
see what was built wrong.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from msgspec import to_builtins

from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Operation

Json = dict[str, Any]
GRID = 15
FETCHING_S = 30
ON_THE_WHEEL = ("wheel", "tyre")


@dataclass(frozen=True)
class Told:
    """A plan with what it is judged by."""

    plan: Json
    queue: Json
    setup: Setup

    @property
    def tasks(self) -> list[Json]:
        answer: list[Json] = self.plan["tasks"]
        return answer

    def of(self, *kinds: str, **fields: object) -> list[Json]:
        """The tasks of some kinds whose fields are as said."""
        return [t for t in self.tasks if t["kind"] in kinds and all(t[name] == value for name, value in fields.items())]

    def row(self, job: Json) -> Operation | None:
        return self.setup.rates.operation(job["component"], job["condition"], job["zone"])

    def roles(self, person: str) -> tuple[str, ...]:
        return next(p.roles for p in self.setup.event.people if p.person == person)

    def skills(self, person: str) -> tuple[str, ...]:
        return next(p.skills for p in self.setup.event.people if p.person == person)

    def span(self, step: str, zone: str) -> tuple[int, int] | None:
        """From when to when a step is open for work; None where it is not opened and closed just once."""
        opens, closes = self.of("open", step=step, zone=zone), self.of("close", step=step, zone=zone)
        return (opens[0]["end_s"], closes[0]["start_s"]) if len(opens) == len(closes) == 1 else None

    def place(self, step: str, zone: str) -> tuple[str, str]:
        return step, zone if self.setup.rates.access[step].per == "zone" else ""

    def stands(self) -> list[tuple[int, int]]:
        """When the car is off the ground."""
        steps = {t["step"] for t in self.of("open") if t["step"].endswith("on-stands")}
        return [(self.of("open", step=s)[0]["start_s"], self.of("close", step=s)[0]["end_s"]) for s in steps]


def broken_rules(plan: object, queue: object, setup: Setup, mechanics: int | None = None) -> list[str]:
    """Return each rule that a plan breaks, in words; none where it keeps them all. Both are judged as JSON."""
    told = Told(to_builtins(plan), to_builtins(queue), setup)
    rules = (people, zones, times, access, needs, work, looks, checks, ground, nuts, order, fire, everything)
    said = [f"{rule.__name__}: {what}" for rule in rules for what in rule(told)]
    return [*said, *(f"there: {what}" for what in only_these(told, mechanics))]


def only_these(told: Told, mechanics: int | None) -> Iterator[str]:
    team = told.setup.event.people
    hired = [p.person for p in team if "mechanic" in p.roles][:mechanics]
    there = {*hired, *(p.person for p in team if "inspector" in p.roles and "mechanic" not in p.roles)}
    for task in told.tasks:
        yield from (f"{person} works and is not there" for person in task["people"] if person not in there)


def people(told: Told) -> Iterator[str]:
    for person in {p for task in told.tasks for p in task["people"]}:
        mine = sorted((t["start_s"], t["end_s"], t["task"]) for t in told.tasks if person in t["people"])
        for (_, end, one), (start, _, other) in pairwise(mine):
            if start < end:
                yield f"{person} is at {one} and at {other}"


def zones(told: Told) -> Iterator[str]:
    for zone in told.setup.car_map.zones.values():
        here = [t for t in told.tasks if t["zone"] == zone.zone]
        for moment in {t["start_s"] for t in here}:
            many = sum(len(t["people"]) for t in here if t["start_s"] <= moment < t["end_s"])
            if many > zone.people:
                yield f"{many} in {zone.zone} at {moment}"


def times(told: Told) -> Iterator[str]:
    last = max((t["end_s"] for t in told.tasks), default=0)
    for task in told.tasks:
        if task["start_s"] % GRID or task["end_s"] % GRID or task["start_s"] < 0:
            yield f"{task['task']} is off the grid"
        if task["end_s"] > told.plan["work_s"]:
            yield f"{task['task']} ends after the service"
    if (told.plan["finish_s"], told.plan["spare_s"]) != (last, told.plan["work_s"] - last):
        yield "finish_s and spare_s are not the last end and what is left"


def access(told: Told) -> Iterator[str]:
    for task in told.of("open", "close"):
        step = told.setup.rates.access[task["step"]]
        yield from lasts(task, step.minutes_open if task["kind"] == "open" else step.minutes_close)
        bound = step.mechanics if task["end_s"] > task["start_s"] else 0
        if len(task["people"]) != bound or any("mechanic" not in told.roles(p) for p in task["people"]):
            yield f"{task['task']} has not its people"
        if told.span(task["step"], task["zone"]) is None:
            yield f"{task['step']} {task['zone']} is not opened and closed once"
        if bool(task["zone"]) != (step.per == "zone"):
            yield f"{task['task']} is not where it belongs"


def needs(told: Told) -> Iterator[str]:
    for task in told.of("open", "close"):
        for need in told.setup.rates.access[task["step"]].needs:
            yield from inside(task, told.span(*told.place(need, task["zone"])), need)


def inside(task: Json, span: tuple[int, int] | None, name: str) -> Iterator[str]:
    if span is None:
        yield f"{task['task']} needs {name}, which is not in the plan"
    elif task["start_s"] < span[0] or task["end_s"] > span[1]:
        yield f"{task['task']} is not done while {name} is open"


def way(told: Told, job: Json, task: Json) -> Iterator[str]:
    """What a job opens lies around a task of it."""
    for step in job["estimate"]["access"] if job["state"] not in ("finished", "accepted") else ():
        yield from inside(task, told.span(*told.place(step, job["zone"])), step)


def work(told: Told) -> Iterator[str]:
    jobs = {job["job"]: job for job in told.queue["jobs"]}
    for task in told.of("work"):
        job, row = jobs[task["job"]], told.row(jobs[task["job"]])
        points = row.minutes if row else told.setup.rates.assess_minutes
        points = told.setup.rates.inspect(job["group"]) if job["condition"] == "unknown" else points
        fetched = job["component"] in ON_THE_WHEEL and task["end_s"] - task["start_s"] == FETCHING_S
        if not (fetched and wheel_comes_off_anyway(told, job)):
            yield from lasts(task, points.expected)
        yield from way(told, job, task)
        if len(task["people"]) != job["estimate"]["mechanics"]:
            yield f"{task['task']} has {len(task['people'])} people"
        if any("mechanic" not in told.roles(p) for p in task["people"]):
            yield f"{task['task']} is done by somebody who is no mechanic"
        if (
            row
            and row.skill
            and job["condition"] != "unknown"
            and not any(row.skill in told.skills(p) for p in task["people"])
        ):
            yield f"{task['task']} is done by nobody with {row.skill}"


def wheel_comes_off_anyway(told: Told, job: Json) -> bool:
    others = [t for t in told.of("work", zone=job["zone"]) if t["job"] != job["job"]]
    return told.span("wheel-off", job["zone"]) is not None or any(
        t["job"].split("/")[1] in ON_THE_WHEEL for t in others
    )


def looks(told: Told) -> Iterator[str]:
    jobs = {job["job"]: job for job in told.queue["jobs"]}
    planned = {task["job"] for task in told.of("work", "inspect")}
    for name in sorted(planned & jobs.keys()):
        job = jobs[name]
        done, seen = told.of("work", job=name), told.of("inspect", job=name)
        if job["safety_critical"] and job["inspection"] != "passed" and len(seen) != 1:
            yield f"{name} is looked at {len(seen)} times"
        for look in seen:
            yield from lasts(look, told.setup.rates.inspect(job["group"]).expected)
            yield from way(told, job, look)
            if len(look["people"]) != 1 or "inspector" not in told.roles(look["people"][0]):
                yield f"{look['task']} is not by one inspector"
            for task in done:
                if look["start_s"] < task["end_s"] or set(look["people"]) & set(task["people"]):
                    yield f"{name} is looked at before it is repaired, or by who repaired it"
    yield from one_look_a_corner(told)


def one_look_a_corner(told: Told) -> Iterator[str]:
    for zone in told.setup.car_map.zones.values():
        seen = sorted(told.of("inspect", zone=zone.zone), key=lambda t: t["start_s"])
        for one, other in pairwise(seen) if zone.kind == "corner" else ():
            if one["end_s"] != other["start_s"] or one["people"] != other["people"]:
                yield f"{zone.zone} is looked at in more than one go"


def checks(told: Told) -> Iterator[str]:
    for job in told.queue["jobs"]:
        row = told.row(job)
        for done in told.of("work", job=job["job"]):
            for name in row.then if row is not None and job["condition"] != "unknown" else ():
                check = told.setup.rates.checks[name]
                mine = [t for t in told.of("check", job=job["job"]) if t["task"].startswith(name)]
                mine = mine or [
                    t for t in told.of("check", zone=job["zone"]) if t["task"].startswith("wheel-nut-torque")
                ]
                if len(mine) != 1:
                    yield f"{name} of {job['job']} stands {len(mine)} times"
                for task in mine:
                    yield from one_check(told, job, done, task, name)
                    yield from lasts(task, check.minutes.expected)


def one_check(told: Told, job: Json, done: Json, task: Json, name: str) -> Iterator[str]:
    check = told.setup.rates.checks[name]
    if task["start_s"] < done["end_s"]:
        yield f"{task['task']} comes before the work"
    if check.by != "anyone" and set(task["people"]) & set(done["people"]):
        yield f"{task['task']} is by who did the work"
    if check.by == "inspector" and not any("inspector" in told.roles(p) for p in task["people"]):
        yield f"{task['task']} is not by an inspector"
    if len(task["people"]) != check.mechanics:
        yield f"{task['task']} has {len(task['people'])} people"
    if check.when == "before-close":
        yield from way(told, job, task)
    else:
        yield from down(told, task)


def ground(told: Told) -> Iterator[str]:
    for job in told.queue["jobs"]:
        row = told.row(job)
        if row is not None and row.ground and job["condition"] != "unknown":
            for task in told.of("work", job=job["job"]):
                yield from down(told, task)


def down(told: Told, task: Json) -> Iterator[str]:
    if any(task["start_s"] < end and task["end_s"] > start for start, end in told.stands()):
        yield f"{task['task']} is done on the ground while the car is on stands"


def nuts(told: Told) -> Iterator[str]:
    fitted: dict[str, list[Json]] = {}
    for task in told.of("close", step="wheel-off"):
        fitted.setdefault(task["zone"], []).append(task)
    for task in told.of("work"):
        zone, component = task["job"].split("/")
        if component in ON_THE_WHEEL and task["task"].split()[0] in ("swap", "replace", "change", "fit", "refit"):
            fitted.setdefault(zone, []).append(task)
    for zone, tasks in fitted.items():
        seen = [t for t in told.of("check", zone=zone) if t["task"].startswith("wheel-nut-torque")]
        if len(seen) != 1:
            yield f"the nuts of {zone} are checked {len(seen)} times"
        for check in seen:
            yield from down(told, check)
            for task in tasks:
                if check["start_s"] < task["end_s"] or set(check["people"]) & set(task["people"]):
                    yield f"the nuts of {zone} are checked before they are tight, or by who fitted the wheel"


def order(told: Told) -> Iterator[str]:
    jobs = {job["job"]: job for job in told.queue["jobs"]}
    for task in told.of("work"):
        row = told.row(jobs[task["job"]])
        for name in row.after if row is not None else ():
            earlier = [t for t in told.of("work") if t["job"].split("/")[1] == name and t is not task]
            near = [t for t in earlier if t["zone"] == task["zone"]] or earlier
            yield from (f"{task['task']} comes before {t['task']}" for t in near if t["end_s"] > task["start_s"])


def fire(told: Told) -> Iterator[str]:
    jobs = {job["job"]: job for job in told.queue["jobs"]}
    for task in told.of("work"):
        row = told.row(jobs[task["job"]])
        if row is not None and row.fire_risk and jobs[task["job"]]["action"] == row.action:
            for other in told.tasks:
                if other is not task and other["start_s"] < task["end_s"] and other["end_s"] > task["start_s"]:
                    yield f"{other['task']} goes on during {task['task']}"


def everything(told: Told) -> Iterator[str]:
    """Each job of the queue that is still to do, and each routine work of the service, is in the plan or left out."""
    out = [item["job"] for item in told.plan["left_out"]]
    done = {t["job"] for t in told.of("work", "inspect")} | {t["task"] for t in told.of("routine")}
    open_jobs = [
        job["job"]
        for job in told.queue["jobs"]
        if job["state"] not in ("finished", "accepted") or (job["safety_critical"] and job["inspection"] != "passed")
    ]
    service = told.plan["service"]
    routine = [f"routine {r.task}" for r in told.setup.event.routine if not r.services or service in r.services]
    for name in [*open_jobs, *routine]:
        if (name in done) == (name in out) or out.count(name) > 1:
            yield f"{name} is neither in the plan nor left out, or both"


def lasts(task: Json, minutes: Fraction) -> Iterator[str]:
    seconds = -int(-(minutes * 60 / GRID) // 1) * GRID
    if task["end_s"] - task["start_s"] != seconds:
        yield f"{task['task']} lasts {task['end_s'] - task['start_s']} s, not {seconds}"

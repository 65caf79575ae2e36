"""Judges a plan as it is told, one function for each rule: it knows queue, set-up and JSON, nothing of the planner.

Written a second time on purpose, like the oracle: `shuntbook.plan.check` judges the planner's own numbers and cannot
see what was built wrong. Here is who does what where and when; `plan_rules_jobs` has the rules of repairs, checks
and routine work, `plan_rules_inspections` its own, `plan_rules_goals` what may not be left out for less.
"""

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from itertools import pairwise

from msgspec import to_builtins

import plan_rules_goals as goals
import plan_rules_inspections as inspections
import plan_rules_jobs as jobs
from plan_told import AWAY, GRID_S, ROUND_THE_CAR, Json, Told, clock, jobs_of, named, overlap
from shuntbook.setup.folder import Setup

Rule = Callable[[Told], Iterator[str]]


def only_who_is_there(told: Told) -> Iterator[str]:
    """Mechanics, the first so many asked for, and inspectors; one of the crew where a row says so."""
    mechanics, inspectors = told.hired
    arrive = {person["person"]: person["from_s"] for person in told.plan.get("people", ())}
    for task in told.tasks:
        for person in task["people"]:
            if person not in mechanics | inspectors and not (told.is_crew(person) and told.lets_crew(task)):
                yield f"{person} works on {named(task)} and is not there"
            if task["start_s"] < arrive.get(person, 0) and task["end_s"] > task["start_s"]:
                yield f"{person} works on {named(task)} before {clock(arrive[person])}, when he comes"
        if sum(told.is_crew(person) for person in task["people"]) > 1:
            yield f"{named(task)} has more than one of the crew"


def the_right_people(told: Told) -> Iterator[str]:
    """Mechanics repair and open, inspectors inspect; as many as it takes, one of them with the skill."""
    for task in told.tasks:
        wanted = _how_many(told, task)
        if len(set(task["people"])) != wanted or len(task["people"]) != wanted:
            yield f"{named(task)} takes {wanted}, and has {len(task['people'])}"
        role = {"work": "mechanic", "open": "mechanic", "close": "mechanic"}.get(task["kind"])
        for person in task["people"] if role else ():
            if role not in told.roles(person) and not told.is_crew(person):
                yield f"{person} is no {role} and works on {named(task)}"
        row = told.row(told.jobs[task["job"]]) if task["kind"] == "work" else None
        if row is not None and row.skill and not any(told.has_skill(p, row.skill) for p in task["people"]):
            yield f"{named(task)} is done by nobody with the skill {row.skill}"


def _how_many(told: Told, task: Json) -> int:
    rates = told.setup.rates
    if task["kind"] in ("open", "close"):
        # What takes no time binds nobody.
        return rates.access[task["step"]].mechanics if task["end_s"] > task["start_s"] else 0
    if task["kind"] == "routine":
        return told.routine_of(task).mechanics
    if task["kind"] == "work":
        return int(told.jobs[task["job"]]["estimate"]["mechanics"])
    check = rates.checks.get(task["task"].split()[0]) if task["kind"] == "check" else None
    if check is not None:
        return check.mechanics
    return len(task["people"]) if inspections.is_officials(told, task) else 1


def nobody_in_two_places(told: Told) -> Iterator[str]:
    """One person does one thing at a time."""
    for person in sorted({p for task in told.tasks for p in task["people"]}):
        mine = sorted((t for t in told.tasks if person in t["people"]), key=lambda t: (t["start_s"], t["end_s"]))
        for one, other in pairwise(mine):
            if other["start_s"] < one["end_s"]:
                yield f"{person} is at {named(one)} and at {named(other)}"


def a_place_holds_its_people(told: Told) -> Iterator[str]:
    """A zone holds at most its number of people; beside the car and round all of it nobody's place is taken."""
    for zone in told.setup.car_map.zones.values():
        here = [t for t in told.tasks if t["zone"] == zone.zone and zone.zone not in (AWAY, ROUND_THE_CAR)]
        for moment in sorted({t["start_s"] for t in here}):
            there = [t for t in here if overlap(t, moment, moment + 1)]
            if sum(len(t["people"]) for t in there) > zone.people:
                yield f"{zone.zone} holds {zone.people}, at {clock(moment)}: {', '.join(map(named, there))}"


def a_task_is_where_its_job_is(told: Told) -> Iterator[str]:
    """Repairs, inspections and routine work are in their zone; a check that it has no room for is round the car."""
    for task in told.of("work", "inspect", "check", "routine"):
        zones = {told.jobs[name]["zone"] for name in jobs_of(task)}
        if task["kind"] == "routine":
            zones = {told.routine_of(task).zone}
        if zones and task["zone"] not in zones | ({AWAY, ROUND_THE_CAR} if task["kind"] == "check" else set()):
            yield f"{named(task)} is in {task['zone']!r}, not in {', '.join(sorted(zones))}"


def nobody_at_a_moving_car(told: Told) -> Iterator[str]:
    """While the car goes up or down no other step opens or closes, and only work away from the car goes on."""
    for moving in told.moving:
        for task in told.tasks:
            at_it = task["kind"] in ("open", "close") or task["zone"] != AWAY
            if task is not moving and at_it and overlap(task, moving["start_s"], moving["end_s"]):
                yield f"{named(task)} goes on at the car during {named(moving)}"


def on_the_grid(told: Told) -> Iterator[str]:
    """Each task starts and ends on the 15 s grid."""
    for task in told.tasks:
        if task["start_s"] % GRID_S or task["end_s"] % GRID_S or task["start_s"] < 0 or task["end_s"] < task["start_s"]:
            yield f"{named(task)} is off the grid"


def nothing_ends_too_late(told: Told) -> Iterator[str]:
    """Nothing ends after the time for work, or `late_min` minutes after it; and that never past the event's limit."""
    late = told.plan.get("late_min", 0)
    for task in told.tasks:
        if task["end_s"] > told.plan["work_s"] + 60 * late:
            yield f"{named(task)} ends after the time for work, {clock(told.plan['work_s'])} and {late} min late"
    if late > told.plan["lateness"]["left_min"]:
        yield f"the plan is {late} min late, and {told.plan['lateness']['left_min']} min are left"


def the_time_for_work(told: Told) -> Iterator[str]:
    """The service's minutes less those of driving in and out; finish and spare follow from the tasks."""
    if told.service is not None:
        minutes = told.plan["minutes"] - Fraction(told.service.in_and_out_minutes)
        if told.plan["work_s"] != max(0, int(minutes * 60 / GRID_S)) * GRID_S:
            yield f"work_s is {told.plan['work_s']}, and there are {float(minutes)} minutes for work"
    last = max((t["end_s"] for t in told.tasks), default=0)
    if (told.plan["finish_s"], told.plan["spare_s"]) != (last, max(0, told.plan["work_s"] - last)):
        yield f"finish_s {told.plan['finish_s']} and spare_s {told.plan['spare_s']} do not follow from {clock(last)}"


def a_step_opens_and_closes_once(told: Told) -> Iterator[str]:
    """Each access step of the plan is opened and closed once, in its place."""
    for place in sorted({(t["step"], t["zone"]) for t in told.of("open", "close")}):
        step, zone = place
        opens, closes = told.of("open", step=step, zone=zone), told.of("close", step=step, zone=zone)
        already = told.span(place) is not None and not opens
        if len(opens) != (0 if already else 1) or len(closes) != 1:
            yield f"{step} {zone} opens {len(opens)} and closes {len(closes)} times"
        if place != told.place(step, zone) or (not zone and told.setup.rates.access[step].per == "zone"):
            yield f"{step} {zone} is not where it belongs: once a {told.setup.rates.access[step].per}"


def what_needs_a_step_is_done_while_it_is_open(told: Told) -> Iterator[str]:
    """A step opens before all repairs, checks and routine work that need it and closes after."""
    for task in told.of("work", "check", "routine"):
        yield from inspections.inside_its_steps(told, task)


def a_steps_needs_are_open_around_it(told: Told) -> Iterator[str]:
    """What has to be open before a step is open while it opens and while it closes."""
    for task in told.of("open", "close"):
        yield from inspections.inside_its_steps(told, task)


RULES: Mapping[str, Rule] = {
    rule.__name__: rule
    for rule in (
        only_who_is_there,
        the_right_people,
        nobody_in_two_places,
        a_place_holds_its_people,
        a_task_is_where_its_job_is,
        nobody_at_a_moving_car,
        on_the_grid,
        nothing_ends_too_late,
        the_time_for_work,
        a_step_opens_and_closes_once,
        what_needs_a_step_is_done_while_it_is_open,
        a_steps_needs_are_open_around_it,
        *jobs.RULES,
        *inspections.RULES,
        *goals.RULES,
    )
}
"""Every rule of a valid plan by its name."""

COMING: frozenset[str] = frozenset()
"""Rules that the planner does not keep yet: whoever makes it keep one takes it out here, and it binds from then on."""


def broken_rules(plan: object, queue: object, setup: Setup, mechanics: int | None = None) -> list[str]:
    """Return each rule in force that a plan breaks, in words; none where it keeps them all. Both judged as JSON."""
    found = by_rule(plan, queue, setup, mechanics)
    return [f"{rule}: {what}" for rule, said in found.items() if rule not in COMING for what in said]


def by_rule(plan: object, queue: object, setup: Setup, mechanics: int | None = None) -> dict[str, list[str]]:
    """Return what breaks each rule, those to come too, by the rule's name."""
    told = Told(to_builtins(plan), to_builtins(queue), setup, mechanics)
    return {name: list(rule(told)) for name, rule in RULES.items()}

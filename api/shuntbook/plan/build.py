"""Makes a planning problem of a car's queue, the routine work of a service and the people who are there."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from shuntbook.plan.problem import GRID_S, Apart, Problem, Span, Task, Worker, units
from shuntbook.setup.event import Routine, Service
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Access, Check, Operation, ThreePoint

Json = Mapping[str, Any]

NUT_CHECK, WHEEL_OFF, BLEEDING, CABIN = "wheel-nut-torque", "wheel-off", "brakes-opened-and-bled", "cabin"
NUT_CHECK_MINUTES = ThreePoint(Fraction(1, 2), Fraction(1, 2), Fraction(1, 2))
SMALLEST = 1
"""Worth of what has no value of its own: it is done where it costs nothing better."""
SCALE = 1000


@dataclass
class Draft:
    """A problem being made; `minutes` are each task's three points, `left_out` why a job cannot be planned."""

    setup: Setup
    workers: list[Worker]
    tasks: list[Task] = field(default_factory=list)
    minutes: list[ThreePoint] = field(default_factory=list)
    before: list[tuple[int, int]] = field(default_factory=list)
    apart: list[Apart] = field(default_factory=list)
    musts: set[str] = field(default_factory=set)
    worth: dict[str, Fraction] = field(default_factory=dict)
    users: dict[tuple[str, str], list[int]] = field(default_factory=dict)
    work_of: dict[str, int] = field(default_factory=dict)
    left_out: dict[str, str] = field(default_factory=dict)

    def add(self, task: Task, minutes: ThreePoint) -> int:
        """Add a task and return its number."""
        self.tasks.append(task)
        self.minutes.append(minutes)
        return len(self.tasks) - 1

    def who(self, *, mechanic: bool = False, inspector: bool = False) -> tuple[int, ...]:
        """Return the workers of either role, all of them where none is asked for."""
        anybody = not mechanic and not inspector
        return tuple(
            n for n, w in enumerate(self.workers) if anybody or (mechanic and w.mechanic) or (inspector and w.inspector)
        )


@dataclass(frozen=True)
class Built:
    """A problem with what the plan says beside it."""

    problem: Problem
    minutes: tuple[ThreePoint, ...]
    left_out: Mapping[str, str]


def workers_of(setup: Setup, mechanics: int | None, away_units: Mapping[str, int]) -> list[Worker]:
    """Return the event's first `mechanics` mechanics and its inspectors, in the set-up's order.

    away_units: from when somebody is there, in units.
    """
    found, taken = [], 0
    for person in setup.event.people:
        is_mechanic, is_inspector = "mechanic" in person.roles, "inspector" in person.roles
        if is_mechanic and mechanics is not None and taken >= mechanics:
            continue
        if is_mechanic or is_inspector:
            taken += is_mechanic
            skills, from_unit = frozenset(person.skills), away_units.get(person.person, 0)
            found.append(Worker(person.person, is_mechanic, is_inspector, skills, from_unit))
    return found


def units_for_work(service: Service, minutes: int | None, late_minutes: int = 0) -> int:
    """Return the time for work of a service in units: control to control, less driving in and out."""
    whole = (service.minutes if minutes is None else minutes) + late_minutes - Fraction(service.in_and_out_minutes)
    return max(0, int(whole * 60 / GRID_S))


def build(queue: Json, setup: Setup, service: Service, workers: Sequence[Worker], horizon: int) -> Built:
    """Return the problem of one car at one service."""
    draft = Draft(setup, list(workers))
    for job in queue["jobs"]:
        _job(draft, job)
    for routine in setup.event.routine:
        if not routine.services or service.service in routine.services:
            _routine(draft, routine)
    _afters(draft, queue["jobs"])
    spans = _spans(draft)
    problem = Problem(
        tuple(draft.tasks),
        tuple(draft.workers),
        {zone.zone: zone.people for zone in setup.car_map.zones.values()},
        tuple(draft.before),
        spans,
        tuple(draft.apart),
        frozenset(draft.musts),
        _scaled(draft.worth),
        horizon,
    )
    return Built(problem, tuple(draft.minutes), draft.left_out)


def _job(draft: Draft, job: Json) -> None:
    over = job["state"] in ("finished", "accepted")
    to_inspect = job["safety_critical"] and job["inspection"] != "passed"
    if over and not to_inspect:
        return
    reason = _impossible(draft, job, over)
    if reason:
        draft.left_out[job["job"]] = reason
        return
    group = job["job"]
    row = draft.setup.rates.operation(job["component"], job["condition"], job["zone"])
    access = [] if over else job["estimate"]["access"]
    work = None if over or (job["action"] == "inspect" and to_inspect) else _work(draft, job, row)
    inside = [] if work is None else [work]
    last = work
    for check in _checks(draft, row) if work is not None else ():
        last = _check(draft, job, check, inside, last, work)
    if to_inspect:
        inside.append(_inspect(draft, job, last, work))
    for step in _with_needs(draft, access):
        draft.users.setdefault(_place(step, job["zone"]), []).extend(inside)
    if job["must_do"]:
        draft.musts.add(group)
    draft.worth[group] = row.value if row is not None and not over else Fraction(0)


def _impossible(draft: Draft, job: Json, over: bool) -> str:
    if job["group"] == "cage":
        return "a cage waits for the official: stop, call him; the maker decides on repairs"
    if over:
        return ""
    short = [part["part"] for part in job["estimate"]["parts"] if part["short"]]
    if short:
        return f"not in the van: {', '.join(short)}"
    zone = draft.setup.car_map.zones.get(job["zone"])
    if zone is not None and job["estimate"]["mechanics"] > zone.people:
        return f"needs {job['estimate']['mechanics']} people; {zone.label} holds {zone.people}"
    if job["estimate"]["mechanics"] > len(draft.who(mechanic=True)):
        return f"needs {job['estimate']['mechanics']} mechanics; {len(draft.who(mechanic=True))} are there"
    return ""


def _work(draft: Draft, job: Json, row: Operation | None) -> int:
    minutes = _minutes(draft, job, row)
    people = job["estimate"]["mechanics"]
    may = draft.who(mechanic=True)
    skill = row.skill if row is not None and job["action"] == row.action else ""
    skilled = tuple(n for n in may if skill and skill in draft.workers[n].skills)
    task = Task(
        name=f"{job['action']} {job['job']}",
        kind="work",
        units=units(minutes.expected),
        people=people,
        may=may,
        skilled=skilled,
        group=job["job"],
        job=job["job"],
        zone=job["zone"],
        uses=_places(draft, job["zone"], people, seat=job["action"] == "bleed"),
        ground=bool(row and row.ground),
        alone=bool(row and row.fire_risk),
    )
    draft.work_of[job["job"]] = draft.add(task, minutes)
    return draft.work_of[job["job"]]


def _minutes(draft: Draft, job: Json, row: Operation | None) -> ThreePoint:
    if job["action"] == "inspect":
        return draft.setup.rates.inspect(job["group"])
    return row.minutes if row is not None else draft.setup.rates.assess_minutes


def _checks(draft: Draft, row: Operation | None) -> list[Check]:
    known = draft.setup.rates.checks
    return [known[name] for name in row.then if name in known] if row is not None else []


def _check(draft: Draft, job: Json, check: Check, inside: list[int], last: int | None, work: int | None) -> int | None:
    """Add a check that follows the work; one before the access closes is inside it. Return the last task inside."""
    ground = check.when == "on-ground"
    may = draft.who(inspector=True) if check.by == "inspector" else draft.who()
    people = min(check.mechanics, len(may))
    task = Task(
        name=f"{check.check} {job['job']}",
        kind="check",
        units=units(check.minutes.expected),
        people=people,
        may=may,
        group=job["job"],
        job=job["job"],
        zone="" if ground else job["zone"],
        uses={} if ground else _places(draft, job["zone"], people),
        ground=ground,
    )
    number = draft.add(task, check.minutes)
    if work is not None:
        draft.before.append((work, number))
        if check.by in ("other", "inspector"):
            draft.apart.append(Apart(number, (work,)))
    if ground:
        return last
    inside.append(number)
    return number


def _inspect(draft: Draft, job: Json, last: int | None, work: int | None) -> int:
    minutes = draft.setup.rates.inspect(job["group"])
    may = draft.who(inspector=True)
    task = Task(
        name=f"inspect {job['job']}",
        kind="inspect",
        units=units(minutes.expected),
        people=min(1, len(may)),
        may=may,
        group=job["job"],
        job=job["job"],
        zone=job["zone"],
        uses=_places(draft, job["zone"], 1),
    )
    number = draft.add(task, minutes)
    if last is not None:
        draft.before.append((last, number))
    if work is not None:
        draft.apart.append(Apart(number, (work,)))
    return number


def _routine(draft: Draft, routine: Routine) -> None:
    minutes = ThreePoint(*(Fraction(value) for value in routine.minutes))
    group = f"routine {routine.task}"
    people = min(routine.mechanics, len(draft.who(mechanic=True)))
    uses = _places(draft, routine.zone, people)
    task = Task(
        group,
        "routine",
        units(minutes.expected),
        people,
        draft.who(mechanic=True),
        (),
        group,
        zone=routine.zone,
        uses=uses,
    )
    number = draft.add(task, minutes)
    for step in _with_needs(draft, [name for name in routine.access if name in draft.setup.rates.access]):
        draft.users.setdefault(_place(step, routine.zone), []).append(number)
    if routine.must_do:
        draft.musts.add(group)
    draft.worth[group] = Fraction(0)


def _places(draft: Draft, zone: str, people: int, *, seat: bool = False) -> dict[str, int]:
    zones = draft.setup.car_map.zones
    uses = {zone: min(people, zones[zone].people)} if zone in zones and people else {}
    # Somebody in the seat, pumping: nobody else works in the cabin.
    return {**uses, CABIN: zones[CABIN].people} if seat and CABIN in zones else uses


def _afters(draft: Draft, jobs: Sequence[Json]) -> None:
    """What the rate table names as `after`: jobs of that component, in the same zone where there are any."""
    planned = [job for job in jobs if job["job"] in draft.work_of]
    for job in planned:
        row = draft.setup.rates.operation(job["component"], job["condition"], job["zone"])
        for name in row.after if row is not None else ():
            named = [other for other in planned if other["component"] == name and other is not job]
            near = [other for other in named if other["zone"] == job["zone"]] or named
            draft.before += [(draft.work_of[other["job"]], draft.work_of[job["job"]]) for other in near]


def _with_needs(draft: Draft, names: Sequence[str]) -> list[Access]:
    """Return the steps with those that have to be open before them."""
    found: dict[str, Access] = {}
    todo = list(names)
    while todo:
        name = todo.pop()
        if name not in found:
            found[name] = draft.setup.rates.access[name]
            todo += found[name].needs
    return [found[name] for name in sorted(found)]


def _place(step: Access, zone: str) -> tuple[str, str]:
    return step.step, zone if step.per == "zone" else ""


def _spans(draft: Draft) -> tuple[Span, ...]:
    places = sorted(draft.users)
    ends = {place: _open_and_close(draft, place) for place in places}
    spans = []
    for place in places:
        opens, closes = ends[place]
        users = list(draft.users[place])
        for inner in places:
            step = draft.setup.rates.access[inner[0]]
            same = inner[1] == place[1] or not place[1]
            if inner != place and same and place[0] in [s.step for s in _with_needs(draft, step.needs)]:
                users += ends[inner]
        after = (_nuts(draft, place, closes),) if place[0] == WHEEL_OFF else ()
        spans.append(Span(" ".join(filter(None, place)), opens, closes, tuple(users), _is_stands(place[0]), after))
    return tuple(spans)


def _open_and_close(draft: Draft, place: tuple[str, str]) -> tuple[int, int]:
    step = draft.setup.rates.access[place[0]]
    numbers = []
    for kind, minutes in (("open", step.minutes_open), ("close", step.minutes_close)):
        may = draft.who(mechanic=True)
        people = min(step.mechanics, len(may))
        seat = step.step == BLEEDING and kind == "close"
        task = Task(
            name=" ".join(filter(None, (kind, *place))),
            kind=kind,  # type: ignore[arg-type]
            units=units(minutes),
            people=people,
            may=may,
            step=step.step,
            zone=place[1],
            uses=_places(draft, place[1], people, seat=seat),
        )
        numbers.append(draft.add(task, ThreePoint(minutes, minutes, minutes)))
    return numbers[0], numbers[1]


def _nuts(draft: Draft, place: tuple[str, str], closes: int) -> int:
    """A wheel that came off has its nuts checked on the ground, by somebody else than who fitted it."""
    check = draft.setup.rates.checks.get(NUT_CHECK)
    minutes = check.minutes if check else NUT_CHECK_MINUTES
    may = draft.who()
    task = Task(
        f"{NUT_CHECK} {place[1]}", "check", units(minutes.expected), min(1, len(may)), may, step=place[0], ground=True
    )
    number = draft.add(task, minutes)
    draft.apart.append(Apart(number, (closes,)))
    return number


def _is_stands(step: str) -> bool:
    return step.endswith("on-stands")


def _scaled(worth: Mapping[str, Fraction]) -> dict[str, int]:
    """Return whole numbers in the same proportions; what is worth nothing gets the smallest there is."""
    common = 1
    for value in worth.values():
        common = common * value.denominator // _gcd(common, value.denominator)
    return {group: int(value * common) * SCALE or SMALLEST for group, value in worth.items()}


def _gcd(a: int, b: int) -> int:
    while b:
        a, b = b, a % b
    return a

"""The rules of a valid plan about inspections: one for a place, by whom, how early, before what closes."""

from collections.abc import Iterator

from plan_told import AWAY, GRID_S, Json, Told, clock, jobs_of, named, overlap


def is_officials(told: Told, task: Json) -> bool:
    """Whether a task waits for an official of the event: it is listed, and nobody of the team does it."""
    return any(told.jobs[name]["group"] == "cage" for name in jobs_of(task)) or "official" in task["task"]


def is_of_place(told: Told, task: Json, job: Json, repaired: bool) -> bool:
    """Whether an inspection is the one that a job of this zone and access belongs to, repaired in the plan or not."""
    mine = (job["zone"], told.inspect_access(job), repaired)
    return mine in {(j["zone"], told.inspect_access(j), bool(told.work_of(j["job"]))) for j in told.inspected(task)}


def is_cabin(told: Told, zone: str) -> bool:
    """Whether somebody may sit there with a foot on the pedal, which no field of a plan tells."""
    known = told.setup.car_map.zones.get(zone)
    return known is not None and known.kind == "cabin"


def inside_its_steps(told: Told, task: Json) -> Iterator[str]:
    """What is wrong with when a task is done, by the steps that it needs open."""
    for place in sorted(told.needed_by(task)):
        span, step = told.span(place), " ".join(filter(None, place))
        if span is None:
            yield f"{named(task)} needs {step}, which is not in the plan"
        elif task["start_s"] < span[0] or task["end_s"] > span[1]:
            yield f"{named(task)} is not between {clock(span[0])} and {clock(span[1])}, while {step} is open"


def an_inspection_has_open_what_it_needs(told: Told) -> Iterator[str]:
    """The component's own steps, else those of the zone's kind, are open around an inspection."""
    for task in told.of("inspect"):
        yield from inside_its_steps(told, task)


def inspections_of_a_place_are_one(told: Told) -> Iterator[str]:
    """What waits for no repair is one inspection of a zone and access, what was repaired another, where one may do it.

    Where nobody may do all that was repaired it is one inspection for each job.
    """
    for (zone, access, repaired), tasks in _by_place(told).items():
        names = ", ".join(map(named, tasks))
        if len(tasks) > 1 and not repaired:
            yield f"{zone} is inspected {len(tasks)} times with the same access {access}: {names}"
        busy = {p for task in tasks for name in jobs_of(task) for work in told.work_of(name) for p in work["people"]}
        if len(tasks) > 1 and repaired and told.hired[1] - busy:
            one = min(told.hired[1] - busy)
            yield f"{zone} is inspected {len(tasks)} times, and {one} repaired nothing of it: {names}"


def _by_place(told: Told) -> dict[tuple[str, tuple[str, ...], bool], list[Json]]:
    found: dict[tuple[str, tuple[str, ...], bool], list[Json]] = {}
    for task in told.of("inspect"):
        for name in jobs_of(task) if not is_officials(told, task) else ():
            job = told.jobs[name]
            here = found.setdefault((job["zone"], told.inspect_access(job), bool(told.work_of(name))), [])
            here.extend([] if task in here else [task])
    return found


def an_inspection_is_of_one_place(told: Told) -> Iterator[str]:
    """Its jobs lie in one zone, need the same access, and all wait for a repair or none does."""
    for task in told.of("inspect"):
        jobs = told.inspected(task)
        if len({(job["zone"], told.inspect_access(job), bool(told.work_of(job["job"]))) for job in jobs}) > 1:
            yield f"{named(task)} holds jobs that are not inspected at once"


def what_is_safety_critical_is_inspected(told: Told) -> Iterator[str]:
    """Each safety-critical job of the plan is inspected once, unless it is passed or waits for an official."""
    for name in sorted({t["job"] for t in told.of("work")} | {n for t in told.of("inspect") for n in jobs_of(t)}):
        job, seen = told.jobs[name], told.inspections_of(name)
        due = job["safety_critical"] and job["inspection"] != "passed" and job["group"] != "cage"
        if len(seen) != 1 and due:
            yield f"{name} is inspected {len(seen)} times"
        if seen and not job["safety_critical"] and told.work_of(name):
            yield f"{name} is no safety-critical job and is inspected: {named(seen[0])}"


def an_inspector_inspects_who_did_not_repair(told: Told) -> Iterator[str]:
    """One inspector, who did none of the repairs that he inspects."""
    for task in [t for t in told.of("inspect") if not is_officials(told, t)]:
        due = any(told.jobs[name]["safety_critical"] for name in jobs_of(task))
        for person in task["people"]:
            if due and "inspector" not in told.roles(person):
                yield f"{person} is no inspector: {named(task)}"
            for name in jobs_of(task):
                yield from (
                    f"{named(task)}: {person} did {named(w)}" for w in told.work_of(name) if person in w["people"]
                )


def a_repair_is_inspected_before_its_access_closes(told: Told) -> Iterator[str]:
    """After the repair, and before any step closes that the repair needs."""
    for task in told.of("inspect"):
        for job in told.inspected(task):
            for work in told.work_of(job["job"]):
                if task["start_s"] < work["end_s"]:
                    yield f"{named(task)} comes before {named(work)} is done"
                spans = [told.span(place) for place in told.way(job)]
                if any(span is not None and task["end_s"] > span[1] for span in spans):
                    yield f"{named(task)} comes after what {named(work)} needs open is closed"


def what_waits_for_no_repair_is_inspected_at_once(told: Told) -> Iterator[str]:
    """As early as it can be: at no earlier moment is the inspector idle, the way open and the place free."""
    for task in told.of("inspect"):
        waits = any(told.work_of(name) for name in jobs_of(task)) or is_cabin(told, task["zone"])
        # Of a team's plan the other cars bind inspectors, too, which one car's part does not tell.
        if not waits and not is_officials(told, task) and "offset_s" not in told.plan:
            moments = range(told.plan.get("now_s", 0), task["start_s"], GRID_S)
            earlier = next((s for s in moments if fits_at(told, task, s, told.tasks)), None)
            if earlier is not None:
                yield f"{named(task)} could be at {clock(earlier)}"


def fits_at(told: Told, task: Json, start: int, tasks: list[Json]) -> bool:
    """Whether a task could be done from a moment on by its people beside these tasks."""
    end = start + task["end_s"] - task["start_s"]
    beside = [t for t in tasks if t is not task and overlap(t, start, end)]
    spans = [told.span(place) for place in told.needed_by(task)]
    zone, moves = told.setup.car_map.zones.get(task["zone"]), told.moving
    arrive = {person["person"]: person["from_s"] for person in told.plan.get("people", ())}
    routine = [t for t in told.of("routine") if t is not task]
    first = [t for t in routine if told.routine_row(t)["when"] == "first"]
    last = [t for t in routine if told.routine_row(t)["when"] == "last"]
    return (
        all(span is not None and span[0] <= start and end <= span[1] for span in spans)
        and not any(set(t["people"]) & set(task["people"]) for t in beside)
        and all(arrive.get(person, 0) <= start for person in task["people"])
        and not (task["zone"] != AWAY and any(t in moves for t in beside))
        and not any(t["kind"] == "work" and _burns(told, t) for t in beside)
        and not any(t["end_s"] > start for t in first)
        and not any(t["start_s"] < end for t in last)
        and (zone is None or _crowd(task, beside, start, end) <= zone.people)
    )


def _burns(told: Told, task: Json) -> bool:
    row = told.row(told.jobs[task["job"]])
    return row is not None and row.fire_risk


def _crowd(task: Json, beside: list[Json], start: int, end: int) -> int:
    here = [t for t in beside if t["zone"] == task["zone"]]
    moments = {start, *(t["start_s"] for t in here if start <= t["start_s"] < end)}
    most = max(sum(len(t["people"]) for t in here if overlap(t, moment, moment + 1)) for moment in moments)
    return len(task["people"]) + most


def a_cage_waits_for_the_official(told: Told) -> Iterator[str]:
    """Nobody of the team inspects or checks a cage: it is listed among what is left, or waits for the official."""
    for task in told.of("inspect", "check"):
        for name in jobs_of(task):
            if told.jobs[name]["group"] == "cage" and task["people"]:
                yield f"{named(task)} ticks a cage"


RULES = (
    an_inspection_has_open_what_it_needs,
    inspections_of_a_place_are_one,
    an_inspection_is_of_one_place,
    what_is_safety_critical_is_inspected,
    an_inspector_inspects_who_did_not_repair,
    a_repair_is_inspected_before_its_access_closes,
    what_waits_for_no_repair_is_inspected_at_once,
    a_cage_waits_for_the_official,
)

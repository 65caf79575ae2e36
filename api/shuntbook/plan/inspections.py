"""Inspections: those of one zone that need the same access are one task, what waits for no repair by itself."""

from collections.abc import Sequence

from shuntbook.plan.draft import Draft
from shuntbook.plan.job_tasks import JobTasks
from shuntbook.plan.obstacles import look_access
from shuntbook.plan.problem import Apart, Piece, Task, units
from shuntbook.plan.window import in_window

Key = tuple[str, tuple[str, ...], bool]
"""A zone, the access that an inspection needs there, and whether it follows a repair of this plan."""


def add_inspections(draft: Draft, jobs: Sequence[JobTasks]) -> dict[int, int]:
    """Add the inspections of safety-critical jobs; return each one's task by its job's place in the list."""
    found: dict[int, int] = {}
    for key, places in _by_key(draft, jobs).items():
        together = [jobs[place] for place in places]
        may = {draft.named(tasks.job.job): _who_may(draft, tasks) for tasks in together}
        is_one = len(places) == 1 or bool(frozenset.intersection(*may.values()))
        goes = [list(places)] if is_one else [[place] for place in places]
        if not is_one:
            draft.one_each.append(may)
        for go in goes:
            number = _add(draft, key, [jobs[place] for place in go], alone=len(goes) > 1)
            found |= dict.fromkeys(go, number)
    return found


def _by_key(draft: Draft, jobs: Sequence[JobTasks]) -> dict[Key, list[int]]:
    found: dict[Key, list[int]] = {}
    for place, tasks in enumerate(jobs):
        if tasks.job.to_inspect:
            key = tasks.job.zone, look_access(draft, tasks.job), tasks.work is not None
            found.setdefault(key, []).append(place)
    return found


def _who_may(draft: Draft, tasks: JobTasks) -> frozenset[int]:
    """Return the inspectors who did not repair it, as far as the log tells, and whom its repair does not need."""
    return frozenset(worker for worker in _may(draft, [tasks]) if _can_do_without(draft, worker, tasks))


def _can_do_without(draft: Draft, worker: int, tasks: JobTasks) -> bool:
    if tasks.work is None:
        return True
    work = draft.tasks[tasks.work]
    left = [n for n in work.may if n != worker]
    mechanics = [n for n in left if n not in work.guests]
    enough = len(mechanics) + (len(left) > len(mechanics)) >= work.people
    return enough and (not work.skilled or any(n in work.skilled for n in left))


def _may(draft: Draft, together: Sequence[JobTasks]) -> tuple[int, ...]:
    """Inspectors who repaired none of what is to be passed, as far as the log tells."""
    return draft.others(draft.who(inspector=True), [tasks.job.job for tasks in together])


def _add(draft: Draft, key: Key, inspected: Sequence[JobTasks], *, alone: bool) -> int:
    zone, _, repaired = key
    rates = draft.setup.rates
    points = [(draft.named(t.job.job), rates.inspect(t.job.group)) for t in inspected]
    pieces = tuple(Piece(group, units(minutes.expected), minutes) for group, minutes in points)
    task = Task(
        name=_name(draft, key, inspected, alone=alone),
        kind="inspect",
        units=units(sum(piece.minutes.expected for piece in pieces if piece.minutes is not None)),  # type: ignore[arg-type]
        people=1,
        may=_may(draft, inspected),
        pieces=pieces,
        further=rates.inspect_next_minutes,
        job=inspected[0].job.job,
        zone=zone,
        uses=draft.places(zone, 1),
        early=not repaired,
    )
    number = draft.add(in_window(draft, task))
    for work in (tasks.work for tasks in inspected if tasks.work is not None):
        draft.before.append((work, number))
        draft.apart.append(Apart(number, (work,)))
    return number


def _name(draft: Draft, key: Key, inspected: Sequence[JobTasks], *, alone: bool) -> str:
    """Return a name that no other inspection of the zone has: people tick tasks by their names."""
    zone, access, repaired = key
    taken = {task.name for task in draft.tasks if task.car == draft.car}
    one = alone or len(inspected) == 1
    name = f"inspect {inspected[0].job.job if one else zone}"
    # A row of the rate table may call its repair an inspection.
    if name in taken or (repaired and not one):
        name += " after repair"
    return f"{name} with {', '.join(access) or 'nothing open'}" if name in taken else name

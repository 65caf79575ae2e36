"""The looks of inspectors: those of one corner in one go, after what is repaired there."""

from shuntbook.plan.draft import Draft
from shuntbook.plan.jobs import JobTasks, in_window
from shuntbook.plan.problem import Apart, Piece, Task, units


def add_looks(draft: Draft, all_tasks: list[JobTasks]) -> dict[int, int]:
    """Add the inspectors' looks, those of one corner in one; return each look by its job's place in the list."""
    looks: dict[int, int] = {}
    zones = draft.setup.car_map.zones
    for zone in dict.fromkeys(tasks.job.zone for tasks in all_tasks if tasks.job.to_inspect):
        here = [n for n, tasks in enumerate(all_tasks) if tasks.job.zone == zone and tasks.job.to_inspect]
        corner = zone in zones and zones[zone].kind == "corner"
        in_one = corner and draft.others(draft.who(inspector=True), [all_tasks[n].job.job for n in here])
        for together in [here] if in_one else [[n] for n in here]:
            number = _add_look(draft, zone, [all_tasks[n] for n in together])
            looks |= dict.fromkeys(together, number)
    return looks


def _add_look(draft: Draft, zone: str, looked_at: list[JobTasks]) -> int:
    pieces = []
    for tasks in looked_at:
        minutes = draft.setup.rates.inspect(tasks.job.group)
        pieces.append(Piece(draft.named(tasks.job.job), units(minutes.expected), minutes))
    task = Task(
        name=f"look at {zone}",
        kind="inspect",
        units=sum(piece.units for piece in pieces),
        people=1,
        may=draft.others(draft.who(inspector=True), [tasks.job.job for tasks in looked_at]),
        pieces=tuple(pieces),
        zone=zone,
        uses=draft.places(zone, 1),
    )
    number = draft.add(in_window(draft, task))
    for work in (tasks.work for tasks in looked_at if tasks.work is not None):
        draft.before.append((work, number))
        draft.apart.append(Apart(number, (work,)))
    return number

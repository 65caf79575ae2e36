"""Plans invented services, goes on for a third of the time, and plans them again: how much of what was shown is kept.

Once with nothing changed, once with a job that takes two minutes longer, and that also without the plan last shown.
"""

from dataclasses import dataclass, replace
from itertools import combinations

from bench.services import service
from shuntbook.plan.build import Visit, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.choose import choose
from shuntbook.plan.draft import Level
from shuntbook.plan.nearest import changes
from shuntbook.plan.problem import PER_MINUTE, Placed, Problem, Schedule, Task
from shuntbook.plan.solve import Effort, solve

SIZES = (8, 15)
SEEDS = 20
LATE = 2 * PER_MINUTE
"""Units that one job takes longer."""
PERCENT = 80
EFFORT = Effort(deterministic_s=1.0)


@dataclass(frozen=True)
class Kept:
    """What became of the tasks to come: how many, with other people, pairs of one person's, swapped; the end."""

    tasks: int
    people: int
    pairs: int
    swapped: int
    finish: int


def main() -> int:
    """Print the shares over all services. Errors: ValueError where a plan breaks a rule."""
    rows = [row for jobs in SIZES for seed in range(SEEDS) if (row := _one(jobs, seed)) is not None]
    print("planned again,services,other people %,other order %,ends later than the earliest (s; mean and worst)")
    for place, name in enumerate(("nothing changed", "a job 2 min late", "the same without the plan last shown")):
        mine = [row[place] for row in rows]
        later = [15 * max(0, row[place].finish - row[2].finish) if place == 1 else 0 for row in rows]
        people = _percent(sum(one.people for one in mine), sum(one.tasks for one in mine))
        swapped = _percent(sum(one.swapped for one in mine), sum(one.pairs for one in mine))
        print(f"{name},{len(rows)},{people},{swapped},{sum(later) / max(1, len(rows)):.0f} and {max(later, default=0)}")
    return 0


def _percent(part: int, whole: int) -> str:
    return f"{100 * part / max(1, whole):.1f}"


def _one(jobs: int, seed: int) -> tuple[Kept, Kept, Kept] | None:
    setup, queue, _ = service(seed, jobs, 2 + seed % 5)
    first = setup.event.services[0]
    built = build(setup, [Visit(queue, first, 0, units_for_work(first, None))], workers_of(setup, None, {}))
    shown = choose(built.problem, PERCENT, EFFORT, solve).schedule
    now = shown.finish // 3
    works = [n for n, task in enumerate(built.problem.tasks) if task.kind == "work" and task.shorter is None]
    not_over = [item.task for item in shown.placed if item.task in works and item.end > now]
    if not not_over:
        return None
    same, longer = (rest(built.problem, shown, now, late) for late in (None, not_over[0]))
    last = {item.task: item for item in shown.placed}
    return (
        _kept(same, last, now, choose(same, PERCENT, EFFORT, solve, last).schedule),
        _kept(longer, last, now, choose(longer, PERCENT, EFFORT, solve, last).schedule),
        _kept(longer, last, now, choose(longer, PERCENT, EFFORT, solve).schedule),
    )


def rest(problem: Problem, shown: Schedule, now: int, late: int | None) -> Problem:
    """Return what is left to plan: what has begun stays as it is with its people, nothing else starts before now."""
    placed = {item.task: item for item in shown.placed}
    tasks = [_as_it_is(task, placed.get(n), now, LATE if n == late else 0) for n, task in enumerate(problem.tasks)]
    begun = frozenset(task.group for task in tasks if task.fixed is not None and task.group)
    levels = [level - begun for level in problem.levels]
    levels[Level.BEGUN] = begun
    return replace(problem, tasks=tuple(tasks), levels=tuple(levels))


def _as_it_is(task: Task, item: Placed | None, now: int, late: int) -> Task:
    if item is None or item.start > now:
        return replace(task, earliest=max(now, task.earliest), units=task.units + late)
    begun = replace(task, fixed=item.start, earliest=min(item.start, task.earliest), may=item.workers, skilled=())
    return replace(begun, units=task.units + late, guests=())


def _kept(problem: Problem, last: dict[int, Placed], now: int, found: Schedule) -> Kept:
    broken = faults(problem, found)
    if broken:
        raise ValueError(broken[0])
    to_come = {n: item for n, item in last.items() if item.start > now}
    people, swapped = changes(problem, to_come, found)
    there = {item.task for item in found.placed}
    mine = [item for n, item in to_come.items() if n in there and item.workers]
    pairs = sum(bool(set(one.workers) & set(other.workers)) for one, other in combinations(mine, 2))
    return Kept(len(mine), people, pairs, swapped, found.finish)

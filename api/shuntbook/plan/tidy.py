"""The order that a chief would give what no goal asks about: ways open no longer than they need be, signed last.

When a bonnet goes up within the time that there is, or whether the pedal is held before or after the inspection that
says how it was, costs no goal anything, so a solver leaves it anywhere.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import chain

from shuntbook.plan.board import Board
from shuntbook.plan.check import faults
from shuntbook.plan.greedy import Ways
from shuntbook.plan.problem import PER_MINUTE, Placed, Problem, Schedule

Accepts = Callable[[Schedule], bool]

WORTH_IT = PER_MINUTE
"""By how much less a way has to be open: for less nobody is given another order of tasks."""


def in_order(problem: Problem, schedule: Schedule, accepts: Accepts) -> Schedule:
    """Return a plan put in order, done when it was. accepts: asked of each plan."""
    return without_waiting(problem, signed_last(problem, open_no_longer(problem, schedule, accepts), accepts))


def without_waiting(problem: Problem, schedule: Schedule) -> Schedule:
    """Return a plan in which nobody waits where what comes next could be done, each with their own tasks.

    But for what opens a bonnet or guards, and what moves the car.
    """
    ways = Ways(problem)
    ends = {end for span in problem.spans if span.stands for end in (span.opens, span.closes)}
    ends |= {span.opens for span in problem.spans if span.opens is not None and not problem.tasks[span.opens].zone}
    for item in sorted(schedule.placed, key=lambda one: (one.start, one.task)):
        if item.task not in ends and item.workers and problem.tasks[item.task].fixed is None:
            schedule = _sooner(ways, schedule, item)
    return schedule


def _sooner(ways: Ways, schedule: Schedule, item: Placed) -> Schedule:
    """Return the plan with a task as soon as its people can do it, itself where that is no sooner."""
    board, rest = Board(ways.problem), {one.task: one for one in schedule.placed if one.task != item.task}
    ways.lay(board, list(rest.values()))
    placed = dict(rest)
    if not ways.put(board, placed, item.task, item.end - item.start, item.end - 1, item.workers):
        return schedule
    moved = _with(schedule, placed)
    return schedule if faults(ways.problem, moved) else moved


def signed_last(problem: Problem, schedule: Schedule, accepts: Accepts) -> Schedule:
    """Return a plan in which what is checked of a repair while its access is open comes before its inspection.

    The inspection says how it was: with the pedal held, say. Both change places where the people are free for it.
    """
    for number, task in enumerate(problem.tasks):
        for check in _checks_of(problem, number) if task.kind == "inspect" and not task.early else ():
            moved = _swapped(problem, schedule, number, check)
            if moved is not None and not faults(problem, moved) and accepts(moved):
                schedule = moved
    return schedule


def _checks_of(problem: Problem, inspection: int) -> list[int]:
    groups = problem.tasks[inspection].groups
    return [
        n for n, task in enumerate(problem.tasks) if task.kind == "check" and not task.ground and task.group in groups
    ]


def _swapped(problem: Problem, schedule: Schedule, inspection: int, check: int) -> Schedule | None:
    """Return the plan with the check where the inspection began and the inspection where the check ended."""
    placed = {item.task: item for item in schedule.placed}
    first, then = placed.get(inspection), placed.get(check)
    if first is None or then is None or then.start < first.end:
        return None
    if problem.tasks[inspection].fixed is not None or problem.tasks[check].fixed is not None:
        return None
    sooner = replace(then, start=first.start, end=first.start + then.end - then.start)
    later = replace(first, start=then.end - (first.end - first.start), end=then.end)
    return _with(schedule, {**placed, check: sooner, inspection: later})


def _with(schedule: Schedule, placed: dict[int, Placed]) -> Schedule:
    return replace(schedule, placed=tuple(sorted(placed.values(), key=lambda one: (one.start, one.task))))


def open_no_longer(problem: Problem, schedule: Schedule, accepts: Accepts) -> Schedule:
    """Return a plan whose ways close sooner, and whose bonnet and guards open later.

    All else stays where it is, but for what the one who opens does alone before it is needed: that is done first. A
    wheel comes off as soon as it does: what is behind it is known the sooner. accepts: asked of each plan.
    """
    ways = Ways(problem)
    for number in _ends(problem):
        moved = next((plan for plan in _moved(ways, schedule, number) if accepts(plan)), None)
        schedule = schedule if moved is None else moved
    return schedule


def _ends(problem: Problem) -> Iterator[int]:
    """Yield the tasks that may be moved: those that open what is not a corner's, and all that close but the stands."""
    for span in problem.spans:
        if not span.stands:
            yield span.closes
            if span.opens is not None and not problem.tasks[span.opens].zone:
                yield span.opens


def _moved(ways: Ways, schedule: Schedule, number: int) -> Iterator[Schedule]:
    """Yield plans that keep every rule with a task where its way is open for less, the least first."""
    placed = {item.task: item for item in schedule.placed}
    item = placed.get(number)
    if item is None or item.start == item.end or ways.problem.tasks[number].fixed is not None:
        return
    opens = ways.problem.tasks[number].kind == "open"
    limit = min((placed[n].start for n in ways.after[number] if n in placed), default=ways.problem.horizon)
    rest = {n: one for n, one in placed.items() if n != number}
    for moves in chain(_between(ways, rest, item, limit), _after_own(ways, placed, item, limit) if opens else ()):
        moved = _with(schedule, {**placed, **{one.task: one for one in moves}})
        if not faults(ways.problem, moved):
            yield moved


def _between(ways: Ways, placed: dict[int, Placed], item: Placed, limit: int) -> Iterator[list[Placed]]:
    """Yield the places of a task between the others that are worth it, by the same people where they are free."""
    board, number, long = Board(ways.problem), item.task, item.end - item.start
    ways.lay(board, list(placed.values()))
    opens = ways.problem.tasks[number].kind == "open"
    begun = max((placed[n].end for n in ways.before[number] if n in placed), default=0)
    starts = [start for start in board.starts(number, long, begun) if start + long <= limit]
    may = [w for w in ways.problem.tasks[number].may if not _is_apart(ways, placed, number, w)]
    for start in reversed(starts) if opens else starts:
        if (start - item.start if opens else item.start - start) < WORTH_IT:
            return
        same = set(item.workers) <= board.free_workers(start, long)
        workers = item.workers if same else ways.chosen(board, number, may, start, long)
        if workers is not None:
            yield [Placed(number, start, start + long, workers)]


def _is_apart(ways: Ways, placed: dict[int, Placed], number: int, worker: int) -> bool:
    return any(worker in placed[n].workers for n in ways.not_by[number] if n in placed)


def _after_own(ways: Ways, placed: dict[int, Placed], item: Placed, limit: int) -> Iterator[list[Placed]]:
    """Yield an opening after what its one worker does alone before it is needed, all of that so much sooner."""
    long = item.end - item.start
    theirs = (one for one in placed.values() if item.end <= one.start and one.end <= limit)
    own = [one for one in sorted(theirs, key=lambda one: one.start) if set(one.workers) & set(item.workers)]
    alone = [one for one in own if one.workers == item.workers and ways.problem.tasks[one.task].fixed is None]
    if len(item.workers) != 1 or alone != own:
        return
    for many in range(len(own), 0, -1):
        if own[many - 1].end - long - item.start >= WORTH_IT:
            sooner = [replace(one, start=one.start - long, end=one.end - long) for one in own[:many]]
            yield [*sooner, replace(item, start=own[many - 1].end - long, end=own[many - 1].end)]

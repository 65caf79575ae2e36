"""A plan at once, without a solver: task by task at the earliest moment that breaks no rule.

Musts come first, then value per worker-unit. A group that cannot be fitted in whole is left out, and with it
the access that only it needed. The plan is valid, seldom the best, and there in milliseconds.
"""

from shuntbook.plan.check import faults
from shuntbook.plan.problem import Placed, Problem, Schedule, Task


def greedy(problem: Problem) -> Schedule:
    """Return a valid plan; groups that do not fit are left out."""
    inside: list[str] = []
    best = _lay_out(problem, inside)
    for group in _order(problem):
        tried = _lay_out(problem, [*inside, group])
        if tried is not None:
            inside.append(group)
            best = tried
    return Schedule(tuple(best or ()), False, "greedy")


def _order(problem: Problem) -> list[str]:
    work = dict.fromkeys(problem.groups, 1)
    for task in problem.tasks:
        if task.group:
            work[task.group] += task.people * task.units

    def place(group: str) -> tuple[bool, float, int]:
        return (group not in problem.musts, -problem.values.get(group, 0) / work[group], problem.groups.index(group))

    return sorted(problem.groups, key=place)


def _lay_out(problem: Problem, groups: list[str]) -> list[Placed] | None:
    """Place all tasks of some groups, with the access that they need; None where they do not fit."""
    tasks = _tasks_in(problem, groups)
    placed: dict[int, Placed] = {}
    waiting = set(tasks)
    while waiting:
        ready = [number for number in sorted(waiting) if not _waits_for(problem, number, waiting)]
        if not ready:
            return None
        # A span that is open is closed as late as may be: what needs it goes first.
        number = min(ready, key=lambda n: (problem.tasks[n].kind == "close", problem.tasks[n].ground, n))
        found = _earliest(problem, number, placed, tasks)
        if found is None:
            return None
        placed[number] = found
        waiting.remove(number)
    return sorted(placed.values(), key=lambda item: (item.start, item.task))


def _tasks_in(problem: Problem, groups: list[str]) -> set[int]:
    spans = problem.of_spans
    chosen = {
        number
        for number, task in enumerate(problem.tasks)
        if number not in spans and (not task.group or task.group in groups)
    }
    grown = True
    while grown:
        before = len(chosen)
        for span in problem.spans:
            if chosen.intersection(span.users):
                chosen |= {span.opens, span.closes, *span.after}
        grown = len(chosen) > before
    return chosen


def _waits_for(problem: Problem, number: int, waiting: set[int]) -> bool:
    """Return whether something that has to come before is not placed yet."""
    if not waiting.isdisjoint(problem.earlier.get(number, ())):
        return True
    for span in problem.spans:
        if number in span.users and span.opens in waiting:
            return True
        if number == span.closes and waiting.intersection(span.users):
            return True
        if number in span.after and span.closes in waiting:
            return True
        # Ground work waits until the car is down again.
        if span.stands and problem.tasks[number].ground and span.closes in waiting:
            return True
    return False


def _earliest(problem: Problem, number: int, placed: dict[int, Placed], tasks: set[int]) -> Placed | None:
    task = problem.tasks[number]
    moments = sorted({0, *(item.end for item in placed.values()), *(worker.from_unit for worker in problem.workers)})
    for start in moments:
        if start + task.units > problem.horizon:
            return None
        for workers in _crews(problem, number, start, placed) if _has_room(problem, task, start, placed) else ():
            item = Placed(number, start, start + task.units, workers)
            tried = Schedule((*placed.values(), item), False, "greedy")
            if not faults(problem, tried, part=True):
                return item
    return None


def _has_room(problem: Problem, task: Task, start: int, placed: dict[int, Placed]) -> bool:
    """Return whether what runs then leaves room: seldom, and told at once, while a whole look takes long."""
    beside = [problem.tasks[item.task] for item in placed.values() if start < item.end and item.start <= start]
    taken = [(amount, resource, beside) for resource, amount in task.uses.items() if task.units]
    return all(
        amount + sum(other.uses.get(resource, 0) for other in others if other.units) <= problem.resources[resource]
        for amount, resource, others in taken
    )


def _crews(problem: Problem, number: int, start: int, placed: dict[int, Placed]) -> list[tuple[int, ...]]:
    """Return crews to try: those free for the whole task, the least versatile first, with one of the skilled."""
    task = problem.tasks[number]
    busy = {w for item in placed.values() if item.start < start + task.units and item.end > start for w in item.workers}
    not_these = {w for other in problem.never_both.get(number, ()) if other in placed for w in placed[other].workers}
    free = [w for w in task.may if w not in busy and w not in not_these and problem.workers[w].from_unit <= start]
    free.sort(key=lambda w: (problem.workers[w].inspector, len(problem.workers[w].skills), w))
    if not task.skilled:
        return [tuple(sorted(free[: task.people]))] if len(free) >= task.people else []
    crews = []
    for skilled in (w for w in free if w in task.skilled):
        rest = [w for w in free if w != skilled][: task.people - 1]
        if len(rest) == task.people - 1:
            crews.append(tuple(sorted([skilled, *rest])))
    return crews

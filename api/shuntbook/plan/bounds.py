"""What is known before a solver looks: the least time before and after each task, and what must fit between them."""

from collections.abc import Iterator
from dataclasses import dataclass

from shuntbook.plan.problem import Problem, Task


@dataclass(frozen=True)
class Bounds:
    """By task, where it is in: heads, the least unit at which it can start; tails, the least units from its end to the
    horizon, those after the end of its own car included.
    """

    heads: tuple[int, ...]
    tails: tuple[int, ...]

    def ends(self, problem: Problem, number: int) -> int:
        """Return by when a task has to end, so that what comes after it fits, too."""
        return problem.horizon - self.tails[number]


def bounds_of(problem: Problem) -> Bounds:
    """Return the heads and tails of a problem, from the tasks that are surely in with each."""
    pairs = sorted({*problem.before, *_around(problem)})
    earlier: dict[int, list[int]] = {}
    later: dict[int, list[int]] = {}
    for first, second in pairs:
        earlier.setdefault(second, []).append(first)
        later.setdefault(first, []).append(second)
    surely = [surely_with(problem, number) for number in range(len(problem.tasks))]
    heads = _longest(problem, earlier, surely, [_begins(problem, n) for n in range(len(problem.tasks))])
    tails = _longest(problem, later, surely, [problem.horizon - problem.latest(n) for n in range(len(problem.tasks))])
    return Bounds(tuple(heads), tuple(tails))


def _around(problem: Problem) -> Iterator[tuple[int, int]]:
    for span in problem.spans:
        users = (*span.users, *span.within)
        yield from ((user, span.closes) for user in users)
        if span.opens is not None:
            yield from ((span.opens, user) for user in (*users, span.closes))


def _begins(problem: Problem, number: int) -> int:
    """Return when a task can start at all: its own earliest, and when enough people are there."""
    task = problem.tasks[number]
    if task.fixed is not None:
        return task.fixed
    there = sorted(problem.workers[worker].from_unit for worker in task.may)
    people = there[task.people - 1] if task.people and task.shortest else 0
    return max(task.earliest, people)


def surely_with(problem: Problem, number: int) -> frozenset[int]:
    """Return the tasks that are in the plan wherever this one is, itself included."""
    found = {number} | {n for n, task in enumerate(problem.tasks) if not task.because and not task.groups}
    grown = True
    while grown:
        groups = {task.groups[0] for task in _of(problem, found) if len(task.groups) == 1 and not task.because}
        more = {task.because[0] for task in _of(problem, found) if len(task.because) == 1}
        # What opens and what closes a way is in for the same reasons.
        reasons = {task.because for task in _of(problem, found) if task.because}
        for n, task in enumerate(problem.tasks):
            asked = task.because in reasons if task.because else bool(groups.intersection(task.groups))
            if asked or found.intersection(task.because):
                more.add(n)
        grown = not more <= found
        found |= more
    return frozenset(found)


def _of(problem: Problem, numbers: set[int]) -> list[Task]:
    return [problem.tasks[n] for n in numbers]


def _longest(problem: Problem, near: dict[int, list[int]], surely: list[frozenset[int]], least: list[int]) -> list[int]:
    """Return for each task the longest way to it through what is surely in with it."""
    return [_way(problem, near, surely[number], least, number, {}) for number in range(len(problem.tasks))]


def _way(
    problem: Problem,
    near: dict[int, list[int]],
    there: frozenset[int],
    least: list[int],
    number: int,
    found: dict[int, int],
) -> int:
    if number not in found:
        found[number] = least[number]  # a ring would not end otherwise
        beside = [] if problem.tasks[number].fixed is not None else [n for n in near.get(number, ()) if n in there]
        ways = [_way(problem, near, there, least, n, found) + problem.tasks[n].shortest for n in beside]
        found[number] = max([least[number], *ways])
    return found[number]

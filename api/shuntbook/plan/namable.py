"""Whether a job could be done at all by the people who are there, however long it takes.

Where nobody may look at, or check, what he did himself, three tasks may need three people. Told apart from a want of
time, so that nobody is promised that a few more minutes would do.
"""

from itertools import combinations

from shuntbook.plan.inside import tasks_in
from shuntbook.plan.problem import Problem

TOO_FEW = "too few different people are there: who works on it, who checks it and who looks at it may not be the same"


def can_be_named(problem: Problem, group: str) -> bool:
    """Return whether the tasks of a group, done one after the other, find people who may do them."""
    bound = {n for n in tasks_in(problem, [group]) if problem.tasks[n].people}
    apart: dict[int, set[int]] = {}
    for rule in problem.apart:
        for other in rule.others if rule.task in bound else ():
            if other in bound:
                apart.setdefault(rule.task, set()).add(other)
                apart.setdefault(other, set()).add(rule.task)
    # Who does a task that no rule sets apart is free to do all others too.
    return _named(problem, sorted(apart, key=lambda n: _freedom(problem, n)), apart, {})


def _freedom(problem: Problem, number: int) -> tuple[int, int]:
    """Who is hard to find is named first."""
    task = problem.tasks[number]
    return len(task.skilled or task.may) - task.people, number


def _named(problem: Problem, numbers: list[int], apart: dict[int, set[int]], who: dict[int, tuple[int, ...]]) -> bool:
    if len(who) == len(numbers):
        return True
    number = numbers[len(who)]
    task = problem.tasks[number]
    not_these = {worker for other in apart[number] & who.keys() for worker in who[other]}
    for chosen in combinations([w for w in task.may if w not in not_these], task.people):
        if len(set(chosen) & set(task.guests)) > 1:
            continue
        is_skilled = not task.skilled or set(task.skilled) & set(chosen)
        if is_skilled and _named(problem, numbers, apart, {**who, number: chosen}):
            return True
    return False

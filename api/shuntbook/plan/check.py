"""Judges a plan by the rules, without any solver: every plan passes here before it is shown."""

from collections.abc import Iterator
from itertools import pairwise

from shuntbook.plan.inside import tasks_in, units_in
from shuntbook.plan.problem import Placed, Problem, Schedule, Span, Task


def faults(problem: Problem, schedule: Schedule) -> list[str]:
    """Return what is wrong with a plan, a sentence each; an empty list means that it keeps every rule."""
    placed = {item.task: item for item in schedule.placed}
    found = [*_whole(problem, schedule), *_times(problem, schedule), *_people(problem, schedule)]
    found += [*_resources(problem, placed), *_order(problem, placed), *_spans(problem, placed)]
    return [*found, *_apart(problem, placed), *_ground(problem, placed), *_alone(problem, schedule)]


def _whole(problem: Problem, schedule: Schedule) -> Iterator[str]:
    """A group is in whole or not at all; access is opened for what needs it, and for nothing else."""
    wanted = tasks_in(problem, schedule.inside)
    numbers = [item.task for item in schedule.placed]
    for group in schedule.inside - set(problem.groups):
        yield f"{group} is nothing that could be planned"
    for number in sorted(wanted.difference(numbers)):
        yield f"{problem.tasks[number].name} is missing"
    for number in sorted(set(numbers) - wanted):
        yield f"{problem.tasks[number].name} is in the plan for nothing"
    for number in sorted({number for number in numbers if numbers.count(number) > 1}):
        yield f"{problem.tasks[number].name} stands twice"


def _times(problem: Problem, schedule: Schedule) -> Iterator[str]:
    tasks = {item.task for item in schedule.placed}
    for item in schedule.placed:
        task = problem.tasks[item.task]
        long = units_in(problem, item.task, schedule.inside, tasks)
        if item.end - item.start != long:
            yield f"{task.name} takes {item.end - item.start} units instead of {long}"
        if item.start < task.earliest or item.end > problem.latest(item.task):
            yield f"{task.name} lies outside the service"
        if task.fixed is not None and item.start != task.fixed:
            yield f"{task.name} is under way since {task.fixed} and planned for {item.start}"


def _people(problem: Problem, schedule: Schedule) -> Iterator[str]:
    busy: dict[int, list[Placed]] = {}
    for item in schedule.placed:
        task = problem.tasks[item.task]
        if len(set(item.workers)) != task.people or not set(item.workers) <= set(task.may):
            yield f"{task.name} has not the people that it needs"
        if task.skilled and task.people and not set(task.skilled) & set(item.workers):
            yield f"{task.name} has nobody with the skill"
        for worker in item.workers if item.end > item.start else ():
            if item.start < problem.workers[worker].from_unit:
                yield f"{problem.workers[worker].person} is not there yet for {task.name}"
            busy.setdefault(worker, []).append(item)
    for worker, items in busy.items():
        items.sort(key=lambda item: item.start)
        for one, next_one in pairwise(items):
            if next_one.start < one.end:
                yield f"{problem.workers[worker].person} is in two places at {next_one.start}"


def _resources(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    taken = [(item.start, item.end, problem.tasks[n].uses) for n, item in placed.items()]
    taken += [(*up, span.holds) for span in problem.spans if span.holds for up in _open(span, placed)]
    for resource, capacity in problem.resources.items():
        users = [(start, end, uses[resource]) for start, end, uses in taken if resource in uses and end > start]
        for moment in sorted({start for start, _, _ in users}):
            amount = sum(amount for start, end, amount in users if start <= moment < end)
            if amount > capacity:
                yield f"{amount} of {resource} are taken at {moment}, of {capacity}"


def _open(span: Span, placed: dict[int, Placed]) -> list[tuple[int, int]]:
    """Return from when to when a span is open, nothing where it is not in the plan."""
    if span.closes not in placed or (span.opens is not None and span.opens not in placed):
        return []
    return [(0 if span.opens is None else placed[span.opens].start, placed[span.closes].end)]


def _order(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    for earlier, later in problem.before:
        if earlier in placed and later in placed and placed[later].start < placed[earlier].end:
            yield f"{problem.tasks[later].name} starts before {problem.tasks[earlier].name} is done"


def _spans(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    for span in problem.spans:
        users = [user for user in span.users if user in placed]
        if users and not _open(span, placed):
            yield f"{span.name} is needed and not in the plan"
        if span.closes in placed:
            users += [user for user in span.within if user in placed]
        for user in users:
            task = problem.tasks[user]
            if span.opens in placed and placed[user].start < placed[span.opens].end:
                yield f"{task.name} starts before {span.name} is open"
            if span.closes in placed and placed[user].end > placed[span.closes].start:
                yield f"{task.name} ends after {span.name} is closed"


def _apart(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    for apart in problem.apart:
        for other in apart.others:
            if apart.task in placed and other in placed:
                for worker in set(placed[apart.task].workers) & set(placed[other].workers):
                    name = problem.workers[worker].person
                    yield f"{name} does {problem.tasks[apart.task].name} after {problem.tasks[other].name}"


def _ground(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    for span in problem.spans:
        for up, down in _open(span, placed) if span.stands else ():
            for item in placed.values():
                task = problem.tasks[item.task]
                if task.ground and task.car == span.car and item.start < down and item.end > up:
                    yield f"{task.name} is done on the ground while the car is on stands"


def _alone(problem: Problem, schedule: Schedule) -> Iterator[str]:
    for item in schedule.placed:
        task = problem.tasks[item.task]
        for other in schedule.placed if task.alone else ():
            if _beside(task, problem.tasks[other.task]) and other.start < item.end and other.end > item.start:
                yield f"{problem.tasks[other.task].name} goes on during {task.name}"


def _beside(task: Task, other: Task) -> bool:
    return other is not task and other.car == task.car

"""Judges a plan by the rules, without any solver: every plan passes here before it is shown."""

from collections.abc import Iterator
from itertools import pairwise

from shuntbook.plan.problem import Placed, Problem, Schedule


def faults(problem: Problem, schedule: Schedule, *, part: bool = False) -> list[str]:
    """Return what is wrong with a plan, a sentence each; an empty list means that it keeps every rule.

    part: the plan is still being made, so that what is missing is no fault.
    """
    placed = {item.task: item for item in schedule.placed}
    found = [*_times(problem, schedule), *_people(problem, schedule), *_resources(problem, schedule)]
    found += [*_order(problem, placed), *_spans(problem, placed, part), *_apart(problem, placed)]
    found += [*_ground(problem, placed), *_alone(problem, schedule)]
    return found if part else [*found, *_whole(problem, placed)]


def _times(problem: Problem, schedule: Schedule) -> Iterator[str]:
    seen = set()
    for item in schedule.placed:
        task = problem.tasks[item.task]
        if item.task in seen:
            yield f"{task.name} stands twice"
        seen.add(item.task)
        if item.end - item.start != task.units:
            yield f"{task.name} takes {item.end - item.start} units instead of {task.units}"
        if item.start < 0 or item.end > problem.horizon:
            yield f"{task.name} lies outside the service"


def _people(problem: Problem, schedule: Schedule) -> Iterator[str]:
    busy: dict[int, list[Placed]] = {}
    for item in schedule.placed:
        task = problem.tasks[item.task]
        if len(set(item.workers)) != task.people or not set(item.workers) <= set(task.may):
            yield f"{task.name} has not the people that it needs"
        if task.skilled and task.people and not set(task.skilled) & set(item.workers):
            yield f"{task.name} has nobody with the skill"
        for worker in item.workers if task.units else ():
            if item.start < problem.workers[worker].from_unit:
                yield f"{problem.workers[worker].person} is not there yet for {task.name}"
            busy.setdefault(worker, []).append(item)
    for worker, items in busy.items():
        items.sort(key=lambda item: item.start)
        for one, next_one in pairwise(items):
            if next_one.start < one.end:
                yield f"{problem.workers[worker].person} is in two places at {next_one.start}"


def _resources(problem: Problem, schedule: Schedule) -> Iterator[str]:
    users: dict[str, list[tuple[Placed, int]]] = {}
    for item in schedule.placed:
        for resource, amount in problem.tasks[item.task].uses.items() if item.end > item.start else ():
            users.setdefault(resource, []).append((item, amount))
    for resource, items in users.items():
        for moment in {item.start for item, _ in items}:
            taken = sum(amount for item, amount in items if item.start <= moment < item.end)
            if taken > problem.resources.get(resource, 0):
                yield f"{taken} of {resource} are taken at {moment}, of {problem.resources.get(resource, 0)}"


def _order(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    for earlier, later in problem.before:
        if earlier in placed and later in placed and placed[later].start < placed[earlier].end:
            yield f"{problem.tasks[later].name} starts before {problem.tasks[earlier].name} is done"


def _spans(problem: Problem, placed: dict[int, Placed], part: bool) -> Iterator[str]:
    for span in problem.spans:
        users = [user for user in span.users if user in placed]
        opened, closed = placed.get(span.opens), placed.get(span.closes)
        if users and (opened is None or (closed is None and not part)):
            yield f"{span.name} is needed and not in the plan"
        if not users and opened is not None and not part:
            yield f"{span.name} is opened for nothing"
        for later in span.after:
            if opened is not None and later not in placed and not part:
                yield f"{problem.tasks[later].name} is missing"
            if later in placed and closed is not None and placed[later].start < closed.end:
                yield f"{problem.tasks[later].name} starts before {span.name} is closed"
        for user in users:
            if opened is not None and placed[user].start < opened.end:
                yield f"{problem.tasks[user].name} starts before {span.name} is open"
            if closed is not None and placed[user].end > closed.start:
                yield f"{problem.tasks[user].name} ends after {span.name} is closed"


def _apart(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    for apart in problem.apart:
        for other in apart.others:
            if apart.task in placed and other in placed:
                for worker in set(placed[apart.task].workers) & set(placed[other].workers):
                    name = problem.workers[worker].person
                    yield f"{name} does {problem.tasks[apart.task].name} after {problem.tasks[other].name}"


def _ground(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    for span in problem.spans:
        if span.stands and span.opens in placed and span.closes in placed:
            up, down = placed[span.opens].start, placed[span.closes].end
            for item in placed.values():
                if problem.tasks[item.task].ground and item.start < down and item.end > up:
                    yield f"{problem.tasks[item.task].name} is done on the ground while the car is on stands"


def _alone(problem: Problem, schedule: Schedule) -> Iterator[str]:
    for item in schedule.placed:
        if problem.tasks[item.task].alone:
            for other in schedule.placed:
                if other.task != item.task and other.start < item.end and other.end > item.start:
                    yield f"{problem.tasks[other.task].name} goes on during {problem.tasks[item.task].name}"


def _whole(problem: Problem, placed: dict[int, Placed]) -> Iterator[str]:
    """A group is in whole or not at all; what belongs to none is always in."""
    groups = {problem.tasks[number].group for number in placed} - {""}
    for number, task in enumerate(problem.tasks):
        wanted = task.group in groups if task.group else number not in problem.of_spans
        if wanted and number not in placed:
            yield f"{task.name} is missing"

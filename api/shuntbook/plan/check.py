"""Judges a plan by the rules, without any solver: every plan passes here before it is shown.

One function is one rule, and `RULES` names them; each says what breaks it, a sentence for each fault.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from shuntbook.plan.inside import tasks_in, units_in
from shuntbook.plan.problem import Placed, Problem, Schedule, Span, Task


@dataclass(frozen=True)
class Judged:
    """A plan with the problem that it answers."""

    problem: Problem
    schedule: Schedule

    @cached_property
    def placed(self) -> Mapping[int, Placed]:
        """What is in the plan, by the task's number."""
        return {item.task: item for item in self.schedule.placed}

    def task(self, item: Placed) -> Task:
        """Return the task that stands there."""
        return self.problem.tasks[item.task]

    def name(self, number: int) -> str:
        """Return a task's name."""
        return self.problem.tasks[number].name

    def open(self, span: Span) -> list[tuple[int, int]]:
        """Return from when to when a span is open, nothing where it is not in the plan."""
        if span.closes not in self.placed or (span.opens is not None and span.opens not in self.placed):
            return []
        return [(0 if span.opens is None else self.placed[span.opens].start, self.placed[span.closes].end)]


def faults(problem: Problem, schedule: Schedule) -> list[str]:
    """Return what is wrong with a plan, a sentence each; an empty list means that it keeps every rule."""
    return [said for found in broken_rules(problem, schedule).values() for said in found]


def broken_rules(problem: Problem, schedule: Schedule) -> dict[str, list[str]]:
    """Return what is wrong with a plan by the name of the rule that it breaks."""
    judged = Judged(problem, schedule)
    found = {name: list(rule(judged)) for name, rule in RULES.items()}
    return {name: said for name, said in found.items() if said}


def in_whole_or_not_at_all(judged: Judged) -> Iterator[str]:
    """A group is in whole or not at all; access is opened for what needs it, and for nothing else."""
    problem, schedule = judged.problem, judged.schedule
    wanted = tasks_in(problem, schedule.inside)
    numbers = [item.task for item in schedule.placed]
    for group in schedule.inside - set(problem.groups):
        yield f"{group} is nothing that could be planned"
    for number in sorted(wanted.difference(numbers)):
        yield f"{judged.name(number)} is missing"
    for number in sorted(set(numbers) - wanted):
        yield f"{judged.name(number)} is in the plan for nothing"
    for number in sorted({number for number in numbers if numbers.count(number) > 1}):
        yield f"{judged.name(number)} stands twice"


def as_long_as_it_takes(judged: Judged) -> Iterator[str]:
    """Each task takes the units that it takes beside the others that are in."""
    problem, inside = judged.problem, judged.schedule.inside
    for item in judged.schedule.placed:
        long = units_in(problem, item.task, inside, judged.placed.keys())
        if item.end - item.start != long:
            yield f"{judged.task(item).name} takes {item.end - item.start} units instead of {long}"


def within_the_service(judged: Judged) -> Iterator[str]:
    """Nothing starts before it may or ends after the time; what is under way keeps its start."""
    for item in judged.schedule.placed:
        task = judged.task(item)
        if item.start < task.earliest or item.end > judged.problem.latest(item.task):
            yield f"{task.name} lies outside the service"
        if task.fixed is not None and item.start != task.fixed:
            yield f"{task.name} is under way since {task.fixed} and planned for {item.start}"


def by_the_right_people(judged: Judged) -> Iterator[str]:
    """As many as it takes of those who may, one of the crew at most, one with the skill, once they are there."""
    for item in judged.schedule.placed:
        task = judged.task(item)
        if len(set(item.workers)) != task.people or not set(item.workers) <= set(task.may):
            yield f"{task.name} has not the people that it needs"
        if len(set(item.workers) & set(task.guests)) > 1:
            yield f"{task.name} has more than one of the crew"
        if task.skilled and task.people and not set(task.skilled) & set(item.workers):
            yield f"{task.name} has nobody with the skill"
        for worker in item.workers if item.end > item.start else ():
            if item.start < judged.problem.workers[worker].from_unit:
                yield f"{judged.problem.workers[worker].person} is not there yet for {task.name}"


def nobody_in_two_places(judged: Judged) -> Iterator[str]:
    """One person does one thing at a time."""
    busy: dict[int, list[Placed]] = {}
    for item in judged.schedule.placed:
        for worker in item.workers if item.end > item.start else ():
            busy.setdefault(worker, []).append(item)
    for worker, items in busy.items():
        items.sort(key=lambda item: item.start)
        for one, next_one in pairwise(items):
            if next_one.start < one.end:
                yield f"{judged.problem.workers[worker].person} is in two places at {next_one.start}"


def a_place_holds_its_people(judged: Judged) -> Iterator[str]:
    """No more of a place or of a tool is taken than there is."""
    taken = [(item.start, item.end, judged.problem.tasks[n].uses) for n, item in judged.placed.items()]
    taken += [(*up, span.holds) for span in judged.problem.spans if span.holds for up in judged.open(span)]
    for resource, capacity in judged.problem.resources.items():
        users = [(start, end, uses[resource]) for start, end, uses in taken if resource in uses and end > start]
        for moment in sorted({start for start, _, _ in users}):
            amount = sum(amount for start, end, amount in users if start <= moment < end)
            if amount > capacity:
                yield f"{amount} of {resource} are taken at {moment}, of {capacity}"


def in_their_order(judged: Judged) -> Iterator[str]:
    """What comes before something is done when that starts: a repair before its inspection, what `after` names."""
    placed = judged.placed
    for earlier, later in judged.problem.before:
        if earlier in placed and later in placed and placed[later].start < placed[earlier].end:
            yield f"{judged.name(later)} starts before {judged.name(earlier)} is done"


def while_its_steps_are_open(judged: Judged) -> Iterator[str]:
    """An access step opens before and closes after all that needs it, and all that is in with it."""
    placed = judged.placed
    for span in judged.problem.spans:
        users = [user for user in span.users if user in placed]
        if users and not judged.open(span):
            yield f"{span.name} is needed and not in the plan"
        if span.closes in placed:
            users += [user for user in span.within if user in placed]
        for user in users:
            if span.opens is not None and span.opens in placed and placed[user].start < placed[span.opens].end:
                yield f"{judged.name(user)} starts before {span.name} is open"
            if span.closes in placed and placed[user].end > placed[span.closes].start:
                yield f"{judged.name(user)} ends after {span.name} is closed"


def by_others_than_who_did_it(judged: Judged) -> Iterator[str]:
    """Nobody inspects what they repaired, or checks the nuts of a wheel that they fitted."""
    placed = judged.placed
    for apart in judged.problem.apart:
        for other in apart.others:
            if apart.task in placed and other in placed:
                for worker in set(placed[apart.task].workers) & set(placed[other].workers):
                    person = judged.problem.workers[worker].person
                    yield f"{person} does {judged.name(apart.task)} after {judged.name(other)}"


def ground_work_on_the_ground(judged: Judged) -> Iterator[str]:
    """What is done on the ground is not done while the car is on stands."""
    for span in judged.problem.spans:
        for up, down in judged.open(span) if span.stands else ():
            for item in judged.placed.values():
                task = judged.task(item)
                if task.ground and task.car == span.car and item.start < down and item.end > up:
                    yield f"{task.name} is done on the ground while the car is on stands"


def open_fuel_stops_all_else(judged: Judged) -> Iterator[str]:
    """Beside what is done alone nothing goes on at the same car."""
    for item in judged.schedule.placed:
        task = judged.task(item)
        for other in judged.schedule.placed if task.alone else ():
            beside = judged.task(other)
            at_once = other.start < item.end and other.end > item.start
            if at_once and beside is not task and beside.car == task.car:
                yield f"{beside.name} goes on during {task.name}"


def nobody_at_a_moving_car(judged: Judged) -> Iterator[str]:
    """Nobody touches the car while it goes up or down; what has begun so is not the plan's doing."""
    for number, moving in judged.placed.items():
        task = judged.problem.tasks[number]
        for n, other in judged.placed.items() if task.moves else ():
            beside = judged.problem.tasks[n]
            both_begun = task.fixed is not None and beside.fixed is not None
            at_once = other.start < moving.end and other.end > moving.start
            if n != number and at_once and beside.touches and beside.car == task.car and not both_begun:
                yield f"{beside.name} goes on while the car moves: {task.name}"


RULES: Mapping[str, Callable[[Judged], Iterator[str]]] = {
    rule.__name__: rule
    for rule in (
        in_whole_or_not_at_all,
        as_long_as_it_takes,
        within_the_service,
        by_the_right_people,
        nobody_in_two_places,
        a_place_holds_its_people,
        in_their_order,
        while_its_steps_are_open,
        by_others_than_who_did_it,
        ground_work_on_the_ground,
        open_fuel_stops_all_else,
        nobody_at_a_moving_car,
    )
}
"""Every rule by its name."""

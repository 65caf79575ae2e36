"""The CP-SAT model of a problem: variables, then one function per rule.

People who are alike are counted, not named: a crew of three is a resource of three, as in a textbook project, and who
does what is settled once it is known when. OR-tools is imported when a model is made and not before: it costs a
quarter of a second and 87 MB.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shuntbook.plan.crews import Crew
from shuntbook.plan.inside import units_in
from shuntbook.plan.problem import Problem, Schedule, Span, Task


class Model:
    """Variables of a problem.

    `inside[group]` and `present[task]` are literals, `taken[task][crew]` how many of a crew are on a task, `alone` an
    interval of that task for a crew where one of them at most can be on it.
    """

    def __init__(self, problem: Problem, crews: Sequence[Crew]) -> None:
        from ortools.sat.python import cp_model

        self.problem = problem
        self.crews = crews
        self.cp = cp_model.CpModel()
        self.inside: dict[str, Any] = {group: self.cp.new_bool_var(group) for group in problem.groups}
        self.always = self.cp.new_constant(1)
        self._ors: dict[frozenset[int], Any] = {}
        self._present: dict[int, Any] = {}
        numbers = range(len(problem.tasks))
        self.present = [self._presence(n) for n in numbers]
        self.start = [self._start(n) for n in numbers]
        self.size = [self._size(task) for task in problem.tasks]
        self.end = [self._end(n) for n in numbers]
        self.interval = [
            self.cp.new_optional_interval_var(self.start[n], self.size[n], self.end[n], self.present[n], f"{n}")
            for n in numbers
        ]
        self.taken = [self._taken(n) for n in numbers]
        self.finish = {car: self.cp.new_int_var(0, problem.horizon, f"finish {car}") for car in problem.cars}
        for rule in RULES:
            rule(self)

    def _presence(self, number: int) -> Any:
        """A task is in where one that needs it is, or its group; what is of no group is always in."""
        if number not in self._present:
            task = self.problem.tasks[number]
            if task.because:
                self._present[number] = self.any([self._presence(other) for other in task.because])
            else:
                self._present[number] = self.any([self.inside[group] for group in task.groups])
        return self._present[number]

    def any(self, literals: list[Any]) -> Any:
        """Return a literal that is true where one of these is; the same for the same, always where there is none."""
        which = frozenset(literal.index for literal in literals)
        if len(which) <= 1:
            return literals[0] if literals else self.always
        if which not in self._ors:
            self._ors[which] = self.cp.new_bool_var("any")
            self.cp.add_max_equality(self._ors[which], literals)
        return self._ors[which]

    def _start(self, number: int) -> Any:
        task = self.problem.tasks[number]
        if task.fixed is not None:
            return self.cp.new_constant(task.fixed)
        shortest = min([task.units, *(p.units for p in task.pieces)] + ([task.shorter.units] if task.shorter else []))
        latest = self.problem.latest(number) - shortest
        return self.cp.new_int_var(task.earliest, max(task.earliest, latest), f"start {task.name}")

    def _size(self, task: Task) -> Any:
        if task.pieces:
            size = self.cp.new_int_var(0, sum(piece.units for piece in task.pieces), f"size {task.name}")
            self.cp.add(size == sum(piece.units * self.inside[piece.group] for piece in task.pieces))
            return size
        if task.shorter is None:
            return task.units
        less = task.units - task.shorter.units
        size = self.cp.new_int_var(min(task.units, task.shorter.units), max(task.units, task.shorter.units), "size")
        self.cp.add(size == task.units - less * self.any([self.present[n] for n in task.shorter.because]))
        return size

    def _end(self, number: int) -> Any:
        if isinstance(self.size[number], int):
            return self.start[number] + self.size[number]
        # What is not in may end anywhere: the longer of its two lengths need not fit.
        task = self.problem.tasks[number]
        longest = max([task.units, sum(piece.units for piece in task.pieces)])
        latest = max(self.problem.latest(number), task.earliest, task.fixed or 0) + longest
        end = self.cp.new_int_var(0, latest, f"end {number}")
        self.cp.add(end == self.start[number] + self.size[number])
        return end

    def _taken(self, number: int) -> dict[Crew, Any]:
        """How many of each crew a task takes: a constant where only one crew may, a literal where only one can be."""
        task = self.problem.tasks[number]
        crews = [crew for crew in self.crews if task.people and crew[0] in task.may]
        if len(crews) == 1:
            return {crews[0]: task.people * self.present[number]}
        most = {crew: min(len(crew), task.people) for crew in crews}
        return {
            crew: self.cp.new_bool_var(f"{n} {number}") if most[crew] == 1 else self.cp.new_int_var(0, most[crew], "")
            for n, crew in enumerate(crews)
        }


def within_the_service(model: Model) -> None:
    """What cannot end in time is not in."""
    for number, task in enumerate(model.problem.tasks):
        shortest = units_in(model.problem, number, (), ()) if not task.pieces else 0
        shortest = min(shortest, task.shorter.units) if task.shorter else shortest
        begins = task.earliest if task.fixed is None else task.fixed
        if begins + shortest > model.problem.latest(number):
            model.cp.add(model.present[number] == 0)
        model.cp.add(model.end[number] <= model.problem.latest(number)).only_enforce_if(model.present[number])


def enough_people(model: Model) -> None:
    """A task that is in has its people, one of the skilled among them, none before he is there."""
    for number, task in enumerate(model.problem.tasks):
        chosen = model.taken[number]
        if len(chosen) > 1:
            model.cp.add(sum(chosen.values()) == task.people * model.present[number])
        if task.skilled and task.people:
            skilled = sum(count for crew, count in chosen.items() if crew[0] in task.skilled)
            model.cp.add(skilled >= model.present[number])
        for crew, count in chosen.items():
            if model.problem.workers[crew[0]].from_unit and (task.units or task.pieces):
                _not_yet(model, number, crew, count)


def _not_yet(model: Model, number: int, crew: Crew, count: Any) -> None:
    some = model.cp.new_bool_var("some")
    model.cp.add(count >= 1).only_enforce_if(some)
    model.cp.add(count == 0).only_enforce_if(~some)
    model.cp.add(model.start[number] >= model.problem.workers[crew[0]].from_unit).only_enforce_if(some)


def nobody_in_two_places(model: Model) -> None:
    """A crew does no more at once than it has people."""
    for crew in model.crews:
        intervals, amounts = [], []
        for number, task in enumerate(model.problem.tasks):
            if crew in model.taken[number] and (task.units or task.pieces):
                interval, amount = _of_crew(model, number, crew)
                intervals.append(interval)
                amounts.append(amount)
        _no_more_than(model, intervals, amounts, len(crew))


def _of_crew(model: Model, number: int, crew: Crew) -> tuple[Any, Any]:
    """Return the interval in which a task takes people of a crew, and how many."""
    people = model.problem.tasks[number].people
    count = model.taken[number][crew]
    if len(model.taken[number]) == 1:
        return model.interval[number], people
    if min(len(crew), people) > 1:
        return model.interval[number], count
    own = model.cp.new_optional_interval_var(model.start[number], model.size[number], model.end[number], count, "")
    return own, 1


def _no_more_than(model: Model, intervals: Sequence[Any], amounts: Sequence[Any], capacity: int) -> None:
    if capacity == 1 and len(intervals) > 1:
        model.cp.add_no_overlap(intervals)
    elif intervals:
        model.cp.add_cumulative(intervals, amounts, capacity)


def hands_in_all(model: Model) -> None:
    """All who may do some tasks do no more of them at once than they are: implied, and it helps the proof.

    The same as energy: what they do altogether fits into the time that they have.
    """
    tasks = [(n, task) for n, task in enumerate(model.problem.tasks) if task.people and (task.units or task.pieces)]
    for hands in sorted({frozenset(task.may) for _, task in tasks}, key=sorted):
        theirs = [(n, task) for n, task in tasks if hands.issuperset(task.may)]
        _no_more_than(model, [model.interval[n] for n, _ in theirs], [task.people for _, task in theirs], len(hands))
        work = [task.people * _work(model, n) for n, task in theirs]
        if len(model.finish) == 1:
            (finish,) = model.finish.values()
            model.cp.add(sum(work) <= len(hands) * finish)


def _work(model: Model, number: int) -> Any:
    """Return how long a task goes on, 0 where it is not in."""
    task = model.problem.tasks[number]
    if task.pieces:
        return model.size[number]
    return (task.shorter.units if task.shorter else task.units) * model.present[number]


def places_and_resources(model: Model) -> None:
    """A zone holds its people, and there are so many stands."""
    for resource, capacity in model.problem.resources.items():
        users = [
            (model.interval[n], t.uses[resource]) for n, t in enumerate(model.problem.tasks) if t.uses.get(resource)
        ]
        users += [(_up(model, span), span.holds[resource]) for span in model.problem.spans if span.holds.get(resource)]
        if sum(amount for _, amount in users) > capacity:
            intervals, amounts = zip(*users, strict=True)
            model.cp.add_cumulative(intervals, amounts, capacity)


def one_after_the_other(model: Model) -> None:
    """What has to be before is before, where both are in."""
    for earlier, later in model.problem.before:
        _first(model, earlier, later)


def _first(model: Model, earlier: int, later: int) -> None:
    model.cp.add(model.start[later] >= model.end[earlier]).only_enforce_if(model.present[earlier], model.present[later])


def opened_around(model: Model) -> None:
    """An access step opens before and closes after everything that needs it, and what is done meanwhile."""
    for span in model.problem.spans:
        for user in (*span.users, *span.within):
            if span.opens is not None:
                _first(model, span.opens, user)
            _first(model, user, span.closes)
        if span.opens is not None:
            _first(model, span.opens, span.closes)


def ground_work_on_the_ground(model: Model) -> None:
    """What is done on the ground is not done while the car is on stands."""
    for span in model.problem.spans:
        ground = [
            n for n, task in enumerate(model.problem.tasks) if span.stands and task.ground and task.car == span.car
        ]
        for up in [_up(model, span)] if ground else []:
            for number in ground:
                model.cp.add_no_overlap([up, model.interval[number]])


def _up(model: Model, span: Span) -> Any:
    """Return the interval in which a span is open."""
    start = 0 if span.opens is None else model.start[span.opens]
    size = model.cp.new_int_var(0, model.problem.horizon, f"up {span.name}")
    return model.cp.new_optional_interval_var(start, size, model.end[span.closes], model.present[span.closes], "up")


def fire_risk_alone(model: Model) -> None:
    """Open fuel and welding stop all other work on the car."""
    for number, task in enumerate(model.problem.tasks):
        for other, beside in enumerate(model.problem.tasks) if task.alone else ():
            if other != number and beside.car == task.car and not (beside.alone and other < number):
                model.cp.add_no_overlap([model.interval[number], model.interval[other]])


def somebody_else(model: Model) -> None:
    """Who repaired does not inspect, who fitted does not check: both together take no more of a crew than it has."""
    for apart in model.problem.apart:
        for other in apart.others:
            for crew, count in model.taken[apart.task].items():
                if crew in model.taken[other]:
                    model.cp.add(count + model.taken[other][crew] <= len(crew))


def finish_last(model: Model) -> None:
    """A car is finished when its last task is."""
    for number, task in enumerate(model.problem.tasks):
        model.cp.add(model.finish[task.car] >= model.end[number]).only_enforce_if(model.present[number])


RULES = (
    within_the_service,
    enough_people,
    nobody_in_two_places,
    hands_in_all,
    places_and_resources,
    one_after_the_other,
    opened_around,
    ground_work_on_the_ground,
    fire_risk_alone,
    somebody_else,
    finish_last,
)
"""One function per rule, in the order in which they are told."""


def hint(model: Model, schedule: Schedule) -> None:
    """Tell the solver a plan that is known to be valid."""
    model.cp.clear_hints()  # type: ignore[no-untyped-call]
    placed = {item.task: item for item in schedule.placed}
    for group, literal in model.inside.items():
        model.cp.add_hint(literal, group in schedule.inside)
    for number, task in enumerate(model.problem.tasks):
        item = placed.get(number)
        if item is not None and task.fixed is None:
            model.cp.add_hint(model.start[number], item.start)
        for crew, count in model.taken[number].items():
            if len(model.taken[number]) > 1:
                model.cp.add_hint(count, 0 if item is None else len(set(crew).intersection(item.workers)))


def minutes_of_work(model: Model) -> Any:
    """Return worker-units of all that is in the plan, the last goal."""
    work = []
    for number, task in enumerate(model.problem.tasks):
        whole = task.units * model.present[number]
        if task.shorter:
            both = model.cp.new_bool_var("both")
            reason = model.any([model.present[n] for n in task.shorter.because])
            model.cp.add_min_equality(both, [model.present[number], reason])
            whole -= (task.units - task.shorter.units) * both
        work.append(task.people * (model.size[number] if task.pieces else whole))
    return sum(work)

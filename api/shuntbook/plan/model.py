"""The CP-SAT model of a problem: variables, then one function per rule.

OR-tools is imported when a model is made and not before: it costs a quarter of a second and 87 MB.
"""

from __future__ import annotations

from typing import Any

from shuntbook.plan.problem import Problem, Schedule, Span, Task


class Model:
    """Variables of a problem. `present[task]` and `inside[group]` are literals, `who[task][worker]` too."""

    def __init__(self, problem: Problem) -> None:
        from ortools.sat.python import cp_model

        self.problem = problem
        self.cp = cp_model.CpModel()
        self.inside: dict[str, Any] = {group: self.cp.new_bool_var(group) for group in problem.groups}
        self.always = self.cp.new_constant(1)
        spans = problem.of_spans
        self.present = [self._presence(task, n in spans) for n, task in enumerate(problem.tasks)]
        self._presence_of_spans()
        horizon = problem.horizon
        latest = [max(0, horizon - task.units) for task in problem.tasks]
        self.start = [self.cp.new_int_var(0, latest[n], f"start {task.name}") for n, task in enumerate(problem.tasks)]
        self.end = [self.start[n] + task.units for n, task in enumerate(problem.tasks)]
        self.interval = [
            self.cp.new_optional_interval_var(self.start[n], task.units, self.end[n], self.present[n], task.name)
            for n, task in enumerate(problem.tasks)
        ]
        self.who = [{w: self.cp.new_bool_var(f"{task.name} by {w}") for w in task.may} for task in problem.tasks]
        self.finish = self.cp.new_int_var(0, horizon, "finish")
        for rule in RULES:
            rule(self)

    def _presence(self, task: Task, of_span: bool) -> Any:
        if of_span:
            return self.cp.new_bool_var(f"in {task.name}")
        return self.inside[task.group] if task.group else self.always

    def _presence_of_spans(self) -> None:
        """An access step is in where something that needs it is; opening and closing go together."""
        for span in self.problem.spans:
            users = [self.present[user] for user in span.users]
            self.cp.add_max_equality(self.present[span.opens], users)
            for along in (span.closes, *span.after):
                self.cp.add(self.present[along] == self.present[span.opens])


def enough_people(model: Model) -> None:
    """A task that is in has its people, one of the skilled among them."""
    for number, task in enumerate(model.problem.tasks):
        chosen = model.who[number]
        model.cp.add(sum(chosen.values()) == task.people * model.present[number])
        if task.skilled and task.people:
            model.cp.add_bool_or([chosen[w] for w in task.skilled if w in chosen] + [~model.present[number]])


def within_the_service(model: Model) -> None:
    """What takes longer than the service is not in."""
    for number, task in enumerate(model.problem.tasks):
        if task.units > model.problem.horizon:
            model.cp.add(model.present[number] == 0)


def alike_in_turn(model: Model) -> None:
    """Of workers who are alike the first has the most to do: it says nothing new, and halves the search."""
    load = {}
    for number in range(len(model.problem.workers)):
        done = [t.units * model.who[n][number] for n, t in enumerate(model.problem.tasks) if number in model.who[n]]
        load[number] = sum(done)
        alike = [n for n in range(number) if _alike(model.problem, n, number)]
        if alike:
            model.cp.add(load[alike[-1]] >= load[number])


def _alike(problem: Problem, one: int, other: int) -> bool:
    first, second = problem.workers[one], problem.workers[other]
    return (first.mechanic, first.inspector, first.skills, first.from_unit) == (
        second.mechanic,
        second.inspector,
        second.skills,
        second.from_unit,
    )


def nobody_in_two_places(model: Model) -> None:
    """A worker does one task at a time, and none before he is there."""
    for number, worker in enumerate(model.problem.workers):
        busy = []
        for n, task in enumerate(model.problem.tasks):
            if number in model.who[n] and task.units:
                literal = model.who[n][number]
                busy.append(
                    model.cp.new_optional_interval_var(
                        model.start[n], task.units, model.end[n], literal, f"{n} {number}"
                    )
                )
                if worker.from_unit:
                    model.cp.add(model.start[n] >= worker.from_unit).only_enforce_if(literal)
        if busy:
            model.cp.add_no_overlap(busy)


def hands_in_all(model: Model) -> None:
    """All workers together do no more at once than there are: implied, and it helps the proof."""
    taken = [
        (model.interval[n], task.people) for n, task in enumerate(model.problem.tasks) if task.people and task.units
    ]
    if taken and model.problem.workers:
        intervals, demands = zip(*taken, strict=True)
        model.cp.add_cumulative(intervals, demands, len(model.problem.workers))


def places_and_resources(model: Model) -> None:
    """A zone holds its people, and there are so many stands."""
    for resource, capacity in model.problem.resources.items():
        users = [
            (model.interval[n], task.uses[resource])
            for n, task in enumerate(model.problem.tasks)
            if task.uses.get(resource) and task.units
        ]
        if sum(amount for _, amount in users) > capacity:
            intervals, amounts = zip(*users, strict=True)
            model.cp.add_cumulative(intervals, amounts, capacity)


def one_after_the_other(model: Model) -> None:
    """What has to be before is before, where both are in."""
    for earlier, later in model.problem.before:
        both = [model.present[earlier], model.present[later]]
        model.cp.add(model.start[later] >= model.end[earlier]).only_enforce_if(both)


def opened_around(model: Model) -> None:
    """An access step opens before and closes after everything that needs it."""
    for span in model.problem.spans:
        for user in span.users:
            literal = model.present[user]
            model.cp.add(model.start[user] >= model.end[span.opens]).only_enforce_if(literal)
            model.cp.add(model.end[user] <= model.start[span.closes]).only_enforce_if(literal)
        for later in span.after:
            model.cp.add(model.start[later] >= model.end[span.closes]).only_enforce_if(model.present[later])


def ground_work_on_the_ground(model: Model) -> None:
    """What is done on the ground is not done while the car is on stands."""
    ground = [model.interval[n] for n, task in enumerate(model.problem.tasks) if task.ground]
    for span in model.problem.spans if ground else ():
        if span.stands:
            up = _off_the_ground(model, span)
            for interval in ground:
                model.cp.add_no_overlap([up, interval])


def fire_risk_alone(model: Model) -> None:
    """Open fuel and welding stop all other work on the car."""
    alone = [n for n, task in enumerate(model.problem.tasks) if task.alone]
    if alone:
        many = len(model.problem.tasks)
        demands = [many if n in alone else 1 for n in range(many)]
        model.cp.add_cumulative(model.interval, demands, many)


def somebody_else(model: Model) -> None:
    """Who repaired does not inspect, who fitted does not check."""
    for apart in model.problem.apart:
        for other in apart.others:
            for worker, literal in model.who[apart.task].items():
                if worker in model.who[other]:
                    model.cp.add_bool_or([~literal, ~model.who[other][worker]])


def finish_last(model: Model) -> None:
    """The plan finishes when its last task does."""
    for number in range(len(model.problem.tasks)):
        model.cp.add(model.finish >= model.end[number]).only_enforce_if(model.present[number])


def _off_the_ground(model: Model, span: Span) -> Any:
    start, end = model.start[span.opens], model.end[span.closes]
    size = model.cp.new_int_var(0, model.problem.horizon, f"up {span.name}")
    return model.cp.new_optional_interval_var(start, size, end, model.present[span.opens], f"up {span.name}")


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
    groups = {model.problem.tasks[number].group for number in placed}
    for group, literal in model.inside.items():
        model.cp.add_hint(literal, group in groups)
    for number in range(len(model.problem.tasks)):
        item = placed.get(number)
        if item is not None:
            model.cp.add_hint(model.start[number], item.start)
        for worker, literal in model.who[number].items():
            model.cp.add_hint(literal, item is not None and worker in item.workers)


def minutes_of_work(model: Model) -> Any:
    """Return worker-units of all that is in the plan, the last goal."""
    return sum(task.people * task.units * model.present[n] for n, task in enumerate(model.problem.tasks))

"""The rules of a plan as constraints of the CP-SAT model, one function per rule; `fits` has those without times."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from shuntbook.plan.crews import Crew
from shuntbook.plan.fits import loads, work_of
from shuntbook.plan.problem import Problem, Span

if TYPE_CHECKING:
    from shuntbook.plan.model import Model


def within_the_service(model: Model) -> None:
    """What is in ends in time."""
    for number in range(len(model.problem.tasks)):
        model.cp.add(model.end[number] <= model.problem.latest(number)).only_enforce_if(model.present[number])


def enough_people(model: Model) -> None:
    """A task that is in has its people, one of the skilled among them, none before he is there."""
    for number, task in enumerate(model.problem.tasks):
        chosen = model.taken[number]
        if len(chosen) > 1:
            model.cp.add(sum(chosen.values()) == task.people * model.present[number])
        if task.guests and task.people > 1:
            model.cp.add(sum(count for crew, count in chosen.items() if crew[0] in task.guests) <= 1)
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
        work = [task.people * work_of(model, n) for n, task in theirs]
        if len(model.finish) == 1:
            (finish,) = model.finish.values()
            model.cp.add(sum(work) <= len(hands) * finish)


def stops_take_all(model: Model) -> None:
    """While the car moves and while fuel is open, all hands and zones are taken: implied, and a choice is proven by it.

    Told two by two that they are not at once, the solver does not see what the others lose meanwhile (`fits.loads` has
    the proof). Where it has still to choose, the windows of `fits` tell it most of that, and this costs more than it
    gives.
    """
    for load in loads(model.problem) if not model.problem.groups else ():
        takes = {n: many for n, many in {**load.amounts, **load.stops}.items() if model.problem.tasks[n].units}
        if load.stops and load.amounts:
            model.cp.add_cumulative([model.interval[n] for n in takes], list(takes.values()), load.capacity)


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


def nobody_at_a_moving_car(model: Model) -> None:
    """While the car goes up or down nobody touches it: no other step opens or closes, only work beside it goes on."""
    problem = model.problem
    ordered = set(problem.before) | _ordered_by_spans(problem)
    for number, task in enumerate(problem.tasks):
        for other, beside in enumerate(problem.tasks) if task.moves else ():
            twice = beside.moves and other < number
            begun = task.fixed is not None and beside.fixed is not None
            settled = (number, other) in ordered or (other, number) in ordered
            if other != number and beside.touches and beside.car == task.car and not (twice or begun or settled):
                model.cp.add_no_overlap([model.interval[number], model.interval[other]])


def _ordered_by_spans(problem: Problem) -> set[tuple[int, int]]:
    """Return the pairs that a span has one after the other anyway: they need no choice."""
    found = set()
    for span in problem.spans:
        users = (*span.users, *span.within)
        found |= {(user, span.closes) for user in users}
        found |= {(span.opens, user) for user in (*users, span.closes) if span.opens is not None}
    return found


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
    stops_take_all,
    places_and_resources,
    one_after_the_other,
    opened_around,
    ground_work_on_the_ground,
    fire_risk_alone,
    nobody_at_a_moving_car,
    somebody_else,
    finish_last,
)
"""One function per rule, in the order in which they are told."""

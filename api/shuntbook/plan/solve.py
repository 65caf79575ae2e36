"""Solves a problem, each goal fixed before the next: levels, value, earliest finish, early looks, least work.

First what is in the plan. The best that could be (`choice.Master`) is tried by itself, and where that is a plan, none
is better; else the whole model chooses. Then when it is done: the choice by itself, in which nothing is optional, and
where it is the only one that is as good, what is proven of it is proven of all plans.

Deterministic: work is bounded by the solver's own deterministic time and a fixed number of workers, not by a clock.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import Any, Literal

from shuntbook.plan.aims import far_from, hint, hint_times, looks, minutes_of_work
from shuntbook.plan.choice import Master, idle_hands_matter, of_choice, worthwhile
from shuntbook.plan.crews import Crew, alike, assign, each_alone
from shuntbook.plan.goals import Goal, choice_goals, total
from shuntbook.plan.model import Model
from shuntbook.plan.problem import Placed, Problem, Reached, Schedule
from shuntbook.plan.run import run

SHARE = 0.7
"""How much of what is left one goal may take, where others come after it."""
LEAST = 0.05
"""Deterministic seconds that a goal has in any case, or the ends of those after a hard one would be arbitrary."""
TRIED = 0.2
"""Deterministic seconds for one choice tried by itself: one that can be done is mostly found in a tenth of it."""
ASKED = 0.05
"""Deterministic seconds for what could be in a plan, asked without times."""
OTHERS = 12
"""How many choices that are as good are tried before it is left open whether another ends as early."""
SMALL = 1e-6

Until = Literal["value", "finish", "work"]
Crews = Callable[[Problem], list[Crew]]


@dataclass(frozen=True)
class Effort:
    """How much the solver may work: deterministic seconds in all, and workers.

    One worker proves the textbook projects faster than eight that take turns, which is what determinism asks of many.
    until: the last goal that is gone for: what is in the plan, that it ends early, or all of them.
    """

    deterministic_s: float = 1.5
    workers: int = 1
    until: Until = "work"

    def less(self, spent: float) -> Effort:
        """Return what is left of it."""
        return replace(self, deterministic_s=max(LEAST, self.deterministic_s - spent))


@dataclass
class Found:
    """The best plan so far: times by task, groups inside, what each goal reached, and what it took to find."""

    times: dict[int, tuple[int, int]]
    inside: frozenset[str]
    reached: list[Reached]
    spent: float = 0.0

    @property
    def proven(self) -> bool:
        """Whether every goal that was gone for is proven."""
        return all(one.proven for one in self.reached)

    @property
    def finish(self) -> int:
        """When the last task ends."""
        return max((end for _, end in self.times.values()), default=0)


def solve(problem: Problem, start: Schedule | None = None, effort: Effort = Effort()) -> Schedule | None:
    """Return the best plan found, `start` where none was: a valid plan to begin with.

    Where the problem has a plan last shown: the nearest to it with all that `start` has, within the horizon.
    """
    if problem.last and start is not None:
        return _nearest(problem, start, effort)
    found = _best(problem, alike, start, effort)
    schedule = _named(problem, found)
    if found is not None and schedule is None:
        # Counted they would be enough, named they are not: somebody would have to look at his own work. Most often
        # the tasks need only be moved a little, else all is done again with everyone by name.
        schedule = _named(problem, _as_good(problem, found, effort))
        schedule = schedule or _named(problem, _best(problem, each_alone, start, effort))
    return schedule or start


def _nearest(problem: Problem, start: Schedule, effort: Effort) -> Schedule | None:
    """Return the plan with the fewest people changed, then the fewest pairs of one person's tasks in another order."""
    model = Model(problem, each_alone(problem))
    for group, literal in model.inside.items():
        model.cp.add(literal == (group in start.inside))
    hint(model, start)
    model.cp.minimize(far_from(model, problem.last))
    solver, status = run(model, effort.deterministic_s, effort.workers)
    if status not in ("OPTIMAL", "FEASIBLE"):
        return start
    found = _named_alone(problem, _read(model, solver, start.goals), model, solver)
    return replace(found, proven=start.proven)


def _named_alone(problem: Problem, found: Found, model: Model, solver: Any) -> Schedule:
    """Return a plan of a model in which everybody is a crew of one: who does what is in it."""
    placed = []
    for number, (start, end) in found.times.items():
        counts = model.taken[number]
        who = tuple(sorted(crew[0] for crew, count in counts.items() if solver.value(count)))
        placed.append(Placed(number, start, end, who))
    in_order = tuple(sorted(placed, key=lambda item: (item.start, item.task)))
    return Schedule(in_order, found.proven, "solver", found.inside, tuple(found.reached))


def _named(problem: Problem, found: Found | None) -> Schedule | None:
    """Return a plan with everyone named, None where they cannot be."""
    placed = None if found is None else assign(problem, found.times)
    if found is None or placed is None:
        return None
    in_order = tuple(sorted(placed, key=lambda item: (item.start, item.task)))
    return Schedule(in_order, found.proven, "solver", found.inside, tuple(found.reached))


def _best(problem: Problem, crews: Crews, start: Schedule | None, effort: Effort) -> Found | None:
    """Return the best plan found, without who does what; None where none was."""
    begun = None if start is None else Found(_times(start), start.inside, [])
    if not problem.groups:
        model = Model(problem, crews(problem))
        return _in_stages(model, _timed_goals(model, effort.until), begun, effort)
    best = _first_choice(problem, crews)
    if best is None:
        model = Model(problem, crews(problem))
        goals = choice_goals(model)
        only = effort if effort.until == "value" else replace(effort, deterministic_s=effort.deterministic_s * SHARE)
        best = _in_stages(model, goals, begun, only) if goals else Found({}, frozenset(), [])
    if best is None or effort.until == "value":
        return best
    return _early(problem, crews, best, effort.less(best.spent))


def _first_choice(problem: Problem, crews: Crews) -> Found | None:
    """Return a plan of the best choice that there could be, None where it is none: then nothing betters it."""
    wanted = Master(problem, ASKED).best()
    if wanted is None:
        return None
    inside, rows = wanted
    found = _of(problem, crews, inside, problem.horizon)
    return found and replace(found, reached=rows)


def _of(problem: Problem, crews: Crews, inside: frozenset[str], horizon: int) -> Found | None:
    """Return a plan of just this choice that ends by the horizon, None where none was found."""
    chosen, numbers = of_choice(problem, inside)
    model = Model(replace(chosen, horizon=min(horizon, chosen.horizon)), crews(chosen))
    solver, status = run(model, TRIED)
    if status not in ("OPTIMAL", "FEASIBLE"):
        return None
    found = _read(model, solver, [])
    return Found({numbers[n]: time for n, time in found.times.items()}, inside, [], _spent(solver))


def _early(problem: Problem, crews: Crews, best: Found, effort: Effort) -> Found:
    """Return a plan of as good a choice that ends as early as it can, then with early looks and little work."""
    alone = _alone(problem, crews, best, effort)
    if alone is not None and _is_only(problem, crews, alone):
        return alone
    start = alone or best
    if alone is not None and not alone.proven:
        # What is hard for one choice is harder for all of them at once.
        return replace(alone, reached=[*best.reached, _open(problem, start, best.reached)])
    model = Model(problem, crews(problem))
    _hold(model, best.reached)
    left = effort.less(0 if alone is None else alone.spent)
    found = _in_stages(model, _timed_goals(model, effort.until), Found(start.times, start.inside, best.reached), left)
    return found or replace(start, reached=[*best.reached, _open(problem, start, best.reached)])


def _open(problem: Problem, found: Found, reached: Sequence[Reached]) -> Reached:
    """Return when a plan ends of which another may end earlier, and before when none does that reaches as much.

    That is the shortest time into which, without regard to when, as much fits.
    """
    least, most = 0, found.finish
    while least < most:
        tried = (least + most) // 2
        master = Master(replace(problem, horizon=tried), ASKED)
        master.hold(reached)
        inside, is_certain = master.another()
        if inside is None and is_certain:
            least = tried + 1
        else:
            most = tried
    return Reached("finish", found.finish, least)


def _alone(problem: Problem, crews: Crews, best: Found, effort: Effort) -> Found | None:
    """Return the best times of a choice by itself; the work that it takes is then what it is."""
    inside = worthwhile(problem, best.inside)
    chosen, numbers = of_choice(problem, inside)
    model = Model(chosen, crews(chosen))
    begun = {place: best.times[n] for place, n in enumerate(numbers) if n in best.times}
    goals = _timed_goals(model, effort.until)
    found = _in_stages(model, goals, Found(begun, frozenset(), []), effort)
    if found is None:
        return None
    work = sum(task.people * task.units for task in chosen.tasks)
    rows = [*best.reached, *found.reached, *([Reached("work", work, work)] if effort.until == "work" else [])]
    return Found({numbers[n]: time for n, time in found.times.items()}, inside, rows, found.spent)


def _is_only(problem: Problem, crews: Crews, found: Found) -> bool:
    """Return whether every other choice that reaches as much ends later, or cannot be done at all."""
    if idle_hands_matter(problem) or len(problem.cars) > 1:
        return False
    shorter = replace(problem, horizon=min(problem.horizon, found.finish))
    master = Master(shorter, ASKED)
    master.hold(found.reached)
    master.cut(found.inside)
    for _ in range(OTHERS):
        other, is_certain = master.another()
        if other is None:
            return is_certain
        chosen, _ = of_choice(shorter, other)
        _, status = run(Model(chosen, crews(chosen)), TRIED)
        if status != "INFEASIBLE":
            return False
        master.cut(other)
    return False


def _in_stages(model: Model, goals: Sequence[Goal], begun: Found | None, effort: Effort) -> Found | None:
    """Return the best plan found of these goals, one after the other; what `begun` reached before stays before it."""
    best, solved = begun, False
    left = effort.deterministic_s
    if begun is not None:
        hint_times(model, begun.times, begun.inside)
    for place, goal in enumerate(goals):
        if best is not None and goal.is_best(best.inside):
            # Nothing could be better: what is already there needs no search.
            best = _settled(model, best, goal, 0, 0)
            continue
        (model.cp.maximize if goal.more else model.cp.minimize)(goal.expression)
        # A stage that finds no end leaves something for those after it, or their ends would be arbitrary.
        solver, status = run(model, left if place == len(goals) - 1 else left * SHARE, effort.workers)
        if status not in ("OPTIMAL", "FEASIBLE"):
            return _unproven(best, goal) if solved else None
        solved, left = True, max(LEAST, left - _spent(solver))
        best = _read(model, solver, [] if best is None else best.reached, effort.deterministic_s - left)
        bound = (
            ceil(solver.best_objective_bound - SMALL) if not goal.more else floor(solver.best_objective_bound + SMALL)
        )
        best = _settled(model, best, goal, round(solver.objective_value), bound)
        _hint_again(model, solver)
    return best


def _spent(solver: Any) -> float:
    return float(solver.response_proto.deterministic_time)


def _times(schedule: Schedule) -> dict[int, tuple[int, int]]:
    return {item.task: (item.start, item.end) for item in schedule.placed}


def _unproven(best: Found | None, goal: Goal) -> Found | None:
    """A goal for which the time ran out before anything was found is not proven."""
    if best is None:
        return None
    rows = [Reached(one.name, one.of(best.inside), one.most) for one in goal.counts] or [Reached(goal.name, 0, 1)]
    return replace(best, reached=[*best.reached, *rows])


def _settled(model: Model, best: Found, goal: Goal, found: int, bound: int) -> Found:
    """Hold what a goal reached, and return the plan with it."""
    rows = goal.reached(found, bound, best.inside)
    if goal.counts:
        _hold(model, rows)
    else:
        model.cp.add(goal.expression >= found if goal.more else goal.expression <= found)
    return replace(best, reached=[*best.reached, *rows])


def _hold(model: Model, rows: Sequence[Reached]) -> None:
    """Ask for as much of each goal that counts groups; where that is proven, for no more."""
    weights = {one.name: one.weights for goal in choice_goals(model) for one in goal.counts}
    for row in rows:
        if row.goal in weights:
            counted = total(model, weights[row.goal])
            model.cp.add(counted == row.reached if row.proven else counted >= row.reached)


def _as_good(problem: Problem, found: Found, effort: Effort) -> Found | None:
    """Return a plan of the same choice that reaches what was reached without names, None where none was found."""
    chosen, numbers = of_choice(problem, found.inside)
    model = Model(chosen, each_alone(chosen))
    reached = {row.goal: row.reached for row in found.reached if row.reached or row.proven}
    for goal in _timed_goals(model, "work"):
        # Where the time ran out, only the first goals were reached.
        if goal.name in reached:
            model.cp.add(goal.expression <= reached[goal.name])
    hint_times(model, {place: found.times[n] for place, n in enumerate(numbers)}, ())
    solver, status = run(model, effort.deterministic_s / 2, effort.workers)
    if status not in ("OPTIMAL", "FEASIBLE"):
        return None
    times = {numbers[n]: time for n, time in _read(model, solver, []).times.items()}
    return replace(found, times=times)


def _timed_goals(model: Model, until: Until) -> list[Goal]:
    """Return the goals that ask when: the cars' ends, early looks, and least work where there is a choice."""
    goals = [Goal("finish", sum(model.finish.values()), False)]
    if until == "work":
        early = looks(model)
        goals += [Goal("looks", early, False)] if early is not None else []
        goals += [Goal("work", minutes_of_work(model), False)] if model.problem.groups else []
    return goals


def _hint_again(model: Model, solver: Any) -> None:
    """Tell the solver its own last plan, whole."""
    model.cp.clear_hints()  # type: ignore[no-untyped-call]
    solution = solver.response_proto.solution
    hints = model.cp.proto.solution_hint
    hints.vars.extend(range(len(solution)))
    hints.values.extend(solution)


def _read(model: Model, solver: Any, reached: Sequence[Reached], spent: float = 0.0) -> Found:
    inside = frozenset(group for group, literal in model.inside.items() if solver.boolean_value(literal))
    times = {
        number: (solver.value(model.start[number]), solver.value(model.end[number]))
        for number in range(len(model.problem.tasks))
        if solver.boolean_value(model.present[number])
    }
    return Found(times, inside, list(reached), spent)

"""Solves a problem, each goal held before the next: levels, value, earliest finish, early looks, least work.

First what is in the plan. The best that could be (`choice.Master`) is tried by itself (`alone`); where it is no plan,
it is cut off and the next best tried: the first that is a plan is the best (`tries`). Where that leads nowhere, the
whole model chooses (`stages`). Then when it is done: the choice by itself, and every other that is as good and could
end as early. Last the people by name (`naming`). What may be spent, and how the solver's answer is read, is in `found`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shuntbook.plan.alone import Crews, early, tried
from shuntbook.plan.choice import Master, counting, cut_off, worthwhile
from shuntbook.plan.crews import alike, each_alone
from shuntbook.plan.found import USUAL, Effort, Found, begun_with
from shuntbook.plan.goals import choice_goals, worth_of
from shuntbook.plan.model import Model
from shuntbook.plan.naming import as_good, named, nearest
from shuntbook.plan.problem import Problem, Reached, Schedule
from shuntbook.plan.stages import SHARE, hold, in_stages, no_better, of_less, timed_goals
from shuntbook.plan.tries import ASKED, TRIED, Tries, best_choice

__all__ = ["Effort", "Found", "solve"]

PART = 0.2
"""How much of the effort naming people may take for a choice whose times do not allow it."""
FEWER = (1, 2, 4, 8)
"""How many of what is worth least are left out, one after the other, where people cannot be named for all of it."""
TRYING = 0.3
"""How much of what trying choices took is taken off what the whole model may take."""
TIMED = ("finish", "looks", "work")
"""The goals that ask when, and how much."""
OTHERS = 12
"""How many choices that are as good are tried before it is left open whether another ends as early."""


def solve(problem: Problem, start: Schedule | None = None, effort: Effort = USUAL) -> Schedule | None:
    """Return the best plan found, `start` where none was: a valid plan to begin with.

    Where the problem has a plan last shown: the nearest to it with all that `start` has, within the horizon.
    """
    if problem.last and start is not None:
        return nearest(problem, start, effort)
    found = _best(problem, alike, start, effort)
    schedule = named(problem, found)
    if found is not None and schedule is None:
        # Counted they would be enough, named they are not: somebody would have to look at his own work. Most often
        # the tasks need only be moved a little, else they take longer, or something has to stay out.
        part = replace(effort, deterministic_s=effort.deterministic_s * PART)
        schedule = named(problem, as_good(problem, found, effort)) or _all_by_name(problem, found, start, part)
    if schedule is None or start is None:
        return schedule or start
    return schedule if worth_of(problem, schedule.inside) >= worth_of(problem, start.inside) else start


def _all_by_name(problem: Problem, found: Found, start: Schedule | None, effort: Effort) -> Schedule | None:
    """Return the best plan found with everyone by name from the beginning."""
    whole = named(problem, _best(problem, each_alone, start, effort))
    if whole is not None and whole.proven:
        return whole
    less = named(problem, _by_name(problem, found, effort))
    plans = [plan for plan in (less, whole) if plan is not None]
    return max(plans, key=lambda plan: worth_of(problem, plan.inside), default=None)


def _by_name(problem: Problem, found: Found, effort: Effort) -> Found | None:
    """Return a plan with everyone by name of as much as can be, however late it ends; None where none was found."""
    for inside in dict.fromkeys((found.inside, found.first, *_less(problem, found.inside))):
        attempt = tried(problem, each_alone, inside, effort.deterministic_s)
        if attempt.found is not None:
            return _timed_by_name(problem, found, attempt.found, effort)
    return None


def _less(problem: Problem, inside: frozenset[str]) -> Iterator[frozenset[str]]:
    """Yield what is left of a choice without what is worth least of that which is done for its value alone."""
    least = sorted((g for g in inside if g not in problem.musts), key=lambda g: (problem.values.get(g, 0), g))
    valued = [group for group in least if problem.values.get(group)]
    for many in FEWER:
        if many <= len(valued):
            yield worthwhile(problem, inside).difference(valued[:many])


def _timed_by_name(problem: Problem, counted: Found, attempt: Found, effort: Effort) -> Found:
    """Return a plan with everyone by name done as early as it can be, with the bounds of what was counted."""
    chosen = of_less(problem, [row for row in counted.reached if row.goal not in TIMED], attempt.inside)
    begun = replace(attempt, reached=chosen)
    alone = early(problem, each_alone, begun, effort) or begun
    # Who is counted is never later done than who is named; of what is worth less nothing is known.
    is_same = all(row.reached == same.reached for row, same in zip(chosen, counted.reached, strict=False))
    ends = {row.goal: row.bound for row in counted.reached if row.goal == "finish" and is_same}
    rows = [replace(row, bound=min(row.bound, ends.get(row.goal, 0))) for row in alone.reached if row.goal in TIMED]
    return replace(alone, reached=[*chosen, *rows])


def _best(problem: Problem, crews: Crews, start: Schedule | None, effort: Effort) -> Found | None:
    """Return the best plan found, without who does what; None where none was."""
    begun = begun_with(start)
    if not problem.groups:
        model = Model(problem, crews(problem))
        return in_stages(model, timed_goals(model, effort.until), begun, effort)
    tries = best_choice(problem, crews, effort)
    best = tries.found
    if best is None or not best.proven:
        # Nothing but what was set aside betters what was found, so the whole model begins with that.
        begun = begun if best is None else replace(best, reached=[])
        whole = _chosen_at_once(problem, crews, begun, effort.less(tries.spent * TRYING), tries)
        plans = [found for found in (whole, best) if found is not None]
        best = max(plans, key=lambda found: worth_of(problem, found.inside), default=None)
    if best is None or effort.until == "value":
        return best
    return replace(_early(problem, crews, best, effort.less(best.spent)), first=best.inside)


def _chosen_at_once(problem: Problem, crews: Crews, begun: Found | None, effort: Effort, tries: Tries) -> Found | None:
    """Return the best plan that the whole model finds, in which it chooses and places at once."""
    model = Model(problem, crews(problem))
    for long in tries.master.cuts if tries.master is not None else ():
        cut_off(model, long)
    goals = choice_goals(model)
    only = effort if effort.until == "value" else replace(effort, deterministic_s=effort.deterministic_s * SHARE)
    found = in_stages(model, goals, begun, only) if goals else Found({}, frozenset(), [])
    return found and replace(found, reached=no_better(found.reached, tries.bounds))


def _early(problem: Problem, crews: Crews, best: Found, effort: Effort) -> Found:
    """Return a plan of as good a choice that ends as early as it can, then with early looks and little work."""
    # Where no choice that is as good can end sooner than this, a plan that ends then needs no search for a sooner one.
    least = _least_end(problem, best.reached, best.finish) if len(problem.cars) == 1 else 0
    alone = early(problem, crews, replace(best, inside=counting(problem, best.inside)), effort, least)
    if alone is None:
        return _early_at_once(problem, crews, best, best, effort)
    if not alone.proven:
        # What is hard for one choice is harder for all of them at once. Of looks and work nothing is known of others.
        after = [replace(row, bound=0) for row in alone.reached if row.goal in ("looks", "work")]
        return replace(alone, reached=[*best.reached, _open(problem, alone, best.reached, least), *after])
    left = effort.less(alone.spent)
    return _first_of_all(problem, crews, alone, left) or _early_at_once(problem, crews, best, alone, left)


def _first_of_all(problem: Problem, crews: Crews, best: Found, effort: Effort) -> Found | None:
    """Return the plan that ends first of all choices that reach as much; None where that stays open."""
    if len(problem.cars) > 1:
        return None
    shorter = replace(problem, horizon=min(problem.horizon, best.finish))
    chosen = [row for row in best.reached if row.goal not in TIMED]
    master = Master(shorter, ASKED)
    master.hold(chosen)
    master.cut(best.inside)
    for _ in range(OTHERS):
        inside, is_certain = master.another()
        if inside is None:
            return best if is_certain else None
        attempt = tried(shorter, crews, inside, TRIED)
        if not attempt.impossible:
            other = attempt.found and early(shorter, crews, replace(attempt.found, reached=chosen), effort)
            if other is None or not other.proven:
                return None
            effort = effort.less(other.spent)
            best = min(best, other, key=_when)
        master.cut(inside)
    return None


def _when(found: Found) -> list[int]:
    """Return what a plan reaches of the goals after those that count groups; less is better."""
    return [row.reached for row in found.reached if row.goal in TIMED]


def _early_at_once(problem: Problem, crews: Crews, best: Found, start: Found, effort: Effort) -> Found:
    """Return the plan that ends first by the whole model, which chooses among all that are as good."""
    model = Model(problem, crews(problem))
    hold(model, best.reached)
    goals = timed_goals(model, effort.until)
    found = in_stages(model, goals, Found(start.times, start.inside, best.reached), effort)
    return found or replace(start, reached=[*best.reached, _open(problem, start, best.reached)])


def _open(problem: Problem, found: Found, reached: list[Reached], least: int = 0) -> Reached:
    """Return when a plan ends of which another may end earlier, and before when none does that reaches as much."""
    least = least or _least_end(problem, reached, found.finish)
    ends = [
        max(end for n, (_, end) in found.times.items() if problem.tasks[n].car == car) for car in _of(problem, found)
    ]
    return Reached("finish", sum(ends), least)


def _least_end(problem: Problem, reached: list[Reached], most: int) -> int:
    """Return the shortest time into which, without regard to when, as much fits; of several cars the last to end.

    most: into which it does. Mostly little less is enough, so it is asked from there.
    """
    least, step = 0, 1
    while least < most:
        end = max(least, most - step)
        master = Master(replace(problem, horizon=end), ASKED)
        master.hold(reached)
        inside, is_certain = master.another()
        if inside is None and is_certain:
            least, step = end + 1, max(1, (most - end - 1) // 2)
        else:
            most, step = end, max(1, min(2 * step, (end - least) // 2 or 1))
    return most


def _of(problem: Problem, found: Found) -> list[str]:
    """Return the cars that anything is done on."""
    return sorted({problem.tasks[n].car for n in found.times})

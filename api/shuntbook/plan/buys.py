"""What minutes and hands buy: the least time for what holds a car, what each minute late adds, one mechanic more."""

from dataclasses import dataclass, replace
from fractions import Fraction

from shuntbook.plan.build import PlanModel
from shuntbook.plan.choose import Solve, best_of
from shuntbook.plan.context import ANY_TIME, PlanContext
from shuntbook.plan.draft import HELD
from shuntbook.plan.greedy import greedy
from shuntbook.plan.namable import can_be_named
from shuntbook.plan.problem import GRID_S, PER_MINUTE, Problem, Schedule, Worker
from shuntbook.plan.solve import Effort
from shuntbook.plan.told import Hands, Later, Needs

BESIDE = Effort(deterministic_s=0.3, until="value")
"""How much the solver may work on each question of what one more minute buys."""
HANDS = Effort(deterministic_s=0.6, until="finish")


def held_groups(problem: Problem) -> frozenset[str]:
    """Return the safety-critical and vital work: what too few people are there for fits no time at all."""
    groups = frozenset[str]().union(*(problem.levels[level] for level in HELD))
    return frozenset(group for group in groups if can_be_named(problem, group))


@dataclass(frozen=True)
class Least:
    """The least time for what holds a car, and a plan of that alone."""

    needs: Needs
    schedule: Schedule


def least_of(scene: PlanContext, built: PlanModel, best: Schedule, solver: Solve | None) -> Least | None:
    """Return the least time that the safety-critical and vital work takes, where it does not all fit.

    Without a solver it is the time that the plan made at once takes.
    """
    held = held_groups(built.problem)
    if held <= best.inside:
        return None
    least = _shortest(built.problem, held, solver)
    if least is None:
        return None
    inside = Fraction(scene.service.in_and_out_minutes) if scene.service is not None else Fraction(0)
    minutes = -int(-(Fraction(least.finish * GRID_S, 60) + inside) // 1)
    late = max(0, -((scene.work_units - least.finish) // PER_MINUTE))
    allowed = scene.service is not None and late <= scene.left_min
    needs = Needs(max(minutes, scene.minutes + late), late, scene.penalty_s(late) if allowed else None)
    return Least(needs, least)


def _shortest(problem: Problem, held: frozenset[str], solver: Solve | None) -> Schedule | None:
    tasks = tuple(replace(task, latest=None) for task in problem.tasks)
    alone = replace(problem, tasks=tasks, values={}, levels=(held,), horizon=ANY_TIME)
    start = greedy(alone)
    if held <= start.inside:
        alone = replace(alone, horizon=start.finish)
    least = best_of(alone, HANDS, solver, start) if solver is not None else start
    return least if held <= least.inside else None


def later_of(scene: PlanContext, best: Schedule, late: int, solver: Solve, start: Schedule) -> list[Later]:
    """Return what leaving later than so many minutes buys, up to the limit; minutes that change nothing are one row.

    start: where the search begins: `best`, or the plan before its inspections were put together.
    """
    problem = scene.built(late).problem
    wanted = {g for g in problem.groups if g in problem.musts or problem.values.get(g)}
    found: list[Later] = []
    longest = start
    for minutes in range(late + 1, scene.left_min + 1):
        # A plan that fits a shorter service fits a longer one.
        if not wanted <= longest.inside:
            longest = best_of(scene.built(minutes).problem, BESIDE, solver, longest)
        row = Later(minutes, minutes, scene.penalty_s(minutes), *_changes(best, longest), longest.proven)
        same = bool(found) and (found[-1].adds, found[-1].drops) == (row.adds, row.drops)
        found[-1:] = [_joined(found[-1], row)] if same else [*found[-1:], row]
    return found


def _joined(earlier: Later, later: Later) -> Later:
    fields = earlier.leave_late_min, later.to_late_min, earlier.penalty_s, earlier.adds, earlier.drops
    return Later(*fields, earlier.proven and later.proven)


def hands_of(scene: PlanContext, best: Schedule, late: int, solver: Solve, start: Schedule) -> list[Hands]:
    """Return what one mechanic fewer and one more, of no special skill, would change. start: as in `later_of`."""
    mechanics = [n for n, worker in enumerate(scene.workers) if worker.mechanic]
    fewer = [worker for n, worker in enumerate(scene.workers) if n != mechanics[-1]] if len(mechanics) > 1 else None
    more = [*scene.workers, Worker("one more", mechanic=True, inspector=False)]
    found = []
    for count, workers in ((len(mechanics) - 1, fewer), (len(mechanics) + 1, more)):
        if workers is not None:
            problem = scene.built(late, workers).problem
            # Who has one pair of hands more can do all that was planned without them; those of the car come after all.
            is_more = len(workers) > len(scene.workers) and not any(worker.crew for worker in scene.workers)
            other = best_of(problem, HANDS, solver, start if is_more else None)
            found.append(Hands(count, *_changes(best, other), other.finish * GRID_S, other.proven))
    return found


def _changes(before: Schedule, after: Schedule) -> tuple[tuple[str, ...], tuple[str, ...]]:
    return tuple(sorted(after.inside - before.inside)), tuple(sorted(before.inside - after.inside))

"""How likely a plan is to be done in time: it is played out with three-point times, its own order kept.

Each task's time is drawn from the PERT-beta of its best, likely and worst minutes: mean (o + 4m + p)/6, shape
α = 1 + 4(m − o)/(p − o), β = 1 + 4(p − m)/(p − o). Seeded, so that the same plan gives the same chance.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from shuntbook.plan.problem import GRID_S, Problem, Schedule
from shuntbook.setup.rates import ThreePoint

RUNS = 2000


@dataclass(frozen=True)
class Chance:
    """The share of runs that ended in time, and for each task how often it was on the critical path."""

    on_time: float
    critical: dict[int, float]


def chance(
    problem: Problem, schedule: Schedule, minutes: Sequence[ThreePoint], seed: int = 1, runs: int = RUNS
) -> Chance:
    """Play a plan out `runs` times; a run is in time where it ends within the problem's horizon."""
    links = order_of(problem, schedule)
    random = Random(seed)  # noqa: S311 - chance for a simulation, no secret
    limit_s = problem.horizon * GRID_S
    in_time, critical = 0, dict.fromkeys(links, 0)
    for _ in range(runs):
        seconds = {n: 60 * draw(minutes[n], random) for n in links}
        ends, last = _played(links, seconds)
        in_time += max(ends.values(), default=0.0) <= limit_s
        for number in _critical_path(ends, last):
            critical[number] += 1
    return Chance(in_time / runs, {number: count / runs for number, count in critical.items()})


def draw(points: ThreePoint, random: Random) -> float:
    """Draw minutes from the PERT-beta of a three-point estimate."""
    best, likely, worst = float(points.best), float(points.likely), float(points.worst)
    if worst == best:
        return best
    alpha = 1 + 4 * (likely - best) / (worst - best)
    beta = 1 + 4 * (worst - likely) / (worst - best)
    return best + (worst - best) * random.betavariate(alpha, beta)


def order_of(problem: Problem, schedule: Schedule) -> dict[int, list[int]]:
    """Return for each task of a plan the tasks that it waits for, in the order of starting.

    Two tasks are linked where one ended before the other started and they share a worker, a resource, the
    ground, or a rule that puts one before the other.
    """
    placed = sorted(schedule.placed, key=lambda item: (item.start, item.end, item.task))
    links: dict[int, list[int]] = {}
    for place, item in enumerate(placed):
        waits = [p.task for p in placed[:place] if p.end <= item.start and _linked(problem, p.task, item.task, placed)]
        links[item.task] = waits
    return links


def _linked(problem: Problem, earlier: int, later: int, placed: Sequence) -> bool:  # type: ignore[type-arg]
    people = {item.task: set(item.workers) for item in placed}
    one, other = problem.tasks[earlier], problem.tasks[later]
    if people[earlier] & people[later] or set(one.uses) & set(other.uses) or (earlier, later) in problem.before:
        return True
    if one.alone or other.alone or other.ground:
        return True
    for span in problem.spans:
        if earlier == span.opens and later in (*span.users, span.closes):
            return True
        if (earlier in span.users and later == span.closes) or (earlier == span.closes and later in span.after):
            return True
    return False


def _played(links: dict[int, list[int]], seconds: dict[int, float]) -> tuple[dict[int, float], dict[int, int | None]]:
    ends: dict[int, float] = {}
    last: dict[int, int | None] = {}
    for number, waits in links.items():
        latest = max(waits, key=lambda other: ends[other], default=None)
        last[number] = latest
        ends[number] = (ends[latest] if latest is not None else 0.0) + seconds[number]
    return ends, last


def _critical_path(ends: dict[int, float], last: dict[int, int | None]) -> list[int]:
    number = max(ends, key=lambda n: ends[n], default=None)
    path = []
    while number is not None:
        path.append(number)
        number = last[number]
    return path


def serial(points: Sequence[ThreePoint]) -> tuple[Fraction, Fraction]:
    """Return mean and variance of a chain done one after the other, in closed form."""
    return sum((p.expected for p in points), Fraction(0)), sum((p.variance for p in points), Fraction(0))

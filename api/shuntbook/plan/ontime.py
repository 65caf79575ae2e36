"""How likely a plan is to be done in time: it is played out with three-point times, its own order kept.

Each task's time is drawn from the PERT-beta of its best, likely and worst minutes: mean (o + 4m + p)/6, shape
α = 1 + 4(m − o)/(p − o), β = 1 + 4(p − m)/(p − o). Seeded, so that the same plan gives the same chance.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from shuntbook.plan.inside import minutes_in
from shuntbook.plan.problem import GRID_S, Placed, Problem, Schedule, Span
from shuntbook.setup.rates import ThreePoint

RUNS = 2000


@dataclass(frozen=True)
class Chance:
    """The share of runs in which each car was done in time; how often each task was on the critical path."""

    on_time: dict[str, float]
    critical: dict[int, float]


def chance(problem: Problem, schedule: Schedule, seed: int = 1, runs: int = RUNS) -> Chance:
    """Play a plan out `runs` times; a car is in time where its last task ends by when its tasks have to."""
    links = order_of(problem, schedule)
    points = _points(problem, schedule)
    earliest = {n: problem.tasks[n].earliest * GRID_S for n in links}
    random = Random(seed)  # noqa: S311 - chance for a simulation, no secret
    in_time, critical = dict.fromkeys(problem.cars, 0), dict.fromkeys(links, 0)
    for _ in range(runs):
        seconds = {n: 60 * sum(draw(p, random) for p in points[n]) for n in links}
        ends, last = _played(links, seconds, earliest)
        for car in late_cars(problem, ends):
            in_time[car] -= 1
        for number in _critical_path(ends, last):
            critical[number] += 1
    shares = {number: count / runs for number, count in critical.items()}
    return Chance({car: 1 + late / runs for car, late in in_time.items()}, shares)


def late_cars(problem: Problem, ends: dict[int, float]) -> set[str]:
    """Return the cars with a task that ends too late; `ends` in seconds."""
    return {problem.tasks[n].car for n, end in ends.items() if end > problem.latest(n) * GRID_S + 1e-6}


def _points(problem: Problem, schedule: Schedule) -> dict[int, list[ThreePoint]]:
    """Return what each task's time is drawn from; one without three points always takes what it was planned for."""
    tasks = {item.task for item in schedule.placed}
    found = {}
    for item in schedule.placed:
        planned = Fraction((item.end - item.start) * GRID_S, 60)
        points = minutes_in(problem, item.task, schedule.inside, tasks)
        found[item.task] = points or [ThreePoint(planned, planned, planned)]
    return found


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

    Two tasks are linked where one ended before the other started and they share a worker, a resource, the ground,
    or a rule that puts one before the other. A wait that follows from another is not listed.
    """
    placed = sorted(schedule.placed, key=lambda item: (item.start, item.end, item.task))
    rules = _rules(problem)
    links: dict[int, list[int]] = {}
    behind: dict[int, int] = {}
    for place, item in enumerate(placed):
        behind[item.task], links[item.task] = 0, []
        for other in reversed(placed[:place]):
            ended = other.end <= item.start and not behind[item.task] >> other.task & 1
            if ended and (_share(problem, other, item) or (other.task, item.task) in rules):
                links[item.task].append(other.task)
                behind[item.task] |= behind[other.task] | 1 << other.task
    return links


def _rules(problem: Problem) -> set[tuple[int, int]]:
    pairs = set(problem.before)
    for span in problem.spans:
        users = (*span.users, *span.within)
        pairs |= {(user, span.closes) for user in users}
        if span.opens is not None:
            pairs |= {(span.opens, user) for user in (*users, span.closes)}
            pairs |= {(earlier, span.opens) for earlier in _in_the_way(problem, span)}
    return pairs


def _in_the_way(problem: Problem, span: Span) -> set[int]:
    """Return what a span waits for to open: work on the ground, and others that hold what it holds, such as stands."""
    ground = {n for n, task in enumerate(problem.tasks) if span.stands and task.ground and task.car == span.car}
    return ground | {other.closes for other in problem.spans if set(other.holds) & set(span.holds)}


def _share(problem: Problem, earlier: Placed, later: Placed) -> bool:
    one, other = problem.tasks[earlier.task], problem.tasks[later.task]
    if set(earlier.workers) & set(later.workers) or set(one.uses) & set(other.uses):
        return True
    return one.car == other.car and (one.alone or other.alone or other.ground)


def _played(
    links: dict[int, list[int]], seconds: dict[int, float], earliest: dict[int, int]
) -> tuple[dict[int, float], dict[int, int | None]]:
    ends: dict[int, float] = {}
    last: dict[int, int | None] = {}
    for number, waits in links.items():
        latest = max(waits, key=lambda other: ends[other], default=None)
        last[number] = latest
        ready = ends[latest] if latest is not None else 0.0
        ends[number] = max(ready, earliest[number]) + seconds[number]
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

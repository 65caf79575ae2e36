"""How likely a plan is to be done in time: it is played out with three-point times, its own order kept.

Each task's time is drawn from the PERT-beta of its best, likely and worst minutes: mean (o + 4m + p)/6, shape
α = 1 + 4(m − o)/(p − o), β = 1 + 4(p − m)/(p − o). Seeded by the
task: the same plan gives the same chance, and two plans differ by their work alone.
"""

from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from operator import add
from random import Random

from shuntbook.plan.inside import minutes_in
from shuntbook.plan.problem import GRID_S, Placed, Problem, Schedule, Span
from shuntbook.setup.rates import ThreePoint

RUNS = 2000
DUE_MINUTE_S = 60
"""In time is to the end of the due minute: clocks of officials show whole minutes."""
Times = Sequence[float]
"""Seconds of one task in each run."""


@dataclass(frozen=True)
class Chance:
    """The share of runs in which each car was done in time; how often each task was on the critical path."""

    on_time: dict[str, float]
    critical: dict[int, float]


def chance(problem: Problem, schedule: Schedule, seed: int = 1, runs: int = RUNS) -> Chance:
    """Play a plan out `runs` times; a car is in time where its last task ends by when its tasks have to."""
    links = order_of(problem, schedule)
    seconds = _seconds(problem, schedule, seed, runs)
    ends = _played(problem, links, seconds, runs)
    critical = dict.fromkeys(links, 0)
    for run in range(runs):
        for number in _critical_path(links, ends, run):
            critical[number] += 1
    return Chance(_in_time(problem, ends, runs), {number: count / runs for number, count in critical.items()})


def share_in_time(problem: Problem, schedule: Schedule, seed: int = 1, runs: int = RUNS) -> float:
    """Return the share of runs in which every car is done in time: `chance` without what is critical, and quicker."""
    ends = _played(problem, order_of(problem, schedule), _seconds(problem, schedule, seed, runs), runs)
    return min(_in_time(problem, ends, runs).values(), default=1.0)


def _in_time(problem: Problem, ends: dict[int, list[float]], runs: int) -> dict[str, float]:
    late: dict[str, set[int]] = {car: set() for car in problem.cars}
    for number, times in ends.items():
        limit = problem.latest(number) * GRID_S + DUE_MINUTE_S
        late[problem.tasks[number].car].update(run for run, end in enumerate(times) if end >= limit)
    return {car: 1 - len(those) / runs for car, those in late.items()}


def _seconds(problem: Problem, schedule: Schedule, seed: int, runs: int) -> dict[int, Times]:
    """Return what each task takes in each run: the same in every plan that has it, so that plans can be compared."""
    names = {item.task: f"{problem.tasks[item.task].car} {problem.tasks[item.task].name}" for item in schedule.placed}
    points = _points(problem, schedule)
    return {number: _drawn(f"{seed} {name}", tuple(points[number]), runs) for number, name in names.items()}


@lru_cache(maxsize=1024)
def _drawn(name: str, points: tuple[ThreePoint, ...], runs: int) -> Times:
    random = Random(name)  # noqa: S311 - chance for a simulation, no secret
    return array("d", (60 * sum(draw(one, random) for one in points) for _ in range(runs)))


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
    moves = (one.moves and other.touches) or (one.touches and other.moves)
    return one.car == other.car and (one.alone or other.alone or other.ground or moves)


def _played(
    problem: Problem, links: dict[int, list[int]], seconds: dict[int, Times], runs: int
) -> dict[int, list[float]]:
    """Return when each task ends in each run; `links` in an order in which what is waited for comes first."""
    ends: dict[int, list[float]] = {}
    for number, waits in links.items():
        earliest = float(problem.tasks[number].earliest * GRID_S)
        # Nothing ends before 0: what may begin then has to wait for the others alone.
        before: list[Times] = [ends[other] for other in waits]
        before += [[earliest] * runs] if earliest or not waits else []
        ready = before[0] if len(before) == 1 else map(max, *before)
        ends[number] = list(map(add, ready, seconds[number]))
    return ends


def _critical_path(links: dict[int, list[int]], ends: dict[int, list[float]], run: int) -> list[int]:
    number = max(links, key=lambda n: ends[n][run], default=None)
    path = []
    while number is not None:
        path.append(number)
        number = max(links[number], key=lambda n: ends[n][run], default=None)
    return path


def serial(points: Sequence[ThreePoint]) -> tuple[Fraction, Fraction]:
    """Return mean and variance of a chain done one after the other, in closed form."""
    return sum((p.expected for p in points), Fraction(0)), sum((p.variance for p in points), Fraction(0))

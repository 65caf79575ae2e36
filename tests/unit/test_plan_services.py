"""Whole plans of invented services, as they are told: no rule is broken, the solver is never worse than at once."""

import pytest
from bench.services import service

from longer import is_longer, some
from plan_rules import broken_rules
from shuntbook.plan.answer import Buys, Frame, Picture, plan_answer
from shuntbook.plan.build import PlanModel, Visit, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.choose import choose
from shuntbook.plan.greedy import greedy
from shuntbook.plan.ontime import chance
from shuntbook.plan.problem import Schedule
from shuntbook.plan.solve import Effort, solve
from shuntbook.plan.told import Lateness

QUICK = Effort(deterministic_s=0.5)
CASES = [(jobs, seed) for jobs in (8, 15) for seed in range(6)]
LARGE = [(25, seed) for seed in range(6)] if is_longer() else []
"""The solver takes 4 s for each of these."""


def invented(jobs: int, seed: int) -> tuple:
    setup, queue, _ = service(seed, jobs, 2 + seed % 5)
    first = setup.event.services[0]
    work = units_for_work(first, None)
    frame = Frame(first.service, first.minutes, work, None, None, None, 0, Lateness(0, 15, 10, 60), True)
    return setup, queue, frame, build(setup, [Visit(queue, first, 0, work)], workers_of(setup, None, {}))


def picture(built: PlanModel, schedule: Schedule) -> Picture:
    return Picture(built, schedule, chance(built.problem, schedule, runs=5))


def goals(built: PlanModel, schedule: Schedule) -> tuple[int, ...]:
    problem = built.problem
    value = sum(problem.values[group] for group in schedule.inside)
    return (*(len(level & schedule.inside) for level in problem.levels), value)


@pytest.mark.parametrize(("jobs", "seed"), some(CASES, 5) + LARGE)
def test_no_plan_breaks_a_rule_and_the_solver_is_never_worse(jobs: int, seed: int) -> None:
    setup, queue, frame, built = invented(jobs, seed)
    assert len(queue.jobs) == jobs
    at_once = choose(built.problem, 0, Effort(), None).schedule
    best = choose(built.problem, 0, QUICK, solve).schedule
    for schedule in (at_once, best):
        assert faults(built.problem, schedule) == []
        told = plan_answer(queue, setup, frame, picture(built, schedule), Buys())
        assert broken_rules(told, queue, setup) == []
    assert goals(built, best) >= goals(built, at_once)


def test_the_same_service_gives_the_same_plan() -> None:
    plans = []
    for _ in range(2):
        _, _, _, built = invented(15, 3)
        plans.append(solve(built.problem, greedy(built.problem), QUICK))
    assert plans[0] == plans[1]

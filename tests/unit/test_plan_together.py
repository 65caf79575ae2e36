"""Inspections of a place are one task as soon as what kept them apart is not in the plan."""

from collections.abc import Callable

import pytest

from making import Pen, queue_of
from planning import EVENT, hit, setup_of
from shuntbook.plan.build import PlanModel, Visit, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.choose import Chosen, choose
from shuntbook.plan.problem import Reached
from shuntbook.plan.solve import Effort, solve
from shuntbook.plan.together import together

BRAKES = [f"front-left/{part}" for part in ("brake-hose", "brake-caliper", "brake-disc")]
HOSE, CALIPER, DISC = BRAKES
TWO = (("p-a", "mechanic"), ("p-b", "mechanic"), ("p-c", "mechanic"), ("p-x", "inspector"), ("p-y", "inspector"))
REPAIRED = {HOSE: frozenset({"p-x"}), CALIPER: frozenset({"p-x"}), DISC: frozenset({"p-y"})}
"""Before this service: who repaired what an inspector has still to look at. Nobody may inspect all three."""

Plan = tuple[PlanModel, Chosen, int]


@pytest.fixture
def planned() -> Callable[[dict[str, int]], Plan]:
    """Plans three finished brake repairs at one corner, some of the inspectors away; says how often it chose."""
    setup, pen = setup_of(TWO), Pen(EVENT)
    report = hit(pen, "front-left", *((job.split("/")[1], "cracked") for job in BRAKES))
    queue = queue_of([report, *(pen.finished(job, report, person="p-a") for job in BRAKES)], setup)
    assert {job.job for job in queue.jobs if job.to_inspect} >= set(BRAKES)
    service = setup.event.services[0]
    visit = Visit(queue, service, 0, units_for_work(service, None), repaired=REPAIRED)

    def made(away: dict[str, int]) -> Plan:
        times = 0

        def choosing(without: frozenset[str]) -> tuple[PlanModel, Chosen]:
            nonlocal times
            times += 1
            built = build(setup, [visit], workers_of(setup, None, away), without)
            return built, choose(built.problem, 0, Effort(deterministic_s=2.0), solve)

        built, chosen = together(*choosing(frozenset()), choosing)
        assert faults(built.problem, chosen.schedule) == []
        return built, chosen, times

    return made


def looks_at_brakes(plan: Plan) -> list[list[str]]:
    built, chosen, _ = plan
    tasks = [built.problem.tasks[item.task] for item in chosen.schedule.placed]
    looks = [[piece.group for piece in task.pieces if piece.group in chosen.schedule.inside] for task in tasks]
    return sorted(sorted(set(look) & set(BRAKES)) for look in looks if set(look) & set(BRAKES))


def test_what_nobody_may_inspect_all_of_is_inspected_one_by_one(planned):
    plan = planned({})
    assert looks_at_brakes(plan) == sorted([job] for job in BRAKES)
    assert plan[2] == 1


def test_what_is_left_is_one_inspection_where_the_job_that_kept_it_apart_is_not_in_the_plan(planned):
    built, chosen, times = planned({"p-x": 10_000})
    assert looks_at_brakes((built, chosen, times)) == [sorted([HOSE, CALIPER])]
    assert times == 2
    assert built.left_out[DISC].why == "time"


def test_a_plan_chosen_again_has_no_bound_but_what_there_is(planned):
    _, whole, _ = planned({})
    _, chosen, _ = planned({"p-x": 10_000})
    known = {row.goal: row for row in whole.everything.goals}
    first = next(row for row in chosen.schedule.goals if not row.proven)
    assert isinstance(first, Reached)
    assert not chosen.schedule.proven
    assert first.bound == known[first.goal].bound > first.reached

"""Why a choice is impossible: as few of its groups as are enough, judged by trying each of them out."""

from collections.abc import Sequence
from itertools import combinations

import pytest

from shuntbook.plan.alone import tried
from shuntbook.plan.choice import Master
from shuntbook.plan.crews import alike
from shuntbook.plan.impossible import ASKS, by_weight, core
from shuntbook.plan.problem import Problem, Shorter, Task, Worker
from shuntbook.plan.solve import Effort, solve

GROUPS = [f"g{n:02}" for n in range(24)]


@pytest.mark.parametrize("why", [{"g00"}, {"g23"}, {"g03", "g17"}, {"g00", "g11", "g12", "g23"}])
def test_the_groups_that_are_impossible_are_found_and_no_others(why: set[str]) -> None:
    asked = []

    def impossible(groups: Sequence[str]) -> bool:
        asked.append(tuple(groups))
        return why <= set(groups)

    assert set(core(GROUPS, impossible)) == why
    assert len(asked) <= ASKS


def test_of_several_reasons_one_is_found_of_which_nothing_can_be_left_out() -> None:
    def impossible(groups: Sequence[str]) -> bool:
        # Any five of the even ones, whatever else there is.
        return len({group for group in groups if int(group[1:]) % 2 == 0}) >= 5

    found = core(GROUPS, impossible)
    assert impossible(found)
    assert not any(impossible(part) for part in combinations(found, len(found) - 1))


def test_where_too_much_would_have_to_be_asked_the_rest_is_taken_as_it_is() -> None:
    many = [f"g{n:04}" for n in range(2000)]
    asked = 0

    def impossible(groups: Sequence[str]) -> bool:
        nonlocal asked
        asked += 1
        return set(many[::3]) <= set(groups)

    found = core(many, impossible)
    assert set(many[::3]) <= set(found)
    assert asked <= ASKS


def lift(hub: int = 8) -> Problem:
    """Jobs of one person in 12 units; a wheel takes 6 by itself and 1 beside the hub."""
    tasks = (
        Task("hub", "work", hub, 1, (0,), group="hub"),
        Task("wheel", "work", 6, 1, (0,), group="wheel", shorter=Shorter((0,), 1)),
        Task("mirror", "work", 4, 1, (0,), group="mirror"),
        Task("lamp", "work", 4, 1, (0,), group="lamp"),
    )
    values = {"hub": 9, "wheel": 5, "mirror": 3, "lamp": 2}
    return Problem(tasks, (Worker("p", True, False),), values=values, horizon=12)


def test_what_is_shorter_beside_the_rest_is_so_in_its_parts_and_the_choice_is_cut_off() -> None:
    problem = lift()
    whole = frozenset({"hub", "wheel", "mirror"})  # 8 + 1 + 4 units of 12
    assert tried(problem, alike, whole, 1.0).impossible
    # By itself the wheel takes 6: with the mirror and the lamp 14, beside the hub it would be 9.
    assert not tried(problem, alike, {"wheel", "mirror", "lamp"}, 1.0, {*whole, "lamp"}).impossible
    assert tried(problem, alike, {"wheel", "mirror", "lamp"}, 1.0).impossible
    why = core(by_weight(problem, whole), lambda groups: tried(problem, alike, groups, 1.0, whole).impossible)
    master = Master(problem, 1.0)
    master.cut(why, whole)
    best = master.best()
    assert best is not None
    assert not whole <= best[0]


@pytest.mark.parametrize("hub", [3, 5, 8, 11])
def test_what_is_cut_off_never_costs_the_best_plan(hub: int) -> None:
    problem = lift(hub=hub)

    def units(groups: set[str]) -> int:
        wheel = (1 if "hub" in groups else 6) if "wheel" in groups else 0
        return hub * ("hub" in groups) + wheel + 4 * ("mirror" in groups) + 4 * ("lamp" in groups)

    every = [set(groups) for many in range(5) for groups in combinations(problem.values, many)]
    best = max(sum(problem.values[g] for g in groups) for groups in every if units(groups) <= 12)
    found = solve(problem, None, Effort(deterministic_s=1.0))
    assert found is not None
    assert sum(problem.values[g] for g in found.inside) == best
    assert found.proven

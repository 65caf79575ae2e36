"""Runs the solver: how it searches, and for how long.

Rule: work is counted in the solver's own deterministic seconds. The same question has the same answer on any machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from shuntbook.plan.selection import Selection

SEQUENCING = (
    "exploit_all_precedences",
    "use_hard_precedences_in_cumulative",
    "use_strong_propagation_in_disjunctive",
    "use_dynamic_precedence_in_disjunctive",
    "use_overload_checker_in_cumulative",
)
"""What the solver leaves off by default and a service needs, where most comes after something else: the value of 40
jobs that no search settled within 7 s of CPU is proven within 2 to 4. A textbook project only takes longer with it."""
ROUNDS = 3
"""How often the solver simplifies a model before the search, unless told otherwise; its own default."""


@dataclass(frozen=True)
class Search:
    """One way to search.

    most: deterministic seconds that it may take at most. linear: how much of the model is a linear relaxation, 0 to 2.
    edges: whether hands that are never idle are reasoned about by edge finding, which proves what cannot be and costs
    what could. rounds: how often the model is simplified first, 0 for a model searched as it is: the solver does not
    count most of that, and of a small model it takes longer than the search.
    """

    most: float
    linear: int = 0
    edges: bool = False
    rounds: int = ROUNDS


GLANCE = Search(0.002, linear=2, edges=True, rounds=0)
"""As it is, before it is simplified: most choices are decided in less."""
WAYS = (
    GLANCE,
    Search(0.03, linear=2, edges=True, rounds=1),
    Search(0.25, rounds=1),
    Search(1.5, edges=True),
)
"""How a choice by itself is searched, one way after the other until it is decided. The linear relaxation of all rules
together sees at its root what edge finding took 0.4 s for, or never saw; without either, a plan on the edge is found
in a tenth of the time; edge finding proves in 0.2 s that there is none, what took 5 without it."""


def run(model: Selection, deterministic_s: float, workers: int = 1, *, rounds: int = ROUNDS) -> tuple[Any, str]:
    """Return the solver after it worked so long at most, and what it says of the model. rounds: as for `Search`."""
    solver = _solver(model, deterministic_s, rounds)
    solver.parameters.num_workers = workers
    solver.parameters.interleave_search = workers > 1
    # Choosing what is worth its time is a matter for linear relaxations; a project in which nothing may be left out
    # is proven faster without any (1 of 24 open, against 2).
    solver.parameters.linearization_level = 1 if model.problem.groups else 0
    # It costs a model that has still to choose more than it gives.
    solver.parameters.use_timetable_edge_finding_in_cumulative = not model.problem.groups and bool(model.problem.spans)
    return solver, solver.status_name(solver.solve(model.cp))


def decide(model: Selection, deterministic_s: float, ways: Sequence[Search] = WAYS) -> tuple[Any, str, float]:
    """Return the solver, what it says of a model in which nothing is left to choose, and the deterministic seconds.

    Searched in one way after the other, until one has decided it or the time is over.
    """
    spent = 0.0
    for way in ways:
        left = deterministic_s - spent
        solver = _solver(model, min(way.most, left), way.rounds)
        # Values tried one by one before the search take twice the time where there is no plan.
        solver.parameters.cp_model_probing_level = 0
        solver.parameters.linearization_level = way.linear
        solver.parameters.add_lp_constraints_lazily = False
        solver.parameters.use_timetable_edge_finding_in_cumulative = way.edges and bool(model.problem.spans)
        status = solver.status_name(solver.solve(model.cp))
        spent += float(solver.response_proto.deterministic_time)
        if status != "UNKNOWN" or left <= way.most:
            break
    return solver, status, spent


def _solver(model: Selection, deterministic_s: float, rounds: int) -> Any:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = deterministic_s
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.cp_model_presolve = rounds > 0
    solver.parameters.max_presolve_iterations = max(1, rounds)
    for name in SEQUENCING if model.problem.groups or model.problem.spans else ():
        setattr(solver.parameters, name, True)
    return solver

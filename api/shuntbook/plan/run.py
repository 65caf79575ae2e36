"""Runs the solver: how it searches, and for how long."""

from __future__ import annotations

from typing import Any

from shuntbook.plan.selection import Selection

LINEAR = 1
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


def run(
    model: Selection, deterministic_s: float, workers: int = 1, *, probing: bool = True, rounds: int = ROUNDS
) -> tuple[Any, str]:
    """Return the solver after it worked so long at most, and what it says of the model.

    probing: whether values are tried before the search. rounds: how often the model is simplified first, 0 for a model
    searched as it is; the solver does not count most of it, and of a small model it takes longer than the search. Work
    is counted in the solver's own deterministic seconds: the same question has the same answer on any machine.
    """
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = deterministic_s
    solver.parameters.num_workers = workers
    solver.parameters.interleave_search = workers > 1
    solver.parameters.random_seed = 1
    if not probing:
        solver.parameters.cp_model_probing_level = 0
    solver.parameters.cp_model_presolve = rounds > 0
    solver.parameters.max_presolve_iterations = max(1, rounds)
    # Choosing what is worth its time is a matter for linear relaxations; a project in which nothing may be left out
    # is proven faster without any (1 of 24 open, against 2).
    solver.parameters.linearization_level = LINEAR if model.problem.groups else 0
    for name in SEQUENCING if model.problem.groups or model.problem.spans else ():
        setattr(solver.parameters, name, True)
    # A choice by itself is mostly hands that are never idle: edge finding proves in 0.2 s what took 5 without it, and
    # costs a model that has still to choose more than it gives.
    solver.parameters.use_timetable_edge_finding_in_cumulative = not model.problem.groups and bool(model.problem.spans)
    return solver, solver.status_name(solver.solve(model.cp))

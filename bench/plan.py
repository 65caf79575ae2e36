"""Runs the planner's own core on PSPLIB projects (`make bench-plan PSPLIB=DIR`), else on invented services.

Prints for each project instance, makespan, proven optimum where `optima.csv` names it, whether proven here, seconds;
for services how many of each size are proven within the time wanted, in every goal and in what is in the plan, and
against the plan made at once; then how much of a plan is kept that is made again (`replans`). Seconds are of CPU.
"""

import csv
import sys
import time
from dataclasses import dataclass, replace
from pathlib import Path
from statistics import median

from bench import replans
from bench.services import service
from shuntbook.plan.build import PlanModel, Visit, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.found import USUAL
from shuntbook.plan.greedy import greedy
from shuntbook.plan.problem import Schedule
from shuntbook.plan.psplib import read_sm
from shuntbook.plan.solve import Effort, solve

EFFORT = Effort(deterministic_s=5.0)
SIZES = {8: 2.0, 15: 2.0, 25: 8.0, 40: 8.0}
"""Jobs of a service, and within how many seconds its plan should be proven."""
SEEDS = 20


def main(folder: Path | None) -> int:
    """Measure; return 1 where a makespan is below the proven optimum, or a plan breaks a rule."""
    return projects(folder) if folder is not None else services() | replans.main()


def projects(folder: Path) -> int:
    """Solve every .sm file of a folder."""
    optima = read_optima(folder / "optima.csv")
    files = sorted(folder.glob("*.sm"))
    proven, wrong = 0, 0
    print("instance,makespan,optimum,proven,seconds")
    for file in files:
        started = time.process_time()
        schedule = solve(read_sm(file.read_text()), None, EFFORT)
        seconds = time.process_time() - started
        if schedule is None:
            print(f"{file.stem},,,no,{seconds:.2f}", flush=True)
            continue
        proven += schedule.proven
        wrong += schedule.finish < optima.get(file.stem, 0)
        known = optima.get(file.stem, "")
        print(f"{file.stem},{schedule.finish},{known},{'yes' if schedule.proven else 'no'},{seconds:.2f}", flush=True)
    print(f"{proven} of {len(files)} proven; {wrong} below the proven optimum")
    return 1 if wrong else 0


def read_optima(file: Path) -> dict[str, int]:
    """Return the proven makespans by instance, nothing where the file is absent."""
    if not file.is_file():
        return {}
    with file.open(newline="") as lines:
        return {row["instance"]: int(row["makespan"]) for row in csv.DictReader(lines)}


def services() -> int:
    """Solve invented services of each size with 2 to 6 mechanics."""
    wrong = 0
    print(
        "jobs,services,proven,proven in time,what is in it proven,settled in time,seconds (median),seconds (worst),"
        "settled s (median),settled s (worst),"
        "at once s (worst),value short of the bound (worst %),broken or worse"
    )
    for jobs, wanted_s in SIZES.items():
        rows = [_one(jobs, seed) for seed in range(SEEDS)]
        bad = sum(row.bad for row in rows)
        wrong += bad
        in_time = [row for row in rows if row.seconds <= wanted_s]
        times = [row.seconds for row in rows]
        print(
            f"{jobs},{SEEDS},{sum(row.proven for row in rows)},{sum(row.proven for row in in_time)},"
            f"{sum(row.chosen for row in rows)},"
            f"{sum(row.chosen and row.settled_s <= wanted_s for row in rows)},"
            f"{median(times):.2f},{max(times):.2f},"
            f"{median(row.settled_s for row in rows):.2f},{max(row.settled_s for row in rows):.2f},"
            f"{max(row.at_once_s for row in rows):.2f},"
            f"{max(row.short for row in rows):.1f},{bad}",
            flush=True,
        )
    return 1 if wrong else 0


@dataclass(frozen=True)
class Measured:
    """A service: proven in every goal, in what is in the plan; seconds; by how much value is short of its bound, %.

    settled_s: seconds until it is settled what is in it.
    """

    proven: bool
    chosen: bool
    seconds: float
    settled_s: float
    at_once_s: float
    short: float
    bad: bool


def _one(jobs: int, seed: int) -> Measured:
    """Plan a service; bad where a plan breaks a rule, or the solver's is worse than the one made at once."""
    setup, queue, _ = service(seed, jobs, 2 + seed % 5)
    first = setup.event.services[0]
    built = build(setup, [Visit(queue, first, 0, units_for_work(first, None))], workers_of(setup, None, {}))
    started = time.process_time()
    at_once = greedy(built.problem)
    greedy_s = time.process_time() - started
    started = time.process_time()
    best = solve(built.problem, at_once)
    seconds = time.process_time() - started
    started = time.process_time()
    solve(built.problem, at_once, replace(USUAL, until="value"))
    settled_s = time.process_time() - started
    if best is None:
        return Measured(False, False, seconds, settled_s, greedy_s, 100.0, True)
    broken = faults(built.problem, best) or faults(built.problem, at_once) or worth(built, best) < worth(built, at_once)
    chosen = [row for row in best.goals if isinstance(row.goal, int) or row.goal == "value"]
    short = max(
        (100 * (row.bound - row.reached) / max(1, row.bound) for row in chosen if row.goal == "value"), default=0.0
    )
    settled = bool(chosen) and all(r.proven for r in chosen)
    return Measured(best.proven, settled, seconds, settled_s, greedy_s, short, bool(broken))


def worth(built: PlanModel, schedule: Schedule) -> tuple[list[int], int, int]:
    """Return what a plan reaches: how many of each level, value, and how early it is done."""
    value = sum(built.problem.values[group] for group in schedule.inside)
    return [len(level & schedule.inside) for level in built.problem.levels], value, -schedule.finish


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]) if len(sys.argv) > 1 else None))

"""Runs the planner's own core on PSPLIB projects (`make bench-plan PSPLIB=DIR`), else on invented services.

Prints for each project instance, makespan, proven optimum where `optima.csv` names it, whether proven here, seconds;
for services how many of each size are proven within the time wanted, and against the plan made at once; then how much
of a plan is kept that is made again (`replans`).
"""

import csv
import sys
import time
from pathlib import Path
from statistics import median

from bench import replans
from bench.services import service
from shuntbook.plan.build import PlanModel, Visit, build, units_for_work, workers_of
from shuntbook.plan.check import faults
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
        started = time.perf_counter()
        schedule = solve(read_sm(file.read_text()), None, EFFORT)
        seconds = time.perf_counter() - started
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
    print("jobs,services,proven,proven in time,seconds (median),seconds (worst),at once s (worst),broken or worse")
    for jobs, wanted_s in SIZES.items():
        rows = [_one(jobs, seed) for seed in range(SEEDS)]
        bad = sum(row[3] for row in rows)
        wrong += bad
        in_time = sum(proven and seconds <= wanted_s for proven, seconds, _, _ in rows)
        times = [seconds for _, seconds, _, _ in rows]
        print(
            f"{jobs},{SEEDS},{sum(row[0] for row in rows)},{in_time},{median(times):.2f},{max(times):.2f},"
            f"{max(row[2] for row in rows):.2f},{bad}",
            flush=True,
        )
    return 1 if wrong else 0


def _one(jobs: int, seed: int) -> tuple[bool, float, float, bool]:
    """Return whether it is proven, seconds, seconds of the plan at once, and whether a plan is broken or worse."""
    setup, queue, _ = service(seed, jobs, 2 + seed % 5)
    first = setup.event.services[0]
    built = build(setup, [Visit(queue, first, 0, units_for_work(first, None))], workers_of(setup, None, {}))
    started = time.perf_counter()
    at_once = greedy(built.problem)
    greedy_s = time.perf_counter() - started
    started = time.perf_counter()
    best = solve(built.problem, at_once)
    seconds = time.perf_counter() - started
    if best is None:
        return False, seconds, greedy_s, True
    broken = faults(built.problem, best) or faults(built.problem, at_once) or worth(built, best) < worth(built, at_once)
    return best.proven, seconds, greedy_s, bool(broken)


def worth(built: PlanModel, schedule: Schedule) -> tuple[int, int, int]:
    """Return what a plan reaches: musts, value, and how early it is done."""
    value = sum(built.problem.values[group] for group in schedule.inside)
    return len(built.problem.musts & schedule.inside), value, -schedule.finish


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]) if len(sys.argv) > 1 else None))

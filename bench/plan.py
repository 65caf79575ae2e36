"""Runs the planner's own core on a folder of PSPLIB projects: `make bench-plan PSPLIB=DIR`.

Prints instance, makespan, proven optimum where `optima.csv` names it, whether proven here, seconds.
"""

import csv
import sys
import time
from pathlib import Path

from shuntbook.plan.psplib import read_sm
from shuntbook.plan.solve import Effort, solve

EFFORT = Effort(deterministic_s=5.0)


def main(folder: Path) -> int:
    """Solve every .sm file of a folder; return 1 where a makespan is below the proven optimum."""
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


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))

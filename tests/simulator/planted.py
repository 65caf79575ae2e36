"""Plants faults in a copy of the code and says which seed finds each: `python -m tests.simulator.planted`."""

import re
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tools"), str(ROOT / "tests")]

from mutants.bench import Bench  # noqa: E402
from mutants.table import Mutant, read_table  # noqa: E402

PLANTED = Path(__file__).with_name("planted.toml")
WITHIN = 60
"""Seeds within which each has to be found, beginning with 1."""
SAID = re.compile(r"^seed (\d+): .*\n  (.*)", re.MULTILINE)


def faults() -> list[Mutant]:
    """Return the faults in the table's order."""
    return read_table(PLANTED)


def found(bench: Bench, fault: Mutant, within: int = WITHIN) -> tuple[int, str] | None:
    """Return the first seed that finds a fault, and what it says; None where none does."""
    with bench.planted(fault):
        run = bench.module("tests.simulator", 1, within, "--until-wrong")
    said = SAID.search(run.said)
    if run.ended == "passed":
        return None
    return (int(said[1]), said[2]) if said else (0, run.said.strip().splitlines()[-1])


def main(word: str = "") -> int:
    """Plant one after the other and tell of each; return the exit status."""
    missed = 0
    with tempfile.TemporaryDirectory() as root:
        bench = Bench(Path(root) / "copy")
        for fault in faults():
            if word in fault.note + fault.file:
                began = time.monotonic()
                seed = found(bench, fault)
                missed += seed is None
                print(f"{seed[0] if seed else '-':>4}  {time.monotonic() - began:4.0f} s  {fault.note}", flush=True)
                print(f"              {seed[1][:160] if seed else 'NOT FOUND'}", flush=True)
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))

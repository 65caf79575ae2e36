"""Puts each fault of table.toml into a copy of the code and runs the tests that have to see it: `make mutants`.

`python -m tests.mutants [WORD]` takes those whose file or note has the word. Prints a line each; fails where one
survived that the table does not list as known, or where the tests are red without any fault.
"""

import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import SimpleQueue

sys.path[:0] = [str(Path(__file__).resolve().parents[2] / "tools")]

from .bench import Bench  # noqa: E402
from .table import Mutant, read_table  # noqa: E402

AT_ONCE = 2


def main(word: str = "") -> int:
    """Run the mutants and return the exit status."""
    mutants = [one for one in read_table() if word in one.file or word in one.note]
    with tempfile.TemporaryDirectory() as root:
        benches: SimpleQueue[Bench] = SimpleQueue()
        made = [Bench(Path(root) / str(place)) for place in range(AT_ONCE)]
        if not all(one.is_itself() for one in made):
            print("the tests would run on the tree's code, not on the copy's")
            return 1
        sound = made[0].run(tuple(dict.fromkeys(name for one in mutants for name in one.tests)))
        if sound.ended != "passed":
            print(f"the tests are {sound.ended} without any fault:\n{sound.said}")
            return 1
        for one in made:
            benches.put(one)
        with ThreadPoolExecutor(AT_ONCE) as pool:
            ends = list(pool.map(lambda mutant: judged(mutant, benches), mutants))
    bad = [one for one in ends if one in ("survived", "broken")]
    print(f"{len(ends)} mutants: {ends.count('killed')} killed, {ends.count('known')} known, {len(bad)} not seen")
    return 1 if bad else 0


def judged(mutant: Mutant, benches: "SimpleQueue[Bench]") -> str:
    """Run one mutant on a free bench, say how it ended and return it in a word."""
    bench = benches.get()
    began = time.monotonic()
    try:
        run = bench.with_fault(mutant)
    finally:
        benches.put(bench)
    end = {"failed": "killed", "passed": "known" if mutant.known else "survived", "broken": "broken"}[run.ended]
    print(f"{end:9}{time.monotonic() - began:5.1f} s  {mutant.file}: {mutant.note}", flush=True)
    if end == "broken":
        print(run.said)
    return end


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))

"""The solver's own process: reads problems, writes plans, ends when nobody is there to ask.

python -m shuntbook.web.solver_process
"""

import os
import pickle
import sys
from typing import BinaryIO

from shuntbook.plan.solve import solve

NICE = 5
"""Phones are answered first on a machine of two cores."""


def main(asked: BinaryIO, told: BinaryIO) -> None:
    """Solve what is asked, one after the other, until the asker is gone."""
    os.nice(NICE)
    while True:
        try:
            problem, start, effort = pickle.load(asked)  # noqa: S301 - from the server that started this process
        except EOFError:
            return
        pickle.dump(solve(problem, start, effort), told)
        told.flush()


if __name__ == "__main__":
    main(sys.stdin.buffer, sys.stdout.buffer)

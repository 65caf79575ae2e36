"""Runs every fault many times (`make faults`) and prints the table of what was lost, doubled and recovered."""

import os
import sys
from pathlib import Path

import pytest

from .tally import LONG

HERE = Path(__file__).parent

if __name__ == "__main__":
    # The second one is for those that are of the longer run (`tests/longer.py`, which is found by pytest alone).
    os.environ[LONG] = os.environ["SHUNTBOOK_LONGER"] = "1"
    sys.exit(pytest.main([str(HERE), "--durations=12", *sys.argv[1:]]))

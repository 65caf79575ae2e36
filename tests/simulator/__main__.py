"""Runs histories: `python -m tests.simulator FIRST [LAST] [--trace] [--minutes N] [--phones N] [--pace X]`."""

import argparse
import logging
import sys
import time
from contextlib import suppress

from .pipe import Outcome, simulator


def main() -> int:
    """Run the seeds asked for, say what was wrong and how much happened; return the exit status."""
    parser = argparse.ArgumentParser(prog="tests.simulator")
    parser.add_argument("first", type=int)
    parser.add_argument("last", type=int, nargs="?")
    parser.add_argument("--minutes", type=int, help="virtual minutes before all is well again; by chance otherwise")
    parser.add_argument("--phones", type=int, default=5)
    parser.add_argument("--pace", type=float, default=1, help="how much more seldom deeds and troubles come")
    parser.add_argument("--trace", action="store_true", help="print all that happened")
    parser.add_argument("--until-wrong", action="store_true", help="stop at the first history with anything wrong")
    asked = parser.parse_args()
    logging.getLogger("shuntbook").setLevel(logging.CRITICAL)
    began, outcomes = time.monotonic(), []
    # Ctrl-C ends a long run, which then says what it came to.
    with suppress(KeyboardInterrupt), simulator() as running:
        for seed in range(asked.first, (asked.last or asked.first) + 1):
            outcome = running.run(seed, asked.minutes, asked.phones, asked.pace, asked.trace)
            outcomes.append(outcome)
            tell(outcome, asked.trace)
            if outcome.wrong and asked.until_wrong:
                break
    return summary(outcomes, time.monotonic() - began)


def tell(outcome: Outcome, trace: bool) -> None:
    """Say what was wrong with a history, if anything, or all that happened in it."""
    if outcome.wrong or trace:
        size = f"{outcome.entries} entries, {outcome.calls} calls, {outcome.steps} steps"
        hashes = f"trace {outcome.hash}, statements {outcome.statements}"
        print(*outcome.lines, f"seed {outcome.seed}: {size}, {hashes}", sep="\n")
        print(*[f"  {one}" for one in outcome.wrong], sep="\n", flush=True)


def summary(outcomes: list[Outcome], took_s: float) -> int:
    """Say how much happened; return the exit status."""
    hours = sum(one.virtual_ms for one in outcomes) / 3_600_000
    bad = [one.seed for one in outcomes if one.wrong]
    print(f"{len(outcomes)} histories, {hours:.1f} virtual hours in {took_s:.0f} s: {hours * 60 / took_s:.1f} a minute")
    print(f"entries {sum(one.entries for one in outcomes)}, calls {sum(one.calls for one in outcomes)}, wrong: {bad}")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())

"""Counts what each fault did, and prints the table: fault, tries, lost, doubled, time to recover."""

import os
import statistics
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeVar

LONG = "SHUNTBOOK_FAULTS_LONG"
Case = TypeVar("Case")


def is_long() -> bool:
    """Return whether the long run was asked for."""
    return bool(os.environ.get(LONG))


def tries(short: int, long: int) -> int:
    """Return how often to inject a fault in this run."""
    return long if is_long() else short


def some(cases: Sequence[Case], every: int) -> Sequence[Case]:
    """Return every so-many-th of cases that are alike; all in the long run."""
    return cases if is_long() else cases[::every]


@dataclass
class Line:
    """What one fault did over all of its tests."""

    what: str
    tries: int = 0
    lost: int = 0
    doubled: int = 0
    recovered_s: list[float] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def cells(self, fault: str) -> list[str]:
        """Return the table's cells."""
        times = sorted(self.recovered_s)
        middle, worst = (f"{statistics.median(times):.1f}", f"{times[-1]:.1f}") if times else ("", "")
        counts = [str(self.tries), str(self.lost), str(self.doubled)]
        return [fault, self.what, *counts, middle, worst, "; ".join(self.notes)]


HEAD = ["fault", "injected", "tries", "lost", "doubled", "recovered in s, median", "worst", "also measured"]
lines: dict[str, Line] = {}
tables: list[str] = []
"""What a test has to show besides, as Markdown; printed after a long run."""


def count(
    fault: str,
    what: str,
    *,
    tries: int,
    lost: int = 0,
    doubled: int = 0,
    recovered_s: Sequence[float] = (),
    note: str = "",
) -> None:
    """Add what a test did to its fault's line."""
    line = lines.setdefault(fault, Line(what))
    line.what = line.what if what in line.what else f"{line.what}; {what}"
    line.tries += tries
    line.lost += lost
    line.doubled += doubled
    line.recovered_s += recovered_s
    if note:
        line.notes.append(note)


def table() -> str:
    """Return the table as Markdown."""
    rows = [HEAD, ["---"] * len(HEAD), *(lines[name].cells(name) for name in sorted(lines, key=_number))]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in rows)


def _number(fault: str) -> int:
    return int(fault.removeprefix("F"))

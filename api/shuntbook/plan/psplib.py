"""Reads a project of PSPLIB's single-mode .sm format as a planning problem (Kolisch & Sprecher 1997)."""

import re

from shuntbook.plan.problem import Problem, Task


def read_sm(text: str) -> Problem:
    """Return the project: tasks in the file's order, resources R1 …, precedence; the horizon is the file's."""
    horizon = int(re.search(r"horizon\s*:\s*(\d+)", text)[1])  # type: ignore[index]
    successors = {row[0] - 1: [n - 1 for n in row[3:]] for row in _rows(text, "PRECEDENCE RELATIONS", 1)}
    capacity = _rows(text, "RESOURCEAVAILABILITIES", 1)[0]
    names = [f"R{n + 1}" for n in range(len(capacity))]
    tasks = tuple(
        Task(
            f"job {row[0]}",
            "work",
            row[2],
            uses={name: amount for name, amount in zip(names, row[3:], strict=True) if amount},
        )
        for row in _rows(text, "REQUESTS/DURATIONS", 2)
    )
    before = tuple((first, then) for first, later in successors.items() for then in later)
    return Problem(tasks, resources=dict(zip(names, capacity, strict=True)), before=before, horizon=horizon)


def _rows(text: str, heading: str, skip: int) -> list[list[int]]:
    """Return the rows of whole numbers below a heading, up to the next line of asterisks."""
    after = text.split(heading, 1)[1].split("\n", 1)[1]
    block = after.split("****", 1)[0]
    rows = [line.split() for line in block.splitlines()[skip:]]
    return [[int(cell) for cell in row] for row in rows if row and all(cell.isdigit() for cell in row)]

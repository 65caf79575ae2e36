"""The window of a task: when its car is there, and what is under way keeps its start and its people."""

from dataclasses import replace

from shuntbook.plan.draft import Draft
from shuntbook.plan.problem import Task


def in_window(draft: Draft, task: Task) -> Task:
    """Return a task in the window of the car being added; one that is under way keeps its start and its people."""
    under_way = draft.progress.under_way.get(task.job or task.name) if task.kind != "inspect" else None
    task = replace(task, car=draft.car, earliest=max(task.earliest, draft.earliest), latest=draft.latest)
    if under_way is None or task.kind == "check":
        return task
    start, names = under_way
    theirs = tuple(n for n, worker in enumerate(draft.workers) if worker.person in names and n in task.may)
    fixed = replace(task, fixed=start, earliest=min(start, task.earliest))
    # Who else of the people needed is on it was not put down: the plan finds them.
    return (
        replace(fixed, skilled=(), may=theirs)
        if theirs and len(theirs) >= task.people
        else replace(fixed, skilled=theirs)
    )

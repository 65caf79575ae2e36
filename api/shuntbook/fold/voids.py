"""Undo of a mis-tap: which entries an `entry.voided` takes back, and which it cannot."""

from collections.abc import Iterable

from shuntbook.report.entry import Entry
from shuntbook.report.kinds import EntryVoided, InspectionPassed
from shuntbook.setup.event import Event

VOIDABLE = frozenset(
    {
        "job.started",
        "job.stopped",
        "job.finished",
        "job.deferred",
        "inspection.passed",
        "car.released",
        "task.started",
        "task.finished",
        "briefing.acknowledged",
        "cost.adjusted",
        "charge.decided",
        "part.retained",
        "stage.nothing_seen",
        "service.entered",
        "service.left",
        "driver.changed",
        "control.entered",
        "control.left",
        "driver.asked",
        "voice.linked",
    }
)
"""Kinds that can be undone: never a report, never a failed inspection."""


def failed(entry: Entry) -> bool:
    """Return whether the entry counts as a failed inspection: said so, or passed with a check not ok."""
    if entry.kind == "inspection.failed":
        return True
    return isinstance(entry.data, InspectionPassed) and not all(check.ok for check in entry.data.checks)


def voids(void: Entry, target: Entry, event: Event) -> bool:
    """Return whether `void` (an `entry.voided`) takes `target` back.

    It must name it, be of the same event and car, and come from the target's author or a manager.
    """
    return (
        isinstance(void.data, EntryVoided)
        and target.id in void.data.voids
        and (void.event, void.car) == (target.event, target.car)
        and target.kind in VOIDABLE
        and not failed(target)
        and (void.person == target.person or event.has_role(void.person, "manager"))
    )


def standing(entries: Iterable[Entry], event: Event) -> list[Entry]:
    """Return the entries of one car that no `entry.voided` among them takes back, by id."""
    by_id = {entry.id: entry for entry in entries}
    gone = {
        name
        for void in by_id.values()
        if isinstance(void.data, EntryVoided)
        for name in void.data.voids
        if name in by_id and voids(void, by_id[name], event)
    }
    return [by_id[name] for name in sorted(by_id) if name not in gone]

"""Undo of a mis-tap: which entries an `entry.voided` takes back, and which it cannot."""

from collections.abc import Iterable, Mapping

from shuntbook.report.entry import Entry
from shuntbook.report.kinds import EntryVoided
from shuntbook.report.working import InspectionPassed
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
        "charge.added",
        "part.fitted",
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
WORK = ("job.started", "job.finished")
"""Kinds that say that somebody worked on a job."""


def failed(entry: Entry) -> bool:
    """Return whether the entry counts as a failed inspection: said so, or passed with a check that is false.

    A check that was not done (null) is not false.
    """
    if entry.kind == "inspection.failed":
        return True
    return isinstance(entry.data, InspectionPassed) and any(check.ok is False for check in entry.data.checks)


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
    gone = _voiders(by_id, event)
    return [by_id[name] for name in sorted(by_id) if name not in gone]


def undone_work(entries: Iterable[Entry], event: Event) -> list[Entry]:
    """Return starts and finishes of jobs that only their own author took back, by id.

    They count as work all the same: undoing one's own entry does not undo having worked. A manager who takes back
    somebody else's says that it never was.
    """
    by_id = {entry.id: entry for entry in entries if entry.kind in (*WORK, "entry.voided")}
    gone = _voiders(by_id, event)
    return [by_id[name] for name in sorted(gone) if by_id[name].kind in WORK and gone[name] == {by_id[name].person}]


def _voiders(by_id: Mapping[str, Entry], event: Event) -> dict[str, set[str]]:
    """Return who took back each entry that is taken back, by its id."""
    voiders: dict[str, set[str]] = {}
    for void in by_id.values():
        for name in void.data.voids if isinstance(void.data, EntryVoided) else ():
            if name in by_id and voids(void, by_id[name], event):
                voiders.setdefault(name, set()).add(void.person)
    return voiders

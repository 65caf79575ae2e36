"""Says which entries stand: an undone mis-tap counts for nothing."""

from dataclasses import replace
from typing import Any

from .folder import Folder, roles_of

VERSION_KINDS = ["report.filed", "report.amended", "report.withdrawn"]
VOIDABLE_KINDS = [
    "job.started", "job.stopped", "job.finished", "job.deferred",
    "inspection.passed", "car.released", "cost.adjusted", "stage.nothing_seen",
    "service.entered", "service.left", "driver.changed", "task.started", "task.finished", "briefing.acknowledged",
    "charge.decided", "charge.added",
    "part.fitted", "part.retained", "control.entered", "control.left", "driver.asked", "voice.linked",
]  # fmt: skip


def listed(entry: dict[str, Any], name: str) -> list[Any]:
    """A list in the entry's data; one that is not there is empty."""
    return entry["data"].get(name) or []


def failed(entry: dict[str, Any]) -> bool:
    """An inspection failed if it says so, and also if it says passed with a check whose `ok` is false (not null)."""
    if entry["kind"] == "inspection.failed":
        return True
    return entry["kind"] == "inspection.passed" and any(check.get("ok") is False for check in listed(entry, "checks"))


def voidable(entry: dict[str, Any]) -> bool:
    """Only these kinds can be undone: never a report, never an inspection that failed in either way."""
    return entry["kind"] in VOIDABLE_KINDS and not failed(entry)


def voids(undo: dict[str, Any], entry: dict[str, Any], setup: dict[str, Any]) -> bool:
    """An undo takes an entry of the same event and car away, by that entry's own author or by a manager."""
    return (
        undo["kind"] == "entry.voided"
        and entry["id"] in listed(undo, "voids")
        and (undo["event"], undo["car"]) == (entry["event"], entry["car"])
        and (undo["person"] == entry["person"] or "manager" in roles_of(setup, undo["person"]))
        and voidable(entry)
    )


def without_undone(folder: Folder) -> Folder:
    """The same folder, left with the entries that nothing undoes; beside them what of the car's counts as work."""
    undoing = of_kind(folder.all_entries, "entry.voided")
    standing = [one for one in folder.all_entries if not any(voids(undo, one, folder.setup) for undo in undoing)]
    work = [one for one in of_kind(folder.entries, "job.started", "job.finished") if is_work(folder, one)]
    return replace(
        folder, all_entries=standing, entries=[one for one in standing if one["car"] == folder.car], work=work
    )


def is_work(folder: Folder, entry: dict[str, Any]) -> bool:
    """Whether a start or a finish stands, or its own author undid it and no manager who is somebody else did."""
    undoing = [one for one in of_kind(folder.all_entries, "entry.voided") if voids(one, entry, folder.setup)]
    return all(undo["person"] == entry["person"] for undo in undoing)


def of_kind(entries: list[Any], *kinds: str) -> list[Any]:
    """The entries of these kinds."""
    return [entry for entry in entries if entry["kind"] in kinds]


def on_job(entries: list[Any], key: str, *kinds: str) -> list[Any]:
    """The entries of these kinds whose subject is the job's key."""
    return [entry for entry in of_kind(entries, *kinds) if entry["subject"] == key]

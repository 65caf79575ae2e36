"""Says who repaired what, and what an inspection's pass is good for."""

from typing import Any

from .carmap import component_of, group_of
from .covers import covered_by
from .entries import failed, listed, of_kind, on_job
from .folder import Folder, roles_of


def repairers(folder: Folder, repair: dict[str, Any]) -> list[Any]:
    """Who repaired: the author, those it names, and the authors of the same job's starts that it ends."""
    starts = on_job(folder.entries, repair["subject"], "job.started")
    ended = [start["person"] for start in starts if start["id"] in listed(repair, "ends")]
    return [repair["person"], *listed(repair, "repairers"), *ended]


def ran_out(folder: Folder, one: dict[str, Any]) -> bool:
    """A pass until a service is good for nothing once that service, or a later one of the itinerary, was entered."""
    until = one["data"].get("until")
    if until is None:
        return False
    itinerary = [service["service"] for service in folder.setup.get("services", [])]
    ending = itinerary[itinerary.index(until) :] if until in itinerary else [until]
    entered = of_kind(folder.entries, "service.entered")
    return any(entry["data"]["service"] in ending for entry in entered)


def valid_passes(folder: Folder, key: str) -> list[Any]:
    """The passes on a job that can cover anything.

    By somebody with the role inspector, all checks ok, not run out; for a cage with the official who saw it and what
    he decided.
    """
    passed = on_job(folder.entries, key, "inspection.passed")
    passed = [one for one in passed if not failed(one) and "inspector" in roles_of(folder.setup, one["person"])]
    passed = [one for one in passed if not ran_out(folder, one)]
    if group_of(folder, component_of(key)) == "cage":
        passed = [one for one in passed if one["data"].get("shown_to") and one["data"].get("official_said")]
    return passed


def repairs_of(folder: Folder, key: str) -> list[Any]:
    """The job's `job.finished` entries."""
    return on_job(folder.entries, key, "job.finished")


def finding_passed(folder: Folder, key: str, entry_id: str) -> bool:
    """Whether a pass covers the finding, by one who is no repairer of any repair on the job that covers it."""
    own_work = [repair for repair in repairs_of(folder, key) if entry_id in covered_by(folder, repair, key)]
    barred = [person for repair in own_work for person in repairers(folder, repair)]
    return any(
        entry_id in covered_by(folder, one, key) and one["person"] not in barred for one in valid_passes(folder, key)
    )


def repair_passed(folder: Folder, key: str, repair: dict[str, Any]) -> bool:
    """Whether a pass covers the repair, by one who is no repairer of it."""
    return any(
        repair["id"] in covered_by(folder, one, key) and one["person"] not in repairers(folder, repair)
        for one in valid_passes(folder, key)
    )

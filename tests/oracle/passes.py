"""Says who repaired what, and what an inspection's pass is good for."""

from typing import Any

from .carmap import component_of, group_of, safety_critical
from .covers import covered_by
from .entries import failed, listed, of_kind, on_job
from .findings import Finding
from .folder import Folder, roles_of


def finished_work(folder: Folder, key: str) -> list[Any]:
    """The job's finished work: each `job.finished` that stands or that its own author undid."""
    return on_job(folder.work, key, "job.finished")


def started_work(folder: Folder, key: str) -> list[Any]:
    """The job's started work: each `job.started` that stands or that its own author undid."""
    return on_job(folder.work, key, "job.started")


def repairers(folder: Folder, work: dict[str, Any]) -> list[Any]:
    """Who repaired: the author, those it names, and the authors of the same job's started work that it ends."""
    starts = started_work(folder, work["subject"])
    ended = [start["person"] for start in starts if start["id"] in listed(work, "ends")]
    return [work["person"], *listed(work, "repairers"), *ended]


def barred_from_job(folder: Folder, key: str) -> list[Any]:
    """Who started work that no finished work of the job ends."""
    ended = [one for work in finished_work(folder, key) for one in listed(work, "ends")]
    return [start["person"] for start in started_work(folder, key) if start["id"] not in ended]


def itinerary(folder: Folder) -> list[Any]:
    """The services in the order of the itinerary."""
    return [service["service"] for service in folder.setup.get("services", [])]


def given_until(folder: Folder, one: dict[str, Any]) -> str | None:
    """The service until which a pass is good; one that is not in the itinerary counts as not given."""
    until = one["data"].get("until")
    return until if until in itinerary(folder) else None


def ran_out(folder: Folder, one: dict[str, Any]) -> bool:
    """A pass until a service is good for nothing once that service, or a later one of the itinerary, was entered."""
    until = given_until(folder, one)
    if until is None:
        return False
    services = itinerary(folder)
    ending = services[services.index(until) :]
    entered = of_kind(folder.entries, "service.entered")
    return any(entry["data"]["service"] in ending for entry in entered)


def must_checks(folder: Folder, key: str) -> list[Any]:
    """What the lists in force mark `must` for the job's group: the event's own list for it, else the package's."""
    group = group_of(folder, component_of(key))
    own = [row for row in folder.setup.get("looks", []) if row["group"] == group]
    rows = own or [row for row in folder.package_lists if row["group"] == group]
    return [row["check"] for row in rows if row.get("must") is True]


def checked(folder: Folder, one: dict[str, Any], key: str) -> bool:
    """A pass has a check that is ok, and each that is a must is ok in one of its rows and false in none."""
    rows = listed(one, "checks")
    ok = [row["check"] for row in rows if row.get("ok") is True]
    false = [row["check"] for row in rows if row.get("ok") is False]
    return bool(ok) and all(must in ok and must not in false for must in must_checks(folder, key))


def valid_passes(folder: Folder, key: str) -> list[Any]:
    """The passes on a job that can cover anything.

    With the checks that it takes, by somebody with the role inspector who has not left work on the job unfinished, not
    run out; for a cage with the official who saw it and what he decided.
    """
    passed = on_job(folder.entries, key, "inspection.passed")
    passed = [one for one in passed if not failed(one) and checked(folder, one, key)]
    passed = [one for one in passed if "inspector" in roles_of(folder.setup, one["person"])]
    passed = [one for one in passed if one["person"] not in barred_from_job(folder, key)]
    passed = [one for one in passed if not ran_out(folder, one)]
    if group_of(folder, component_of(key)) == "cage":
        passed = [one for one in passed if one["data"].get("shown_to") and one["data"].get("official_said")]
    return passed


def repairs_of(folder: Folder, key: str) -> list[Any]:
    """The job's `job.finished` entries that stand."""
    return on_job(folder.entries, key, "job.finished")


def finding_passed(folder: Folder, key: str, finding: Finding) -> bool:
    """Whether a pass covers the finding, by no repairer of any finished work on the job that covers it."""
    own_work = [work for work in finished_work(folder, key) if finding.entry in covered_by(folder, work, key)]
    barred = [person for work in own_work for person in repairers(folder, work)]
    return any(
        finding.entry in covered_by(folder, one, key)
        and one["person"] not in barred
        and (not safety_critical(folder, key) or may_accept(folder, key, finding, one))
        for one in valid_passes(folder, key)
    )


def may_accept(folder: Folder, key: str, finding: Finding, one: dict[str, Any]) -> bool:
    """Whether a pass on a safety-critical job may accept the finding as it is, or as it was repaired."""
    until = given_until(folder, one) is not None
    covering = [repair for repair in repairs_of(folder, key) if finding.entry in covered_by(folder, repair, key)]
    if covering:
        return until or not all(repair["data"].get("temporary") for repair in covering)
    return finding.condition in ("unknown", "marked", "worn") or (finding.condition == "bent" and until)


def repair_passed(folder: Folder, key: str, repair: dict[str, Any]) -> bool:
    """Whether a pass covers the repair, by no repairer of it; a temporary one on a safety-critical job with `until`."""
    patch = bool(repair["data"].get("temporary")) and safety_critical(folder, key)
    return any(
        repair["id"] in covered_by(folder, one, key)
        and one["person"] not in repairers(folder, repair)
        and (not patch or given_until(folder, one) is not None)
        for one in valid_passes(folder, key)
    )

"""Makes one job per key: how far it is, whether it is inspected, how bad it is."""

from dataclasses import dataclass
from typing import Any

from .carmap import component_of, group_of, safety_critical, worst, zone_of
from .covers import covered_by
from .entries import listed, of_kind, on_job
from .findings import Finding, findings_of
from .folder import Folder
from .passes import finding_passed, repair_passed, repairs_of
from .versions import heads_of_report, versions_of


@dataclass
class Job:
    """One job before its estimate; `progress` gives each finding's entry id done, accepted, patched or open.

    `further` is set once the order is known: an inspection in a zone where another comes before it.
    """

    key: str
    findings: list[Any]
    group: str | None
    safety_critical: bool
    progress: dict[str, Any]
    state: str
    inspection: str
    uncovered: list[Any]
    condition: str
    further: bool = False


def jobs_of(folder: Folder) -> list[Any]:
    """A job for each key that a finding or a `job.finished` names."""
    findings = findings_of(folder)
    finished = of_kind(folder.entries, "job.finished")
    keys = sorted({one.key for one in findings} | {entry["subject"] for entry in finished})
    return [job_of(folder, key, [one for one in findings if one.key == key]) for key in keys]


def job_of(folder: Folder, key: str, findings: list[Any]) -> Job:
    """One job with all that is said of it."""
    progress = {one.entry: progress_of(folder, key, one) for one in findings}
    critical = safety_critical(folder, key)
    uncovered = uncovered_of(folder, key, findings) if critical else []
    return Job(
        key=key,
        findings=findings,
        group=group_of(folder, component_of(key)),
        safety_critical=critical,
        progress=progress,
        state=state_of(folder, key, progress),
        inspection=inspection_of(critical, findings, uncovered),
        uncovered=uncovered,
        condition=condition_of(folder, key, findings, progress),
    )


def uncovered_of(folder: Folder, key: str, findings: list[Any]) -> list[Any]:
    """Of all findings and all `job.finished` of the job, those that no pass covers."""
    left = [one.entry for one in findings if not finding_passed(folder, key, one)]
    left += [repair["id"] for repair in repairs_of(folder, key) if not repair_passed(folder, key, repair)]
    return sorted(set(left))


def inspection_of(critical: bool, findings: list[Any], uncovered: list[Any]) -> str:
    """All covered: passed; else a failed inspection not covered: failed; else needed; only where safety is at stake."""
    if not critical:
        return "not-needed"
    if not uncovered:
        return "passed"
    if any(one.sort == "failed" and one.entry in uncovered for one in findings):
        return "failed"
    return "needed"


def progress_of(folder: Folder, key: str, finding: Finding) -> str:
    """Done by a lasting repair, else accepted by a valid pass, else patched by temporary repairs, else open."""
    repairs = [one for one in repairs_of(folder, key) if finding.entry in covered_by(folder, one, key)]
    if any(not repair["data"].get("temporary") for repair in repairs):
        return "done"
    if finding_passed(folder, key, finding):
        return "accepted"
    return "patched" if repairs else "open"


def state_of(folder: Folder, key: str, progress: dict[str, Any]) -> str:
    """All done: finished; all done or accepted: accepted; none open: patched; else started, deferred or open."""
    if all(one == "done" for one in progress.values()):
        return "finished"
    if all(one in ("done", "accepted") for one in progress.values()):
        return "accepted"
    if all(one != "open" for one in progress.values()):
        return "patched"
    if running(folder, key):
        return "started"
    left = [entry for entry, one in progress.items() if one == "open"]
    return "deferred" if all(deferred(folder, key, entry) for entry in left) else "open"


def running(folder: Folder, key: str) -> bool:
    """Whether a start of the job is not ended by a stop or a finish of the same job."""
    ended = [
        one for entry in on_job(folder.entries, key, "job.stopped", "job.finished") for one in listed(entry, "ends")
    ]
    return any(start["id"] not in ended for start in on_job(folder.entries, key, "job.started"))


def deferred(folder: Folder, key: str, entry_id: str) -> bool:
    """Whether the finding was left knowingly."""
    put_off = on_job(folder.entries, key, "job.deferred")
    return any(entry_id in covered_by(folder, one, key) for one in put_off)


def condition_of(folder: Folder, key: str, findings: list[Any], progress: dict[str, Any]) -> str:
    """The worst of the findings that are open or patched; of all, once none is; `unknown` where there is none."""
    left = [one for one in findings if progress[one.entry] in ("open", "patched")] or findings
    if not left:
        return "unknown"
    return worst(folder, component_of(key), [one.condition for one in left])


def shown(folder: Folder, job: Job) -> dict[str, Any]:
    """The job's fields that come from entries alone, as in the queue."""
    behind = [one for one in versions_of(folder.entries) if one["id"] in job.progress]
    reports = sorted({version["subject"] for version in behind})
    return {
        "job": job.key,
        "zone": zone_of(job.key),
        "component": component_of(job.key),
        "group": job.group,
        "safety_critical": job.safety_critical,
        "condition": job.condition,
        "knock_on": all_are(job.findings, "knock-on"),
        "retracted": all_are(job.findings, "retracted"),
        "state": job.state,
        "inspection": job.inspection,
        "findings": sorted(job.progress),
        "uncovered": job.uncovered,
        "reports": reports,
        "photos": sorted({photo for version in behind for photo in listed(version, "photos")}),
        "two_versions": any(len(heads_of_report(one, versions_of(folder.entries))) > 1 for one in reports),
    }


def all_are(findings: list[Any], sort: str) -> bool:
    """True if all findings, and at least one, are of the sort."""
    return bool(findings) and all(one.sort == sort for one in findings)

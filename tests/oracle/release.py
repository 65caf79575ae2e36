"""Says whether the car is on hold, why, and what a released car left unseen."""

from typing import Any

from .covers import covered_by
from .entries import of_kind
from .folder import Folder
from .jobs import Job
from .passes import finding_passed


def hold_reasons(jobs: list[Any]) -> list[Any]:
    """Each safety-critical job that is not passed, in queue order, with what it needs and what is uncovered."""
    holding = [job for job in jobs if job.safety_critical and job.inspection != "passed"]
    return [{"job": job.key, "needs": needs(job), "entries": job.uncovered} for job in holding]


def needs(job: Job) -> str:
    """A failed one another look; a cage the official; the rest an inspection."""
    if job.inspection == "failed":
        return "re-inspection"
    return "official" if job.group == "cage" else "inspection"


def released_unseen(folder: Folder, jobs: list[Any]) -> list[Any]:
    """For each release of the car and each safety-critical job: reports' findings that were there and nobody saw.

    A finding is there if its stage is not after the stage that the service follows; seen if any release of the car, or
    a pass, covers it.
    """
    unseen = []
    for released in of_kind(folder.entries, "car.released"):
        for job in jobs:
            if job.safety_critical:
                entries = sorted({one for one in unseen_on(folder, job) if was_there(folder, one, released)})
                if entries:
                    service = released["data"]["service"]
                    unseen.append({"released": released["id"], "service": service, "job": job.key, "entries": entries})
    return sorted(unseen, key=lambda one: (one["released"], one["job"]))


def unseen_on(folder: Folder, job: Job) -> list[Any]:
    """Entry ids of reports' findings on the job that no release of the car and no pass covers."""
    releases = of_kind(folder.entries, "car.released")
    return [
        one.entry
        for one in job.findings
        if one.sort != "failed"
        and not any(one.entry in covered_by(folder, released, job.key) for released in releases)
        and not finding_passed(folder, job.key, one)
    ]


def was_there(folder: Folder, entry_id: str, released: dict[str, Any]) -> bool:
    """Whether the stage is not after the one that the released service follows; one that has no place was there."""
    stages = [one["stage"] for one in folder.setup.get("stages", [])]
    follows = {one["service"]: one.get("after") for one in folder.setup.get("services", [])}
    after = follows.get(released["data"]["service"])
    stage = next(entry for entry in folder.entries if entry["id"] == entry_id)["data"].get("stage")
    if stage not in stages:
        return True
    # A service before all stages (or one that the itinerary does not know) comes after none of them.
    return after in stages and stages.index(stage) <= stages.index(after)

"""All jobs of one car from all its entries: the plain rebuild that the incremental state must equal."""

from collections.abc import Iterable

from shuntbook.fold.report import Finding, findings_of
from shuntbook.fold.voids import standing
from shuntbook.queue.acts import acts_on
from shuntbook.queue.job import Context, Job, work_out
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import JOB_KINDS, REPORT_KINDS, ServiceEntered
from shuntbook.setup.folder import Setup


def jobs_of_car(entries: Iterable[Entry], setup: Setup) -> list[Job]:
    """Return the jobs of one car, by key, from its entries in any order, doubled or not."""
    stand = standing(entries, setup.event)
    context = Context(setup.event, setup.car_map, entered(stand))
    findings = _by_job(_group(stand, REPORT_KINDS), setup)
    acts = _group(stand, JOB_KINDS)
    jobs = (work_out(key, findings.get(key, []), acts_on(key, acts.get(key, [])), context) for key in findings | acts)
    return sorted((job for job in jobs if job), key=lambda job: job.job)


def entered(entries: Iterable[Entry]) -> frozenset[str]:
    """Return the services that the car came into, by the `service.entered` entries that stand."""
    return frozenset(entry.data.service for entry in entries if isinstance(entry.data, ServiceEntered))


def _group(entries: Iterable[Entry], kinds: frozenset[str]) -> dict[str, list[Entry]]:
    groups: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.kind in kinds:
            groups.setdefault(entry.subject, []).append(entry)
    return groups


def _by_job(reports: dict[str, list[Entry]], setup: Setup) -> dict[str, list[Finding]]:
    findings: dict[str, list[Finding]] = {}
    for entries in reports.values():
        for finding in findings_of(entries, setup.car_map):
            findings.setdefault(finding.key, []).append(finding)
    return findings

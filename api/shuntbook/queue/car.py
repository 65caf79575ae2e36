"""The log of one car sorted by what it is about; and all its jobs, made anew from the whole log."""

from collections.abc import Iterable
from dataclasses import dataclass

from shuntbook.fold.report import Finding, findings_of
from shuntbook.fold.voids import standing
from shuntbook.queue.acts import acts_on
from shuntbook.queue.job import Context, Job, work_out
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import JOB_KINDS, REPORT_KINDS, ServiceEntered
from shuntbook.setup.folder import Setup


@dataclass(frozen=True)
class CarLog:
    """What stands of one car's log: the entries, findings by job, entries about jobs by job."""

    entries: list[Entry]
    findings: dict[str, list[Finding]]
    acts: dict[str, list[Entry]]

    @property
    def keys(self) -> list[str]:
        """The jobs that anything names, ascending."""
        return sorted(self.findings.keys() | self.acts.keys())


def car_log(entries: Iterable[Entry], setup: Setup) -> CarLog:
    """Sort the log of one car, in any order, doubled or not."""
    stand = standing(entries, setup.event)
    findings: dict[str, list[Finding]] = {}
    for versions in _by_subject(stand, REPORT_KINDS).values():
        for finding in findings_of(versions, setup.car_map):
            findings.setdefault(finding.key, []).append(finding)
    return CarLog(stand, findings, _by_subject(stand, JOB_KINDS))


def jobs_of_car(entries: Iterable[Entry], setup: Setup) -> list[Job]:
    """Return the jobs of one car, by key: the plain rebuild that the incremental state must equal."""
    log = car_log(entries, setup)
    context = Context(setup.event, setup.car_map, entered(log.entries))
    jobs = (work_out(key, log.findings.get(key, []), acts_on(key, log.acts.get(key, [])), context) for key in log.keys)
    return [job for job in jobs if job]


def entered(entries: Iterable[Entry]) -> frozenset[str]:
    """Return the services that the car came into, by the `service.entered` entries that stand."""
    return frozenset(entry.data.service for entry in entries if isinstance(entry.data, ServiceEntered))


def _by_subject(entries: Iterable[Entry], kinds: frozenset[str]) -> dict[str, list[Entry]]:
    groups: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.kind in kinds:
            groups.setdefault(entry.subject, []).append(entry)
    return groups

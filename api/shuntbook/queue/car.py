"""The log of one car sorted by what it is about; and all its jobs, made again from the whole log."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property, partial

from shuntbook.fold.report import Finding, Report, report_of
from shuntbook.fold.voids import standing, undone_work
from shuntbook.kit.kept import Kept
from shuntbook.queue.acts import Acts, acts_on
from shuntbook.queue.job import Job, work_out
from shuntbook.queue.passing import Context
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import JOB_KINDS, REPORT_KINDS, ServiceEntered
from shuntbook.setup.folder import Setup


@dataclass(frozen=True)
class CarLog:
    """What stands of one car's log: the entries, reports by subject, findings by job, entries about jobs by job.

    undone: starts and finishes that only their own author took back, by job.
    """

    entries: list[Entry]
    reports: dict[str, Report]
    findings: dict[str, list[Finding]]
    acts: dict[str, list[Entry]]
    undone: dict[str, list[Entry]]

    @property
    def keys(self) -> list[str]:
        """The jobs that anything names, ascending."""
        return sorted(self.findings.keys() | self.acts.keys())

    def of_kind(self, kind: str) -> list[Entry]:
        """Return the entries of a kind, by id: most readers want a few of many thousands."""
        return self._by_kind.get(kind, [])

    @cached_property
    def _by_kind(self) -> dict[str, list[Entry]]:
        found: dict[str, list[Entry]] = {}
        for entry in self.entries:
            found.setdefault(entry.kind, []).append(entry)
        return found

    def acts_on(self, key: str) -> Acts:
        """Return what was done about a job."""
        return acts_on(key, self.acts.get(key, []), self.undone.get(key, []))


def car_log(entries: Iterable[Entry], setup: Setup, kept: Kept[Report] | None = None) -> CarLog:
    """Sort the log of one car, in any order, doubled or not. kept: reports by subject, of the same set-up."""
    every, kept = list(entries), kept or Kept()
    stand = standing(every, setup.event)
    reports = {
        subject: kept.of(
            subject, [one.id for one in versions], partial(report_of, versions, setup.car_map, setup.event)
        )
        for subject, versions in _by_subject(stand, REPORT_KINDS).items()
    }
    findings: dict[str, list[Finding]] = {}
    for report in reports.values():
        for finding in report.findings:
            findings.setdefault(finding.key, []).append(finding)
    undone = _by_subject(undone_work(every, setup.event), JOB_KINDS)
    return CarLog(stand, reports, findings, _by_subject(stand, JOB_KINDS), undone)


def jobs_of_car(entries: Iterable[Entry], setup: Setup) -> list[Job]:
    """Return the jobs of one car, by key: the plain rebuild that the incremental state must equal."""
    log = car_log(entries, setup)
    context = Context(setup.event, setup.car_map, entered(log.entries))
    jobs = (work_out(key, log.findings.get(key, []), log.acts_on(key), context) for key in log.keys)
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

"""One job from the findings that name it and the acts upon it: its state, inspection and condition."""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Literal

from msgspec import Struct

from shuntbook.fold.report import Finding
from shuntbook.queue.acts import Acts, Repair
from shuntbook.queue.passing import Context, PassRules, Target, by_named
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.words import UNKNOWN, Condition, split_key

State = Literal["open", "started", "deferred", "patched", "accepted", "finished"]
Inspection = Literal["not-needed", "needed", "failed", "passed"]
OVER: frozenset[State] = frozenset({"finished", "accepted"})
"""States of a job with nothing left to repair."""


class Unpassed(Struct, frozen=True, array_like=True):
    """A report's finding that no pass covers, with what a release may name to cover it."""

    entry: str
    stage: str | None
    covered_by: list[str]


class Job(Struct, frozen=True, kw_only=True):
    """A job as it stands, before the rate table is laid beside it. All lists of ids ascend."""

    job: str
    zone: str
    component: str
    group: str | None
    safety_critical: bool
    condition: Condition
    knock_on: bool
    retracted: bool
    two_versions: bool
    state: State
    inspection: Inspection
    findings: list[str]
    uncovered: list[str]
    reports: list[str]
    photos: list[str]
    unpassed: list[Unpassed]
    used: dict[str, Decimal]


def work_out(key: str, reported: Sequence[Finding], acts: Acts, context: Context) -> Job | None:
    """Return the job `key`, or None where neither a finding nor a repair names it."""
    findings = sorted([*reported, *acts.findings], key=lambda finding: finding.entry)
    if not findings and not acts.repairs:
        return None
    zone, component = split_key(key)
    critical = context.car_map.safety_critical(zone, component)
    sums = _Sums(context.car_map.group_of(component), critical, findings, acts, context)
    return Job(
        job=key,
        zone=zone,
        component=component,
        group=sums.group,
        safety_critical=critical,
        condition=_worst(component, sums.left() or findings, context.car_map),
        knock_on=_all_are("knock-on", findings),
        retracted=_all_are("retracted", findings),
        two_versions=any(finding.two_versions for finding in findings),
        state=sums.state(),
        inspection=sums.inspection() if critical else "not-needed",
        findings=_ids(finding.entry for finding in findings),
        uncovered=sums.uncovered() if critical else [],
        reports=_ids(finding.report for finding in reported),
        photos=_ids(photo for finding in findings for photo in finding.photos),
        unpassed=sums.unpassed(reported) if critical else [],
        used=_used(acts.repairs),
    )


class _Sums:
    """Which findings and repairs of one job are covered, by what.

    Covers are looked up by the ids that they name, so that a job with many findings, repairs and passes
    costs their number, not the product.
    """

    def __init__(
        self, group: str | None, critical: bool, findings: list[Finding], acts: Acts, context: Context
    ) -> None:
        self.group = group
        self.findings = findings
        self.acts = acts
        self.rules = PassRules(group, critical, acts, context)
        self.passes = by_named(a_pass for a_pass in acts.passes if self.rules.counts(a_pass))
        self.passed = {f.entry for f in findings if self._is_passed(f)}
        lasting, patching = _by_how_long(self.rules.repairs)
        self.done = {f.entry for f in findings if not lasting.isdisjoint(f.covered_by)}
        patched = {f.entry for f in findings if not patching.isdisjoint(f.covered_by)}
        self.patched = patched - self.done - self.passed

    def left(self) -> list[Finding]:
        """Return the findings that are open or patched."""
        return [f for f in self.findings if f.entry not in self.done | self.passed]

    def open(self) -> list[Finding]:
        """Return the findings that nothing was done about."""
        return [f for f in self.left() if f.entry not in self.patched]

    def state(self) -> State:
        """Return the job's state by the rules' order: all done, all done or accepted, patched, and so on."""
        if all(f.entry in self.done for f in self.findings):
            return "finished"
        if not self.left():
            return "accepted"
        if not self.open():
            return "patched"
        if self.acts.under_way:
            return "started"
        if all(_covers(self.acts.deferred, f) for f in self.open()):
            return "deferred"
        return "open"

    def inspection(self) -> Inspection:
        """Return where the inspection of a safety-critical job stands."""
        uncovered = set(self.uncovered())
        if not uncovered:
            return "passed"
        return "failed" if any(f.entry in uncovered for f in self.acts.findings) else "needed"

    def uncovered(self) -> list[str]:
        """Return the findings and repairs that no pass covers."""
        findings = {f.entry for f in self.findings} - self.passed
        repairs = {r.id for r in self.acts.repairs if not self._is_covered(self.rules.repair(r))}
        return sorted(findings | repairs)

    def unpassed(self, reported: Sequence[Finding]) -> list[Unpassed]:
        """Return the reports' findings that no pass covers, by entry."""
        left = sorted((f for f in reported if f.entry not in self.passed), key=lambda finding: finding.entry)
        return [Unpassed(f.entry, f.stage, f.covered_by) for f in left]

    def _is_passed(self, finding: Finding) -> bool:
        # Most findings are named by no pass, and what that would have to be need not be worked out.
        named = any(name in self.passes for name in finding.covered_by)
        return named and self._is_covered(self.rules.finding(finding))

    def _is_covered(self, target: Target) -> bool:
        """Return whether a pass that counts covers a finding or a repair."""
        return any(self.rules.covers(a_pass, target) for name in target.names for a_pass in self.passes.get(name, ()))


def _by_how_long(repairs: Mapping[str, Sequence[Repair]]) -> tuple[set[str], set[str]]:
    """Return the entries that lasting repairs name, and those that temporary ones do."""
    lasting = {name for name, naming in repairs.items() if any(not repair.temporary for repair in naming)}
    patching = {name for name, naming in repairs.items() if any(repair.temporary for repair in naming)}
    return lasting, patching


def _covers(covers: frozenset[str], finding: Finding) -> bool:
    return not covers.isdisjoint(finding.covered_by)


def _worst(component: str, findings: Sequence[Finding], car_map: CarMap) -> Condition:
    conditions: list[Condition] = [finding.condition for finding in findings] or [UNKNOWN]
    return max(conditions, key=lambda condition: car_map.severity(component, condition))


def _all_are(how: str, findings: Sequence[Finding]) -> bool:
    return bool(findings) and all(finding.how == how for finding in findings)


def _ids(ids: Iterable[str]) -> list[str]:
    return sorted(set(ids))


def _used(repairs: Sequence[Repair]) -> dict[str, Decimal]:
    used: dict[str, Decimal] = {}
    for repair in repairs:
        for item in repair.data.parts:
            used[item.part] = used.get(item.part, Decimal(0)) + item.qty
    return used

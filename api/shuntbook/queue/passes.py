"""The inspections of a car that were signed as passed and cover less than they name, each with the reasons."""

from collections.abc import Collection, Iterable

from msgspec import Struct

from shuntbook.fold.voids import failed
from shuntbook.queue.acts import Pass
from shuntbook.queue.car import CarLog, car_log, entered
from shuntbook.queue.job import Inspection, work_out
from shuntbook.queue.passing import Context, Hindrance, PassRules, Target, Why
from shuntbook.report.entry import Entry
from shuntbook.report.working import InspectionPassed
from shuntbook.setup.folder import Setup
from shuntbook.setup.words import split_key

SINCE_FIRST: frozenset[Why] = frozenset(
    {"no-check-ok", "must-check", "unfinished-work", "own-work-undone", "too-bad", "bent", "temporary"}
)
"""Reasons that release 0.1 did not know: a pass that only these speak against counted there."""


class PassReason(Struct, frozen=True):
    """Why a pass does not cover some of what it names: the ids, ascending, and the checks that it is about."""

    why: Why
    entries: list[str]
    checks: list[str]


class UncountedPass(Struct, frozen=True):
    """An `inspection.passed` that covers less than its `covers` names.

    inspection: where the job's inspection stands, by all that was signed. counted_before: release 0.1 took it in and
    counted it, today's rules do not.
    """

    entry: str
    job: str
    person: str
    at: str
    until: str | None
    inspection: Inspection
    counted_before: bool
    reasons: list[PassReason]


class Passes(Struct, frozen=True):
    """The passes of a car that cover less than they name: those first whose job is not passed, then by entry."""

    event: str
    car: str
    passes: list[UncountedPass]


def passes_that_do_not_count(
    entries: Iterable[Entry], setup: Setup, car: str, of_first: Collection[str] = ()
) -> Passes:
    """Return the passes of one car that cover less than they name, from all its entries in any order.

    of_first: ids of the entries that a release before today's rules held. A pass that its author or a manager took
    back is not there.
    """
    log = car_log(entries, setup)
    context = Context(setup.event, setup.car_map, entered(log.entries))
    found = [one for key in log.acts for one in _on_job(key, log, context, of_first)]
    return Passes(setup.event.event, car, sorted(found, key=lambda one: (one.inspection == "passed", one.entry)))


def _on_job(key: str, log: CarLog, context: Context, of_first: Collection[str]) -> Iterable[UncountedPass]:
    passed = {entry.id: entry for entry in log.acts[key] if isinstance(entry.data, InspectionPassed)}
    if not passed:
        return
    acts = log.acts_on(key)
    zone, component = split_key(key)
    critical = context.car_map.safety_critical(zone, component)
    rules = PassRules(context.car_map.group_of(component), critical, acts, context)
    targets = rules.targets(log.findings.get(key, []))
    job = work_out(key, log.findings.get(key, []), acts, context)
    reasons = {one.id: _reasons(one, rules, targets) for one in acts.passes}
    reasons |= {one.id: _checks_not_ok(one) for one in passed.values() if failed(one)}
    for name, against in reasons.items():
        if against:
            yield _shown(passed[name], job.inspection if job else "not-needed", against, name in of_first)


def _reasons(a_pass: Pass, rules: PassRules, targets: list[Target]) -> list[PassReason]:
    """Return why a pass does not cover some of what it names, each reason once with all that it is about."""
    about: dict[Hindrance, set[str]] = {}
    for name in a_pass.covers:
        named = [one for one in targets if name in one.names]
        if not named:
            about.setdefault(Hindrance("gone"), set()).add(name)
        for target in named:
            for hindrance in (*rules.against(a_pass), *rules.against_covering(a_pass, target)):
                about.setdefault(hindrance, set()).add(target.entry)
    return [PassReason(one.why, sorted(ids), list(one.checks)) for one, ids in about.items()]


def _checks_not_ok(entry: Entry) -> list[PassReason]:
    """Return the reason of what was signed as passed with a check that is not ok: it counts as failed."""
    if not isinstance(entry.data, InspectionPassed):
        return []
    checks = [row.check for row in entry.data.checks if row.ok is False]
    return [PassReason("check-not-ok", sorted(set(entry.data.covers)), checks)]


def _shown(entry: Entry, inspection: Inspection, reasons: list[PassReason], of_first: bool) -> UncountedPass:
    until = entry.data.until if isinstance(entry.data, InspectionPassed) else None
    why = {one.why for one in reasons}
    counted = of_first and bool(why & SINCE_FIRST) and why <= SINCE_FIRST | {"gone"}
    in_order = sorted(reasons, key=lambda one: (one.why, one.entries))
    return UncountedPass(entry.id, entry.subject or "", entry.person, entry.at, until, inspection, counted, in_order)

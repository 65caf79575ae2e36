"""Properties of the fold that hold for any entries: order is nothing, and safety is sticky."""

import pytest
from hypothesis import example, find, given, settings
from hypothesis import strategies as st

from longer import is_longer, times
from making import CHECKED
from shuntbook.queue.car import jobs_of_car
from shuntbook.queue.job import Job
from shuntbook.queue.release import hold_reasons
from shuntbook.report.body import ComponentFinding
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import EntryVoided, ReportAmended, ReportFiled, ReportWithdrawn
from shuntbook.report.working import CheckDone, InspectionPassed, JobFinished
from shuntbook.setup.event import Event, Person
from shuntbook.setup.faults import Faults
from shuntbook.setup.folder import Setup, default_car_map
from shuntbook.setup.rates_files import read_rates

PEOPLE = (
    Person("p-mech", "Mech", ("mechanic",)),
    Person("p-insp", "Insp", ("inspector",)),
    Person("p-both", "Both", ("mechanic", "inspector")),
    Person("p-chief", "Chief", ("manager",)),
)
EVENT = Event("e", "E", "UTC", ("41",), PEOPLE, (), ())
SETUP = Setup(EVENT, default_car_map(), read_rates({}, Faults()), {})
HOSE = "front-left/brake-hose"
REPORT = "00000000-0000-7000-8000-000000000000"

names = st.integers(1, 6).map(lambda n: f"00000000-0000-7000-8000-{n:012d}")
some_names = st.lists(st.one_of(st.just(REPORT), names), max_size=4)
people = st.sampled_from([person.person for person in PEOPLE])
components = st.sampled_from(["brake-hose", "wheel", "mud-flap"])
conditions = st.sampled_from(["marked", "bent", "leaking", "broken"])
checks = st.sampled_from([[], [CheckDone("Seen", True)], [CheckDone(row["check"], True) for row in CHECKED]])
findings = st.lists(st.builds(ComponentFinding, component=components, condition=conditions), max_size=3)
zones = st.sampled_from(["front-left", "front-right", None])

datas = st.one_of(
    st.tuples(st.just("report.amended"), st.builds(ReportAmended, replaces=some_names, zone=zones, findings=findings)),
    st.tuples(st.just("report.withdrawn"), st.builds(ReportWithdrawn, replaces=some_names)),
    st.tuples(
        st.just("job.finished"),
        st.builds(JobFinished, covers=some_names, temporary=st.booleans(), repairers=st.lists(people, max_size=2)),
    ),
    st.tuples(st.just("inspection.passed"), st.builds(InspectionPassed, covers=some_names, checks=checks)),
    st.tuples(st.just("entry.voided"), st.builds(EntryVoided, voids=some_names)),
)


def entry(name: str, kind: str, data: object, person: str = "p-mech") -> Entry:
    subject = REPORT if kind.startswith("report.") else HOSE
    return Entry(name, kind, "e", "41", subject, "2026-01-01T00:00:00Z", "d", 1, person, data)  # type: ignore[arg-type]


FILED = entry(
    REPORT, "report.filed", ReportFiled(zone="front-left", findings=[ComponentFinding("brake-hose", "marked")])
)


OK = [CheckDone(row["check"], True) for row in CHECKED]
PASSED, REPAIRED, AMENDED = (f"00000000-0000-7000-8000-{number:012d}" for number in (1, 2, 3))
PASS = entry(PASSED, "inspection.passed", InspectionPassed(covers=[REPORT, REPAIRED], checks=OK), "p-insp")
LET_GO: dict[type, list[Entry]] = {
    InspectionPassed: [FILED, PASS],
    JobFinished: [FILED, entry(REPAIRED, "job.finished", JobFinished(covers=[REPORT])), PASS],
    ReportAmended: [
        FILED,
        entry(
            AMENDED,
            "report.amended",
            ReportAmended(replaces=[REPORT], zone="front-left", findings=[ComponentFinding("brake-hose", "marked")]),
        ),
        entry(PASSED, "inspection.passed", InspectionPassed(covers=[AMENDED], checks=OK), "p-insp"),
    ],
}
"""By what else than the report is in it: a log in which nothing is open any more."""


@st.composite
def logs(draw) -> list[Entry]:
    """A filed report of a marked brake hose, and anything that people may put down after it."""
    drawn = draw(st.dictionaries(names, st.tuples(datas, people), max_size=10))
    return [FILED] + [entry(name, kind, data, who) for name, ((kind, data), who) in drawn.items()]


def job_of(jobs: list[Job], key: str) -> Job | None:
    return next((job for job in jobs if job.job == key), None)


@given(logs(), st.randoms(use_true_random=False))
def test_order_and_doubling_change_nothing(log: list[Entry], chance) -> None:
    again = log + chance.sample(log, len(log) // 2)
    chance.shuffle(again)
    assert jobs_of_car(again, SETUP) == jobs_of_car(log, SETUP)


@given(logs())
@settings(max_examples=times(40, 300))
def test_a_safety_flag_never_goes_away_by_amending_or_withdrawing(log: list[Entry]) -> None:
    job = job_of(jobs_of_car(log, SETUP), HOSE)
    assert job is not None
    assert job.safety_critical
    assert job.findings or job.state == "finished"


@given(logs())
@example(LET_GO[InspectionPassed])
@example(LET_GO[JobFinished])
@example(LET_GO[ReportAmended])
@settings(max_examples=times(40, 500))
def test_nothing_open_only_where_each_finding_was_passed_by_somebody_who_did_not_repair(log: list[Entry]) -> None:
    jobs = jobs_of_car(log, SETUP)
    if hold_reasons(jobs, []):
        return
    for job in jobs:
        if job.safety_critical:
            for finding in job.findings:
                assert passed_independently(finding, log)


@pytest.mark.parametrize("kind", LET_GO)
def test_nothing_is_open_in_the_logs_that_the_property_is_shown(kind: type) -> None:
    """Else it would hold of nothing; also with a version in place of the report that was filed. A long run finds some
    among the random ones as well.
    """
    shown = [LET_GO[kind]]
    if is_longer():
        shown.append(find(logs(), lambda log: is_let_go(log) and counts(log, kind)))
    assert all(is_let_go(log) and counts(log, kind) for log in shown)


def is_let_go(log: list[Entry]) -> bool:
    return not hold_reasons(jobs_of_car(log, SETUP), [])


def counts(log: list[Entry], kind: type) -> bool:
    return any(isinstance(e.data, kind) and not may_be_gone(e, log) for e in log)


def passed_independently(finding: str, log: list[Entry]) -> bool:
    """Say in other words than the product's that somebody looked: there is a pass, not voided by a person who may,
    that names the finding (or a version before it), by an inspector who is no repairer of any repair there.
    """
    named = {finding, *versions_before(finding, log)}
    passes = [e for e in log if isinstance(e.data, InspectionPassed) and e.person in ("p-insp", "p-both")]
    for one in passes:
        repaired = {
            who
            for e in log
            if isinstance(e.data, JobFinished) and finding in e.data.covers and not may_be_gone(e, log)
            for who in (e.person, *e.data.repairers)
        }
        if named & set(one.data.covers) and one.person not in repaired and not surely_gone(one, log):
            return True
    return False


def versions_before(finding: str, log: list[Entry]) -> set[str]:
    """Return all that an entry replaces, and what that replaces, and so on."""
    replaces = {e.id: getattr(e.data, "replaces", []) for e in log}
    found: set[str] = set()
    ahead = [*replaces.get(finding, [])]
    while ahead:
        one = ahead.pop()
        if one not in found:
            found.add(one)
            ahead += replaces.get(one, [])
    return found


def may_be_gone(target: Entry, log: list[Entry]) -> bool:
    return any(isinstance(e.data, EntryVoided) and target.id in e.data.voids for e in log)


def surely_gone(target: Entry, log: list[Entry]) -> bool:
    return any(
        isinstance(e.data, EntryVoided) and target.id in e.data.voids and e.person in (target.person, "p-chief")
        for e in log
    )


@given(logs(), names)
def test_an_empty_pass_by_an_inspector_changes_no_release(log: list[Entry], name: str) -> None:
    """A pass covers what it names and nothing else, however often somebody ticks."""
    if any(e.id == name for e in log):
        return
    ticked = [*log, entry(name, "inspection.passed", InspectionPassed(), "p-insp")]
    quiet = [e for e in ticked if not (isinstance(e.data, EntryVoided) and name in e.data.voids)]
    before = [e for e in quiet if e.id != name]
    assert hold_reasons(jobs_of_car(quiet, SETUP), []) == hold_reasons(jobs_of_car(before, SETUP), [])

"""Inspection of safety-critical jobs: what must be covered, by whom, and for how long it is good."""

import pytest

from making import ids, jobs
from small_event import CAR_MAP, EVENT, small_setup

HOSE, HOOP = "front-left/brake-hose", "cabin/main-hoop"
SEEN = {"shown_to": "scrutineer", "official_said": "may go on"}


@pytest.fixture
def rubbed(pen):
    """A hose that a pass may accept as it is."""
    return pen.filed(f"{HOSE} marked")


def test_a_pass_by_an_inspector_covers_a_finding_without_a_repair(pen, setup, rubbed):
    job = jobs([rubbed, pen.passed(HOSE, rubbed)], setup)[HOSE]
    assert (job.inspection, job.state, job.uncovered) == ("passed", "accepted", [])


def test_a_job_that_is_not_safety_critical_needs_none(pen, setup):
    job = jobs([pen.filed("front-end/lamp broken")], setup)["front-end/lamp"]
    assert (job.inspection, job.uncovered) == ("not-needed", [])


def test_a_repair_needs_its_own_pass(pen, setup, rubbed):
    repair = pen.finished(HOSE, rubbed)
    job = jobs([rubbed, repair], setup)[HOSE]
    assert (job.state, job.inspection, job.uncovered) == ("finished", "needed", ids([rubbed, repair]))
    half = jobs([rubbed, repair, pen.passed(HOSE, rubbed)], setup)[HOSE]
    assert (half.inspection, half.uncovered) == ("needed", ids([repair]))
    assert jobs([rubbed, repair, pen.passed(HOSE, rubbed, repair)], setup)[HOSE].inspection == "passed"


def test_a_pass_does_not_cover_what_it_does_not_name(pen, setup, rubbed):
    later = pen.filed(f"{HOSE} cracked")
    job = jobs([rubbed, pen.passed(HOSE, rubbed), later], setup)[HOSE]
    assert (job.inspection, job.uncovered) == ("needed", ids([later]))


def test_a_pass_counts_on_its_own_job_only(pen, setup, rubbed):
    assert jobs([rubbed, pen.passed("front-right/brake-hose", rubbed)], setup)[HOSE].inspection == "needed"


@pytest.mark.parametrize("person", ["p-bodo", "p-toma", "p-vera", "p-nobody"])
def test_a_pass_by_somebody_who_is_no_inspector_covers_nothing(pen, setup, rubbed, person):
    assert jobs([rubbed, pen.passed(HOSE, rubbed, person=person)], setup)[HOSE].inspection == "needed"


def test_roles_are_those_of_the_set_up_as_it_is_now(pen, rubbed):
    entries = [rubbed, pen.passed(HOSE, rubbed, person="p-bodo")]
    now = small_setup(event=EVENT.replace(b'roles = ["mechanic"]', b'roles = ["inspector"]'))
    assert jobs(entries, small_setup())[HOSE].inspection == "needed"
    assert jobs(entries, now)[HOSE].inspection == "passed"


def test_whoever_finished_the_repair_cannot_pass_it(pen, setup, rubbed):
    repair = pen.finished(HOSE, rubbed, person="p-anni")
    assert jobs([rubbed, repair, pen.passed(HOSE, rubbed, repair, person="p-anni")], setup)[HOSE].inspection == "needed"
    assert jobs([rubbed, repair, pen.passed(HOSE, rubbed, repair)], setup)[HOSE].inspection == "passed"


def test_whoever_is_named_as_a_repairer_cannot_pass_it(pen, setup, rubbed):
    repair = pen.finished(HOSE, rubbed, repairers=["p-anni"])
    job = jobs([rubbed, repair, pen.passed(HOSE, rubbed, repair, person="p-anni")], setup)[HOSE]
    assert job.uncovered == ids([rubbed, repair])


def test_whoever_started_what_the_repair_ends_cannot_pass_it(pen, setup, rubbed):
    start = pen.entry("job.started", HOSE, person="p-anni")
    repair = pen.finished(HOSE, rubbed, ends=ids([start]))
    look = pen.passed(HOSE, rubbed, repair, person="p-anni")
    assert jobs([rubbed, start, repair, look], setup)[HOSE].inspection == "needed"


def test_whoever_started_and_stopped_passes_nothing_until_a_finish_ends_the_start(pen, setup, rubbed):
    start = pen.entry("job.started", HOSE, person="p-anni")
    stop = pen.entry("job.stopped", HOSE, person="p-anni", ends=ids([start]))
    repair = pen.finished(HOSE, rubbed)
    look = pen.passed(HOSE, rubbed, repair, person="p-anni")
    assert jobs([rubbed, start, stop, repair, look], setup)[HOSE].uncovered == ids([rubbed, repair])
    # What another repair ended is that repair's alone: she may pass what it does not cover.
    ends = pen.finished(HOSE, ends=ids([start]))
    assert jobs([rubbed, start, stop, repair, ends, look], setup)[HOSE].uncovered == ids([ends])


def test_a_repairer_of_one_finding_may_pass_another_that_his_repair_does_not_cover(pen, setup, rubbed):
    other = pen.filed(f"{HOSE} worn")
    repair = pen.finished(HOSE, rubbed, person="p-anni")
    look = pen.passed(HOSE, rubbed, other, repair, person="p-anni")
    assert jobs([rubbed, other, repair, look], setup)[HOSE].uncovered == ids([rubbed, repair])


def test_a_late_second_repair_by_the_inspector_undoes_his_pass_of_that_finding(pen, setup, rubbed):
    look = pen.passed(HOSE, rubbed, person="p-anni")
    again = pen.finished(HOSE, rubbed, person="p-anni")
    assert jobs([rubbed, look, again], setup)[HOSE].uncovered == ids([rubbed, again])


def test_a_cage_needs_an_official_who_saw_it_and_what_he_decided(pen, setup):
    hit = pen.filed(f"{HOOP} marked")
    for said in ({}, {"shown_to": "scrutineer"}, {"official_said": "may go on"}, {**SEEN, "official_said": "  "}):
        assert jobs([hit, pen.passed(HOOP, hit, **said)], setup)[HOOP].inspection == "needed"
    assert jobs([hit, pen.passed(HOOP, hit, **SEEN)], setup)[HOOP].inspection == "passed"


@pytest.mark.parametrize(
    ("entered", "inspection"), [([], "passed"), (["A"], "passed"), (["B"], "needed"), (["C"], "needed")]
)
def test_a_pass_until_a_service_runs_out_once_the_car_enters_it_or_a_later_one(pen, setup, rubbed, entered, inspection):
    entries = [rubbed, pen.passed(HOSE, rubbed, until="B")]
    entries += [pen.entry("service.entered", service=service) for service in entered]
    assert jobs(entries, setup)[HOSE].inspection == inspection


def test_a_service_entered_before_the_pass_was_given_counts_as_well(pen, setup, rubbed):
    # No result depends on the order of arrival or on a clock.
    came_in = pen.entry("service.entered", service="B")
    assert jobs([came_in, rubbed, pen.passed(HOSE, rubbed, until="B")], setup)[HOSE].inspection == "needed"


def test_a_service_outside_the_itinerary_counts_as_not_given(pen, setup, rubbed):
    look = pen.passed(HOSE, rubbed, until="X")
    assert jobs([rubbed, look, pen.entry("service.entered", service="X")], setup)[HOSE].inspection == "passed"
    assert (
        jobs([rubbed, pen.passed(HOSE, rubbed, until="B"), pen.entry("service.entered", service="X")], setup)[
            HOSE
        ].inspection
        == "passed"
    )


def test_a_pass_that_ran_out_makes_an_accepted_job_open_again(pen, setup, rubbed):
    entries = [rubbed, pen.passed(HOSE, rubbed, until="B"), pen.entry("service.entered", service="B")]
    assert jobs(entries, setup)[HOSE].state == "open"


def test_a_failed_inspection_is_a_finding_of_its_own(pen, setup, rubbed):
    failed = pen.failed(HOSE)
    job = jobs([rubbed, failed], setup)[HOSE]
    assert (job.inspection, job.findings, job.uncovered) == ("failed", ids([rubbed, failed]), ids([rubbed, failed]))
    assert job.reports == [rubbed["subject"]]


def test_a_failed_inspection_opens_a_job_where_nothing_was_reported(pen, setup):
    job = jobs([pen.failed(HOSE)], setup)[HOSE]
    assert (job.state, job.condition, job.inspection, job.reports) == ("open", "unknown", "failed", [])


def test_a_pass_with_a_check_that_is_not_ok_counts_as_failed(pen, setup, rubbed):
    look = pen.passed(HOSE, rubbed, checks=[{"check": "dry", "ok": True}, {"check": "no rub", "ok": False}])
    job = jobs([rubbed, look], setup)[HOSE]
    assert (job.inspection, job.uncovered) == ("failed", ids([rubbed, look]))


def test_a_failed_inspection_needs_a_pass_that_names_it(pen, setup, rubbed):
    failed = pen.failed(HOSE)
    repair = pen.finished(HOSE, rubbed, failed)
    without = jobs([rubbed, failed, repair, pen.passed(HOSE, rubbed, repair)], setup)[HOSE]
    assert (without.state, without.inspection) == ("finished", "failed")
    with_it = jobs([rubbed, failed, repair, pen.passed(HOSE, rubbed, repair, failed)], setup)[HOSE]
    assert (with_it.inspection, with_it.uncovered) == ("passed", [])


def test_the_packages_own_groups_stay_whatever_a_teams_map_says(pen):
    without = CAR_MAP.replace(b'label = "Brake hose"\ngroup = "brake"', b'label = "Brake hose"\ngroup = "plumbing"')
    job = jobs([pen.filed(f"{HOSE} marked")], small_setup(car_map=without))[HOSE]
    assert (job.group, job.safety_critical) == ("brake", True)


def test_a_safety_group_of_the_team_is_safety_critical_and_can_be_taken_away(pen):
    entries = [pen.filed("cabin/harness marked")]
    assert jobs(entries, small_setup())["cabin/harness"].safety_critical
    without = small_setup(car_map=CAR_MAP.replace(b'["restraint"]', b"[]"))
    assert not jobs(entries, without)["cabin/harness"].safety_critical


def test_a_pair_that_the_map_does_not_list_is_safety_critical(pen, setup):
    job = jobs([pen.filed("cabin/lamp broken")], setup)["cabin/lamp"]
    assert (job.group, job.safety_critical, job.inspection) == (None, True, "needed")

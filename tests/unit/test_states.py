"""What closes a job, step by step: states in their order, covers that pass down, undone entries."""

import pytest

from making import ids, jobs

LAMP, HOSE = "front-end/lamp", "front-left/brake-hose"


@pytest.fixture
def report(pen):
    return pen.filed(f"{LAMP} broken")


def state(entries, setup, key=LAMP):
    return jobs(entries, setup)[key].state


def test_a_finding_covered_by_a_repair_finishes_the_job(pen, setup, report):
    assert state([report], setup) == "open"
    assert state([report, pen.finished(LAMP, report)], setup) == "finished"


def test_a_repair_that_names_nothing_covers_nothing(pen, setup, report):
    assert state([report, pen.finished(LAMP)], setup) == "open"


def test_a_repair_covers_findings_of_its_own_job_only(pen, setup):
    report = pen.filed(f"{LAMP} broken", "front-end/grille missing")
    found = jobs([report, pen.finished(LAMP, report)], setup)
    assert (found[LAMP].state, found["front-end/grille"].state) == ("finished", "open")


def test_a_report_that_comes_late_opens_a_finished_job_again(pen, setup, report):
    again = pen.filed(f"{LAMP} broken")
    job = jobs([report, pen.finished(LAMP, report), again], setup)[LAMP]
    assert (job.state, job.findings) == ("open", ids([report, again]))


def test_a_temporary_repair_patches(pen, setup, report):
    assert state([report, pen.finished(LAMP, report, temporary=True)], setup) == "patched"


def test_a_repair_for_good_goes_before_a_patch_of_the_same_finding(pen, setup, report):
    entries = [report, pen.finished(LAMP, report), pen.finished(LAMP, report, temporary=True)]
    assert state(entries, setup) == "finished"


def test_a_job_of_which_one_finding_is_done_and_one_patched_is_patched(pen, setup, report):
    again = pen.filed(f"{LAMP} bent")
    entries = [report, again, pen.finished(LAMP, report), pen.finished(LAMP, again, temporary=True)]
    job = jobs(entries, setup)[LAMP]
    assert (job.state, job.condition) == ("patched", "bent")


def test_a_pass_accepts_on_any_job(pen, setup, report):
    assert state([report, pen.passed(LAMP, report)], setup) == "accepted"


def test_done_and_accepted_together_are_accepted(pen, setup, report):
    again = pen.filed(f"{LAMP} marked")
    assert state([report, again, pen.finished(LAMP, report), pen.passed(LAMP, again)], setup) == "accepted"


def test_a_patch_that_was_passed_is_accepted(pen, setup, report):
    patch = pen.finished(LAMP, report, temporary=True)
    assert state([report, patch, pen.passed(LAMP, report, patch)], setup) == "accepted"


def test_a_started_job_is_started_until_the_start_is_ended(pen, setup, report):
    start = pen.entry("job.started", LAMP, person="p-bodo")
    assert state([report, start], setup) == "started"
    stop = pen.entry("job.stopped", LAMP, person="p-bodo", ends=ids([start]))
    assert state([report, start, stop], setup) == "open"
    assert state([report, start, pen.entry("job.stopped", LAMP, ends=[])], setup) == "started"
    other = pen.entry("job.started", LAMP, person="p-anni")
    assert state([report, start, other, stop], setup) == "started"
    assert state([report, start, pen.finished(LAMP, ends=ids([start]))], setup) == "open"


def test_started_goes_before_deferred_and_behind_patched(pen, setup, report):
    start = pen.entry("job.started", LAMP, person="p-bodo")
    later = pen.entry("job.deferred", LAMP, covers=ids([report]), to="road")
    assert state([report, later, start], setup) == "started"
    assert state([report, start, pen.finished(LAMP, report, temporary=True)], setup) == "patched"


def test_a_job_is_deferred_if_all_that_is_open_is(pen, setup, report):
    later = pen.entry("job.deferred", LAMP, covers=ids([report]), to="next-service")
    assert state([report, later], setup) == "deferred"
    again = pen.filed(f"{LAMP} broken")
    assert state([report, later, again], setup) == "open"
    assert state([report, later, again, pen.finished(LAMP, again)], setup) == "deferred"
    assert state([report, later, again, pen.entry("job.deferred", LAMP, covers=ids([again]))], setup) == "deferred"


def test_a_job_without_findings_is_finished_and_says_nothing(pen, setup):
    repair = pen.finished(HOSE)
    job = jobs([repair], setup)[HOSE]
    assert (job.state, job.condition, job.findings, job.reports) == ("finished", "unknown", [], [])
    assert (job.knock_on, job.retracted, job.two_versions) == (False, False, False)
    assert (job.safety_critical, job.inspection, job.uncovered) == (True, "needed", ids([repair]))


def test_a_start_or_deferral_without_a_finding_makes_no_job(pen, setup):
    assert jobs([pen.entry("job.started", LAMP), pen.entry("job.deferred", LAMP)], setup) == {}


def test_the_condition_is_the_worst_of_what_is_left(pen, setup):
    marked, broken, bent = (pen.filed(f"{LAMP} {word}") for word in ("marked", "broken", "bent"))
    entries = [marked, broken, bent]
    assert jobs(entries, setup)[LAMP].condition == "broken"
    assert jobs([*entries, pen.finished(LAMP, broken)], setup)[LAMP].condition == "bent"
    assert jobs([*entries, pen.finished(LAMP, *entries)], setup)[LAMP].condition == "broken"
    assert jobs([*entries, pen.finished(LAMP, broken, temporary=True)], setup)[LAMP].condition == "broken"


# ---- the same thing said again ----


def test_correcting_a_km_does_not_open_a_job_again(pen, setup, report):
    corrected = pen.amended(report, f"{LAMP} broken", km=7)
    assert state([report, pen.finished(LAMP, report), corrected], setup) == "finished"
    further = pen.amended(corrected, f"{LAMP} broken", km=8)
    assert state([report, pen.finished(LAMP, report), corrected, further], setup) == "finished"


def test_saying_that_it_is_worse_opens_it_again(pen, setup):
    report = pen.filed(f"{LAMP} bent")
    worse = pen.amended(report, f"{LAMP} broken")
    assert state([report, pen.finished(LAMP, report), worse], setup) == "open"
    back = pen.amended(worse, f"{LAMP} bent")
    # The chain is broken: the version in between said something else.
    assert state([report, pen.finished(LAMP, report), worse, back], setup) == "open"


def test_a_cover_does_not_pass_up_or_to_another_report(pen, setup, report):
    corrected = pen.amended(report, f"{LAMP} broken")
    other = pen.filed(f"{LAMP} broken")
    entries = [report, corrected, other, pen.finished(LAMP, corrected)]
    assert state(entries, setup) == "open"
    assert state([report, corrected, pen.finished(LAMP, corrected)], setup) == "finished"


def test_a_pass_passes_down_as_a_repair_does(pen, setup):
    report = pen.filed(f"{HOSE} marked")
    corrected = pen.amended(report, f"{HOSE} marked", note="inner side")
    job = jobs([report, corrected, pen.passed(HOSE, report)], setup)[HOSE]
    assert (job.inspection, job.state) == ("passed", "accepted")
    worse = pen.amended(report, f"{HOSE} leaking")
    assert jobs([report, worse, pen.passed(HOSE, report)], setup)[HOSE].inspection == "needed"


def test_a_deferral_passes_down_too(pen, setup, report):
    later = pen.entry("job.deferred", LAMP, covers=ids([report]))
    assert state([report, later, pen.amended(report, f"{LAMP} broken", km=2)], setup) == "deferred"


# ---- undone entries ----


@pytest.mark.parametrize(
    ("person", "undone"),
    [("p-bodo", True), ("p-vera", True), ("p-anni", False), ("p-odil", False), ("p-nobody", False)],
)
def test_an_entry_is_undone_by_its_author_or_a_manager(pen, setup, report, person, undone):
    repair = pen.finished(LAMP, report, person="p-bodo")
    assert state([report, repair, pen.voided(repair, person)], setup) == ("open" if undone else "finished")


def test_an_undone_pass_holds_again(pen, setup):
    report = pen.filed(f"{HOSE} marked")
    look = pen.passed(HOSE, report)
    job = jobs([report, look, pen.voided(look, "p-odil")], setup)[HOSE]
    assert (job.inspection, job.state) == ("needed", "open")


def test_an_undone_start_is_over_and_an_undone_stop_is_not(pen, setup, report):
    start = pen.entry("job.started", LAMP, person="p-bodo")
    stop = pen.entry("job.stopped", LAMP, person="p-bodo", ends=ids([start]))
    assert state([report, start, pen.voided(start, "p-bodo")], setup) == "open"
    assert state([report, start, stop, pen.voided(stop, "p-bodo")], setup) == "started"


def test_an_undone_service_entered_lets_a_pass_run_on(pen, setup):
    report = pen.filed(f"{HOSE} marked")
    look, came_in = pen.passed(HOSE, report, until="B"), pen.entry("service.entered", service="B")
    entries = [report, look, came_in]
    assert jobs(entries, setup)[HOSE].inspection == "needed"
    assert jobs([*entries, pen.voided(came_in, "p-vera")], setup)[HOSE].inspection == "passed"


def test_a_report_cannot_be_undone(pen, setup, report):
    assert state([report, pen.voided(report, "p-vera")], setup) == "open"


@pytest.mark.parametrize("how", ["said so", "a check not ok"])
def test_a_failed_inspection_cannot_be_undone(pen, setup, how):
    report = pen.filed(f"{HOSE} marked")
    checks = [{"check": "dry", "ok": False}]
    failed = pen.failed(HOSE) if how == "said so" else pen.passed(HOSE, report, checks=checks)
    job = jobs([report, failed, pen.voided(failed, "p-odil"), pen.voided(failed, "p-vera")], setup)[HOSE]
    assert job.inspection == "failed"


def test_an_undo_reaches_no_other_car(pen, setup, report):
    repair = pen.finished(LAMP, report)
    stray = {**pen.voided(repair, "p-bodo"), "car": "42"}
    assert state([report, repair, stray], setup) == "finished"


def test_an_undo_cannot_be_undone(pen, setup, report):
    repair = pen.finished(LAMP, report)
    undo = pen.voided(repair, "p-bodo")
    assert state([report, repair, undo, pen.voided(undo, "p-bodo")], setup) == "open"

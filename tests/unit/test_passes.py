"""Passes that cover less than they name: one entry for each reason, and the reasons against a second reading."""

from pathlib import Path

import pytest

from longer import some
from making import CHECKED, ids, parsed
from oracle.folders import write_folder
from oracle.reading import queue as oracle_queue
from shuntbook.flow.load import read_folder
from shuntbook.fold.voids import standing
from shuntbook.queue.passes import passes_that_do_not_count
from shuntbook.report.entry import parse_entry
from small_event import EVENT, small_setup

HOSE, HOOP, LAMP = "front-left/brake-hose", "cabin/main-hoop", "front-end/lamp"
OFFICIAL = {"shown_to": "scrutineer", "official_said": "may go on"}


def read(entries, setup, of_first=()):
    return passes_that_do_not_count(parsed(entries), setup, "41", of_first).passes


def reasons(entries, setup):
    """The one pass on the page, as {reason: (what it is about, checks)}."""
    (one,) = read(entries, setup)
    return {reason.why: (reason.entries, reason.checks) for reason in one.reasons}


@pytest.fixture
def rubbed(pen):
    return pen.filed(f"{HOSE} marked")


def test_a_pass_that_counts_is_not_there(pen, setup, rubbed):
    assert read([rubbed, pen.passed(HOSE, rubbed)], setup) == []


def test_no_check_ok(pen, setup, rubbed):
    rows = [{"check": "Seen", "ok": None, "why": "no time"}]
    assert reasons([rubbed, pen.passed(HOSE, rubbed, checks=rows)], setup) == {"no-check-ok": (ids([rubbed]), [])}


def test_a_check_that_is_a_must_is_named(pen, rubbed):
    listed = b'\n[[looks]]\ngroup = "brake"\ncheck = "Pedal held"\nmust = true\n'
    entries = [rubbed, pen.passed(HOSE, rubbed, checks=[{"check": "Seen", "ok": True}])]
    assert reasons(entries, small_setup(event=EVENT + listed)) == {"must-check": (ids([rubbed]), ["Pedal held"])}


def test_no_inspector_in_this_event(pen, setup, rubbed):
    look = pen.passed(HOSE, rubbed, person="p-bodo")
    assert reasons([rubbed, look], setup) == {"not-inspector": (ids([rubbed]), [])}


def test_repaired_it_themselves(pen, setup, rubbed):
    repair = pen.finished(HOSE, rubbed, person="p-anni")
    look = pen.passed(HOSE, rubbed, repair, person="p-anni")
    assert reasons([rubbed, repair, look], setup) == {"own-repair": (ids([rubbed, repair]), [])}


def test_took_back_having_repaired_it(pen, setup, rubbed):
    repair = pen.finished(HOSE, rubbed, person="p-anni")
    entries = [rubbed, repair, pen.voided(repair, "p-anni"), pen.passed(HOSE, rubbed, person="p-anni")]
    assert reasons(entries, setup) == {"own-work-undone": (ids([rubbed]), [])}


def test_started_work_that_nothing_finished(pen, setup, rubbed):
    start = pen.entry("job.started", HOSE, person="p-anni")
    stop = pen.entry("job.stopped", HOSE, person="p-anni", ends=ids([start]))
    entries = [rubbed, start, stop, pen.passed(HOSE, rubbed, person="p-anni")]
    assert reasons(entries, setup) == {"unfinished-work": (ids([rubbed]), [])}


@pytest.mark.parametrize("said", [{}, {"shown_to": "scrutineer"}, {**OFFICIAL, "official_said": " "}])
def test_a_cage_without_the_official(pen, setup, said):
    hit = pen.filed(f"{HOOP} marked")
    assert reasons([hit, pen.passed(HOOP, hit, **said)], setup) == {"no-official": (ids([hit]), [])}


def test_worse_than_may_be_accepted_unrepaired(pen, setup):
    hit = pen.filed(f"{HOSE} leaking")
    assert reasons([hit, pen.passed(HOSE, hit, until="C")], setup) == {"too-bad": (ids([hit]), [])}


def test_bent_is_accepted_only_until_a_service(pen, setup):
    hit = pen.filed("front-left/tie bent")
    assert reasons([hit, pen.passed("front-left/tie", hit)], setup) == {"bent": (ids([hit]), [])}
    assert read([hit, pen.passed("front-left/tie", hit, until="C")], setup) == []


def test_a_temporary_repair_without_until(pen, setup, rubbed):
    repair = pen.finished(HOSE, rubbed, temporary=True)
    entries = [rubbed, repair, pen.passed(HOSE, rubbed, repair)]
    assert reasons(entries, setup) == {"temporary": (ids([rubbed, repair]), [])}


def test_its_service_has_begun(pen, setup, rubbed):
    look = pen.passed(HOSE, rubbed, until="B")
    entries = [rubbed, look, pen.entry("service.entered", service="B")]
    (one,) = read(entries, setup)
    assert (one.until, [reason.why for reason in one.reasons]) == ("B", ["until-begun"])


def test_a_check_that_is_not_ok_makes_it_a_failed_one(pen, setup, rubbed):
    rows = [*CHECKED, {"check": "Hose", "ok": False}]
    look = pen.passed(HOSE, rubbed, checks=rows)
    (one,) = read([rubbed, look], setup)
    assert one.inspection == "failed"
    assert reasons([rubbed, look], setup) == {"check-not-ok": (ids([rubbed]), ["Hose"])}


def test_what_it_names_was_put_another_way_since(pen, setup, rubbed):
    worse = pen.amended(rubbed, f"{HOSE} leaking")
    assert reasons([rubbed, pen.passed(HOSE, rubbed), worse], setup) == {"gone": (ids([rubbed]), [])}


def test_a_pass_that_covers_one_of_two_says_which_it_does_not(pen, setup, rubbed):
    leaking = pen.filed(f"{HOSE} leaking")
    assert reasons([rubbed, leaking, pen.passed(HOSE, rubbed, leaking)], setup) == {"too-bad": (ids([leaking]), [])}


def test_several_reasons_stand_side_by_side(pen, setup):
    hit = pen.filed(f"{HOSE} leaking")
    look = pen.passed(HOSE, hit, person="p-bodo", checks=[])
    assert set(reasons([hit, look], setup)) == {"not-inspector", "no-check-ok", "too-bad"}


def test_what_was_taken_back_is_not_there(pen, setup, rubbed):
    look = pen.passed(HOSE, rubbed, person="p-bodo")
    assert read([rubbed, look, pen.voided(look, "p-bodo")], setup) == []


def test_where_the_job_is_passed_by_another_it_comes_last_and_says_so(pen, setup, rubbed):
    lamp = pen.filed(f"{LAMP} broken")
    mine = pen.passed(HOSE, rubbed, person="p-bodo")
    entries = [rubbed, lamp, mine, pen.passed(HOSE, rubbed), pen.passed(LAMP, lamp, person="p-toma")]
    assert [(one.job, one.inspection) for one in read(entries, setup)] == [(LAMP, "not-needed"), (HOSE, "passed")]


def test_only_what_an_older_release_held_and_counted_is_marked_so(pen, setup, rubbed):
    unchecked = pen.passed(HOSE, rubbed, checks=[])
    nobody = pen.passed(HOSE, rubbed, checks=[], person="p-bodo")
    now = pen.passed(HOSE, rubbed, checks=[])
    found = read([rubbed, unchecked, nobody, now], setup, of_first=ids([unchecked, nobody]))
    # The mechanic's never counted, by the older rules either.
    assert {one.entry: one.counted_before for one in found} == {
        unchecked["id"]: True,
        nobody["id"]: False,
        now["id"]: False,
    }


@pytest.mark.parametrize("seed", some(range(40), 6))
def test_whatever_no_pass_covers_has_a_reason_in_each_pass_that_names_it(tmp_path: Path, seed: int) -> None:
    """The oracle, which shares no code with this, says what is uncovered; each pass of it says why not."""
    folder = write_folder(tmp_path, seed, 40 + seed * 7 % 360)
    default_map = Path(__file__).parents[2] / "api" / "shuntbook" / "defaults" / "car_map.toml"
    folder_read = read_folder(folder)
    setup, entries = folder_read.setup, [parse_entry(raw) for _, raw in folder_read.entries.values()]
    event = setup.event.event
    for car in setup.event.cars:
        mine = [one for one in entries if (one.event, one.car) == (event, car)]
        left = {job["job"]: set(job["uncovered"]) for job in oracle_queue(folder, event, car, default_map)["jobs"]}
        said = passes_that_do_not_count(mine, setup, car).passes
        against = {one.entry: {name for reason in one.reasons for name in reason.entries} for one in said}
        for look in standing(mine, setup.event):
            if look.kind == "inspection.passed" and look.subject in left:
                named = set(look.data.covers) & left[look.subject]
                assert named <= against.get(look.id, set())

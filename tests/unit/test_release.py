"""Hold or nothing open: reasons in the queue's order, and what a released car left unseen."""

import pytest

from making import ids, queue
from small_event import small_setup

HOSE, HOOP, HARNESS = "front-left/brake-hose", "cabin/main-hoop", "cabin/harness"


def test_nothing_reported_is_nothing_open(setup):
    answer = queue([], setup)
    assert (answer["release"], answer["hold_reasons"], answer["jobs"]) == ("nothing-open", [], [])


def test_damage_that_is_not_safety_critical_holds_nothing(pen, setup):
    assert queue([pen.filed("front-end/lamp broken")], setup)["release"] == "nothing-open"


def test_a_safety_critical_job_holds_until_it_is_passed(pen, setup):
    hose = pen.filed(f"{HOSE} leaking")
    repair = pen.finished(HOSE, hose)
    for entries in ([hose], [hose, repair], [hose, repair, pen.passed(HOSE, hose)]):
        assert queue(entries, setup)["release"] == "hold"
    assert queue([hose, repair, pen.passed(HOSE, hose, repair)], setup)["release"] == "nothing-open"


def test_each_reason_says_what_it_needs_and_what_is_uncovered_in_queue_order(pen, setup):
    hose, hoop, harness = pen.filed(f"{HOSE} leaking"), pen.filed(f"{HOOP} marked"), pen.filed(f"{HARNESS} marked")
    failed = pen.failed(HARNESS)
    answer = queue([hose, hoop, harness, failed], setup)
    assert answer["hold_reasons"] == [
        {"job": HOSE, "needs": "inspection", "entries": ids([hose])},
        {"job": HARNESS, "needs": "re-inspection", "entries": ids([harness, failed])},
        {"job": HOOP, "needs": "official", "entries": ids([hoop])},
    ]
    assert [reason["job"] for reason in answer["hold_reasons"]] == [job["job"] for job in answer["jobs"]]


def test_a_cage_that_failed_needs_another_look_first(pen, setup):
    entries = [pen.filed(f"{HOOP} marked"), pen.failed(HOOP)]
    assert queue(entries, setup)["hold_reasons"][0]["needs"] == "re-inspection"


def test_entries_set_aside_hold_the_car_and_come_first(pen, setup):
    hose = pen.filed(f"{HOSE} marked")
    answer = queue([hose], setup, set_aside=["b", "a", "b"])
    assert answer["hold_reasons"][0] == {"job": None, "needs": "review", "entries": ["a", "b"]}
    assert [reason["needs"] for reason in answer["hold_reasons"]] == ["review", "inspection"]
    assert queue([], setup, set_aside=["a"])["release"] == "hold"


@pytest.mark.parametrize("covers", [True, False])
def test_a_release_does_not_end_a_hold(pen, setup, covers):
    hose = pen.filed(f"{HOSE} leaking")
    out = pen.entry("car.released", service="A", covers=ids([hose]) if covers else [])
    assert queue([hose, out], setup)["release"] == "hold"


# ---- released unseen ----


def unseen(entries, setup):
    return queue(entries, setup)["released_unseen"]


def test_a_finding_from_before_the_service_that_the_release_did_not_cover_was_unseen(pen, setup):
    hose = pen.filed(f"{HOSE} leaking", stage="SS1")
    out = pen.entry("car.released", service="A")
    assert unseen([hose, out], setup) == [{"released": out["id"], "service": "A", "job": HOSE, "entries": ids([hose])}]


# Service A comes after SS1, B after SS2.
@pytest.mark.parametrize(
    ("stage", "service", "was_there"),
    [
        ("SS1", "A", True),
        ("SS2", "A", False),
        ("SS2", "B", True),
        ("SS3", "B", False),
        (None, "A", True),
        ("X", "A", True),
    ],
)
def test_only_what_happened_before_the_service_can_have_been_missed(pen, setup, stage, service, was_there):
    entries = [pen.filed(f"{HOSE} leaking", stage=stage), pen.entry("car.released", service=service)]
    assert bool(unseen(entries, setup)) is was_there


def test_what_any_release_covered_was_seen(pen, setup):
    hose = pen.filed(f"{HOSE} leaking", stage="SS1")
    first = pen.entry("car.released", service="A")
    second = pen.entry("car.released", service="B", covers=ids([hose]))
    assert unseen([hose, first, second], setup) == []


def test_what_a_pass_covers_was_seen_whenever_it_was_given(pen, setup):
    hose = pen.filed(f"{HOSE} marked", stage="SS1")
    out = pen.entry("car.released", service="A")
    assert unseen([hose, out, pen.passed(HOSE, hose)], setup) == []
    assert unseen([hose, out, pen.passed(HOSE, hose, person="p-bodo")], setup) != []


def test_a_cover_of_an_older_version_that_said_the_same_counts(pen, setup):
    hose = pen.filed(f"{HOSE} leaking", stage="SS1")
    same = pen.amended(hose, f"{HOSE} leaking", stage="SS1", km=3)
    out = pen.entry("car.released", service="A", covers=ids([hose]))
    assert unseen([hose, same, out], setup) == []
    worse = pen.amended(hose, f"{HOSE} broken", stage="SS1")
    assert [item["entries"] for item in unseen([hose, worse, out], setup)] == [ids([worse])]


def test_failed_inspections_repairs_and_other_jobs_are_not_asked_after(pen, setup):
    lamp = pen.filed("front-end/lamp broken", stage="SS1")
    entries = [lamp, pen.failed(HOSE), pen.finished(HARNESS), pen.entry("car.released", service="A")]
    assert unseen(entries, setup) == []


def test_unseen_findings_are_told_for_each_release_by_job(pen, setup):
    harness, hose = pen.filed(f"{HARNESS} marked", stage="SS1"), pen.filed(f"{HOSE} leaking", stage="SS1")
    one, two = pen.entry("car.released", service="A"), pen.entry("car.released", service="B")
    found = [(item["released"], item["job"]) for item in unseen([harness, hose, one, two], setup)]
    assert found == [(out["id"], key) for out in (one, two) for key in (HARNESS, HOSE)]


def test_the_queue_names_the_rate_table_that_it_used(pen):
    usual = small_setup()
    dearer = small_setup(parts=b"part,description,unit_cost\nrim,R,211.00\nhose,H,1\nlamp,L,1\ngrille,G,1\n")
    assert queue([], usual)["rates"] == usual.rates.version != queue([], dearer)["rates"]

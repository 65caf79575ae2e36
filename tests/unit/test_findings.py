"""From reports to findings: heads, rings, what is kept when it is taken back, knock-on, hand-over."""

from making import ids, jobs

WHEEL, HOSE, HUB = "front-left/wheel", "front-left/brake-hose", "front-left/hub"


def test_a_direct_finding_opens_a_job_with_its_condition(pen, setup):
    report = pen.filed("front-end/lamp broken", stage="SS1", photos=["cd" * 32, "ab" * 32])
    job = jobs([report], setup)["front-end/lamp"]
    assert (job.condition, job.state, job.zone, job.component) == ("broken", "open", "front-end", "lamp")
    assert job.findings == [report["id"]] == job.reports
    assert job.photos == ["ab" * 32, "cd" * 32]


def test_a_component_without_a_condition_is_to_be_looked_at(pen, setup):
    assert jobs([pen.filed("front-end/lamp")], setup)["front-end/lamp"].condition == "unknown"


def test_a_symptom_opens_the_jobs_that_the_map_makes_the_crew_check(pen, setup):
    found = jobs([pen.entry("report.filed", symptoms=["long-pedal"])], setup)
    assert {key: job.condition for key, job in found.items()} == {
        "front-left/brake-hose": "unknown",
        "front-right/brake-hose": "unknown",
    }
    assert not any(job.knock_on for job in found.values())


def test_a_symptom_that_the_map_does_not_know_is_not_dropped(pen, setup):
    found = jobs([pen.entry("report.filed", symptoms=["smells-odd"], zone="cabin")], setup)
    assert list(found) == ["cabin/unknown"]
    assert found["cabin/unknown"].safety_critical


def test_a_report_without_a_zone_is_about_the_unknown_zone(pen, setup):
    entry = pen.entry("report.filed", findings=[{"component": "lamp", "condition": "bent"}])
    assert list(jobs([entry], setup)) == ["unknown/lamp"]


def test_a_bare_report_opens_a_job_to_look_at_its_zone(pen, setup):
    found = jobs([pen.entry("report.filed", zone="cabin", note="something hit us")], setup)
    assert {key: job.condition for key, job in found.items()} == {"cabin/unknown": "unknown"}
    assert list(jobs([pen.entry("report.filed")], setup)) == ["unknown/unknown"]


def test_an_amended_report_says_only_what_its_head_says(pen, setup):
    first = pen.filed("front-end/lamp broken")
    second = pen.amended(first, "front-end/grille missing")
    assert list(jobs([first, second], setup)) == ["front-end/grille"]


def test_two_heads_give_the_union_and_say_so(pen, setup):
    first = pen.filed("front-end/lamp marked")
    one = pen.amended(first, "front-end/lamp bent")
    other = pen.amended(first, "front-end/lamp broken", "front-end/grille missing")
    found = jobs([first, one, other], setup)
    assert found["front-end/lamp"].condition == "broken"
    assert found["front-end/lamp"].findings == ids([one, other])
    assert all(job.two_versions for job in found.values())


def test_a_version_that_replaces_all_heads_ends_the_two_versions(pen, setup):
    first = pen.filed("front-end/lamp marked")
    one, other = pen.amended(first, "front-end/lamp bent"), pen.amended(first, "front-end/lamp broken")
    settled = pen.amended([one, other], "front-end/lamp bent")
    job = jobs([first, one, other, settled], setup)["front-end/lamp"]
    assert (job.condition, job.findings, job.two_versions) == ("bent", [settled["id"]], False)


def test_a_version_that_names_one_that_is_not_here_yet_replaces_it_when_it_comes(pen, setup):
    first = pen.filed("front-end/lamp broken")
    second = pen.amended(first, "front-end/grille missing")
    assert list(jobs([second], setup)) == ["front-end/grille"]
    assert list(jobs([second, first], setup)) == ["front-end/grille"]


def test_a_version_cannot_replace_another_report(pen, setup):
    lamp, grille = pen.filed("front-end/lamp broken"), pen.filed("front-end/grille missing")
    stray = pen.entry("report.amended", grille["subject"], replaces=ids([lamp]), zone="front-end", findings=[])
    assert "front-end/lamp" in jobs([lamp, grille, stray], setup)


def test_versions_that_replace_each_other_in_a_ring_all_stand(pen, setup):
    first = pen.filed("front-end/lamp broken")
    one = pen.amended(first, "front-end/lamp bent")
    other = pen.amended(one, "front-end/grille missing")
    one["data"]["replaces"] = ids([first, other])
    found = jobs([first, one, other], setup)
    assert found["front-end/lamp"].findings == ids([one])
    assert found["front-end/grille"].findings == ids([other])
    assert found["front-end/lamp"].two_versions


def test_a_version_that_names_itself_stands(pen, setup):
    first = pen.filed("front-end/lamp broken")
    second = pen.amended(first, "front-end/grille missing")
    second["data"]["replaces"].append(second["id"])
    assert list(jobs([first, second], setup)) == ["front-end/grille"]


def test_a_ring_is_over_once_a_version_outside_it_replaces_it(pen, setup):
    first = pen.filed("front-end/lamp broken")
    one = pen.amended(first, "front-end/lamp bent")
    other = pen.amended(one, "front-end/grille missing")
    one["data"]["replaces"] = ids([first, other])
    last = pen.amended([one], "front-end/badge missing")
    assert list(jobs([first, one, other, last], setup)) == ["front-end/badge"]


def test_a_withdrawn_report_leaves_no_job(pen, setup):
    first = pen.filed("front-end/lamp broken")
    assert jobs([first, pen.withdrawn(first)], setup) == {}


def test_a_safety_critical_finding_taken_back_stays_to_be_looked_at(pen, setup):
    first = pen.filed(f"{HOSE} leaking")
    job = jobs([first, pen.withdrawn(first)], setup)[HOSE]
    assert (job.condition, job.retracted, job.findings) == ("unknown", True, [first["id"]])
    assert (job.inspection, job.uncovered) == ("needed", [first["id"]])


def test_what_was_retracted_goes_once_a_later_version_names_its_key_directly(pen, setup):
    first = pen.filed(f"{HOSE} leaking")
    second = pen.amended(first, "front-left/wheel marked")
    third = pen.amended(second, f"{HOSE} marked", "front-left/wheel marked")
    assert jobs([first, second], setup)[HOSE].retracted
    job = jobs([first, second, third], setup)[HOSE]
    assert (job.findings, job.condition, job.retracted) == ([third["id"]], "marked", False)


def test_a_knock_on_of_a_later_version_does_not_make_up_for_what_was_retracted(pen, setup):
    first = pen.filed(f"{HOSE} leaking")
    second = pen.amended(first, f"{WHEEL} bent")
    job = jobs([first, second], setup)[HOSE]
    assert job.findings == ids([first, second])
    assert (job.retracted, job.knock_on, job.condition) == (False, False, "unknown")


def test_a_ring_mate_does_not_overrule_what_was_retracted(pen, setup):
    first = pen.filed(f"{HOSE} leaking")
    one = pen.amended(first, f"{HOSE} marked")
    other = pen.amended(one, "front-left/wheel marked")
    one["data"]["replaces"] = ids([first, other])
    last = pen.amended([one, other], "front-left/wheel marked")
    # `one` names the hose below `first`, so that overrules `first`; nothing outside the ring overrules `one`.
    assert jobs([first, one, other, last], setup)[HOSE].findings == ids([one])


def test_bare_and_knock_on_findings_go_when_their_source_is_amended_away(pen, setup):
    bare = pen.entry("report.filed", zone="cabin")
    wheel = pen.filed(f"{WHEEL} bent")
    found = jobs([bare, pen.withdrawn(bare), wheel, pen.amended(wheel, f"{WHEEL} marked")], setup)
    assert list(found) == [WHEEL]


def test_damage_knocks_on_in_its_zone_and_beyond_where_the_map_lists_it(pen, setup):
    found = jobs([pen.filed(f"{WHEEL} bent")], setup)
    assert {key: job.condition for key, job in found.items() if job.knock_on} == {
        HUB: "unknown",
        HOSE: "unknown",
        "front-end/bumper": "unknown",
    }
    assert not found[WHEEL].knock_on


def test_a_zone_that_does_not_list_the_component_gets_no_knock_on_there(pen, setup):
    found = jobs([pen.filed("front-right/wheel bent")], setup)
    assert set(found) == {"front-right/wheel", "front-right/brake-hose", "front-end/bumper"}


def test_a_condition_that_the_rule_does_not_name_knocks_nothing_on(pen, setup):
    assert list(jobs([pen.filed(f"{WHEEL} worn")], setup)) == [WHEEL]


def test_knock_on_makes_no_chain(pen, setup):
    # The map says: a hub to be looked at shows its arm. A knocked-on hub does not; a reported one does.
    assert "front-left/arm" not in jobs([pen.filed(f"{WHEEL} bent")], setup)
    assert "front-left/arm" in jobs([pen.filed(HUB)], setup)


def test_one_entry_names_one_key_once_direct_before_knock_on(pen, setup):
    job = jobs([pen.filed(f"{WHEEL} bent", f"{HUB} bent")], setup)[HUB]
    assert (job.condition, job.knock_on, len(job.findings)) == ("bent", False, 1)


def test_one_entry_names_one_key_once_the_worse_condition_first(pen, setup):
    job = jobs([pen.filed("front-left/tie loose", "front-left/tie bent")], setup)["front-left/tie"]
    # The tie's own list has loose worse than bent, against the common order.
    assert job.condition == "loose"
    outside = jobs([pen.filed("front-left/tie loose", "front-left/tie worn")], setup)["front-left/tie"]
    assert outside.condition == "worn"


def test_at_hand_over_only_what_is_safety_critical_counts(pen, setup):
    before = pen.filed(f"{WHEEL} bent", f"{HUB} bent", where="hand-over")
    found = jobs([before], setup)
    assert list(found) == [HOSE]
    assert found[HOSE].knock_on


def test_a_safety_critical_component_at_hand_over_is_a_job(pen, setup):
    assert list(jobs([pen.filed("cabin/harness marked", where="hand-over")], setup)) == ["cabin/harness"]


def test_a_bare_hand_over_is_no_job_but_an_unknown_symptom_is(pen, setup):
    assert jobs([pen.entry("report.filed", zone="cabin", where="hand-over")], setup) == {}
    odd = pen.entry("report.filed", zone="cabin", where="hand-over", symptoms=["smells-odd"])
    assert list(jobs([odd], setup)) == ["cabin/unknown"]

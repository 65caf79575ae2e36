"""The queue's order, estimates, parts that run short and totals, on figures that can be calculated by hand."""

import pytest

from making import ids, queue
from shuntbook.kit.canonical import canonical, sha256
from small_event import FILES, OPERATIONS, small_setup

LAMP, GRILLE, BUMPER, HOSE = "front-end/lamp", "front-end/grille", "front-end/bumper", "front-left/brake-hose"


def order(answer):
    return [job["job"] for job in answer["jobs"]]


def job(answer, key):
    return next(job for job in answer["jobs"] if job["job"] == key)


def test_safety_comes_first_then_must_do_then_value_per_mechanic_minute_then_the_key(pen, setup):
    wheel = pen.filed("front-left/wheel bent")  # must-do; knocks on hub (value 0), hose (safety), bumper
    ends = pen.filed(f"{LAMP} broken", f"{GRILLE} missing", f"{BUMPER} bent", "front-end/badge missing")
    assert order(queue([wheel, ends], setup)) == [
        HOSE,  # safety-critical
        "front-left/wheel",  # must-do: 50 / 4.5
        LAMP,  # 20 / (1 × 2) = 10
        BUMPER,  # 10 / 2 = 5, equal to the grille: by key
        GRILLE,  # 15 / 3 = 5
        "front-end/badge",  # no row: 0
        "front-left/hub",  # to be looked at: 0
    ]


def test_what_is_over_comes_last_even_if_it_is_safety_critical(pen, setup):
    hose, badge = pen.filed(f"{HOSE} marked"), pen.filed("front-end/badge missing")
    entries = [hose, badge, pen.passed(HOSE, hose)]
    assert order(queue(entries, setup)) == ["front-end/badge", HOSE]


def test_keys_are_ordered_by_code_point(pen):
    component_map = FILES["car_map.toml"].replace(b'"badge"]', '"badge", "Zier", "ärmel", "zier"]'.encode())
    setup = small_setup(car_map=component_map)
    report = pen.filed(*(f"front-end/{name} missing" for name in ("ärmel", "zier", "Zier", "badge")))
    assert order(queue([report], setup)) == [f"front-end/{name}" for name in ("Zier", "badge", "zier", "ärmel")]


def test_an_estimate_follows_its_row(pen, setup):
    estimate = job(queue([pen.filed("front-left/wheel bent")], setup), "front-left/wheel")["estimate"]
    # (3 + 4·4 + 8) / 6 = 4.5 minutes × 1 mechanic × 60.00 an hour = 4.50; a rim is 210.00.
    assert estimate == {
        "minutes_best": 3,
        "minutes_likely": 4,
        "minutes_worst": 8,
        "minutes_expected": 4.5,
        "mechanics": 1,
        "access": ["car-on-stands"],
        "labour": "4.50",
        "parts": [{"part": "rim", "qty": 1, "unit_cost": "210.00", "short": 0}],
        "parts_cost": "210.00",
        "total": "214.50",
        "currency": "EUR",
    }


def test_access_steps_are_named_once_in_order_and_parts_in_order(pen):
    operations = OPERATIONS.replace(b"car-on-stands,rim,", b"wheel-off;car-on-stands;wheel-off,rim*2;hose;rim,")
    estimate = job(queue([pen.filed("front-left/wheel bent")], small_setup(operations=operations)), "front-left/wheel")
    assert estimate["estimate"]["access"] == ["car-on-stands", "wheel-off"]
    assert [(part["part"], part["qty"]) for part in estimate["estimate"]["parts"]] == [("hose", 1), ("rim", 3)]


def test_a_row_of_the_zone_goes_before_one_without(pen, setup):
    answer = queue([pen.filed("front-right/wheel bent")], setup)
    found = job(answer, "front-right/wheel")
    assert (found["action"], found["estimate"]["minutes_expected"], found["must_do"]) == ("press", 6, False)


def test_what_is_unknown_is_inspected_by_one_at_its_groups_minutes(pen, setup):
    answer = queue([pen.filed("cabin/main-hoop"), pen.filed(HOSE)], setup)
    hoop, hose = job(answer, "cabin/main-hoop"), job(answer, HOSE)
    assert (hoop["action"], hoop["estimate"]["minutes_expected"], hoop["estimate"]["mechanics"]) == ("inspect", 10, 1)
    assert (hose["action"], hose["estimate"]["minutes_expected"], hose["no_rate"]) == ("inspect", 2, False)


def test_what_has_no_row_is_assessed_and_never_dropped(pen, setup):
    found = job(queue([pen.filed("front-end/badge missing")], setup), "front-end/badge")
    assert (found["action"], found["no_rate"], found["estimate"]["total"]) == ("assess", True, "6.00")
    assert (found["must_do"], found["estimate"]["parts"], found["estimate"]["access"]) == (False, [], [])


def test_must_do_is_safety_not_passed_or_a_row_that_says_so_and_is_not_over(pen, setup):
    wheel, hose = pen.filed("front-right/wheel marked"), pen.filed(f"{HOSE} marked")
    bent = pen.filed("front-left/wheel bent")
    entries = [wheel, hose, bent]
    before = queue(entries, setup)
    assert [job(before, key)["must_do"] for key in ("front-right/wheel", HOSE, "front-left/wheel")] == [
        False,
        True,
        True,
    ]
    look, repair = pen.passed(HOSE, hose, bent), pen.finished("front-left/wheel", bent)
    after = queue([*entries, look, repair], setup)
    assert [job(after, key)["must_do"] for key in (HOSE, "front-left/wheel")] == [False, False]


def test_a_finished_safety_job_that_nobody_passed_is_still_must_do(pen, setup):
    hose = pen.filed(f"{HOSE} leaking")
    found = job(queue([hose, pen.finished(HOSE, hose)], setup), HOSE)
    assert (found["state"], found["must_do"]) == ("finished", True)


def test_parts_run_short_in_the_queues_order(pen, setup):
    # The van has 2 rims and 3 hoses; a leaking hose takes 2.
    one, two = pen.filed(f"{HOSE} leaking"), pen.filed("front-right/brake-hose leaking")
    answer = queue([one, two], setup)
    parts = {key: job(answer, key)["estimate"]["parts"] for key in (HOSE, "front-right/brake-hose")}
    assert parts[HOSE] == [{"part": "hose", "qty": 2, "unit_cost": "35.55", "short": 0}]
    assert parts["front-right/brake-hose"] == [{"part": "hose", "qty": 2, "unit_cost": "35.55", "short": 1}]


def test_an_empty_van_is_short_of_what_a_job_needs_and_no_more(pen):
    setup = small_setup(van=b"part,loaded\nhose,1\n")
    one, two = pen.filed(f"{HOSE} leaking"), pen.filed("front-right/brake-hose leaking")
    answer = queue([one, two], setup)
    assert [job["estimate"]["parts"][0]["short"] for job in answer["jobs"]] == [1, 2]


def test_what_any_car_used_is_gone_from_the_van(pen, setup):
    used = pen.finished("front-left/wheel", car="42", parts=[{"part": "rim", "qty": 1.5}])
    wheel = pen.filed("front-left/wheel bent")
    (part,) = job(queue([wheel, used], setup), "front-left/wheel")["estimate"]["parts"]
    assert part["short"] == 0.5


def test_more_used_than_loaded_leaves_nothing_but_no_debt(pen, setup):
    used = pen.finished("front-left/wheel", parts=[{"part": "rim", "qty": 9}])
    wheel = pen.filed("front-left/wheel bent")
    (part,) = job(queue([wheel, used], setup), "front-left/wheel")["estimate"]["parts"]
    assert part["short"] == 1


def test_jobs_that_are_over_are_short_of_nothing_and_take_nothing(pen, setup):
    lamp = pen.filed(f"{LAMP} broken")
    done = pen.finished(LAMP, lamp)
    used = pen.finished(LAMP, parts=[{"part": "lamp", "qty": 1}])
    (part,) = job(queue([lamp, done, used], setup), LAMP)["estimate"]["parts"]
    assert part["short"] == 0


def test_a_part_that_the_van_was_not_loaded_with_is_all_short(pen, setup):
    (part,) = job(queue([pen.filed(f"{GRILLE} missing")], setup), GRILLE)["estimate"]["parts"]
    assert part["short"] == 1


def test_totals_open_each_access_step_once_for_the_car_or_once_a_zone(pen, setup):
    left = pen.filed(f"{HOSE} leaking", "front-left/hub bent")
    right = pen.filed("front-right/brake-hose leaking")
    totals = queue([left, right], setup)["totals"]
    # Work: hoses 6 × 1 twice, hub 10 × 2 = 32. Access: stands (2 + 1) × 2 = 6 once, wheel off (1 + 1) × 1 = 2 a corner.
    assert totals["access_minutes"] == 10
    assert totals["mechanic_minutes"] == 42
    assert totals["labour"] == "42.00"
    assert totals["parts_cost"] == "142.20"
    assert totals["total"] == "184.20"


def test_totals_leave_out_what_is_over(pen, setup):
    lamp, grille = pen.filed(f"{LAMP} broken"), pen.filed(f"{GRILLE} missing")
    entries = [lamp, grille, pen.finished(LAMP, lamp), pen.passed(GRILLE, grille)]
    assert queue(entries, setup)["totals"] == {
        "mechanic_minutes": 0,
        "access_minutes": 0,
        "labour": "0.00",
        "parts_cost": "0.00",
        "total": "0.00",
    }


def test_each_line_is_rounded_once_and_totals_add_rounded_lines(pen):
    header, third = OPERATIONS.splitlines()[0], b"%s,bent,straighten,0.25,0.25,0.75,1,,,false,0,"
    table = b"\n".join([header, *(third % name for name in (b"lamp", b"grille", b"badge"))])
    report = pen.filed(f"{LAMP} bent", f"{GRILLE} bent", "front-end/badge bent")
    answer = queue([report], small_setup(operations=table))
    # (0.25 + 1 + 0.75) / 6 = a third of a minute at 1.00 a minute: three lines of 0.33 are 0.99 and not 1.00.
    assert {job["estimate"]["labour"] for job in answer["jobs"]} == {"0.33"}
    assert answer["totals"]["labour"] == "0.99"
    assert answer["totals"]["mechanic_minutes"] == 1


@pytest.mark.parametrize(("code", "labour"), [("JPY", "5"), ("KWD", "4.500")])
def test_a_line_has_the_decimals_of_its_currency(pen, code, labour):
    rates = f'currency = "{code}"\nlabour_per_hour = 60\n'.encode()
    parts = b"part,description,unit_cost\nrim,Rim,210\nhose,H,35\nlamp,L,80\ngrille,G,12\n"
    estimate = job(
        queue([pen.filed("front-left/wheel bent")], small_setup(rates=rates, parts=parts)), "front-left/wheel"
    )
    assert estimate["estimate"]["labour"] == labour


def test_the_hash_is_the_sha256_of_the_queue_without_it_in_rfc_8785_form(pen, setup):
    answer = queue([pen.filed("front-left/wheel bent"), pen.filed(f"{LAMP} broken")], setup)
    rest = {name: value for name, value in answer.items() if name != "hash"}
    assert answer["hash"] == sha256(canonical(rest))


def test_what_only_tells_a_story_changes_neither_jobs_nor_release(pen, setup):
    entries = [pen.filed(f"{LAMP} broken"), pen.filed(f"{HOSE} leaking")]
    story = [
        pen.entry("stage.nothing_seen", stage="SS1"),
        pen.entry("cost.adjusted", line=LAMP, amount="5"),
        pen.entry("photo.linked", LAMP, photo="ab" * 32),
        pen.entry("reading.taken", reading="oil", value=1),
        pen.entry("incident.grouped", reports=ids(entries), title="bank"),
        pen.entry("car.retired", stage="SS2"),
        pen.entry("driver.changed", driver="p-toma"),
    ]
    before, after = queue(entries, setup), queue([*entries, *story], setup)
    assert after["entries"] == before["entries"] + len(story)
    for same in ("jobs", "totals", "release", "hold_reasons", "released_unseen"):
        assert after[same] == before[same]

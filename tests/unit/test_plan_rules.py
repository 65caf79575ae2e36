"""Each rule of a valid plan against a plan made by hand that breaks just it."""

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

import pytest

from chief_service import ANNI, BODO, FR, ILKA, KASP, ODIL, PEOPLE, by_hand, plan, service, task
from making import Json
from plan_rules import COMING, RULES, broken_rules, by_rule

Tasks = list[Json]
Change = Callable[[Tasks], Tasks]
FIRST = '[[routine]]\ntask = "mats"\nminutes = [0.5, 0.5, 0.5]\nzone = "front"\nvital = true\nwhen = "first"'
BOTH = tuple((person, '["mechanic", "inspector"]' if person == KASP else roles) for person, roles in PEOPLE)


class Broken(NamedTuple):
    """A rule, the change of the plan by hand that breaks it, words of what is said, and what the plan is made of."""

    rule: str
    change: Change
    said: str
    left_out: Mapping[str, str] = {}
    told: Mapping[str, object] = {}
    given: Mapping[str, Any] = {}
    mechanics: int | None = None


def moved(name: str, start: int, end: int, people: tuple[str, ...] | None = None, **more: object) -> Change:
    """Move a task of this name, the last of it, and give it to others."""

    def change(tasks: Tasks) -> Tasks:
        one = [task for task in tasks if task["task"] == name][-1]
        one.update(start_s=start, end_s=end, people=list(people or one["people"]), **more)
        return tasks

    return change


def both(*changes: Change) -> Change:
    def change(tasks: Tasks) -> Tasks:
        for one in changes:
            tasks = one(tasks)
        return tasks

    return change


def without(*names: str) -> Change:
    return lambda tasks: [task for task in tasks if task["task"] not in names]


def added(name: str, kind: str, start: int, end: int, people: tuple[str, ...], zone: str, **of: object) -> Change:
    return lambda tasks: [*tasks, task(name, kind, start, end, people, zone, of)]


def later(since: int, by: int) -> Change:
    """Move all that starts at some time or later."""

    def change(tasks: Tasks) -> Tasks:
        for one in tasks:
            if one["start_s"] >= since:
                one.update(start_s=one["start_s"] + by, end_s=one["end_s"] + by)
        return tasks

    return change


def only(*tasks: Json) -> Change:
    return lambda _: list(tasks)


LOOK, MIRROR, TYRE = "inspect front-right", "replace left-side/mirror", "swap front-right/tyre"
PEDAL, NUTS, FLAP = "pedal-held front-right/brake-hose", "wheel-nut-torque front-right", "refit rear-left/mud-flap"
LAMP, GAUGE, TOOLS = "tighten front/lamp-bracket", "routine gauge-check", "routine tools-counted"
HANDLE, OIL = ("left-side", [("handle", "unknown")]), ("engine-bay", [("oil-cap", "leaking")])
LOOSE = ("engine-bay", [("oil-cap", "loose")])
HOOP, SILL = ("cabin", [("main-hoop", "cracked")]), ("floor", [("sill", "bent")])
ROUTINE = ("levels", "loose-wheels", "belts", "gauge-check", "tools-counted")
# One mechanic, mirror and flap: the sill, 18 of 23 minutes, would fit in their place and not beside them.
ONLY_VALUE = only(
    task(MIRROR, "work", 0, 180, [BODO], "left-side", {"job": "left-side/mirror"}),
    task(FLAP, "work", 180, 360, [BODO], "rear-left", {"job": "rear-left/mud-flap"}),
)
THE_REST = {
    "floor/sill": "time", "front/lamp-bracket": "people", **dict.fromkeys((f"routine {r}" for r in ROUTINE), "people"),
    **{f"front-right/{part}": "people" for part in ("tyre", "brake-hose", "upright", "track-rod-end")},
    "floor/brake-pipe": "people",
}  # fmt: skip
NEEDS = {"minutes": 33, "leave_late_min": 3, "penalty_s": 30}

BROKEN = (
    Broken("only_who_is_there", moved(TOOLS, 1020, 1080, ("p-toma",)), "p-toma works on"),
    Broken("only_who_is_there", list, "before 3:45", told={"people": [{"person": BODO, "from_s": 225}]}),
    Broken("the_right_people", moved(TOOLS, 1020, 1080, (BODO, KASP)), "takes 1, and has 2"),
    Broken("the_right_people", moved(LAMP, 870, 990, (ODIL,)), "no mechanic"),
    Broken(
        "the_right_people",
        both(
            moved("close bonnet-up", 720, 735),
            added("tighten engine-bay/oil-cap", "work", 600, 720, (BODO,), "engine-bay", job="engine-bay/oil-cap"),
        ),
        "nobody with the skill oils",
        given={"more_hits": [LOOSE]},
    ),
    Broken("nobody_in_two_places", moved(MIRROR, 210, 390, (ANNI,)), "p-anni is at"),
    Broken(
        "a_place_holds_its_people",
        both(
            moved(MIRROR, 510, 690),
            added("inspect left-side/handle", "work", 600, 720, (ANNI,), "left-side", job="left-side/handle"),
        ),
        "left-side holds 1, at 10:00",
        given={"more_hits": [HANDLE]},
    ),
    Broken("a_task_is_where_its_job_is", moved(MIRROR, 210, 390, zone=""), "not in left-side"),
    Broken("nobody_at_a_moving_car", moved(FLAP, 690, 870), "during close car-on-stands"),
    Broken("nobody_at_a_moving_car", moved("close bonnet-up", 780, 795), "close bonnet-up"),
    Broken("on_the_grid", moved(MIRROR, 217, 397), "off the grid"),
    Broken("nothing_ends_too_late", moved(TOOLS, 1335, 1395), "ends after the time for work"),
    Broken("nothing_ends_too_late", list, "16 min late", told={"late_min": 16}),
    Broken("the_time_for_work", list, "there are 23.0 minutes", told={"work_s": 1500, "spare_s": 420}),
    Broken("the_time_for_work", list, "do not follow", told={"finish_s": 1095}),
    Broken(
        "a_step_opens_and_closes_once",
        added("open bonnet-up", "open", 600, 615, (ANNI,), "", step="bonnet-up"),
        "opens 2 and closes 1 times",
    ),
    Broken("what_needs_a_step_is_done_while_it_is_open", moved("routine levels", 570, 750), "while bonnet-up is open"),
    Broken(
        "a_steps_needs_are_open_around_it",
        both(moved("close guard-off", 870, 960), moved(GAUGE, 960, 1020)),
        "while car-on-stands is open",
    ),
    Broken("a_task_takes_its_expected_minutes", moved(MIRROR, 210, 375), "lasts 2:45, not 3:00"),
    Broken(
        "a_task_takes_its_expected_minutes",
        both(moved("inspect floor", 300, 435), moved("close guard-off", 435, 525)),
        "lasts 2:15, not 2:00",
    ),
    Broken("after_is_respected", moved(TYRE, 510, 630, (BODO,)), "comes before replace front-right/brake-hose"),
    Broken(
        "open_fuel_stops_all_else",
        both(
            moved("close bonnet-up", 720, 735),
            added("seal engine-bay/oil-cap", "work", 600, 720, (ANNI,), "engine-bay", job="engine-bay/oil-cap"),
        ),
        "goes on during seal engine-bay/oil-cap",
        given={"more_hits": [OIL]},
    ),
    Broken("ground_work_is_on_the_ground", moved(LAMP, 510, 630, (BODO,)), "off the ground"),
    Broken("then_checks_follow", without(PEDAL), "stands 0 times"),
    Broken("then_checks_follow", moved(PEDAL, 570, 600, (KASP,)), "is by who did"),
    Broken("then_checks_follow", moved(PEDAL, 540, 570), "comes before replace"),
    Broken(
        "wheel_nuts_are_checked_on_the_ground_by_another",
        both(moved(TYRE, 600, 720, (BODO,)), moved(NUTS, 870, 900, (KASP,)), moved(LAMP, 900, 1020)),
        "by the same people",
    ),
    Broken("routine_keeps_its_when", moved(GAUGE, 690, 750), "comes after routine gauge-check"),
    Broken("routine_keeps_its_when", moved(TOOLS, 930, 990), "comes after routine tools-counted"),
    Broken(
        "routine_keeps_its_when",
        added("routine mats", "routine", 120, 150, (ODIL,), "front"),
        "comes before routine mats",
        given={"more": FIRST},
    ),
    Broken("every_open_job_is_planned_or_left_out", without(MIRROR), "left-side/mirror is neither"),
    Broken("every_open_job_is_planned_or_left_out", list, "or both", left_out={"left-side/mirror": "part"}),
    Broken("every_open_job_is_planned_or_left_out", without(MIRROR), "no reason", left_out={"left-side/mirror": ""}),
    Broken(
        "an_inspection_has_open_what_it_needs",
        both(moved(MIRROR, 480, 660), moved("close guard-off", 390, 480)),
        "while guard-off is open",
    ),
    Broken(
        "inspections_of_a_place_are_one",
        lambda tasks: both(
            lambda tasks: [t for t in tasks if t["start_s"] != 150 or t["kind"] != "inspect"],
            added(LOOK, "inspect", 150, 270, (ODIL,), FR, jobs=["front-right/track-rod-end"]),
            added(LOOK, "inspect", 270, 390, (ODIL,), FR, jobs=["front-right/upright"]),
            moved("inspect floor", 390, 510),
            moved("close guard-off", 510, 600),
        )(tasks),
        "front-right is inspected 2 times",
    ),
    Broken(
        "an_inspection_is_of_one_place",
        both(
            lambda tasks: [t for t in tasks if t["start_s"] != 150 or t["kind"] != "inspect"],
            moved("inspect floor", 210, 330),
            later(720, 60),
            moved(LOOK, 600, 780, jobs=[f"{FR}/brake-hose", f"{FR}/track-rod-end", f"{FR}/upright"]),
        ),
        "not inspected at once",
    ),
    Broken(
        "what_is_safety_critical_is_inspected",
        lambda tasks: [t for t in tasks if t["start_s"] != 600 or t["kind"] != "inspect"],
        "front-right/brake-hose is inspected 0 times",
    ),
    Broken("an_inspector_inspects_who_did_not_repair", moved(LOOK, 600, 720, (BODO,)), "p-bodo is no inspector"),
    Broken(
        "an_inspector_inspects_who_did_not_repair",
        both(moved(LOOK, 600, 720, (KASP,)), moved(TYRE, 600, 720, (BODO,))),
        "p-kasp did replace",
        given={"people": BOTH},
    ),
    Broken("a_repair_is_inspected_before_its_access_closes", moved(LOOK, 480, 600), "comes before replace"),
    Broken("a_repair_is_inspected_before_its_access_closes", moved(LOOK, 630, 750), "needs open is closed"),
    Broken(
        "what_waits_for_no_repair_is_inspected_at_once",
        both(moved("inspect floor", 330, 450), moved("close guard-off", 450, 540)),
        "could be at 5:00",
    ),
    Broken(
        "a_cage_waits_for_the_official",
        added("inspect cabin", "inspect", 450, 570, (ODIL,), "cabin", jobs=["cabin/main-hoop"]),
        "ticks a cage",
        given={"more_hits": [HOOP]},
    ),
    Broken(
        "nothing_fits_that_is_left_out_for_time", without(FLAP), "and fits at", left_out={"rear-left/mud-flap": "time"}
    ),
    Broken(
        "nothing_fits_that_is_left_out_for_time",
        ONLY_VALUE,
        "fits at 0:00 without left-side/mirror, rear-left/mud-flap",
        left_out=THE_REST,
        given={"more_hits": [SILL]},
        mechanics=1,
    ),
    Broken(
        "idle_hands_do_what_has_no_value",
        list,
        "left-side/handle, without value",
        left_out={"left-side/handle": "value"},
        given={"more_hits": [HANDLE]},
    ),
    Broken(
        "safety_is_not_left_out_while_late_is_allowed",
        without("inspect floor", "open guard-off", "close guard-off"),
        "3 min late are allowed",
        left_out={"floor/brake-pipe": "time"},
        told={"needs": NEEDS},
    ),
)


def judged(case: Broken) -> dict[str, list[str]]:
    setup, queue = service(**case.given)
    told = plan(case.change(by_hand()), case.left_out, **case.told)
    return {rule: said for rule, said in by_rule(told, queue, setup, case.mechanics).items() if said}


def test_the_plan_made_by_hand_keeps_every_rule() -> None:
    setup, queue = service()
    assert {rule: said for rule, said in by_rule(plan(by_hand()), queue, setup).items() if said} == {}
    assert broken_rules(plan(by_hand()), queue, setup) == []


@pytest.mark.parametrize("case", BROKEN, ids=lambda case: f"{case.rule}: {case.said}")
def test_a_plan_that_breaks_one_rule_is_told_of_that_one(case: Broken) -> None:
    found = judged(case)
    assert list(found) == [case.rule], found
    assert any(case.said in said for said in found[case.rule]), found


def test_every_rule_has_a_plan_that_breaks_it_and_what_is_to_come_are_rules() -> None:
    assert {case.rule for case in BROKEN} == set(RULES)
    assert set(RULES) >= COMING


def test_what_a_broken_rule_says_names_task_person_and_time() -> None:
    found = judged(Broken("nobody_in_two_places", moved(MIRROR, 210, 390, (ANNI,)), ""))
    assert found["nobody_in_two_places"] == [
        "p-anni is at refit rear-left/mud-flap (3:00-6:00, p-anni) and at replace left-side/mirror (3:30-6:30, p-anni)",
        "p-anni is at replace left-side/mirror (3:30-6:30, p-anni) and at open bonnet-up (6:00-6:15, p-anni)",
    ]


def test_one_of_the_crew_works_where_a_row_says_so() -> None:
    setup, queue = service()
    assert broken_rules(plan(moved(PEDAL, 570, 600, (ILKA,))(by_hand())), queue, setup) == []

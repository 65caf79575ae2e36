"""Several cars planned together: late where what holds them does not fit, and planned again near to what was shown."""

import json
from collections.abc import Callable
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest
from command import printed, run
from msgspec import to_builtins

from making import Json
from phone import EVENT, Phone
from plan_rules import broken_rules
from shuntbook.flow import answers
from shuntbook.flow.team import TeamPlanRequest, team_plan, team_plan_at_once
from shuntbook.plan.problem import Problem, Schedule
from shuntbook.plan.solve import Effort, solve
from shuntbook.plan.team_context import Team, shown_team
from shuntbook.plan.told import TeamPlan
from shuntbook.store import setups
from shuntbook.store.database import Store

BOTH = (("41", "A"), ("42", "A"))
QUICK = Effort(deterministic_s=0.05)


def keeps_every_rule(store: Store, found: TeamPlan) -> bool:
    setup = setups.get(store.db, EVENT)
    return not [
        broken for car in found.cars for broken in broken_rules(car, answers.queue(store, EVENT, car.car), setup)
    ]


def test_where_what_holds_a_car_does_not_fit_the_team_says_which_leaves_how_late(sample_store: Store) -> None:
    found = team_plan_at_once(sample_store, EVENT, TeamPlanRequest(BOTH))
    assert keeps_every_rule(sample_store, found)
    # Counting the tools of car 42 is vital, comes after all else on it, and the team is busy with two cars.
    late = {car.car: car.late_min for car in found.cars}
    assert late["42"] > 0
    for car in found.cars:
        # The sample's rules: 10 s for each minute late, 15 minutes at most; the tasks end within the minutes said.
        assert car.penalty_s == 10 * car.late_min
        assert car.late_min <= 15
        assert car.finish_s <= car.work_s + 60 * car.late_min
        assert not [task for task in car.tasks if task.end_s > car.work_s] or car.late_min
        vital = [one.job for one in car.left_out if one.job == "routine tools-counted"]
        assert vital == []
        (on_hold,) = [one for one in car.others if one.choice == "on-hold"]
        assert (on_hold.late_min, on_hold.penalty_s) == (0, 0)
        assert on_hold.finish_s <= car.work_s
    second = next(car for car in found.cars if car.car == "42")
    assert second.needs is not None
    assert (second.needs.leave_late_min, second.needs.minutes) == (late["42"], second.minutes + late["42"])
    assert "routine tools-counted" in [
        one.job for other in second.others if other.choice == "on-hold" for one in other.left_out
    ]


def of_what_holds_alone(problem: Problem, start: Schedule | None, effort: Effort) -> Schedule | None:
    """A solver that has no time for more than what holds the cars."""
    return None if problem.values else solve(problem, start, effort)


def test_what_holds_a_car_is_not_left_out_for_want_of_time_to_look_for_the_rest(sample_store: Store) -> None:
    found = team_plan(sample_store, EVENT, TeamPlanRequest((("41", "B"), ("42", "B"))), of_what_holds_alone)
    assert keeps_every_rule(sample_store, found)
    for car in found.cars:
        assert car.needs is not None
        assert car.late_min == car.needs.leave_late_min > 0


@pytest.mark.longer
def test_a_team_is_planned_again_as_it_was_shown(sample_store: Store) -> None:
    asked = TeamPlanRequest(BOTH, on_time_percent=0, effort=QUICK)
    first = team_plan(sample_store, EVENT, asked)
    shown = shown_team(to_builtins(first))
    again = team_plan(sample_store, EVENT, TeamPlanRequest(BOTH, on_time_percent=0, previous=shown, effort=QUICK))
    assert keeps_every_rule(sample_store, again)
    for before, after in zip(first.cars, again.cars, strict=True):
        assert (before.late_min, before.tasks) == (after.late_min, after.tasks)


def test_the_rest_of_a_team_is_planned_from_a_moment_on_by_its_clock(sample_store: Store) -> None:
    first = team_plan_at_once(sample_store, EVENT, TeamPlanRequest(BOTH))
    at = datetime.fromisoformat(first.starts_at) + timedelta(minutes=9)
    shown = shown_team(to_builtins(first))
    found = team_plan_at_once(sample_store, EVENT, TeamPlanRequest(BOTH, at=at, previous=shown))
    busy: list[tuple[int, int, str]] = []
    for car in found.cars:
        # Both came in before: nothing that is not under way starts before these nine minutes are over.
        assert car.offset_s + car.now_s == 9 * 60
        assert all(task.start_s >= car.now_s for task in car.tasks if task.state == "planned")
        # By the log both are on stands, and one set is all that the event names: both come down, neither goes up.
        steps = [(task.kind, task.step) for task in car.tasks if task.step == "car-on-stands"]
        assert steps == [("close", "car-on-stands")]
        assert {one.task for one in car.done} & {task.task for task in car.tasks} == set()
        busy += [(t.start_s + car.offset_s, t.end_s + car.offset_s, who) for t in car.tasks for who in t.people]
    busy.sort(key=lambda one: (one[2], one[0]))
    assert not [(one, two) for one, two in pairwise(busy) if one[2] == two[2] and two[0] < one[1]]


def test_a_car_that_is_not_in_yet_waits_for_its_hour_and_nothing_of_it_is_planned_in_the_past(
    sample_store: Store,
) -> None:
    # Service E has not begun in the sample's log: both cars are expected by the itinerary.
    visits = (("41", "E"), ("42", "E"))
    plain = team_plan_at_once(sample_store, EVENT, TeamPlanRequest(visits))
    at = datetime.fromisoformat(plain.starts_at) + timedelta(minutes=5)
    found = team_plan_at_once(sample_store, EVENT, TeamPlanRequest(visits, at=at))
    assert keeps_every_rule(sample_store, found)
    assert min(task.start_s + car.offset_s for car in plain.cars for task in car.tasks) < 5 * 60
    assert min(task.start_s + car.offset_s for car in found.cars for task in car.tasks) >= 5 * 60


def test_a_team_asks_over_http_for_all_of_it(phone: Callable[[str], Phone], app, sample_store: Store) -> None:
    app.extensions["shuntbook.planner"].solver.stop()  # the plan made at once will do
    one = phone("mechanic")

    def asked(**more: object) -> Json:
        body = {"visits": [{"car": car, "service": service} for car, service in BOTH], **more}
        response = one.client.post(f"/api/v1/events/{EVENT}/plan", json=body, headers=one.headers)
        assert response.status_code == 200, response.text
        return response.get_json()

    first = asked(on_time_percent=0)
    # What a plan says beside its tasks may be sent along, and counts for nothing.
    again = asked(on_time_percent=0, previous=first)
    assert [car["tasks"] for car in again["cars"]] == [car["tasks"] for car in first["cars"]]
    at = datetime.fromisoformat(first["starts_at"]) + timedelta(minutes=9)
    assert [car["now_s"] + car["offset_s"] for car in asked(at=at.isoformat())["cars"]] == [540, 540]
    body = {"visits": [{"car": "41", "service": "A"}], "previous": {"cars": [{"tasks": []}]}}
    response = one.client.post(f"/api/v1/events/{EVENT}/plan", json=body, headers=one.headers)
    assert response.status_code == 422


def test_a_team_is_planned_again_from_a_file(data_folder: Path, tmp_path: Path) -> None:
    command = ["team-plan", "--event", EVENT, "--at-once"]
    command += [word for car, service in BOTH for word in ("--visit", f"{car}={service}")]
    first = printed(*command, data=data_folder)
    file = tmp_path / "team.json"
    file.write_text(json.dumps(first))
    again = printed(*command, "--previous", file, data=data_folder)
    assert [car["tasks"] for car in again["cars"]] == [car["tasks"] for car in first["cars"]]
    file.write_text("[]")
    wrong = run(*command, "--previous", file, data=data_folder)
    assert wrong.returncode == 2
    assert "is no plan" in wrong.stderr
    assert "min late" in run(*command, data=data_folder).stdout


@pytest.mark.parametrize(
    ("away", "said"),
    [("p-bodo=soon", "the minute is a whole number"), ("p-bodoo=5", "p-bodoo is nobody in"), ("p-bodo", "should read")],
)
@pytest.mark.parametrize(
    "command", [("plan", "--car", "41", "--service", "A"), ("team-plan", "--visit", "41=A", "--visit", "42=A")]
)
def test_somebody_away_has_to_be_of_the_event_and_come_at_a_minute(
    data_folder: Path, command: tuple[str, ...], away: str, said: str
) -> None:
    wrong = run(*command, "--event", EVENT, "--away", away, data=data_folder)
    assert wrong.returncode == 2
    assert said in wrong.stderr
    if away == "p-bodoo=5":
        assert "p-bodo," in wrong.stderr, "who there is stands beside it"


@pytest.mark.parametrize("shift_s", [0, 60])
def test_a_clock_that_began_otherwise_is_told_by_its_start(shift_s: int) -> None:
    said = {
        "starts_at": "2026-06-13T10:22:00+02:00",
        "cars": [
            {"car": "41", "offset_s": 120, "tasks": [{"task": "a", "start_s": 45, "people": ["p"], "jobs": ["x"]}]}
        ],
    }
    shown = shown_team(said)
    assert shown is not None
    zero = datetime.fromisoformat(str(said["starts_at"])) - timedelta(seconds=shift_s)
    (told,) = Team([], zero, [], [], previous=shown).told()
    # 120 + 45 s after the start, in units of 15 s.
    assert (told.start, told.car, told.jobs) == (11 + shift_s // 15, "41", ("x",))

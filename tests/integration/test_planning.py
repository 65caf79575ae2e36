"""Plans over a real store and real HTTP: what the log says of a service, who may ask, what a plan never waits for."""

import subprocess
import sys
import time
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest
from command import printed
from flask import Flask
from process import DEADLINE_S
from solving_here import ENOUGH, Here

from longer import some
from making import Json, Pen
from phone import EVENT, Phone
from plan_rules import broken_rules
from shuntbook.flow import answers
from shuntbook.flow.planning import plan, plan_at_once, plans
from shuntbook.flow.team import TeamPlanRequest, team_plan
from shuntbook.kit.errors import NotFound, NotPossible
from shuntbook.plan.context import PlanRequest
from shuntbook.plan.solve import Effort
from shuntbook.store import setups
from shuntbook.store.database import Store
from shuntbook.wire.plan_schemas import PlanRequestSchema, TeamPlanRequestSchema

QUICK = Effort(deterministic_s=0.1)
"""For what a plan says beside itself."""
IN = "2026-06-14T10:12:00+02:00"
PATH = f"/events/{EVENT}/cars/41/plan"


def wish(service: str = "D", **more) -> PlanRequest:
    return PlanRequest(service, effort=QUICK, **more)


def at(minute: int, second: int = 0) -> datetime:
    return datetime.fromisoformat(IN).replace(minute=12 + minute, second=second)


@pytest.fixture
def planned_here(app: Flask) -> None:
    app.extensions["shuntbook.planner"].solver = Here()


def planned(one: Phone, come: Callable[[Json], bool], **body) -> Json:
    """Ask for a plan over HTTP until it has come to something."""
    end = time.monotonic() + DEADLINE_S
    while True:
        response = one.client.post(f"/api/v1{PATH}", json={"service": "D", **body}, headers=one.headers)
        assert response.status_code == 200, response.text
        if come(response.get_json()):
            return response.get_json()
        assert time.monotonic() < end, "the plan never came"
        # Each answer meanwhile is a plan made at once, by the very process that solves.
        time.sleep(0.2)


@pytest.fixture
def ask(planned_here: None, phone: Callable[[str], Phone]) -> Callable[..., Json]:
    """Ask as a mechanic until the solver's plan is there: one plan, where any chance to be late is taken."""
    return lambda **body: planned(phone("mechanic"), lambda plan: plan["by"] == "solver", on_time_percent=0, **body)


# In this order the short run's three are not those that take the solver longest.
@pytest.mark.parametrize(("car", "service"), some([(car, service) for car in ("41", "42") for service in "EABDC"], 6))
def test_the_sample_events_services_are_planned_by_the_rules(sample_store: Store, car: str, service: str) -> None:
    queue = answers.queue(sample_store, EVENT, car)
    setup = setups.get(sample_store.db, EVENT)
    for found in (
        plan_at_once(sample_store, EVENT, car, PlanRequest(service, effort=ENOUGH)),
        next(plans(sample_store, EVENT, car, PlanRequest(service, effort=ENOUGH))),
    ):
        assert broken_rules(found, queue, setup) == []
        assert (found.queue, found.rates, found.stale) == (queue.hash, queue.rates, False)
        assert 0 <= found.on_time <= 1


def test_fewer_mechanics_are_the_first_of_the_event(sample_store: Store) -> None:
    found = next(plans(sample_store, EVENT, "41", wish(mechanics=1)))
    assert [p.person for p in found.people if p.mechanic] == ["p-bodo"]
    queue, setup = answers.queue(sample_store, EVENT, "41"), setups.get(sample_store.db, EVENT)
    assert broken_rules(found, queue, setup, mechanics=1) == []


@pytest.mark.longer
def test_more_minutes_buy_no_less_and_the_least_time_is_one_of_them(sample_store: Store) -> None:
    found = plan(sample_store, EVENT, "41", wish("B", on_time_percent=0))
    needs = found.needs
    assert needs is not None
    # Safety-critical and vital work does not fit, so that the plan is late by what it needs, and rows go on from there.
    assert (found.late_min, found.penalty_s) == (needs.leave_late_min, needs.penalty_s)
    (on_hold,) = [one for one in found.others if one.choice == "on-hold"]
    assert on_hold.finish_s <= found.work_s < found.finish_s
    assert (on_hold.late_min, on_hold.penalty_s) == (0, 0)
    rows = [(item.leave_late_min, item.to_late_min, item.penalty_s) for item in found.later]
    minutes = [late for first, last, _ in rows for late in range(first, last + 1)]
    assert minutes == list(range(found.late_min + 1, 16))
    assert [penalty for _, _, penalty in rows] == [10 * first for first, _, _ in rows]
    assert needs.penalty_s == 10 * needs.leave_late_min
    assert needs.minutes == 15 + needs.leave_late_min
    # With that many minutes there is nothing left to need, with one less there is.
    assert plan(sample_store, EVENT, "41", wish("B", minutes=needs.minutes, on_time_percent=0)).needs is None
    assert plan(sample_store, EVENT, "41", wish("B", minutes=needs.minutes - 1, on_time_percent=0)).needs is not None


def test_hands_are_one_mechanic_fewer_and_one_more(sample_store: Store) -> None:
    found = plan(sample_store, EVENT, "41", wish(on_time_percent=0))
    assert [item.mechanics for item in found.hands] == [2, 4]
    fewer, more = found.hands
    assert not fewer.adds or fewer.drops
    assert not more.drops
    assert more.adds or more.finish_s <= found.finish_s


def entered(pen: Pen, service: str = "D", official_time: str = IN, **more) -> Json:
    return pen.entry("service.entered", None, person="p-bodo", service=service, official_time=official_time, **more)


def event_pen() -> Pen:
    return Pen(EVENT, start=900_000)


def test_what_is_under_way_stays_and_what_is_done_is_not_planned_again(sample_store: Store, phone, ask) -> None:
    pen, mechanic = event_pen(), phone("mechanic")
    before = ask()
    started = next(t for t in before["tasks"] if t["kind"] == "work" and not t["zone"].startswith("under"))
    entries = [
        entered(pen),
        {
            **pen.entry("task.finished", "routine boot-kit-and-strap", person="p-bodo", service="D"),
            "at": "2026-06-14T10:13:00+02:00",
        },
        {**pen.entry("job.started", started["job"], person="p-bodo"), "at": "2026-06-14T10:13:30+02:00"},
    ]
    assert (
        mechanic.sync(*[{**one, "device": "d-plan", "seq": n + 1} for n, one in enumerate(entries)])["rejected"] == []
    )
    found = ask(at="2026-06-14T10:15:00+02:00")
    # Driving in takes two of the seven minutes in and out: the tasks' clock starts at 10:14.
    assert (found["entered_at"], found["now_s"]) == (IN, 60)
    assert [item["task"] for item in found["done"]] == ["routine boot-kit-and-strap"]
    names = [task["task"] for task in found["tasks"]]
    assert "routine boot-kit-and-strap" not in names
    (under_way,) = [task for task in found["tasks"] if task["state"] == "under-way"]
    assert (under_way["job"], under_way["start_s"]) == (started["job"], 0)
    assert "p-bodo" in under_way["people"]
    assert all(task["start_s"] >= 60 for task in found["tasks"] if task is not under_way)


def test_the_lateness_that_is_used_up_is_not_there_again(app: Flask, phone) -> None:
    app.extensions["shuntbook.planner"].solver.stop()  # the plan made at once will do
    pen, mechanic = event_pen(), phone("mechanic")
    # Service C, 45 minutes, in at 18:30: due out at 19:15, left at 19:27, 12 minutes late; 30 in all are allowed.
    left = pen.entry("service.left", None, person="p-bodo", service="C", official_time="2026-06-13T19:27:00+02:00")
    came = entered(pen, "C", "2026-06-13T18:30:00+02:00")
    other = phone("manager")
    held = [
        e for e in other.pull() if e["kind"].startswith("service.") and e["car"] == "41" and e["data"]["service"] == "C"
    ]
    voids = (
        [pen.entry("entry.voided", None, person="p-vera", voids=[e["id"] for e in held], reason="again")]
        if held
        else []
    )
    sent = [{**one, "device": "d-plan", "seq": n + 1} for n, one in enumerate([*voids, came, left])]
    assert mechanic.sync(*sent)["rejected"] == []
    used = planned(mechanic, lambda plan: True)["lateness"]
    others = used["used_min"] - 12
    assert others >= 0
    assert used["left_min"] == max(0, min(15, 30 - used["used_min"]))


def test_a_plan_of_an_older_queue_says_that_it_is_stale(sample_store: Store, ask) -> None:
    found = ask()
    assert found["stale"] is False
    assert found["queue"] == answers.queue(sample_store, EVENT, "41").hash


@pytest.mark.parametrize("number", [1.5, 29.999, -0.5, 1e-9])
@pytest.mark.parametrize("name", ["minutes", "mechanics"])
def test_half_a_minute_and_half_a_mechanic_are_refused_and_not_cut_off(app: Flask, phone, name, number) -> None:
    one = phone("mechanic")
    answer = one.client.post(f"/api/v1{PATH}", json={"service": "D", name: number}, headers=one.headers)
    assert answer.status_code == 422
    assert name in answer.get_json()["detail"]


def test_the_chance_to_keep_may_have_decimals_as_the_set_up_s_may() -> None:
    assert PlanRequestSchema().load({"service": "D", "on_time_percent": 87.5})["on_time_percent"] == 87.5
    assert TeamPlanRequestSchema().load({"visits": [{"car": "41", "service": "D"}], "on_time_percent": 0.5}) == {
        "visits": [{"car": "41", "service": "D"}],
        "on_time_percent": 0.5,
    }
    loaded = PlanRequestSchema().load({"service": "D", "minutes": 30.0, "mechanics": 2})
    assert (loaded["minutes"], loaded["mechanics"]) == (30, 2)


@pytest.mark.parametrize(
    ("role", "status"), [("driver", 403), ("co-driver", 403), ("mechanic", 200), ("inspector", 200), ("manager", 200)]
)
def test_who_may_ask_for_plans(app: Flask, phone, role: str, status: int) -> None:
    app.extensions["shuntbook.planner"].solver.stop()  # the plan made at once will do
    one = phone(role)
    assert one.client.post(f"/api/v1{PATH}", json={"service": "D"}, headers=one.headers).status_code == status
    body = {"visits": [{"car": "41", "service": "A"}]}
    assert one.client.post(f"/api/v1/events/{EVENT}/plan", json=body, headers=one.headers).status_code == status


NONSENSE = (
    {"service": "no-such"},
    {"service": "D", "mechanics": 0},
    {"service": "D", "at": "10:15"},
    {"service": "D", "away": {"p-bodo": -1}},
    {"service": "D", "more": 1},
)


def test_who_is_away_for_all_of_a_service_has_no_task_and_the_others_do_the_work(ask: Callable[..., Json]) -> None:
    plan = ask(away={"p-bodo": 1440})
    there = {person for task in plan["tasks"] for person in task["people"]}
    assert "p-bodo" not in there
    assert there
    assert next(one["from_s"] for one in plan["people"] if one["person"] == "p-bodo") == 86_400


@pytest.mark.parametrize("body", NONSENSE)
def test_a_wish_that_makes_no_sense_is_refused_with_a_reason(phone, body: dict) -> None:
    one = phone("mechanic")
    response = one.client.post(f"/api/v1{PATH}", json=body, headers=one.headers)
    assert response.status_code in (404, 422)
    assert response.get_json()["detail"] or response.get_json()["errors"]


@pytest.mark.longer
def test_two_cars_at_services_that_overlap_share_the_team(sample_store: Store) -> None:
    found = team_plan(sample_store, EVENT, TeamPlanRequest((("41", "D"), ("42", "D")), on_time_percent=0, effort=QUICK))
    setup = setups.get(sample_store.db, EVENT)
    offsets = {car.car: car.offset_s for car in found.cars}
    # In the log car 42 came in at 10:00 and car 41 at 10:12.
    assert offsets == {"41": 720, "42": 0}
    for car in found.cars:
        queue = answers.queue(sample_store, EVENT, car.car)
        assert broken_rules(car, queue, setup) == []
    busy = [
        (task.start_s + car.offset_s, task.end_s + car.offset_s, person)
        for car in found.cars
        for task in car.tasks
        for person in task.people
    ]
    for one in busy:
        assert not [
            other
            for other in busy
            if other is not one and other[2] == one[2] and other[0] < one[1] and other[1] > one[0]
        ]


def test_a_team_plan_that_makes_no_sense_says_why(sample_store: Store) -> None:
    with pytest.raises(NotPossible, match="name each car once"):
        team_plan(sample_store, EVENT, TeamPlanRequest((("41", "A"), ("41", "B")), effort=QUICK))
    with pytest.raises(NotFound):
        team_plan(sample_store, EVENT, TeamPlanRequest((("41", "Z"),), effort=QUICK))


def test_a_car_that_restarts_is_planned_to_be_ready_by_its_hour(sample_store: Store) -> None:
    night = wish(
        "",
        at=datetime.fromisoformat("2026-06-13T21:00:00+02:00"),
        ready_by=datetime.fromisoformat("2026-06-13T23:30:00+02:00"),
        on_time_percent=0,
    )
    found = next(plans(sample_store, EVENT, "41", night))
    assert (found.minutes, found.work_s, found.due_out) == (150, 9000, "2026-06-13T23:30:00+02:00")
    assert found.finish_s <= 9000
    with pytest.raises(NotPossible, match="by when the car has to be ready"):
        plan(sample_store, EVENT, "41", wish(""))


def test_the_solver_is_loaded_only_when_something_is_solved(data_folder: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from shuntbook.app import create_app;"
        "from shuntbook.store.database import Store;"
        "from shuntbook.flow.planning import plan_at_once; from shuntbook.plan.context import PlanRequest;"
        f"create_app(Store(Path({str(data_folder)!r})));"
        f"plan_at_once(Store(Path({str(data_folder)!r})), {EVENT!r}, '41', PlanRequest('A'));"
        "print('ortools' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_the_command_prints_what_the_api_returns(data_folder: Path, phone) -> None:
    # By the solver's own process. With one mechanic, little of the service is to be solved.
    found = printed(*f"plan --event {EVENT} --car 41 --service E --mechanics 1".split(), data=data_folder)
    assert found == planned(phone("mechanic"), lambda plan: plan["settled"], service="E", mechanics=1)


def test_a_car_whose_time_is_over_still_has_its_wheels_put_on_and_comes_out_late(sample_store: Store, phone) -> None:
    pen, mechanic = event_pen(), phone("mechanic")
    jobs = answers.queue(sample_store, EVENT, "41").jobs
    on_stands = next(j for j in jobs if j.state == "open" and "car-on-stands" in j.estimate.access)
    begun = {**pen.entry("job.started", on_stands.job, person="p-bodo"), "at": "2026-06-14T10:13:00+02:00"}
    entries = [{**one, "device": "d-late", "seq": n + 1} for n, one in enumerate([entered(pen), begun])]
    assert mechanic.sync(*entries)["rejected"] == []
    late = wish(at=at(31), minutes=30)
    for plan_now in (plan_at_once(sample_store, EVENT, "41", late), plan(sample_store, EVENT, "41", late)):
        closes = [t for t in plan_now.tasks if t.kind == "close"]
        assert closes
        assert max(t.end_s for t in closes) > plan_now.work_s
        assert (plan_now.spare_s, plan_now.on_time) == (0, 0)
        assert all(one.leave_late_min > 0 for one in plan_now.later)

"""Parts with a life over a season of three small events, calculated by hand.

Each event has SS1 10, SS2 12.5 and SS3 8 stage km, 30.5 together, with services A, B and C after them. `a-june` begins
on 13 June 2026, `b-july` 30 days later on 13 July, `c-august` 60 days later on 12 August.
"""

import json
from collections.abc import Iterable
from typing import Any

import pytest

from making import Json, Pen, parsed, raw
from shuntbook.kit.errors import BadEntry, BadSetup
from shuntbook.lives.answer import Life, LifeLimit, Lives
from shuntbook.lives.calendar import Logged
from shuntbook.lives.due import due_routine, lives_of
from shuntbook.report.entry import parse_entry
from shuntbook.setup.folder import Setup
from small_event import FILES, small_setup

DAY_S = 86_400
A, B, C = "a-june", "b-july", "c-august"
BEGIN = {A: "2026-06-13", B: "2026-07-13", C: "2026-08-12"}
HUB, GRILLE, HARNESS = "front-left/hub", "front-end/grille", "cabin/harness"
LEFT, RIGHT = "front-left/wheel", "front-right/wheel"


def life(component: str, **keys: object) -> str:
    lines = [f"{key} = {json.dumps(value)}" for key, value in keys.items()]
    return "\n".join(["[[lives]]", f'component = "{component}"', *lines, ""])


def event_setup(event: str, *lives: str) -> Setup:
    arrive = f'after = "SS1"\narrive = {BEGIN[event]}T12:00:00+02:00\n'
    text = FILES["event.toml"].decode().replace("small-2026", event).replace('after = "SS1"\n', arrive, 1)
    return small_setup(event=(text + "".join(lives)).encode())


class Season:
    """Three events; a pen for each, whose clock starts at eight on its day."""

    def __init__(self) -> None:
        self.pens = {event: Pen(event, start=DAY_S * 30 * place) for place, event in enumerate(BEGIN)}
        self.told: dict[str, list[Json]] = {event: [] for event in BEGIN}

    def tell(self, event: str, kind: str, subject: str | None = None, **more: Any) -> Json:
        entry = self.pens[event].entry(kind, subject, **more)
        self.told[event].append(entry)
        return entry

    def hit(self, event: str, stage: str, words: str) -> Json:
        entry = self.pens[event].filed(words, where="stage", stage=stage)
        self.told[event].append(entry)
        return entry

    def ran(self, *events: str) -> None:
        """All three stages of these events."""
        for event in events:
            self.tell(event, "stage.nothing_seen", stage="SS3")

    def logged(self, *lives: str) -> list[Logged]:
        return [
            Logged(
                event_setup(event, *lives), {car: parsed(e for e in told if e["car"] == car) for car in ("41", "42")}
            )
            for event, told in self.told.items()
        ]

    def at(self, event: str, *lives: str, car: str = "41", among: Iterable[str] | None = None) -> Lives:
        return lives_of(self.logged(*lives), event, car, None if among is None else list(among))


@pytest.fixture
def season() -> Season:
    return Season()


def only(lives: Lives) -> Life:
    (found,) = lives.lives
    return found


def test_stage_km_are_counted_from_the_service_that_a_part_was_replaced_at(season):
    bent = season.hit(A, "SS1", f"{HUB} bent")
    season.tell(A, "job.finished", HUB, covers=[bent["id"]], action="replace", service="B", person="p-bodo")
    season.ran(A, B)
    season.tell(C, "stage.nothing_seen", stage="SS1")
    hub = only(season.at(C, life("hub", place="front-left", stage_km=60)))
    # Service B is after SS2: of the first event SS3, 8; of the second all, 30.5; of the third so far SS1, 10.
    assert hub.limits == [LifeLimit("stage_km", 60, 48.5, 8 + 30.5 + 30.5)]
    # 48.5 of 60 are 81 %, from 80 % on it is nearly due, and it will be over before the event ends.
    assert (hub.state, hub.began.how, hub.began.day) == ("nearly", "replaced", "2026-06-13")
    # SS2 behind it, too: 61.
    season.tell(C, "stage.nothing_seen", stage="SS2")
    assert only(season.at(C, life("hub", place="front-left", stage_km=60))).state == "due"
    assert only(season.at(C, life("hub", place="front-left", stage_km=90))).state == "within"


def test_a_stage_after_the_car_stopped_is_not_run(season):
    season.tell(A, "part.fitted", HUB, since="2026-06-01")
    season.ran(A)
    season.tell(B, "car.retired", stage="SS2")
    season.tell(C, "stage.nothing_seen", stage="SS1")
    hub = only(season.at(C, life("hub", place="front-left", stage_km=200)))
    # 30.5; then SS1 and SS2, 22.5; then SS1, 10, with SS2 and SS3 to come.
    assert hub.limits == [LifeLimit("stage_km", 200, 63, 83.5)]


def test_every_second_event_a_part_is_due_when_the_third_begins(season):
    season.ran(A, B)
    grille = life("grille", events=2, must_do=True)
    second, third = only(season.at(B, grille)), only(season.at(C, grille))
    # In the second event one is over, and with its end two: nearly. Nobody said when it was fitted.
    assert (second.state, second.limits) == ("nearly", [LifeLimit("events", 2, 1, 2)])
    assert (third.state, third.limits) == ("due", [LifeLimit("events", 2, 2, 3)])
    assert (third.must_do, third.began, third.job) == (True, None, GRILLE)
    # By the rate table 3 min at 1.00 and a grille at 12.00.
    assert (third.action, third.minutes, third.cost) == ("replace", 3, "15.00")


def test_an_event_that_the_log_says_nothing_of_counts_for_nothing(season):
    season.ran(A)
    assert only(season.at(C, life("grille", events=2))).limits == [LifeLimit("events", 2, 1, 2)]


def test_days_count_on_the_calendar_from_the_day_that_is_said(season):
    season.tell(A, "part.fitted", HARNESS, serial="H-1", since="2026-06-13")
    # From 13 June to 12 August: 17 days of June, 31 of July and 12, which are 60.
    for days, state in ((60, "due"), (61, "nearly"), (75, "nearly"), (76, "within")):
        harness = only(season.at(C, life("harness", days=days)))
        assert (harness.state, harness.limits) == (state, [LifeLimit("days", days, 60, 60)])
    assert harness.serial == "H-1"


def test_how_old_a_part_is_is_not_known_where_nobody_said_when_it_was_fitted(season):
    season.ran(A)
    harness = only(season.at(C, life("harness", days=60, label="Harness, both")))
    assert (harness.state, harness.limits, harness.label) == (
        "not-known",
        [LifeLimit("days", 60, None, None)],
        "Harness, both",
    )


def test_the_first_limit_that_is_reached_counts(season):
    season.tell(A, "part.fitted", HUB, since="2026-06-13")
    season.ran(A, B)
    hub = only(season.at(C, life("hub", place="front-left", stage_km=1000, events=2, days=365)))
    assert [limit.used for limit in hub.limits] == [2, 61, 60]
    assert hub.state == "due"


def test_a_serial_takes_its_life_and_its_story_to_another_place(season):
    season.tell(A, "part.fitted", LEFT, serial="W-1", since="2026-06-13")
    bent = season.hit(A, "SS3", f"{LEFT} bent")
    season.tell(A, "job.finished", LEFT, covers=[bent["id"]], action="straighten", person="p-bodo")
    season.tell(B, "stage.nothing_seen", stage="SS1")
    season.tell(B, "part.fitted", LEFT, serial="W-2")
    season.tell(B, "part.fitted", RIGHT, serial="W-1")
    season.tell(B, "stage.nothing_seen", stage="SS3")
    found = {one.job: one for one in season.at(C, life("wheel", stage_km=100)).lives}
    # W-1: all of June, 30.5; SS1 of July on the left, 10; SS2 and SS3 on the right, 20.5. W-2: those 20.5 alone.
    assert found[RIGHT].limits == [LifeLimit("stage_km", 100, 61, 91.5)]
    assert found[LEFT].limits == [LifeLimit("stage_km", 100, 20.5, 51)]
    story = [(one.what, one.says, one.stage, one.event) for one in found[RIGHT].happened]
    assert story == [("found", "bent", "SS3", A), ("done", "straighten", None, A)]
    assert found[LEFT].happened == []
    # What an event tells is for who is in it; what was run in it counts all the same.
    told = {one.job: one for one in season.at(C, life("wheel", stage_km=100), among=[C]).lives}
    assert (told[RIGHT].happened, told[RIGHT].limits) == ([], found[RIGHT].limits)


def test_a_rebuilt_part_begins_again(season):
    season.tell(A, "part.fitted", HUB, serial="G-1", since="2026-06-13")
    season.ran(A)
    season.tell(B, "part.fitted", HUB, serial="G-1", rebuilt=True, since="2026-07-01")
    season.ran(B)
    assert only(season.at(C, life("hub", stage_km=100))).limits == [LifeLimit("stage_km", 100, 30.5, 61)]


def test_the_plans_tick_renews_a_part_but_no_brake(season):
    """A tick asks for no inspection, which work on a brake must: a repair is recorded there."""
    season.ran(A)
    hose = "front-left/brake-hose"
    for key in (GRILLE, hose):
        season.tell(B, "task.finished", f"routine renew {key}", service="A", person="p-bodo")
    season.ran(B)
    lives = (life("grille", stage_km=100), life("brake-hose", place="front-left", stage_km=100))
    found = {one.job: one for one in season.at(C, *lives).lives}
    # Service A is after SS1: 12.5 and 8 of July. The hose: all of both.
    assert found[GRILLE].limits[0].used == 20.5
    assert found[GRILLE].began.how == "renewed"
    assert (found[hose].limits[0].used, found[hose].safety_critical) == (61, True)


def test_what_is_temporary_tightened_or_undone_renews_nothing(season):
    season.ran(A)
    entry = season.tell(B, "part.fitted", HUB)
    season.tell(B, "entry.voided", voids=[entry["id"]])
    season.tell(B, "job.finished", HUB, action="tighten", person="p-bodo")
    season.tell(B, "job.finished", HUB, action="replace", temporary=True, person="p-bodo")
    assert only(season.at(C, life("hub", events=2))).began is None


def test_a_repair_that_says_no_action_did_what_the_rate_table_says_for_what_it_covers(season):
    bent = season.hit(A, "SS1", f"{HUB} bent")
    season.tell(A, "job.finished", HUB, covers=[bent["id"]], person="p-bodo")
    assert only(season.at(A, life("hub", events=2))).began.how == "replaced"


def test_each_car_has_its_own_and_a_row_of_one_place_goes_before_the_common_one(season):
    season.ran(A)
    rows = (life("wheel", events=4), life("wheel", place="front-right", events=1, car="41"))
    assert [(one.job, one.state) for one in season.at(B, *rows).lives] == [(RIGHT, "due"), (LEFT, "within")]
    assert [(one.job, one.limits[0].limit) for one in season.at(B, *rows, car="42").lives] == [(LEFT, 4), (RIGHT, 4)]


def test_what_is_due_is_routine_work_of_the_plan_unless_an_open_job_renews_it(season):
    season.ran(A, B)
    rows = (life("grille", events=2, must_do=True), life("lamp", events=3), life("badge", events=2))
    lives, setup = season.at(C, *rows), event_setup(C, *rows)
    grille, badge = due_routine(lives, setup, [])
    assert (grille.task, grille.must_do, grille.zone, grille.access) == (
        f"renew {GRILLE}", True, "front-end", ("bonnet-up",)
    )  # fmt: skip
    assert [float(minutes) for minutes in grille.minutes] == [3, 3, 3]
    # No row renews a badge: it takes as long as an assessment, 6.
    assert (badge.task, [float(minutes) for minutes in badge.minutes]) == ("renew front-end/badge", [6, 6, 6])
    assert [one.task for one in due_routine(lives, setup, [GRILLE])] == ["renew front-end/badge"]


def test_a_life_without_a_limit_is_a_fault_with_its_line():
    with pytest.raises(BadSetup, match=r"lives.*no limit is said; write events, stage_km or days"):
        event_setup(A, life("grille"))


def test_a_component_that_there_is_not_is_a_fault():
    with pytest.raises(BadSetup, match="gril"):
        event_setup(A, life("gril", events=2))


@pytest.mark.parametrize("since", ["2026-02-30", "yesterday", "2026-W24-6", "20260613", "1600-01-01"])
def test_a_day_that_is_none_is_refused(since, pen):
    with pytest.raises(BadEntry, match="since is not a day such as 2026-05-31"):
        parse_entry(raw(pen.entry("part.fitted", HUB, since=since)))


def test_what_was_fitted_nowhere_is_refused(pen):
    with pytest.raises(BadEntry, match="zone/component"):
        parse_entry(raw(pen.entry("part.fitted", "hub")))

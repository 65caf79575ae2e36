"""A season of two small events, calculated by hand; labour is 1.00 a mechanic-minute."""

from making import ids
from season_making import held
from shuntbook.cost.answer import PerKm
from shuntbook.season.season import Season, season
from small_event import FILES, small_setup

HOSE, LAMP = "front-left/brake-hose", "front-end/lamp"


def named(event: str, day: str):
    text = FILES["event.toml"].replace(b"small-2026", event.encode())
    arrive = f'after = "SS1"\narrive = {day}T12:00:00+02:00\n'.encode()
    return small_setup(event=text.replace(b'after = "SS1"\n', arrive, 1))


def test_events_stand_in_the_order_they_were_held_with_their_own_sums(pen):
    late, early = named("a-late", "2026-08-02"), named("b-early", "2026-05-01")
    lamp = pen.filed(f"{LAMP} broken")
    hose = pen.filed(f"{HOSE} leaking")
    again = pen.filed("front-left/wheel bent")
    grouped = pen.entry("incident.grouped", hose["id"], reports=ids([hose, again]), title="ditch")
    done = pen.finished(LAMP, lamp, minutes=3, parts=[{"part": "lamp", "qty": 1}])
    answer = season([held(late, [hose, again, grouped]), held(early, [lamp, done])])
    first, second = answer.events
    assert [first.event, second.event] == ["b-early", "a-late"]
    # A lamp: 3 min × 2 people and 80.25, bonnet up and down 1 min. Estimate: 1 min × 2 and 80.25, and the bonnet.
    assert (first.estimate, first.actual) == ("83.25", "87.25")
    # 30.5 timed km: 87.25 / 30.5 = 2.8606…
    assert first.per_stage_km == PerKm("2.73", "2.86")
    assert (first.incidents, first.safety_critical) == (1, 0)
    # Two reports of one hit; the hose, and the look at it that a bent wheel asks for, are one safety-critical job.
    assert (second.incidents, second.safety_critical, second.began) == (1, 1, "2026-08-02")
    assert [zone.zone for zone in answer.zones] == ["front-left", "front-end"]


def test_an_event_without_stages_has_no_figure_per_km(pen):
    bare = FILES["event.toml"].split(b"[[stages]]")[0]
    answer = season([held(small_setup(event=bare), [pen.filed(f"{LAMP} broken")])])
    assert answer.events[0].per_stage_km == PerKm(None, None)


def test_each_operation_has_what_was_expected_and_what_it_took(pen, setup):
    told = []
    for minutes in (2, 5, None):
        filed = pen.filed(f"{LAMP} broken")
        told += [filed, pen.finished(LAMP, filed, minutes=minutes)]
    (lamp,) = season([held(setup, told)]).operations
    assert (lamp.timed, lamp.estimate_minutes, lamp.actual_minutes) == (2, 1, 3.5)
    assert (lamp.least_minutes, lamp.most_minutes) == (2, 5)


def test_no_events_are_an_answer():
    assert season([]) == Season([], [], [])

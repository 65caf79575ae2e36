"""What a service's problem is made of, rule by rule, on services small enough to be planned by hand."""

from msgspec.structs import replace

from making import Pen, queue_of
from planning import EVENT, best, hit, problem_of, setup_of, told
from shuntbook.plan.build import Visit, build, units_for_work, workers_of
from shuntbook.plan.carry import carried
from shuntbook.plan.check import faults
from shuntbook.plan.draft import Progress
from shuntbook.plan.greedy import greedy

PEN = Pen(EVENT)


def test_a_wheel_changed_by_itself_takes_its_time_and_its_nuts_are_checked_by_somebody_else() -> None:
    built = problem_of(setup_of(), [hit(PEN, "rear-left", ("tyre", "flat"))])
    plan = told(built, best(built))
    start, end, fitter = plan["swap rear-left/tyre"]
    # Best 1, likely 2, worst 5 minutes: (1 + 8 + 5) / 6 = 2.33 minutes, ten units of 15 s.
    assert end - start == 10
    nuts = plan["wheel-nut-torque rear-left"]
    assert nuts[0] >= plan["close car-on-stands"][1]
    assert not set(nuts[2]) & set(fitter)


def test_nuts_of_a_wheel_that_came_off_on_stands_are_said_to_wait_until_they_are_away() -> None:
    problem = problem_of(setup_of(), [hit(PEN, "rear-left", ("tyre", "flat"))]).problem
    names = [task.name for task in problem.tasks]
    closes, nuts = names.index("close car-on-stands"), names.index("wheel-nut-torque rear-left")
    assert (closes, nuts) in problem.before


def test_a_wheel_that_is_off_anyway_is_only_fetched_and_its_nuts_are_checked_once() -> None:
    entries = [hit(PEN, "rear-left", ("tyre", "flat"), ("damper", "leaking"))]
    built = problem_of(setup_of(), entries)
    plan = told(built, best(built))
    start, end, _ = plan["swap rear-left/tyre"]
    # Fetching 0 / 0.5 / 1 minutes: half a minute, two units.
    assert end - start == 2
    assert plan["open wheel-off rear-left"][1] <= start
    assert end <= plan["close wheel-off rear-left"][0]
    assert [name for name in plan if name.startswith("wheel-nut-torque")] == ["wheel-nut-torque rear-left"]


def test_a_wheel_and_a_tyre_of_one_corner_are_one_change_and_a_fetching() -> None:
    # A leaking rim leads to no inspection behind the wheel, which would have it off anyway.
    built = problem_of(setup_of(), [hit(PEN, "rear-left", ("tyre", "flat"), ("wheel", "leaking"))])
    plan = told(built, best(built))
    lengths = sorted(plan[name][1] - plan[name][0] for name in plan if name.startswith("swap rear-left/"))
    assert lengths == [2, 10]


def test_access_is_opened_once_and_nested() -> None:
    entries = [hit(PEN, "rear-left", ("damper", "leaking"), ("mud-flap", "missing"))]
    built = problem_of(setup_of(), entries)
    plan = told(built, best(built))
    assert plan["open car-on-stands"][1] <= plan["open wheel-off rear-left"][0]
    assert plan["close wheel-off rear-left"][1] <= plan["close car-on-stands"][0]
    assert len([name for name in plan if name.startswith("open ")]) == 2


FOUR = (("p-a", "mechanic"), ("p-b", "mechanic"), ("p-c", "mechanic"), ("p-i", "inspector"))
"""Two for a lower arm, one more to check its toe beside the inspector."""


def test_the_looks_at_one_corner_are_one_look_after_the_repair_before_the_wheel_goes_on() -> None:
    entries = [hit(PEN, "front-left", ("brake-hose", "cracked"), ("lower-arm", "bent"))]
    built = problem_of(setup_of(FOUR, minutes=150), entries)
    plan = told(built, best(built))
    (look,) = [plan[name] for name in plan if name == "inspect front-left after repair"]
    repairs = [plan[name] for name in plan if name.split()[0] in ("replace", "swap") and "front-left" in name]
    assert repairs
    assert look[2] == ("p-i",)
    assert look[0] >= max(end for _, end, _ in repairs)
    assert look[1] <= plan["close wheel-off front-left"][0]


def test_what_cannot_be_done_at_all_says_why() -> None:
    no_parts = problem_of(setup_of(van=0), [hit(PEN, "rear-left", ("damper", "broken"))])
    assert {item.why for item in no_parts.left_out.values()} == {"part"}
    alone = problem_of(setup_of((("p-a", "mechanic"),)), [hit(PEN, "rear-left", ("tyre", "flat"))])
    assert "takes 2; 1 who may are there" in alone.left_out["rear-left/tyre"].reason
    nobody = problem_of(
        setup_of((("p-a", "mechanic"), ("p-b", "mechanic"))), [hit(PEN, "front-left", ("brake-hose", "cracked"))]
    )
    assert nobody.left_out["front-left/brake-hose"].why == "people"
    own = setup_of((("p-b", "mechanic+inspector"),))
    himself = problem_of(own, [hit(PEN, "cabin", ("hand-extinguisher", "loose"))])
    assert "no inspector is there who did not repair it" in himself.left_out["cabin/hand-extinguisher"].reason
    cage = problem_of(setup_of(), [hit(PEN, "cabin", ("main-hoop", "cracked"))])
    assert [item.why for item in cage.left_out.values() if item.why == "official"]
    assert not [group for group in cage.problem.groups if "cage" in group]


def test_open_fuel_stops_all_other_work_and_binds_the_extinguisher() -> None:
    entries = [
        hit(PEN, "under-middle", ("fuel-pipes-underfloor", "leaking")),
        hit(PEN, "rear-left", ("mud-flap", "missing")),
    ]
    built = problem_of(setup_of(FOUR, minutes=120), entries)
    (fuel,) = [task for task in built.problem.tasks if task.alone]
    assert fuel.uses["extinguisher"] == 1
    plan = told(built, best(built))
    start, end, _ = plan[fuel.name]
    assert [name for name, (a, b, _) in plan.items() if name != fuel.name and a < end and b > start] == []


def test_somebody_in_the_seat_leaves_no_room_for_other_work_in_the_cabin() -> None:
    built = problem_of(setup_of(FOUR), [hit(PEN, "front-left", ("brake-hose", "cracked"))])
    pumping = next(task for task in built.problem.tasks if task.name.startswith("pump-the-pedal"))
    assert pumping.uses["cabin"] == built.problem.resources["cabin"]


def test_who_is_away_starts_nothing_before_and_who_began_several_at_once_is_a_scribe() -> None:
    setup = setup_of()
    entries = [hit(PEN, "rear-left", ("mud-flap", "missing"))]
    service = setup.event.services[0]
    visit = Visit(queue_of(entries, setup), service, 0, units_for_work(service, None))
    built = build(setup, [visit], workers_of(setup, None, {"p-a": 40}))
    plan = told(built, best(built))
    assert all(start >= 40 for start, _, who in plan.values() if "p-a" in who)


def test_work_that_is_under_way_keeps_its_start_and_its_people_and_nothing_starts_in_the_past() -> None:
    entries = [hit(PEN, "rear-left", ("damper", "leaking"), ("mud-flap", "missing"))]
    open_steps = frozenset({("car-on-stands", ""), ("wheel-off", "rear-left")})
    progress = Progress(now=30, under_way={"rear-left/damper": (20, ("p-b",))}, open_steps=open_steps)
    built = problem_of(setup_of(), entries, progress=progress)
    plan = told(built, best(built))
    work = next(name for name in plan if name.endswith("rear-left/damper") and not name.startswith("look"))
    assert plan[work][0] == 20
    assert "p-b" in plan[work][2]
    assert all(start >= 30 for name, (start, _, _) in plan.items() if name != work)
    assert not [name for name in plan if name.startswith("open ")]
    assert {"close wheel-off rear-left", "close car-on-stands"} <= plan.keys()
    assert plan == told(built, greedy(built.problem)) or faults(built.problem, greedy(built.problem)) == []


def test_cars_share_people_and_stands_and_neither_is_up_while_the_other_holds_them() -> None:
    more = '[[resources]]\nresource = "stands"\ncount = 1\nheld_by = ["car-on-stands"]'
    setup = setup_of(more=more, minutes=40)
    entries = [hit(PEN, "rear-left", ("tyre", "flat"), car=car) for car in ("41", "42")]
    service = setup.event.services[0]
    visits = [
        Visit(queue_of([one for one in entries if one["car"] == car], setup, car), service, offset, offset + 160)
        for car, offset in (("41", 0), ("42", 20))
    ]
    built = build(setup, visits, workers_of(setup, None, {}))
    for schedule in (best(built), greedy(built.problem)):
        assert faults(built.problem, schedule) == []
        assert {"41/rear-left/tyre", "42/rear-left/tyre"} <= schedule.inside
        up = []
        for span in built.problem.spans:
            times = {item.task: item for item in schedule.placed}
            assert span.opens is not None and span.closes is not None
            up.append((times[span.opens].start, times[span.closes].end))
        (_, first_down), (second_up, _) = sorted(up)
        assert first_down <= second_up


def test_what_is_left_out_goes_to_the_crew_where_two_can_do_it_by_hand() -> None:
    setup = setup_of(more='[tools]\ntape = ["race tape"]')
    jobs = {
        j.job: j
        for j in queue_of([hit(PEN, "front-end", ("front-bumper", "loose"), ("front-bumper", "bent"))], setup).jobs
    }
    loose = queue_of([hit(PEN, "front-end", ("front-bumper", "loose"))], setup).jobs[0]
    told_loose = carried(loose, "time", setup, last_service=False)
    assert (told_loose.to, told_loose.tools) == ("road", ["race tape"])
    critical = replace(loose, safety_critical=True)
    assert carried(critical, "time", setup, last_service=False).to == "next-service", "never for the crew"
    bent = jobs["front-end/front-bumper"]
    assert carried(bent, "time", setup, last_service=False).to == "next-service"
    hose = queue_of([hit(PEN, "front-left", ("brake-hose", "cracked"))], setup).jobs[0]
    assert carried(hose, "time", setup, last_service=True).to == "after"
    told_last = carried(loose, "time", setup, last_service=True)
    assert (told_last.to, told_last.put_in_car) == ("after", []), "no stage is left to do it before"
    assert told_loose.put_in_car
    door = queue_of([hit(PEN, "left-side", ("door", "broken"))], setup).jobs[0]
    assert carried(door, "time", setup, last_service=False).to == "next-service", "a door is not hung at the roadside"


def test_a_night_before_it_a_cage_waits_for_the_official_who_binds_nobody() -> None:
    setup = setup_of(more="[regulations]\nofficial_lead_minutes = 45")
    entries = [hit(PEN, "cabin", ("main-hoop", "cracked"))]
    built = build(setup, [Visit(queue_of(entries, setup), None, 0, 480)], workers_of(setup, None, {}))
    plan = told(built, best(built))
    assert plan["wait for the official"] == (0, 180, ())
    looks = [times for name, times in plan.items() if name.startswith("official looks at")]
    assert looks
    assert all(start >= 180 and who == () for start, _, who in looks)

"""What is left of a service that has begun, and what cannot be done at all: small services planned by hand."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from making import Json, Pen, parsed, queue_of
from planning import EVENT, best, hit, problem_of, setup_of, told
from shuntbook.plan.answer import Buys, Frame, Picture, plan_answer
from shuntbook.plan.build import PlanModel, Visit, build, units_for_work, workers_of
from shuntbook.plan.buys import held_groups, least_of
from shuntbook.plan.check import faults
from shuntbook.plan.context import PlanContext, PlanRequest
from shuntbook.plan.draft import Progress
from shuntbook.plan.greedy import greedy
from shuntbook.plan.namable import TOO_FEW, can_be_named
from shuntbook.plan.ontime import chance, order_of
from shuntbook.plan.problem import Placed, Problem, Schedule, Span, Task, Worker, units
from shuntbook.plan.progress import Timeline, Under, aboard_of, progress_of, repaired_by
from shuntbook.plan.solve import solve
from shuntbook.plan.told import Lateness
from shuntbook.queue.car import car_log
from shuntbook.setup.folder import Setup

PEN = Pen(EVENT)
THREE = (("p-a", "mechanic"), ("p-b", "mechanic+inspector"), ("p-i", "inspector"))


def rest_of(setup: Setup, entries: list[Json], progress: Progress) -> PlanModel:
    """Return the problem of what is left of service A, with who repaired what as the log has it."""
    service, the_queue = setup.event.services[0], queue_of(entries, setup)
    work = units_for_work(service, None)
    visit = Visit(the_queue, service, 0, work, progress, repaired_by(car_log(parsed(entries), setup), the_queue, setup))
    return build(setup, [visit], workers_of(setup, None, {}))


def reasons(setup: Setup, entries: list[Json], built: PlanModel) -> dict[str, tuple[str, str]]:
    """Return why each job is left out of the plan made at once."""
    schedule, the_queue = greedy(built.problem), queue_of(entries, setup)
    frame = Frame("A", 60, built.problem.horizon, None, None, None, 0, Lateness(0, 15, 10, 60), True)
    played = chance(built.problem, schedule, runs=1)
    answer = plan_answer(the_queue, setup, frame, Picture(built, schedule, played), Buys())
    return {out.job: (out.why, out.reason) for out in answer.left_out}


def test_the_pedal_is_held_by_who_sits_in_this_car_as_far_as_the_log_tells() -> None:
    crews = (("p-one", "driver"), ("p-two", "driver"), ("p-three", "co-driver"), ("p-four", "co-driver"))
    setup = setup_of((*THREE, *crews))
    report = PEN.entry(
        "report.filed",
        person="p-three",
        stage="SS1",
        where="stage",
        zone="under-middle",
        findings=[{"component": "brake-pipes-underfloor", "condition": "marked"}],
    )
    theirs = PEN.entry("driver.changed", driver="p-two"), PEN.entry("driver.changed", driver="p-one")
    says_no_more = PEN.entry("stage.nothing_seen", person="p-two", stage="SS1", how="from-seat")

    def pedal(*entries: Json) -> set[str]:
        service, aboard = setup.event.services[0], aboard_of(parsed([report, *entries]), setup)
        visit = Visit(queue_of([report], setup), service, 0, units_for_work(service, None), aboard=aboard)
        built = build(setup, [visit], workers_of(setup, None, {}))
        (held,) = [task for task in built.problem.tasks if task.name.startswith("brake-look-under-pressure")]
        return {built.problem.workers[w].person for w in held.guests}

    assert pedal() == {"p-three"}
    assert pedal(says_no_more) == {"p-two", "p-three"}
    assert pedal(says_no_more, *theirs) == {"p-one", "p-three"}
    assert aboard_of([], setup) == frozenset(), "then the set-up alone says who it may be"


def test_who_repaired_it_before_is_not_planned_to_look_at_it() -> None:
    report = hit(PEN, "cabin", ("hand-extinguisher", "loose"))
    repair = PEN.finished("cabin/hand-extinguisher", report, person="p-b", action="tighten")
    built = rest_of(setup_of(THREE), [report, repair], Progress())
    (look,) = [task for task in built.problem.tasks if task.kind == "inspect"]
    assert [built.problem.workers[w].person for w in look.may] == ["p-i"]
    nobody = rest_of(setup_of(THREE[:2]), [report, repair], Progress())
    assert nobody.left_out["cabin/hand-extinguisher"].reason == "no inspector is there who did not repair it"


def test_who_began_it_or_undid_a_repair_of_it_is_not_planned_to_look_at_it() -> None:
    report = hit(PEN, "cabin", ("hand-extinguisher", "loose"))
    job = "cabin/hand-extinguisher"
    repair, begun = PEN.finished(job, report, person="p-b"), PEN.entry("job.started", job, person="p-b")
    for worked in ([repair, PEN.voided(repair, "p-b")], [begun], [begun, PEN.voided(begun, "p-b")]):
        built = rest_of(setup_of(THREE), [report, *worked], Progress())
        (look,) = [task for task in built.problem.tasks if task.kind == "inspect"]
        assert [built.problem.workers[w].person for w in look.may] == ["p-i"]


def test_who_repaired_what_reads_the_same_after_an_amendment_is_not_planned_to_look_at_it() -> None:
    report = hit(PEN, "cabin", ("hand-extinguisher", "loose"))
    job = "cabin/hand-extinguisher"
    amended = PEN.amended(report, f"{job} loose", km=3)
    repair = PEN.finished(job, report, person="p-b")
    passed = PEN.passed(job, repair, person="p-i")
    built = rest_of(setup_of(THREE), [report, amended, repair, passed], Progress())
    (look,) = [task for task in built.problem.tasks if task.kind == "inspect"]
    assert [built.problem.workers[w].person for w in look.may] == ["p-i"]


def test_a_wheel_changed_at_this_service_has_its_nuts_checked_by_somebody_else_until_they_are() -> None:
    report = hit(PEN, "rear-left", ("tyre", "flat"))
    repair = PEN.finished("rear-left/tyre", report, person="p-a", action="swap")
    after = Progress(now=40, finished=frozenset({"rear-left/tyre"}))
    built = rest_of(setup_of(), [report, repair], after)
    start, _, who = told(built, best(built))["wheel-nut-torque rear-left"]
    assert start >= 40
    assert who != ("p-a",)
    checked = replace(after, done=frozenset({"wheel-nut-torque rear-left"}))
    assert not rest_of(setup_of(), [report, repair], checked).problem.tasks


def test_a_wheel_that_was_put_on_has_its_nuts_checked_by_who_did_not_put_it_on() -> None:
    put_on = PEN.entry("task.finished", "close wheel-off rear-left", person="p-b", service="A")
    built = rest_of(setup_of(), [put_on], Progress(now=8, done=frozenset({"close wheel-off rear-left"})))
    (nuts,) = built.problem.tasks
    assert [built.problem.workers[w].person for w in nuts.may] == ["p-a", "p-i"]


def test_the_checks_of_a_job_that_is_finished_are_still_planned() -> None:
    report = hit(PEN, "front-left", ("lower-arm", "bent"))
    repair = PEN.finished("front-left/lower-arm", report, person="p-a", action="replace")
    built = rest_of(setup_of(THREE), [report, repair], Progress(now=20, finished=frozenset({"front-left/lower-arm"})))
    plan = told(built, best(built))
    # The package's rates have a toe check follow a lower arm, two people, by others than who did it.
    assert sorted(plan["toe-check front-left/lower-arm"][2]) == ["p-b", "p-i"]
    assert not [name for name in plan if name.startswith(("replace", "swap"))]


def test_what_a_job_binds_and_the_event_has_none_of_is_its_reason() -> None:
    more = '[[resources]]\nresource = "sets of stands"\ncount = 0\nheld_by = ["car-on-stands"]'
    entries = [hit(PEN, "rear-left", ("tyre", "flat"))]
    setup = setup_of(more=more)
    assert reasons(setup, entries, problem_of(setup, entries))["rear-left/tyre"] == (
        "part",
        "not there: sets of stands",
    )


def test_an_extinguisher_of_the_event_is_bound_by_open_fuel_though_it_does_not_say_so() -> None:
    more = '[[resources]]\nresource = "big extinguisher"\ncount = 2'
    built = problem_of(
        setup_of((*THREE, ("p-c", "mechanic")), more=more),
        [hit(PEN, "under-middle", ("fuel-pipes-underfloor", "leaking"))],
    )
    (fuel,) = [task for task in built.problem.tasks if task.alone]
    assert fuel.uses["big extinguisher"] == 1


def test_a_row_that_calls_its_action_inspect_is_work_with_its_own_minutes_and_its_way_is_opened_for_it() -> None:
    setup = setup_of((*THREE, ("p-c", "mechanic")))
    known = setup.rates.operations
    row = next(row for (name, _, _), row in known.items() if name == "lower-arm" and "wheel-off" in row.access)
    named = {key: replace(one, action="inspect", then=()) if one is row else one for key, one in known.items()}
    setup = replace(setup, rates=replace(setup.rates, operations=named))
    zone = row.zone or "front-left"
    built = problem_of(setup, [hit(PEN, zone, ("lower-arm", row.condition))])
    plan = told(built, best(built))
    start, end, _ = plan[f"inspect {zone}/lower-arm"]
    assert end - start == units(row.minutes.expected)
    assert plan[f"open wheel-off {zone}"][1] <= start
    assert plan[f"inspect {zone}/lower-arm after repair"][2] == ("p-i",)


def test_what_is_under_way_does_not_wait_for_what_the_table_has_before_it() -> None:
    setup = setup_of((*THREE, ("p-c", "mechanic")))
    known = setup.rates.operations
    after = {key: replace(one, after=("damper",)) if one.component == "mud-flap" else one for key, one in known.items()}
    setup = replace(setup, rates=replace(setup.rates, operations=after))
    entries = [hit(PEN, "rear-left", ("damper", "leaking"), ("mud-flap", "missing"))]
    begun = Progress(now=4, under_way={"rear-left/mud-flap": (0, ("p-a",))})
    for progress, first in ((Progress(), "damper"), (begun, "mud-flap")):
        built = problem_of(setup, entries, progress=progress)
        plan = told(built, best(built))
        works = {name.split("/")[-1]: times[0] for name, times in plan.items() if times[2] and "rear-left/" in name}
        assert min(("damper", "mud-flap"), key=lambda name: works[name]) == first


def test_of_what_is_under_way_the_safety_critical_goes_on_where_not_all_of_it_can() -> None:
    # Both were begun by somebody who put both down; one mechanic is there.
    setup = setup_of((("p-a", "mechanic"), ("p-i", "inspector")))
    entries = [hit(PEN, "cabin", ("hand-extinguisher", "loose")), hit(PEN, "front-right", ("mud-flap", "missing"))]
    held, other = "cabin/hand-extinguisher", "front-right/mud-flap"
    built = problem_of(setup, entries, progress=Progress(now=1, under_way={held: (0, ()), other: (0, ())}))
    assert best(built).inside & {held, other} == {held}
    assert held in held_groups(built.problem)


def test_too_few_different_people_are_no_want_of_time() -> None:
    # A wheel takes one to change it and another to check its nuts; here one is there who may do neither twice.
    setup = setup_of((("p-a", "mechanic"), ("p-b", "mechanic")))
    entries = [hit(PEN, "rear-left", ("damper", "leaking"))]
    built = problem_of(setup, entries)
    alone = replace(
        built.problem, tasks=tuple(replace(t, may=t.may[:1], people=min(1, t.people)) for t in built.problem.tasks)
    )
    assert can_be_named(built.problem, "rear-left/damper")
    assert not can_be_named(alone, "rear-left/damper")
    assert reasons(setup, entries, replace(built, problem=alone))["rear-left/damper"] == ("people", TOO_FEW)


def test_what_is_open_is_closed_by_as_many_as_there_are_and_somebody_checks_the_nuts() -> None:
    entries = [hit(PEN, "rear-left", ("mud-flap", "missing"))]
    open_steps = frozenset({("car-on-stands", ""), ("wheel-off", "rear-left")})
    one = problem_of(setup_of((("p-a", "mechanic"),)), entries, progress=Progress(now=4, open_steps=open_steps))
    plan = told(one, best(one))
    # Stands take two, one is there; he can't check his own wheel: that is said.
    assert plan["close car-on-stands"][2] == ("p-a",)
    assert one.left_out["wheel-nut-torque rear-left"].why == "people"


def test_a_car_goes_up_only_when_the_work_on_the_ground_is_done_and_the_stands_are_free() -> None:
    workers = tuple(Worker(f"p-{n}", True, False) for n in range(3))
    holds = {"stands": 1}
    tasks = (
        Task("torque", "work", 2, 1, (0,), ground=True, car="41"),
        Task("open", "open", 1, 1, (1,), car="41"),
        Task("close", "close", 1, 1, (1,), car="41"),
        Task("open", "open", 1, 1, (2,), car="42"),
        Task("close", "close", 1, 1, (2,), car="42"),
    )
    spans = (Span("a", 1, 2, (), stands=True, holds=holds, car="41"), Span("b", 3, 4, (), holds=holds, car="42"))
    problem = Problem(tasks, workers, {"stands": 1}, spans=spans, horizon=9)
    starts = ((0, 0, 2), (1, 2, 3), (2, 3, 4), (3, 4, 5), (4, 5, 6))
    placed = tuple(Placed(n, start, end, tasks[n].may) for n, start, end in starts)
    schedule = Schedule(placed, False, "greedy")
    assert faults(problem, schedule) == []
    # Played out, each waits for what was in its way, though nobody works on both.
    assert order_of(problem, schedule) == {0: [], 1: [0], 2: [1], 3: [2], 4: [3]}


def test_the_least_time_is_told_though_one_of_the_musts_has_too_few_people_for_any_time() -> None:
    more = '[[routine]]\ntask = "fluids"\nminutes = [20, 20, 20]\nvital = true'
    setup = setup_of((("p-a", "mechanic"), ("p-b", "mechanic")), minutes=10, more=more)
    row = setup.rates.operations["tyre", "flat", ""]
    both = {("tyre", "flat", ""): replace(row, mechanics=2, must_do=True, skill="", then=())}
    setup = replace(setup, rates=replace(setup.rates, operations=both))
    the_queue, service = queue_of([hit(PEN, "rear-left", ("tyre", "flat"))], setup), setup.event.services[0]
    scene = PlanContext(PlanRequest("A"), the_queue, setup, service, Timeline(), 10, 40, workers_of(setup, None, {}), 0)
    built = scene.built()
    # This wheel takes both to change, and nobody else is there to check the wheel's nuts; fluids take 20 minutes.
    assert built.problem.musts == {"rear-left/tyre", "routine fluids"}
    least = least_of(scene, built, greedy(built.problem), solve)
    assert least is not None
    assert (least.needs.minutes, least.needs.leave_late_min) == (20, 10)


def test_work_under_way_in_a_zone_that_the_map_does_not_list_is_planned_around() -> None:
    setup = setup_of()
    entries = [hit(PEN, "no-such-zone", ("studs-and-nuts", "worn"))]
    came_in = datetime(2026, 6, 13, 8, 20, tzinfo=UTC)
    story = Timeline(came_in, (), {"no-such-zone/studs-and-nuts": Under(came_in, ("p-a",))})
    progress = progress_of(story, queue_of(entries, setup), setup, came_in + timedelta(minutes=1))
    assert ("wheel-off", "no-such-zone") in progress.open_steps
    problem = rest_of(setup, entries, progress).problem
    assert faults(problem, greedy(problem)) == []

"""Cases of what an inspection takes to count, of who worked, and of what a replaced version leaves behind."""

from making import CHECKED, Json, Pen, ids
from small_event import FILES
from vector_cases.case import Case, collector

CASES: list[Case] = []
case = collector(CASES)

HOSE, OTHER, TIE, HARNESS = "front-left/brake-hose", "front-right/brake-hose", "front-left/tie", "cabin/harness"
WHEEL, LAMP, HOOP = "front-left/wheel", "front-end/lamp", "cabin/main-hoop"
SEEN = {"check": "Seen", "ok": True}
SIDES = (
    FILES["car_map.toml"]
    .replace(b"[zones.front-left]\n", b'[zones.front-left]\nacross = "front-right"\n')
    .replace(b"[zones.front-right]\n", b'[zones.front-right]\nacross = "front-left"\n')
    .replace(b'also = ["front-end/bumper"', b'also = ["across/brake-hose", "here/tie", "front-end/bumper"')
    + b'[symptoms.pulls]\nlabel = "Pulls"\nchecks = ["here/brake-hose", "across/wheel"]\n'
    b'[symptoms.rattle]\nlabel = "Rattle"\nchecks = ["across/tie"]\n'
)
OWN_LISTS = FILES["event.toml"] + (
    b'[[looks]]\ngroup = "restraint"\ncheck = "Date"\nmust = true\nat = "air"\n'
    b'[[looks]]\ngroup = "brake"\ncheck = "Dry"\n'
)
NEXT = FILES["rates/rates.toml"].replace(
    b"[inspect_minutes_by_group]", b"inspect_next_minutes = [0.25, 0.5, 1]\n[inspect_minutes_by_group]"
)
OPENED = FILES["rates/rates.toml"] + b'[inspect_access]\ncorner = ["wheel-off", "car-on-stands"]\nend = []\n'
OWN_ACCESS = (
    FILES["car_map.toml"]
    .replace(b'label = "Tie"\n', b'label = "Tie"\ninspect_access = ["car-on-stands"]\n')
    .replace(b'label = "Harness"\n', b'label = "Harness"\ninspect_access = ["bonnet-up"]\n')
)


def started(pen: Pen, job: str, person: str) -> Json:
    return pen.entry("job.started", job, person=person)


@case()
def a_pass_takes_a_check_that_is_ok(pen: Pen) -> list[Json]:
    """Without a check, or with none but what was not done, a pass covers nothing; what was not done fails nothing."""
    one, two, three = (pen.filed(f"{key} marked") for key in (HARNESS, "cabin/wheel", "cabin/lamp"))
    left = {"check": "Buckle", "ok": None, "why": "no key"}
    return [
        *(one, two, three),
        pen.passed(HARNESS, one, checks=[]),
        pen.passed("cabin/wheel", two, checks=[left]),
        pen.passed("cabin/lamp", three, checks=[left, SEEN]),
    ]


@case()
def a_must_of_the_usual_list(pen: Pen) -> list[Json]:
    """Each must of the group's list is ok in one of a pass's rows; on any job of the group, and on none of others."""
    hose, tie, harness = (pen.filed(f"{key} marked") for key in (HOSE, TIE, HARNESS))
    again = [{**CHECKED[-1], "ok": None}, *CHECKED]
    return [
        *(hose, tie, harness),
        pen.passed(HOSE, hose, checks=[SEEN]),
        pen.passed(TIE, tie, checks=again),
        pen.passed(HARNESS, harness, checks=[SEEN]),
    ]


@case(event=OWN_LISTS)
def a_must_of_the_events_own_list(pen: Pen) -> list[Json]:
    """Group by group the event's own list holds, else the package's."""
    hose, tie, harness = (pen.filed(f"{key} marked") for key in (HOSE, TIE, HARNESS))
    return [
        *(hose, tie, harness),
        pen.passed(HOSE, hose, checks=[SEEN]),
        pen.passed(TIE, tie, checks=[SEEN]),
        pen.passed(HARNESS, harness, checks=[{"check": "Date", "ok": False}, {"check": "Date", "ok": True}]),
    ]


@case()
def what_a_pass_accepts_unrepaired(pen: Pen) -> list[Json]:
    """Unknown, marked and worn as they are; bent with `until`; worse is repaired first; elsewhere anything."""
    said = ("", "marked", "worn", "bent", "loose", "cracked")
    hoses = [pen.filed(f"{HOSE} {condition}") for condition in said]
    others = [pen.filed(f"{OTHER} {condition}") for condition in said]
    lamp = pen.filed(f"{LAMP} broken")
    return [
        *hoses,
        *others,
        lamp,
        pen.passed(HOSE, *hoses),
        pen.passed(OTHER, *others, until="C"),
        pen.passed(LAMP, lamp),
    ]


@case()
def until_a_service_that_is_none(pen: Pen) -> list[Json]:
    """An `until` that names no service of the itinerary is as if it were not given."""
    bent, tie = pen.filed(f"{HOSE} bent"), pen.filed(f"{TIE} marked")
    came_in = pen.entry("service.entered", service="Y")
    return [bent, tie, pen.passed(HOSE, bent, until="X"), pen.passed(TIE, tie, until="Y"), came_in]


@case()
def temporary_repairs_pass_until(pen: Pen) -> list[Json]:
    """A temporary repair, and what only such repairs cover, is passed only with `until`; a lasting one needs none."""
    hose, other, tie = (pen.filed(f"{key} bent") for key in (HOSE, OTHER, TIE))
    taped, wrapped = pen.finished(HOSE, hose, temporary=True), pen.finished(OTHER, other, temporary=True)
    tied, new = pen.finished(TIE, tie, temporary=True), pen.finished(TIE, tie)
    return [
        *(hose, other, tie, taped, wrapped, tied, new),
        pen.passed(HOSE, hose, taped),
        pen.passed(OTHER, other, wrapped, until="B"),
        pen.passed(TIE, tie, tied, new),
    ]


@case()
def who_started_and_never_finished(pen: Pen) -> list[Json]:
    """Started, stopped, finished by somebody else: who started passes nothing on the job."""
    hose, tie = pen.filed(f"{HOSE} leaking"), pen.filed(f"{TIE} marked")
    start = started(pen, HOSE, "p-anni")
    stop = pen.entry("job.stopped", HOSE, person="p-anni", ends=ids([start]))
    repair = pen.finished(HOSE, hose)
    look = pen.passed(HOSE, hose, repair, person="p-anni")
    return [hose, tie, start, stop, repair, look, pen.passed(TIE, tie, person="p-anni")]


@case()
def undone_work_is_work(pen: Pen) -> list[Json]:
    """Undoing one's own start or finish does not undo having worked; a manager's undo of another's does."""
    keys = (HOSE, OTHER, TIE, HARNESS)
    reports = [pen.filed(f"{key} marked") for key in keys]
    own = [
        pen.finished(HOSE, reports[0], person="p-anni"),
        started(pen, OTHER, "p-anni"),
        pen.finished(TIE, reports[2], person="p-anni"),
        started(pen, HARNESS, "p-anni"),
    ]
    undone = [pen.voided(one, "p-anni") for one in own]
    looks = [pen.passed(key, one, person="p-anni") for key, one in zip(keys, reports, strict=True)]
    return [*reports, *own, *undone, *(pen.voided(one, "p-vera") for one in own[2:]), *looks]


@case(event=FILES["event.toml"].replace(b'roles = ["inspector"]', b'roles = ["inspector", "manager"]'))
def a_manager_who_undoes_own_work(pen: Pen) -> list[Json]:
    """A manager's undo of their own work is an author's: the work stays."""
    hose, tie = pen.filed(f"{HOSE} marked"), pen.filed(f"{TIE} marked")
    start, others = started(pen, HOSE, "p-odil"), started(pen, TIE, "p-anni")
    undone = [pen.voided(start, "p-odil"), pen.voided(others, "p-odil")]
    return [hose, tie, start, others, *undone, pen.passed(HOSE, hose), pen.passed(TIE, tie, person="p-anni")]


@case()
def undone_starts_make_repairers(pen: Pen) -> list[Json]:
    """Who started what a repair ends repaired, though the start was undone by its own author."""
    hose = pen.filed(f"{HOSE} leaking")
    start = started(pen, HOSE, "p-anni")
    undone = pen.voided(start, "p-anni")
    repair = pen.finished(HOSE, hose, ends=ids([start]))
    return [hose, start, undone, repair, pen.passed(HOSE, hose, repair, person="p-anni")]


@case()
def guesses_taken_back_by_others(pen: Pen) -> list[Json]:
    """A knock-on or bare finding goes where its own author or an inspector says otherwise, or its key is named."""
    wheel, bare = pen.filed(f"{WHEEL} bent"), pen.filed(zone="cabin")
    by_other = {**pen.amended(wheel, f"{WHEEL} marked"), "person": "p-bodo"}
    withdrawn = {**pen.withdrawn(bare), "person": "p-bodo"}
    return [wheel, by_other, bare, withdrawn]


@case()
def guesses_taken_back_by_an_inspector(pen: Pen) -> list[Json]:
    """An inspector's word takes a knock-on and a bare finding away, never a direct one."""
    wheel, bare, hose = pen.filed(f"{WHEEL} bent"), pen.filed(zone="cabin"), pen.filed(f"{OTHER} marked")
    undone = [pen.withdrawn(bare), pen.withdrawn(hose), pen.amended(wheel, f"{WHEEL} marked")]
    return [wheel, bare, hose, *({**one, "person": "p-odil"} for one in undone)]


@case()
def guesses_that_are_named(pen: Pen) -> list[Json]:
    """Somebody else's version that names the key at all takes a guess away; a guess takes no direct finding away."""
    wheel, hose = pen.filed(f"{WHEEL} bent"), pen.filed(f"{HOSE} leaking")
    again = {**pen.amended(wheel, f"{WHEEL} broken", km=4), "person": "p-bodo"}
    guess = {**pen.amended(hose, f"{WHEEL} bent"), "person": "p-bodo"}
    return [wheel, hose, again, guess]


@case()
def what_does_not_count_names_nothing(pen: Pen) -> list[Json]:
    """A bare hand-over does not count, so it takes no bare finding of somebody else away; nor does it leave one."""
    bare, was_there = pen.filed(zone="cabin"), pen.filed(zone="front-end", where="hand-over")
    over = {**pen.amended(bare, zone="cabin", where="hand-over"), "person": "p-bodo"}
    return [bare, over, was_there, {**pen.withdrawn(was_there), "person": "p-bodo"}]


@case(car_map=SIDES)
def here_and_across(pen: Pen) -> list[Json]:
    """`here` is the version's zone, for a symptom else each that lists it; `across` the zone on the other side."""
    left, right = pen.filed(symptoms=["pulls"], zone="front-left"), pen.filed(symptoms=["pulls"], zone="front-right")
    nowhere, cabin = pen.filed(symptoms=["pulls"]), pen.filed(symptoms=["rattle"], zone="cabin")
    return [left, right, nowhere, cabin, pen.filed(symptoms=["rattle"], zone="front-right")]


@case(car_map=SIDES)
def knock_on_here_and_across(pen: Pen) -> list[Json]:
    """A knock-on `across` or `here` goes by the version's zone, and to nothing that is not listed there."""
    return [pen.filed("front-right/wheel bent"), pen.filed(f"{WHEEL} broken"), pen.filed("cabin/wheel bent")]


@case(rates=NEXT)
def further_inspections_of_a_zone(pen: Pen) -> list[Json]:
    """Of the inspections left in a zone of the map the first keeps its minutes, each further one has others."""
    keys = (HOSE, TIE, "front-left/hub", OTHER, HOOP, HARNESS)
    reports = [pen.filed(key) for key in keys]
    return [*reports, pen.passed(HOSE, reports[0]), pen.filed("nowhere/thing", "nowhere/other"), pen.filed("cabin/mat")]


@case(rates=OPENED, car_map=OWN_ACCESS)
def what_an_inspection_needs_open(pen: Pen) -> list[Json]:
    """The component's own steps, else those of the zone's kind, else none; once each in the totals."""
    return [pen.filed(key) for key in (HOSE, TIE, OTHER, HARNESS, LAMP, "nowhere/thing")]


@case(car_map=None)
def a_corner_by_the_usual_map(pen: Pen) -> list[Json]:
    """A bent rim, a bent arm and a long pedal at one corner ask for the first line only."""
    return [pen.filed("front-left/wheel bent", "front-left/lower-arm bent", symptoms=["long-pedal"])]

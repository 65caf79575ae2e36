"""Cases of what closes a job: repairs, looks, undone entries."""

from making import Json, Pen, ids
from small_event import FILES
from vector_cases.case import Case, collector

CASES: list[Case] = []
case = collector(CASES)

LAMP, GRILLE, BUMPER, BADGE = "front-end/lamp", "front-end/grille", "front-end/bumper", "front-end/badge"
HOSE, HOOP, HARNESS = "front-left/brake-hose", "cabin/main-hoop", "cabin/harness"
OFFICIAL = {"shown_to": "official", "official_said": "go on"}


def started(pen: Pen, job: str, person: str = "p-bodo") -> Json:
    return pen.entry("job.started", job, person=person)


def deferred(pen: Pen, job: str, *covers: Json) -> Json:
    return pen.entry("job.deferred", job, covers=ids(covers), to="road", reason="no time")


@case()
def every_state(pen: Pen) -> list[Json]:
    """Finished, accepted, patched, started, deferred, open: the first that is true."""
    keys = (LAMP, GRILLE, BUMPER, BADGE, HARNESS, "front-left/arm")
    lamp, grille, bumper, badge, harness, arm = reports = [pen.filed(f"{key} broken") for key in keys]
    done = [pen.finished(LAMP, lamp), pen.passed(GRILLE, grille), pen.finished(BUMPER, bumper, temporary=True)]
    return [*reports, *done, started(pen, BADGE), deferred(pen, BADGE, badge), deferred(pen, HARNESS, harness), arm]


@case()
def partly_done(pen: Pen) -> list[Json]:
    """A job with findings done, patched and open is open, in the worst condition of what is left."""
    worst, middle, least = pen.filed(f"{LAMP} broken"), pen.filed(f"{LAMP} cracked"), pen.filed(f"{LAMP} marked")
    return [worst, middle, least, pen.finished(LAMP, worst), pen.finished(LAMP, middle, temporary=True)]


@case()
def a_start_ends(pen: Pen) -> list[Json]:
    """A start is over once a stop or a repair of its own job ends it."""
    lamp, grille, bumper = pen.filed(f"{LAMP} broken"), pen.filed(f"{GRILLE} missing"), pen.filed(f"{BUMPER} bent")
    one, two, three = started(pen, LAMP), started(pen, GRILLE), started(pen, BUMPER)
    stop = pen.entry("job.stopped", LAMP, person="p-bodo", ends=ids([one, two]))
    return [lamp, grille, bumper, one, two, three, stop, pen.finished(BUMPER, person="p-bodo", ends=ids([three]))]


@case()
def a_repair_without_a_finding(pen: Pen) -> list[Json]:
    """A repair that nothing asked for is a finished job, to be looked at where it is safety-critical."""
    return [pen.finished(BADGE), pen.finished(HOSE), started(pen, GRILLE)]


@case()
def covers_of_the_own_subject_only(pen: Pen) -> list[Json]:
    """What an entry covers counts on its own job only."""
    both = pen.filed(f"{LAMP} broken", f"{GRILLE} missing")
    return [both, pen.finished(LAMP, both), pen.passed(HOSE, both)]


@case()
def said_again_in_the_same_condition(pen: Pen) -> list[Json]:
    """A cover passes down to versions that say the same: correcting a km opens nothing."""
    hose = pen.filed(f"{HOSE} leaking", km=3)
    repair = pen.finished(HOSE, hose)
    look = pen.passed(HOSE, hose, repair)
    second = pen.amended(hose, f"{HOSE} leaking", km=4)
    return [hose, repair, look, second, pen.amended(second, f"{HOSE} leaking", f"{HOSE} marked", km=5)]


@case()
def said_again_in_another_condition(pen: Pen) -> list[Json]:
    """A cover does not pass down to another condition, nor past one to the same condition below it."""
    hose, lamp = pen.filed(f"{HOSE} leaking"), pen.filed(f"{LAMP} broken")
    repairs = [pen.finished(HOSE, hose), pen.finished(LAMP, lamp)]
    second = pen.amended(lamp, f"{LAMP} bent")
    return [hose, lamp, *repairs, pen.amended(hose, f"{HOSE} marked"), second, pen.amended(second, f"{LAMP} broken")]


@case()
def said_again_in_a_worse_condition(pen: Pen) -> list[Json]:
    """Saying it is worse opens the job again."""
    hose = pen.filed(f"{HOSE} marked")
    look = pen.passed(HOSE, hose)
    return [hose, look, pen.amended(hose, f"{HOSE} leaking")]


@case()
def a_late_report_opens_again(pen: Pen) -> list[Json]:
    """A report that comes after the sign-off is not hidden by it."""
    hose = pen.filed(f"{HOSE} leaking")
    repair = pen.finished(HOSE, hose)
    return [hose, repair, pen.passed(HOSE, hose, repair), pen.filed(f"{HOSE} leaking")]


@case()
def a_failed_look(pen: Pen) -> list[Json]:
    """A failed look is a finding of its own; so is a pass with a check that is not ok."""
    hose, harness = pen.filed(f"{HOSE} leaking"), pen.filed(f"{HARNESS} marked")
    failed = pen.failed(HOSE)
    half = pen.passed(HARNESS, harness, checks=[{"check": "stitches", "ok": True}, {"check": "date", "ok": False}])
    return [hose, harness, failed, pen.passed(HOSE, hose), half, pen.voided(half, "p-odil"), pen.failed(BADGE)]


@case()
def a_failed_look_repaired_and_passed(pen: Pen) -> list[Json]:
    """A pass that covers report, failed look and repair closes all."""
    hose = pen.filed(f"{HOSE} leaking")
    failed = pen.failed(HOSE)
    repair = pen.finished(HOSE, hose, failed)
    return [hose, failed, repair, pen.passed(HOSE, hose, failed, repair)]


@case()
def a_pass_without_the_repair(pen: Pen) -> list[Json]:
    """A pass given before the repair leaves the repair to be looked at."""
    hose = pen.filed(f"{HOSE} leaking")
    return [hose, pen.passed(HOSE, hose), pen.finished(HOSE, hose)]


@case()
def repairers_own_passes(pen: Pen) -> list[Json]:
    """Who repaired, as author, as repairer or by a start that the repair ends, can't pass it."""
    author, named, helped = (pen.filed(f"{key} leaking") for key in (HOSE, "front-right/brake-hose", HARNESS))
    start = started(pen, HARNESS, person="p-anni")
    repairs = [
        pen.finished(HOSE, author, person="p-anni"),
        pen.finished("front-right/brake-hose", named, repairers=["p-anni"]),
        pen.finished(HARNESS, helped, ends=ids([start])),
    ]
    looks = [
        pen.passed(str(one["subject"]), found, one, person="p-anni")
        for found, one in zip((author, named, helped), repairs, strict=True)
    ]
    return [author, named, helped, start, *repairs, *looks]


@case()
def a_repairer_of_one_repair_passes_another(pen: Pen) -> list[Json]:
    """A repairer may pass what his own repair does not cover."""
    first, second = pen.filed(f"{HOSE} leaking"), pen.filed(f"{HOSE} marked")
    own = pen.finished(HOSE, first, person="p-anni")
    other = pen.finished(HOSE, second)
    return [first, second, own, other, pen.passed(HOSE, first, second, own, other, person="p-anni")]


@case()
def passes_of_others_than_inspectors(pen: Pen) -> list[Json]:
    """Only who is an inspector in the set-up passes."""
    hose = pen.filed(f"{HOSE} marked")
    return [hose, *(pen.passed(HOSE, hose, person=person) for person in ("p-bodo", "p-vera", "p-nobody"))]


@case()
def a_cage_needs_an_official(pen: Pen) -> list[Json]:
    """A cage's pass says which official saw it and what he decided."""
    hoop = pen.filed(f"{HOOP} bent")
    return [hoop, pen.passed(HOOP, hoop), *(pen.passed(HOOP, hoop, **{name: "yes"}) for name in OFFICIAL)]


@case()
def blanks_say_nothing(pen: Pen) -> list[Json]:
    """White space, with the separators U+001C to U+001F, tells nothing of an official; any other sign does."""
    hoop, bars = pen.filed(f"{HOOP} bent"), pen.filed("cabin/door-bars bent")
    blank = pen.passed(HOOP, hoop, shown_to=" \u2003\u001f", official_said="go on")
    return [hoop, bars, blank, pen.passed("cabin/door-bars", bars, shown_to="\ufeff", official_said="\u200b")]


@case()
def a_cage_that_an_official_saw(pen: Pen) -> list[Json]:
    """With official and decision the pass of a cage counts."""
    hoop = pen.filed(f"{HOOP} bent")
    return [hoop, pen.passed(HOOP, hoop, **OFFICIAL)]


def until(pen: Pen, service: str, *entered: str) -> list[Json]:
    hose = pen.filed(f"{HOSE} marked")
    came_in = [pen.entry("service.entered", service=one) for one in entered]
    return [hose, pen.passed(HOSE, hose, until=service), *came_in]


@case()
def a_pass_still_good(pen: Pen) -> list[Json]:
    """A pass good until a service holds while only earlier services were entered."""
    return until(pen, "B", "A")


@case()
def a_pass_run_out(pen: Pen) -> list[Json]:
    """A pass runs out once that service or a later one was entered."""
    return until(pen, "B", "C")


@case()
def a_pass_until_a_service_of_no_itinerary(pen: Pen) -> list[Json]:
    """A service that the itinerary does not list counts as not given: such a pass never runs out."""
    return [*until(pen, "X", "C"), *until(pen, "Y", "Y")]


@case()
def undone_entries(pen: Pen) -> list[Json]:
    """Undone by its author or a manager an entry counts for nothing; by others, or from another car, it stays."""
    hose = pen.filed(f"{HOSE} marked")
    lamp, grille, badge = (pen.filed(f"{key} broken") for key in (LAMP, GRILLE, BADGE))
    one, two, three = pen.finished(LAMP, lamp), pen.finished(GRILLE, grille), pen.finished(BADGE, badge)
    look, came_in = pen.passed(HOSE, hose, until="A"), pen.entry("service.entered", service="A")
    far = pen.entry("entry.voided", person="p-vera", car="42", voids=ids([three]), reason="wrong car")
    undone = [pen.voided(one, "p-bodo"), pen.voided(two, "p-anni"), pen.voided(came_in, "p-vera"), far]
    return [hose, lamp, grille, badge, one, two, three, look, came_in, *undone]


@case()
def what_can_not_be_undone(pen: Pen) -> list[Json]:
    """A report or a failed look can't be undone, nor an undo."""
    hose, lamp = pen.filed(f"{HOSE} leaking"), pen.filed(f"{LAMP} broken")
    failed, repair = pen.failed(HOSE), pen.finished(LAMP, lamp)
    undo = pen.voided(repair, "p-bodo")
    return [hose, lamp, failed, repair, undo, *(pen.voided(one, "p-vera") for one in (hose, failed, undo))]


@case(event=FILES["event.toml"].replace(b'roles = ["inspector"]', b'roles = ["mechanic"]'))
def roles_as_they_are_now(pen: Pen) -> list[Json]:
    """A pass of somebody who is no inspector any more covers nothing."""
    hose = pen.filed(f"{HOSE} marked")
    return [hose, pen.passed(HOSE, hose)]

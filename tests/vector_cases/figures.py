"""Cases of the order, of minutes, parts and money, and of the release."""

from making import Json, Pen, ids
from small_event import FILES, OPERATIONS
from vector_cases.case import Case, collector

CASES: list[Case] = []
case = collector(CASES)

WHEEL, HOSE, OTHER_HOSE = "front-left/wheel", "front-left/brake-hose", "front-right/brake-hose"
LAMP, GRILLE, BUMPER, BADGE = "front-end/lamp", "front-end/grille", "front-end/bumper", "front-end/badge"
HOOP, MAT = "cabin/main-hoop", "cabin/mat"
CENTS = b'currency = "EUR"\nlabour_per_hour = 60.30\n'
NO_CENTS = {
    "rates": FILES["rates/rates.toml"].replace(b"EUR", b"JPY").replace(b"= 60", b"= 6100"),
    "parts": b"part,description,unit_cost\nrim,Rim,210\nhose,Hose,36\nlamp,Lamp,80\ngrille,Grille,12\n",
}
THREE_DECIMALS = {
    "rates": FILES["rates/rates.toml"].replace(b"EUR", b"KWD").replace(b"= 60", b"= 7.125"),
    "parts": FILES["rates/parts.csv"].replace(b"35.55", b"35.555"),
}
TIES = (
    OPERATIONS + b"mat,worn,beat,1,1,1,3,,,false,1,\nbadge,worn,glue,0.1,0.1,0.1,1,,,false,0.0333333333,\n"
    b"arm,worn,turn,0.7,0.7,0.7,1,,,false,0.233333333333333333333,\nhub,worn,turn,1.5,1.5,1.5,2,,,false,1,\n"
)
BY_THE_LITRE = OPERATIONS + b"mat,worn,soak,1.25,2.5,3.125,1,,hose*0.25;hose*0.1;rim*1.5,false,3,\n"


@case()
def the_order(pen: Pen) -> list[Json]:
    """Safety first, then must-do, then value per mechanic-minute, then the key; what is over comes last."""
    badge, mat = pen.filed(f"{BADGE} missing"), pen.filed(f"{MAT} worn")
    ends = pen.filed(f"{LAMP} broken", f"{GRILLE} missing", f"{BUMPER} bent")
    hose = pen.filed(f"{OTHER_HOSE} marked")
    return [pen.filed(f"{WHEEL} bent"), badge, mat, ends, hose, pen.passed(OTHER_HOSE, hose), pen.finished(MAT, mat)]


@case(operations=TIES)
def ties_that_only_fractions_see(pen: Pen) -> list[Json]:
    """Value per mechanic-minute is exact: a third and nearly a third are not the same, two thirds of two are."""
    return [
        pen.filed(f"{MAT} worn"),
        pen.filed(f"{BADGE} worn"),
        pen.filed("front-left/arm worn", "front-left/hub worn"),
    ]


@case()
def rows_by_zone_or_none(pen: Pen) -> list[Json]:
    """A row with the zone beats one without; no row is assessed; unknown is inspected in its group's minutes."""
    wheels = [pen.filed(f"{WHEEL} bent"), pen.filed("front-right/wheel bent"), pen.filed("front-right/wheel flat")]
    return [*wheels, pen.filed(HOOP), pen.filed(LAMP), pen.filed("front-left/tie bent")]


@case()
def parts_that_run_short(pen: Pen) -> list[Json]:
    """The van's stock goes in the order of the queue, less what repairs on all cars used, undone ones left out."""
    used = pen.finished(MAT, car="42", parts=[{"part": "hose", "qty": 2}, {"part": "rim", "qty": 5}])
    used["car"] = "42"
    undone = pen.finished(BADGE, parts=[{"part": "lamp", "qty": 1}])
    reports = [pen.filed(f"{HOSE} leaking"), pen.filed(f"{OTHER_HOSE} leaking"), pen.filed(f"{WHEEL} bent")]
    lamp = pen.filed(f"{LAMP} broken")
    return [used, undone, pen.voided(undone, "p-vera"), *reports, lamp, pen.filed(f"{GRILLE} missing")]


@case()
def nothing_is_short_for_what_is_over(pen: Pen) -> list[Json]:
    """A finished job takes nothing from the van any more."""
    grille = pen.filed(f"{GRILLE} missing")
    return [grille, pen.finished(GRILLE, grille, parts=[{"part": "grille", "qty": 1}])]


@case()
def access_once(pen: Pen) -> list[Json]:
    """An access step counts once for the car or once a zone, (open + close) × mechanics, and not for what is over."""
    lamp = pen.filed(f"{LAMP} broken")
    wheels = [pen.filed(f"{HOSE} leaking"), pen.filed(f"{OTHER_HOSE} leaking"), pen.filed("front-left/hub bent")]
    return [lamp, pen.finished(LAMP, lamp), *wheels]


@case(rates=CENTS + b"inspect_minutes = [0.5, 0.5, 0.5]\nassess_minutes = [0.25, 0.35, 0.95]\n")
def each_line_is_rounded_once(pen: Pen) -> list[Json]:
    """Lines are rounded half up to the minor unit, totals add rounded lines, minutes show two decimals."""
    return [pen.filed(f"{LAMP} broken", f"{GRILLE} missing", f"{BADGE} bent", f"{BUMPER}"), pen.filed(f"{WHEEL} bent")]


@case(**NO_CENTS)
def a_currency_without_decimals(pen: Pen) -> list[Json]:
    """Yen have no minor unit."""
    return [pen.filed(f"{WHEEL} bent"), pen.filed(f"{LAMP} broken")]


@case(**THREE_DECIMALS)
def a_currency_of_three_decimals(pen: Pen) -> list[Json]:
    """Dinars have a thousand fils."""
    return [pen.filed(f"{HOSE} leaking"), pen.filed(f"{LAMP} broken")]


@case(operations=BY_THE_LITRE, van=b"part,loaded\nhose,0.3\nrim,2.00\n")
def parts_by_the_litre(pen: Pen) -> list[Json]:
    """Equal parts of a row add up, quantities are exact, and text is as good as a number."""
    used = pen.finished(BADGE, parts=[{"part": "rim", "qty": qty} for qty in ("0.75", 0.1, "1E0")])
    return [used, pen.filed(f"{MAT} worn")]


@case(operations=BY_THE_LITRE.replace(b"0.25", b"0.33335"), van=b"part,loaded\nhose,1.1\nrim,1\n")
def quantities_show_four_decimals(pen: Pen) -> list[Json]:
    """A quantity is shown half up to four decimals and calculated with as it is; without one, a part used is one."""
    return [pen.finished(BADGE, parts=[{"part": "hose"}, {"part": "rim", "qty": "0.00005"}]), pen.filed(f"{MAT} worn")]


@case(set_aside=["ｚ", "𝔷", "b", "a", "b"])
def set_aside(pen: Pen) -> list[Json]:
    """Entries set aside hold the car and come first, each once, by code point."""
    return [pen.filed(f"{LAMP} broken"), pen.filed(f"{HOSE} marked")]


@case(set_aside=["a", "b"], set_aside_more=3)
def more_set_aside_than_is_named(pen: Pen) -> list[Json]:
    """What holds a car and is too much to be named is counted."""
    return [pen.filed(f"{LAMP} broken")]


@case()
def hold_reasons(pen: Pen) -> list[Json]:
    """In queue order each safety-critical job that is not passed: re-inspection, official or inspection."""
    hose, hoop = pen.filed(f"{HOSE} leaking"), pen.filed(f"{HOOP} bent")
    return [hose, hoop, pen.failed(HOSE), pen.filed(f"{OTHER_HOSE} marked"), pen.finished("front-left/tie")]


@case()
def nothing_open(pen: Pen) -> list[Json]:
    """With every safety-critical job passed nothing is open, whatever else is to do."""
    hose = pen.filed(f"{HOSE} leaking")
    repair = pen.finished(HOSE, hose)
    return [hose, repair, pen.passed(HOSE, hose, repair), pen.filed(f"{LAMP} broken")]


def release(pen: Pen, service: str, *covers: Json) -> Json:
    return pen.entry("car.released", person="p-vera", service=service, covers=ids(covers))


@case()
def released_unseen(pen: Pen) -> list[Json]:
    """Of stages before the service, or of none, what neither a release nor a pass covers was left with unseen."""
    first, second, third = (pen.filed(f"{HOSE} marked", stage=stage) for stage in ("SS1", "SS2", "SS3"))
    nowhere, far = pen.filed(f"{HOOP} bent"), pen.filed(f"{OTHER_HOSE} leaking", stage="SS99")
    passed = pen.filed("front-left/tie marked", stage="SS1")
    early = pen.filed("cabin/harness worn", stage="SS1")
    reports = [first, second, third, nowhere, far, passed, early, pen.filed(f"{LAMP} broken", stage="SS1")]
    looks = [pen.passed("front-left/tie", passed), release(pen, "A", first), release(pen, "B"), release(pen, "X")]
    undone = release(pen, "C")
    return [*reports, *looks, undone, pen.voided(undone, "p-vera")]


@case()
def a_release_covers_what_passes_down(pen: Pen) -> list[Json]:
    """What a release covers stays covered when the report is corrected and says the same."""
    hose = pen.filed(f"{HOSE} marked", stage="SS1", km=1)
    return [hose, release(pen, "A", hose), pen.amended(hose, f"{HOSE} marked", stage="SS1", km=2)]


@case()
def kinds_that_change_nothing(pen: Pen) -> list[Json]:
    """Readings, photos, incidents, clocks and costs change no job and no release, only the count of entries."""
    lamp = pen.filed(f"{LAMP} broken")
    others = [
        pen.entry("stage.nothing_seen", stage="SS1", how="from-seat"),
        pen.entry("reading.taken", reading="oil", value=0.5, unit="l"),
        pen.entry("incident.grouped", reports=ids([lamp]), title="the bank"),
        pen.entry("photo.linked", str(lamp["id"]), photo="c" * 64),
        pen.entry("photo.linked", LAMP, photo="d" * 64),
        pen.entry("cost.adjusted", LAMP, person="p-vera", line=LAMP, amount="12", reason="agreed"),
        pen.entry("driver.changed", driver="p-toma"),
        pen.entry("car.retired", stage="SS1"),
        pen.entry("car.restarts", stage="SS2"),
        pen.entry("service.left", service="A"),
    ]
    return [lamp, *others]


@case()
def times_that_nobody_can_mean(pen: Pen) -> list[Json]:
    """Clocks decide nothing: entries at the ends of what can be written count as any other, and in no other order."""
    lamp = pen.filed(f"{LAMP} broken")
    worse = pen.amended(lamp, f"{LAMP} missing")
    hose = pen.filed(f"{HOSE} leaking")
    done = pen.finished(HOSE, hose)
    seen = pen.passed(HOSE, hose, done, until="B", checks=[{"check": "leaks", "ok": True}])
    came = pen.entry("service.entered", service="A", official_time="9999-12-31T23:59:59-23:59")
    last, first = {"at": "9999-12-31T23:59:59-23:59"}, {"at": "0001-01-01T00:00:00+23:59"}
    return [
        {**lamp, **last},
        {**worse, **first},
        {**hose, **last},
        {**done, **first},
        {**seen, **first},
        {**came, **last},
    ]


@case(car="42")
def the_other_car(pen: Pen) -> list[Json]:
    """A queue is of one car; another car's entries count only for the parts that they used."""
    used = pen.finished(LAMP, parts=[{"part": "lamp", "qty": 1}])
    lamp = pen.entry(
        "report.filed", car="42", zone="front-end", findings=[{"component": "lamp", "condition": "broken"}]
    )
    return [pen.filed(f"{HOSE} leaking"), used, lamp]

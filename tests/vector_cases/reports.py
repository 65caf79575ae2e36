"""Cases of what reports and their versions put on jobs."""

from making import Json, Pen, ids
from small_event import FILES
from vector_cases.case import Case, collector

CASES: list[Case] = []
case = collector(CASES)

WHEEL, HUB, HOSE, TIE = "front-left/wheel", "front-left/hub", "front-left/brake-hose", "front-left/tie"
NEW_NAMES = '"badge", "ｚ-clip", "𝔷-clip", "constructor", "__proto__"]'.encode()


@case()
def no_entries(pen: Pen) -> list[Json]:
    """A car of which nothing was said has no job and nothing open."""
    return []


@case()
def direct_and_knock_on(pen: Pen) -> list[Json]:
    """A direct finding knocks on to what its zone lists and to keys that the map lists, without chains."""
    return [pen.filed(f"{WHEEL} bent", stage="SS1", photos=["b" * 64, "a" * 64, "b" * 64])]


@case()
def a_symptom_makes_the_crew_check(pen: Pen) -> list[Json]:
    """A symptom names its checks directly, in condition unknown; one that the map does not know names the zone."""
    return [pen.filed(symptoms=["long-pedal"]), pen.filed(symptoms=["singing"], zone="cabin")]


@case()
def a_bare_body(pen: Pen) -> list[Json]:
    """A body with neither findings nor symptoms is to be looked at in its zone, or in none."""
    return [pen.filed(zone="cabin"), pen.filed(), pen.filed(zone="no-such-zone")]


@case()
def one_key_once(pen: Pen) -> list[Json]:
    """One entry names one key once: direct before knock-on, the worse condition first."""
    return [pen.filed(f"{WHEEL} bent", f"{WHEEL} marked", f"{WHEEL} broken", f"{HUB} marked")]


@case()
def an_amended_report(pen: Pen) -> list[Json]:
    """A version that nothing replaces is the report; what it leaves out that is not safety-critical goes."""
    first = pen.filed("front-end/lamp broken", "front-end/grille missing")
    return [first, pen.amended(first, "front-end/lamp bent")]


@case()
def two_versions(pen: Pen) -> list[Json]:
    """Of several heads all findings count, and the jobs say that there are two versions."""
    first = pen.filed("front-end/lamp broken")
    return [first, pen.amended(first, "front-end/lamp bent"), pen.amended(first, "front-end/grille missing")]


@case()
def a_ring_of_versions(pen: Pen) -> list[Json]:
    """Versions that replace each other in a ring stay heads, until one below the ring replaces them."""
    first = pen.filed("front-end/lamp broken")
    one = pen.amended(first, "front-end/lamp bent")
    other = pen.amended(one, "front-end/grille missing")
    one["data"]["replaces"] = ids([first, other])
    second = pen.filed(f"{HOSE} leaking")
    left = pen.amended(second, f"{HOSE} marked")
    right = pen.amended(left, "front-left/wheel marked")
    left["data"]["replaces"] = ids([second, right])
    return [first, one, other, second, left, right, pen.amended(right, zone="front-left")]


@case()
def a_withdrawn_report(pen: Pen) -> list[Json]:
    """Withdrawn, safety-critical direct findings stay to be looked at; knock-on and bare ones go."""
    wheel, hose, bare = pen.filed(f"{WHEEL} bent"), pen.filed(f"{HOSE} leaking"), pen.filed(zone="cabin")
    return [wheel, hose, bare, pen.withdrawn(wheel), pen.withdrawn(hose), pen.withdrawn(bare)]


@case()
def safety_named_again(pen: Pen) -> list[Json]:
    """A safety-critical finding of an older version goes where a version below it names its key directly."""
    first = pen.filed(f"{HOSE} leaking", f"{TIE} bent")
    second = pen.amended(first, f"{HOSE} marked")
    return [first, second, pen.amended(second, f"{WHEEL} bent")]


@case()
def replaces_of_strangers(pen: Pen) -> list[Json]:
    """Ids that are not here, of other reports, of other cars or its own replace nothing."""
    lamp, grille = pen.filed("front-end/lamp broken"), pen.filed("front-end/grille missing")
    other = pen.entry("report.filed", car="42", zone="cabin")
    amended = pen.amended(lamp, "front-end/bumper bent")
    amended["data"]["replaces"] = [*ids([grille, other, amended]), "01890000-0000-7000-8000-000000000000"]
    return [lamp, grille, other, amended]


@case()
def hand_over(pen: Pen) -> list[Json]:
    """Of a hand-over only safety-critical direct and knock-on findings count."""
    return [
        pen.filed(f"{WHEEL} bent", "front-left/arm bent", where="hand-over"),
        pen.filed(zone="cabin", where="hand-over"),
        pen.filed(f"{TIE} marked", where="hand-over"),
    ]


@case()
def unlisted_pairs(pen: Pen) -> list[Json]:
    """A pair that the car map does not list is safety-critical."""
    return [pen.filed("cabin/wheel bent"), pen.filed("nowhere/thing cracked"), pen.filed("front-end/lamp broken")]


@case(car_map=FILES["car_map.toml"].replace(b'group = "brake"', b'group = "body"'))
def groups_that_stay(pen: Pen) -> list[Json]:
    """What the package's own map has in cage, brake or steering stays there, listed by the team's map or not."""
    return [pen.filed(f"{HOSE} marked"), pen.filed("cabin/main-hoop bent"), pen.filed("front-left/brake-caliper loose")]


@case()
def conditions_in_a_components_own_order(pen: Pen) -> list[Json]:
    """A component's own list orders its conditions; what the list leaves out is worse than all of it."""
    tie, hose = pen.filed(f"{TIE} loose"), pen.filed(f"{HOSE} marked")
    return [tie, pen.filed(f"{TIE} bent"), hose, pen.filed(f"{HOSE} leaking"), pen.filed("front-right/tie worn")]


@case()
def a_condition_that_the_own_list_lacks(pen: Pen) -> list[Json]:
    """Worn is not on the tie's own list, so it is worse than loose, the last that is."""
    return [pen.filed(f"{TIE} loose"), pen.filed(f"{TIE} worn"), pen.filed(TIE)]


@case(car_map=FILES["car_map.toml"].replace(b'"badge"]', NEW_NAMES))
def names_by_code_point(pen: Pen) -> list[Json]:
    """Keys are in the order of code points, whatever they are called: U+FF5A precedes U+1D537."""
    names = ("𝔷-clip", "ｚ-clip", "constructor", "__proto__", "badge")
    return [pen.filed(*(f"front-end/{name} missing" for name in names)), pen.filed(symptoms=["toString"])]


@case()
def entries_doubled_and_in_no_order(pen: Pen) -> list[Json]:
    """The same set gives the same result, whatever the order and however often an entry comes."""
    hose = pen.filed(f"{HOSE} leaking")
    repair = pen.finished(HOSE, hose)
    look = pen.passed(HOSE, hose, repair)
    return [look, repair, hose, look, repair]

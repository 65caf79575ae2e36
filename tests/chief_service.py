"""One service worked minute by minute by hand: an invented team, four people and 23 minutes in the bay.

A tyre and a brake hose broken front right, two parts beside them and the pipes under the floor to look at where the
guard was hit; a mirror, a mud flap, a lamp bracket. `service` is what a planner is given, `BY_HAND` how a chief does
it, a plan that keeps every rule.
"""

from collections.abc import Mapping, Sequence

from msgspec import to_builtins

from making import Json, Pen, queue_of
from plan_told import on_grid
from shuntbook.queue.answer import Queue
from shuntbook.setup.folder import Setup, read_setup

EVENT = "by-the-clock"
BODO, KASP, ANNI, ODIL, ILKA = "p-bodo", "p-kasp", "p-anni", "p-odil", "p-ilka"
CAR_MAP = """
safety_groups = ["wheel-hold"]
[zones.front-right]
kind = "corner"
people = 2
components = ["tyre", "brake-hose", "upright", "track-rod-end"]
[zones.rear-left]
kind = "corner"
people = 2
components = ["tyre", "mud-flap"]
[zones.floor]
kind = "underside"
people = 1
components = ["brake-pipe", "sill"]
[zones.front]
kind = "end"
people = 2
components = ["lamp-bracket"]
[zones.left-side]
kind = "side"
people = 1
components = ["mirror", "handle"]
[zones.engine-bay]
kind = "engine"
people = 2
components = ["oil-cap"]
[zones.cabin]
kind = "cabin"
people = 1
components = ["main-hoop"]
[components.tyre]
[components.brake-hose]
group = "brake"
inspect_access = ["car-on-stands"]
[components.upright]
group = "wheel-hold"
[components.track-rod-end]
group = "steering"
[components.mud-flap]
[components.brake-pipe]
group = "brake"
inspect_access = ["guard-off"]
[components.sill]
[components.lamp-bracket]
[components.mirror]
[components.handle]
[components.oil-cap]
[components.main-hoop]
group = "cage"
"""
OPERATIONS = """\
component,condition,action,minutes_best,minutes_likely,minutes_worst,mechanics,access,parts,must_do,value,zone,skill,after,then,ground,fire_risk,wear,max_events,crew
tyre,broken,swap,1,2,3,1,car-on-stands,,true,90,,,brake-hose,wheel-nut-torque,,,,,
brake-hose,cracked,replace,4,7,10,1,wheel-off,,true,95,,,,pedal-held,,,,,
mirror,broken,replace,2,3,4,1,,,false,20,,,,,,,,,
mud-flap,broken,refit,2,3,4,1,,,false,10,,,,,,,,,
lamp-bracket,loose,tighten,1,2,3,1,,,true,40,,,,,yes,,,,
sill,bent,straighten,15,18,21,1,,,true,0,,,,,,,,,
oil-cap,leaking,seal,1,2,3,1,bonnet-up,,false,15,,,,,,yes,,,
oil-cap,loose,tighten,1,2,3,1,bonnet-up,,false,15,,oils,,,,,,,
main-hoop,cracked,weld,9,10,11,1,,,true,95,,,,,,,,,
"""
ACCESS = """\
step,per,minutes_open,minutes_close,mechanics,needs,moves_car
car-on-stands,car,2,1.5,2,,yes
wheel-off,zone,0.5,1,1,car-on-stands,
guard-off,car,1.5,1.5,1,car-on-stands,
bonnet-up,car,0.25,0.25,1,,
"""
CHECKS = """\
check,minutes_best,minutes_likely,minutes_worst,mechanics,when,by,crew
wheel-nut-torque,0.5,0.5,0.5,1,on-ground,other,
pedal-held,0.5,0.5,0.5,1,before-close,other,yes
"""
RATES = """
currency = "EUR"
labour_per_hour = 60
inspect_minutes = [1, 2, 3]
inspect_next_minutes = [0.25, 0.5, 0.75]
[inspect_access]
corner = ["car-on-stands", "wheel-off"]
underside = ["car-on-stands"]
"""
ROUTINE = (
    ("levels", "[2, 3, 4]", 1, "engine-bay", '["bonnet-up"]', "any"),
    ("loose-wheels", "[2, 3, 4]", 1, "", "[]", "any"),
    ("belts", "[1, 2, 3]", 1, "cabin", "[]", "ground"),
    ("gauge-check", "[0.5, 1, 1.5]", 1, "car", "[]", "ground"),
    ("tools-counted", "[0.5, 1, 1.5]", 1, "", "[]", "last"),
)
PEOPLE = (
    (BODO, '["mechanic"]'), (KASP, '["mechanic"]'), (ANNI, '["mechanic"]'), (ODIL, '["inspector"]'),
    (ILKA, '["driver"]'), ("p-toma", '["co-driver"]'),
)  # fmt: skip
HITS: Sequence[tuple[str, Sequence[tuple[str, str]]]] = (
    ("front-right", (("tyre", "broken"), ("brake-hose", "cracked"))),
    ("front-right", (("upright", "unknown"), ("track-rod-end", "unknown"))),
    ("floor", (("brake-pipe", "unknown"),)),
    ("left-side", (("mirror", "broken"),)),
    ("rear-left", (("mud-flap", "broken"),)),
    ("front", (("lamp-bracket", "loose"),)),
)


def files(more: str = "", people: Sequence[tuple[str, str]] = PEOPLE) -> dict[str, bytes]:
    """The event folder's files; more: of event.toml."""
    lines = [f'event = "{EVENT}"', 'timezone = "Europe/Vienna"', "[[cars]]", 'car = "41"']
    for person, roles in people:
        lines += ["[[people]]", f'person = "{person}"', f"roles = {roles}"]
        lines += ['skills = ["oils"]'] if person == ANNI else []
    lines += ["[[stages]]", 'stage = "SS1"', "km = 9", "[[services]]", 'service = "A"', 'after = "SS1"']
    lines += ["minutes = 30", "in_minutes = 2", "out_minutes = 5"]
    for task, minutes, many, zone, access, when in ROUTINE:
        lines += ["[[routine]]", f'task = "{task}"', f"minutes = {minutes}", f"mechanics = {many}"]
        lines += [f'zone = "{zone}"', f"access = {access}", "must_do = true", "vital = true", f'when = "{when}"']
    texts = {
        "event.toml": "\n".join([*lines, more]), "car_map.toml": CAR_MAP, "rates/operations.csv": OPERATIONS,
        "rates/access.csv": ACCESS, "rates/checks.csv": CHECKS, "rates/rates.toml": RATES,
        "rates/parts.csv": "part,description,unit_cost\n", "van.csv": "part,loaded\n",
    }  # fmt: skip
    return {name: text.encode() for name, text in texts.items()}


def service(
    more_hits: Sequence[tuple[str, Sequence[tuple[str, str]]]] = (),
    more: str = "",
    people: Sequence[tuple[str, str]] = PEOPLE,
) -> tuple[Setup, Queue]:
    """The set-up and the queue of car 41 after these hits and more: zone, and component with condition."""
    pen, entries, setup = Pen(EVENT), [], read_setup(files(more, people))
    for zone, findings in (*HITS, *more_hits):
        found = [{"component": component, "condition": condition} for component, condition in findings]
        entries.append(pen.entry("report.filed", stage="SS1", where="stage", zone=zone, findings=found))
    return setup, queue_of(entries, setup)


STANDS, WHEEL, GUARD, BONNET = "car-on-stands", "wheel-off", "guard-off", "bonnet-up"
FR = "front-right"
BY_HAND: tuple[tuple[str, str, int, int, tuple[str, ...], str, Json], ...] = (
    ("open car-on-stands", "open", 0, 120, (BODO, KASP), "", {"step": STANDS}),
    ("routine loose-wheels", "routine", 0, 180, (ANNI,), "", {}),
    ("open wheel-off front-right", "open", 120, 150, (KASP,), FR, {"step": WHEEL}),
    ("open guard-off", "open", 120, 210, (BODO,), "", {"step": GUARD}),
    ("inspect front-right", "inspect", 150, 300, (ODIL,), FR, {"jobs": [f"{FR}/track-rod-end", f"{FR}/upright"]}),
    ("replace front-right/brake-hose", "work", 150, 570, (KASP,), FR, {"job": f"{FR}/brake-hose"}),
    ("refit rear-left/mud-flap", "work", 180, 360, (ANNI,), "rear-left", {"job": "rear-left/mud-flap"}),
    ("replace left-side/mirror", "work", 210, 390, (BODO,), "left-side", {"job": "left-side/mirror"}),
    ("inspect floor", "inspect", 300, 420, (ODIL,), "floor", {"jobs": ["floor/brake-pipe"]}),
    ("open bonnet-up", "open", 360, 375, (ANNI,), "", {"step": BONNET}),
    ("routine levels", "routine", 375, 555, (ANNI,), "engine-bay", {}),
    ("close guard-off", "close", 420, 510, (BODO,), "", {"step": GUARD}),
    ("close bonnet-up", "close", 555, 570, (ANNI,), "", {"step": BONNET}),
    ("pedal-held front-right/brake-hose", "check", 570, 600, (ILKA,), FR, {"job": f"{FR}/brake-hose"}),
    ("inspect front-right", "inspect", 600, 720, (ODIL,), FR, {"jobs": [f"{FR}/brake-hose"]}),
    ("swap front-right/tyre", "work", 600, 720, (KASP,), FR, {"job": f"{FR}/tyre"}),
    ("close wheel-off front-right", "close", 720, 780, (KASP,), FR, {"step": WHEEL}),
    ("close car-on-stands", "close", 780, 870, (BODO, KASP), "", {"step": STANDS}),
    ("wheel-nut-torque front-right", "check", 870, 900, (ANNI,), FR, {"step": WHEEL}),
    ("routine gauge-check", "routine", 870, 930, (BODO,), "car", {}),
    ("tighten front/lamp-bracket", "work", 870, 990, (KASP,), "front", {"job": "front/lamp-bracket"}),
    ("routine belts", "routine", 900, 1020, (ANNI,), "cabin", {}),
    ("routine tools-counted", "routine", 1020, 1080, (BODO,), "", {}),
)
"""Task, kind, from and to in seconds, people, zone, and of which job, jobs or step it is."""


def plan(tasks: Sequence[Json], left_out: Mapping[str, str] | None = None, **more: object) -> Json:
    """A plan as it is told, of these tasks; left_out: why each is left out."""
    finish, work = max((task["end_s"] for task in tasks), default=0), on_grid(23)  # type: ignore[arg-type]
    out = [{"job": job, "why": why, "reason": why} for job, why in (left_out or {}).items()]
    told = {"service": "A", "minutes": 30, "work_s": work, "finish_s": finish, "spare_s": max(0, work - finish)}
    told |= {"late_min": 0, "choice": "on-time", "needs": None, "now_s": 0, "people": [], "done": []}
    return {**told, "tasks": list(tasks), "left_out": out, "lateness": {"left_min": 15}, **more}


def by_hand() -> list[Json]:
    """The tasks of the plan made by hand, each a fresh object."""
    return [task(*row) for row in BY_HAND]


def task(
    name: str, kind: str, start: int, end: int, people: Sequence[str], zone: str, of: Mapping[str, object]
) -> Json:
    """A task as it is told; of: its job, jobs or step."""
    times = {"task": name, "kind": kind, "start_s": start, "end_s": end, "people": list(people), "zone": zone}
    built: Json = to_builtins({**times, "job": None, "jobs": [], "step": None, "state": "planned", **of})
    return built

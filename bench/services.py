"""Invents services to be planned: event folders of a wanted number of jobs and people, the same for the same seed.

Every other one has the package's own rate table; the rest bring a random one, so that the planner is not tuned to one.
"""

import json
from collections.abc import Iterator
from importlib.resources import files as resources
from random import Random
from typing import Any

from shuntbook.kit.ids import uuid7
from shuntbook.queue.answer import Queue, Standing, queue_answer
from shuntbook.queue.car import jobs_of_car
from shuntbook.report.entry import parse_entry
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.folder import Setup, default_car_map, read_setup

Json = dict[str, Any]
EVENT, CAR = "invented-services", "7"
START_MS = 1_780_000_000_000
MINUTES = {8: (15, 20), 15: (20, 30), 25: (30, 45), 40: (45, 60)}
"""Minutes control to control that make it hard: some of the jobs fit, not all."""
ROUTINE = (
    ("spanner-check", (4, 6, 9), 2, "", ("car-on-stands",), True),
    ("fluids", (2, 3, 5), 1, "engine-bay", ("bonnet-up",), True),
    ("tyres", (2, 4, 6), 1, "", (), True),
    ("screen", (1, 2, 3), 1, "", (), True),
)
ACCESS = """\
step,per,minutes_open,minutes_close,mechanics,needs
car-on-stands,car,3,2,2,
wheel-off,zone,1,1.5,1,car-on-stands
bonnet-up,car,0.5,0.5,1,
sump-guard-off,car,3,4,2,car-on-stands
front-bumper-off,car,3,4,2,
boot-emptied,car,1.5,2.5,1,
"""
CHECKS = """\
check,minutes_best,minutes_likely,minutes_worst,mechanics,when,by
toe-check,5,10,20,2,on-ground,other
routing-look,0.5,1,2,1,before-close,other
pressure-look,1,2,4,1,before-close,inspector
run-up,2,3,5,1,on-ground,anyone
"""


def service(seed: int, jobs: int, mechanics: int) -> tuple[Setup, Queue, dict[str, bytes]]:
    """Return a set-up, the queue of its one car with exactly `jobs` open jobs, and the folder's files."""
    chance = Random(f"{seed}-{jobs}-{mechanics}")
    files = _rates(chance, house=seed % 2 == 0)
    files["van.csv"] = _van(files["rates/parts.csv"])
    files["event.toml"] = _event(chance, jobs, mechanics).encode()
    setup = read_setup(files)
    entries: list[Json] = []
    queue = _queue([], setup)
    for finding in _findings(chance, setup.car_map, house=seed % 2 == 0, setup=setup):
        tried = [*entries, _entry(len(entries), *finding)]
        longer = _queue(tried, setup)
        if len(longer.jobs) <= jobs:
            entries, queue = tried, longer
        if len(queue.jobs) == jobs:
            break
    files["entries.jsonl"] = "".join(json.dumps(entry) + "\n" for entry in entries).encode()
    return setup, queue, files


def _van(parts: bytes) -> bytes:
    """Return a van with plenty of every part: what a plan leaves out, it leaves out for want of time."""
    names = [line.split(",")[0] for line in parts.decode().splitlines()[1:] if line]
    return "".join(["part,loaded\n", *(f"{name},20\n" for name in names)]).encode()


def _queue(entries: list[Json], setup: Setup) -> Queue:
    read = [parse_entry(json.dumps(entry).encode()) for entry in entries]
    return queue_answer(Standing(CAR, len(read), jobs_of_car(read, setup), {}, [], []), setup)


def _findings(chance: Random, car_map: CarMap, *, house: bool, setup: Setup) -> Iterator[tuple[str, str, str]]:
    """Yield zone, component and condition, those that the rate table knows, in a random order without end."""
    rows = sorted({(component, condition) for component, condition, _ in setup.rates.operations})
    places = [(zone.zone, c) for zone in car_map.zones.values() for c in zone.components]
    cage = {name for name, component in car_map.components.items() if component.group == "cage"}
    known = [(zone, c, k) for zone, c in places for name, k in rows if name == c and c not in cage]
    while True:
        yield chance.choice(known)


def _entry(number: int, zone: str, component: str, condition: str) -> Json:
    name = uuid7(START_MS + number, number)
    finding = {"component": component, "condition": condition}
    data = {"stage": "SS1", "where": "stage", "zone": zone, "findings": [finding]}
    head = {"id": name, "v": 1, "kind": "report.filed", "event": EVENT, "car": CAR, "subject": name}
    who = {"at": "2026-06-13T10:00:00+02:00", "device": "d-1", "seq": number + 1, "person": "p-crew"}
    return {**head, **who, "data": data}


def _event(chance: Random, jobs: int, mechanics: int) -> str:
    shortest, longest = MINUTES[jobs]
    lines = [f'event = "{EVENT}"', 'timezone = "Europe/Vienna"', "[[cars]]", f'car = "{CAR}"']
    lines += _person("p-crew", ["co-driver"], [])
    for number in range(mechanics):
        inspects = ["mechanic", "inspector"] if chance.random() < 0.25 else ["mechanic"]
        lines += _person(f"p-{number}", inspects, chance.sample(["welder", "electrics"], chance.randint(0, 1)))
    lines += _person("p-look", ["inspector"], [])
    lines += ["[[stages]]", 'stage = "SS1"', "km = 10", "[[services]]", 'service = "A"', 'after = "SS1"']
    lines += [f"minutes = {chance.randint(shortest, longest)}", f"in_and_out_minutes = {chance.randint(5, 8)}"]
    for task, minutes, people, zone, access, must in chance.sample(ROUTINE, chance.randint(1, 4)):
        lines += ["[[routine]]", f'task = "{task}"', "services = []", f"minutes = {list(minutes)}"]
        lines += [
            f"mechanics = {people}",
            f'zone = "{zone}"',
            f"access = {list(access)}",
            f"must_do = {str(must).lower()}",
        ]
    return "\n".join(lines) + "\n"


def _person(person: str, roles: list[str], skills: list[str]) -> list[str]:
    return ["[[people]]", f'person = "{person}"', f"roles = {json.dumps(roles)}", f"skills = {json.dumps(skills)}"]


def _rates(chance: Random, *, house: bool) -> dict[str, bytes]:
    package = resources("shuntbook").joinpath("defaults", "rates")
    own = {
        f"rates/{file.name}": file.read_bytes() for file in package.iterdir() if file.name.endswith((".csv", ".toml"))
    }
    if house:
        return own
    table = {"rates/operations.csv": _operations(chance), "rates/access.csv": ACCESS, "rates/checks.csv": CHECKS}
    return {**own, **{name: text.encode() for name, text in table.items()}, "rates/parts.csv": own["rates/parts.csv"]}


def _operations(chance: Random) -> str:
    """Return a random rate table: for each component of the package's map two conditions."""
    columns = (
        "component,condition,action,minutes_best,minutes_likely,minutes_worst,mechanics,access,parts,must_do,value"
    )
    rows = [columns + ",zone,skill,after,then,ground,fire_risk"]
    car_map = default_car_map()
    for component in sorted({name for zone in car_map.zones.values() for name in zone.components}):
        zones = [zone for zone in car_map.zones.values() if component in zone.components]
        for condition in ("bent", "broken"):
            rows.append(
                ",".join(_row(chance, component, condition, {z.kind for z in zones}, min(z.people for z in zones)))
            )
    return "\n".join(rows) + "\n"


def _row(chance: Random, component: str, condition: str, kinds: set[str], people: int) -> list[str]:
    best = chance.choice([1, 2, 3, 4, 6, 8])
    likely, worst = best + chance.randint(0, 6), best + chance.randint(6, 15)
    mechanics = min(people, chance.choice([1, 1, 1, 2]))
    ways = ["", "", "car-on-stands", "bonnet-up", "sump-guard-off", "front-bumper-off", "boot-emptied"]
    access = (
        chance.choice(["car-on-stands;wheel-off", "car-on-stands", ""]) if kinds == {"corner"} else chance.choice(ways)
    )
    then = chance.choice(["", "", "", "toe-check", "routing-look", "pressure-look", "run-up"])
    skill = chance.choice(["", "", "", "", "", "welder"])
    ground = not access and chance.random() < 0.15
    fire = chance.random() < 0.04
    must, value = str(chance.random() < 0.2).lower(), str(chance.randint(5, 100))
    minutes = [str(best), str(likely), str(worst), str(mechanics)]
    flags = [str(ground).lower(), str(fire).lower()]
    return [component, condition, "replace", *minutes, access, "", must, value, "", skill, "", then, *flags]

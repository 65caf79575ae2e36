"""Draws the set-up of a random event: its car map, van, people and itinerary."""

from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any

from .carmap import CONDITIONS
from .rate_files import PARTS, STEPS, draw_operations, write_rates
from .texts import csv_text, toml_table, write_text

ZONES = {
    "front-left": "corner", "front-right": "corner", "rear": "end", "roof": "roof", "under-front": "underside",
    "cabin": "cabin", "boot": "boot",
}  # fmt: skip
COMPONENTS = {
    "wheel": "wheel-hold", "hub": "wheel-hold", "track-rod-end": "steering", "brake-disc": "brake", "brake-hose": None,
    "main-tube": "cage", "door-bar": "cage", "harness": "restraint", "fuel-line": "fuel", "mud-flap": None,
    "lamp": None, "sump-guard": "body", "bonnet": "body",
}  # fmt: skip
SAFETY_GROUPS = ["wheel-hold", "restraint", "fuel"]
PEOPLE = {
    "p-codriver": ["co-driver"], "p-driver": ["driver"], "p-mechanic-1": ["mechanic"], "p-mechanic-2": ["mechanic"],
    "p-looker-1": ["inspector"], "p-looker-2": ["mechanic", "inspector"], "p-looker-3": ["inspector", "driver"],
    "p-manager": ["manager"], "p-both": ["manager", "mechanic"], "p-nothing": [],
}  # fmt: skip
CHECKS = ["by eye", "by hand"]
"""The checks of the event's own lists."""
PACKAGE_MUSTS = [
    "Bled where it was open; pedal held hard 30 s, both ends and nipple dry",
    "No play with the wheel rocked 3–9 by a helper: track-rod end, rack, column",
    "Every joint locked: inner joint, taper nut torqued, new split pin or nyloc, lock nut tight, thread in at least 1.5"
    " × its diameter, gaiter on",
    "No play with the wheel rocked 12–6 by a helper, and it spins true and quietly: bearing, ball joint",
    "Dry with the pump on, extinguisher manned",
    "Closes by itself every time",
]
"""What the package's lists mark as a must."""
NAMED_BY_NO_MAP = ["tow-eye", "aerial", "ｚ-clip", "𝔷-clip"]


@dataclass
class Setup:
    """What the entries may name: the car map as TOML holds it, cars, stages, services and roles by person."""

    event: str
    car_map: dict[str, Any]
    cars: list[Any]
    stages: list[Any]
    services: dict[str, Any]
    people: dict[str, Any]
    looks: list[Any]


def draw_setup(chance: Random, seed: int) -> Setup:
    """A random set-up of two cars; the later services follow later stages."""
    stages = [f"SS{number}" for number in range(1, chance.randint(3, 6) + 1)]
    after = sorted(chance.sample(range(len(stages)), min(len(stages), chance.randint(2, 4))))
    services = {chr(ord("A") + place): stages[one] for place, one in enumerate(after)}
    car_map = draw_car_map(chance)
    return Setup(f"event-{seed}", car_map, ["41", "42b"], stages, services, dict(PEOPLE), draw_looks(chance))


def draw_looks(chance: Random) -> list[Any]:
    """Check lists of the event's own for some groups, with a must here and there; the rest is the package's."""
    groups = chance.sample(["brake", "steering", "cage", "wheel-hold", "body", "other"], chance.randint(0, 4))
    rows: list[Any] = [{"group": group, "check": check} for group in groups for check in CHECKS]
    for row in rows:
        if chance.random() < 0.25:
            row["must"] = chance.random() < 0.8
        if chance.random() < 0.3:
            row["at"] = chance.choice(["air", "off", "ground"])
    return rows


def draw_car_map(chance: Random) -> dict[str, Any]:
    """A small car map, with components in no zone, names that it does not know, and a brake hose in no group."""
    zones = chance.sample(sorted(ZONES), chance.randint(3, 4))
    components = sorted({*chance.sample(sorted(COMPONENTS), 8), "brake-hose", "main-tube", "mud-flap", "wheel"})
    in_zones = {zone: chance.sample(components, chance.randint(4, 7)) for zone in zones}
    pairs = sorted(f"{zone}/{one}" for zone, listed in in_zones.items() for one in listed)
    sides = draw_sides(chance, zones)
    return {
        "safety_groups": chance.sample(SAFETY_GROUPS, chance.randint(0, 3)),
        "zones": {zone: draw_zone(chance, zone, listed) | sides.get(zone, {}) for zone, listed in in_zones.items()},
        "components": {one: draw_component(chance, one) for one in components},
        "symptoms": {
            code: {"label": code, "checks": draw_checks(chance, components, pairs)}
            for code in ("long-pedal", "pulls-left", "smell")
        },
        "knock_on": [draw_knock_on(chance, components, pairs) for _ in range(chance.randint(2, 4))],
    }


def draw_sides(chance: Random, zones: list[Any]) -> dict[str, Any]:
    """What zones name as their other side, two by two; some have none."""
    pairs = zip(zones[::2], zones[1::2], strict=False)
    sides: dict[str, Any] = {}
    for one, other in pairs:
        if chance.random() < 0.7:
            sides |= {one: {"across": other}, other: {"across": one}}
    return sides


def draw_relative(chance: Random, components: list[Any]) -> str:
    """A key of the version's own zone or of the one across."""
    return f"{chance.choice(['here', 'across'])}/{chance.choice([*components, 'no-such-component'])}"


def draw_checks(chance: Random, components: list[Any], pairs: list[Any]) -> list[Any]:
    """What a symptom makes the crew check: pairs of the map, keys by the version's zone, or only such a key."""
    relative = [draw_relative(chance, components) for _ in range(chance.choice([0, 1, 1, 2]))]
    return [*chance.sample(pairs, chance.randint(0 if relative else 1, 2)), *relative]


def draw_zone(chance: Random, zone: str, components: list[Any]) -> dict[str, Any]:
    """One zone's table."""
    return {"label": zone.title(), "kind": ZONES[zone], "people": chance.randint(1, 3), "components": components}


def draw_component(chance: Random, name: str) -> dict[str, Any]:
    """One component's table, sometimes with its own order of conditions; groups are not always the usual ones."""
    table: dict[str, Any] = {"label": name.title()}
    group = chance.choice([None, None, "body", "cage"]) if name == "brake-hose" else COMPONENTS[name]
    if group:
        table["group"] = group
    if chance.random() < 0.5:
        table["conditions"] = chance.sample(CONDITIONS[1:], chance.randint(2, 6))
    if chance.random() < 0.2:
        table["inspect_access"] = chance.sample(sorted(STEPS), chance.randint(0, 2))
    return table


def draw_knock_on(chance: Random, components: list[Any], pairs: list[Any]) -> dict[str, Any]:
    """One knock-on rule, naming some things that no zone has."""
    return {
        "component": chance.choice(["wheel", "wheel", *components]),
        "conditions": chance.sample(CONDITIONS, chance.randint(2, 5)),
        "same_zone": [*chance.sample(components, chance.randint(1, 3)), "no-such-component"],
        "also": [
            *chance.sample(pairs, chance.randint(0, 2)),
            *(draw_relative(chance, components) for _ in range(chance.randint(0, 2))),
            "no-such-zone/wheel",
            "front-left/no-such-component",
        ],
    }


def write_setup(chance: Random, folder: Path, setup: Setup) -> None:
    """Write event.toml, car_map.toml, van.csv and rates/ of the folder."""
    write_text(folder / "event.toml", event_toml(setup))
    write_text(folder / "car_map.toml", car_map_toml(setup.car_map))
    write_text(folder / "van.csv", csv_text([{"part": one, "loaded": chance.randint(0, 6)} for one in PARTS[:5]]))
    write_rates(chance, folder / "rates", draw_operations(chance, setup.car_map), sorted(set(ZONES.values())))


def car_map_toml(car_map: dict[str, Any]) -> str:
    """The car map's TOML."""
    tables = [toml_table("", {"safety_groups": car_map["safety_groups"]})]
    for name in ("zones", "components", "symptoms"):
        tables += [toml_table(f'[{name}."{one}"]', table) for one, table in car_map[name].items()]
    tables += [toml_table("[[knock_on]]", rule) for rule in car_map["knock_on"]]
    return "\n".join(tables)


def event_toml(setup: Setup) -> str:
    """The event's TOML: cars, people, stages, and services in the order of the itinerary; nobody signs."""
    tables = [toml_table("", {"event": setup.event, "name": "An invented rally", "timezone": "Europe/Berlin"})]
    tables += [toml_table("[[cars]]", {"car": car}) for car in setup.cars]
    for person, roles in setup.people.items():
        tables.append(
            toml_table("[[people]]", {"person": person, "name": person.title(), "roles": roles, "skills": []})
        )
    tables += [toml_table("[[stages]]", {"stage": one}) + "km = 12.5\n" for one in setup.stages]
    for hour, (service, after) in enumerate(setup.services.items(), start=9):
        table = {"service": service, "after": after, "kind": "midday"}
        timing = f"arrive = 2026-05-16T{hour:02d}:02:00+02:00\nminutes = 30\nin_and_out_minutes = 7\n"
        tables.append(toml_table("[[services]]", table) + timing)
    tables += [toml_table("[[looks]]", row) for row in setup.looks]
    tables.append(toml_table("[trust]", {"signatures": "off"}))
    return "\n".join(tables)

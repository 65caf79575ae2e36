"""Draws the whole life of an event: its entries in the order in which they are written."""

from typing import Any

from .entries import VOIDABLE_KINDS
from .log import SUBJECT_OF_CAR, Log
from .reports import amend, chain, file_report, ring, withdraw
from .setups import NAMED_BY_NO_MAP
from .work import NEVER_REPAIRS, NO_SERVICE, program, start, tidy

EVERYBODY = ["p-codriver", "p-mechanic-1", "p-looker-1", "p-manager", "p-nothing", "p-nobody-known"]
CAR_KINDS = [
    "stage.nothing_seen",
    "service.left",
    "driver.changed",
    "control.entered",
    "control.left",
    "driver.asked",
    "car.retired",
    "car.restarts",
    "reading.taken",
]


def draw_happenings(log: Log, size: int) -> None:
    """Write about `size` entries: hits and work in turns, then work on what is left, then at some cars a full pass."""
    hot = {car: hot_keys(log) for car in log.setup.cars}
    entered = {car: log.chance.randint(0, len(log.setup.services)) for car in log.setup.cars}
    while len(log.entries) < size * 0.65:
        car = log.chance.choice(log.setup.cars)
        happen(log, car, hot[car], sorted(log.setup.services)[: entered[car]])
    close(log, size)
    for car in log.setup.cars:
        if log.chance.random() < 0.4:
            tidy(log, car)
        if log.chance.random() < 0.3:
            release(log, car)


def close(log: Log, size: int) -> None:
    """Work on the jobs in turn until the log is as long as wanted or each had its turn."""
    jobs = [(car, key) for car in log.setup.cars for key in log.keys(car)]
    log.chance.shuffle(jobs)
    for car, key in jobs:
        if len(log.entries) >= size:
            return
        program(log, car, key)


def hot_keys(log: Log) -> list[Any]:
    """A few pairs of the car map, those of one knock-on rule among them, and sometimes some that it does not list."""
    zones = log.setup.car_map["zones"]
    zone = log.chance.choice(sorted(zones))
    rule = log.chance.choice(log.setup.car_map["knock_on"])
    pairs = sorted(f"{zone}/{one}" for zone, table in zones.items() for one in table["components"])
    picked = log.chance.sample(pairs, log.chance.randint(3, 5))
    picked += [f"{zone}/{one}" for one in (rule["component"], *rule["same_zone"]) if one in zones[zone]["components"]]
    if log.chance.random() < 0.3:
        picked.append(f"{zone}/main-tube")
    if log.chance.random() < 0.15:
        picked += [f"{zone}/{one}" for one in NAMED_BY_NO_MAP[2:]]
    return picked


def happen(log: Log, car: str, hot: list[Any], services: list[Any]) -> None:
    """One thing, drawn by how often it happens."""
    what = log.chance.choices(
        ["report", "amend", "chain", "ring", "withdraw", "work", "enter", "release", "void", "aside"],
        [26, 14, 4, 3, 3, 30, 3, 4, 7, 6],
    )[0]
    if what == "report":
        file_report(log, car, hot)
    elif what in ("amend", "chain", "ring"):
        {"amend": amend, "chain": chain, "ring": ring}[what](log, car, hot)
    elif what == "withdraw":
        withdraw(log, car)
    elif what == "work":
        work(log, car)
    elif what == "enter" and services:
        enter(log, car, log.chance.choice([*services, services[-1], services[-1]]))
    elif what in ("release", "void", "aside"):
        {"release": release, "void": void, "aside": aside}[what](log, car)


def work(log: Log, car: str) -> None:
    """Work on a job: mostly one that reports name, seldom one that nothing named."""
    keys = log.keys(car)
    zone = log.chance.choice(sorted(log.setup.car_map["zones"]))
    elsewhere = f"{zone}/{log.chance.choice(sorted(log.setup.car_map['components']))}"
    key = log.chance.choice(keys) if keys and log.chance.random() < 0.93 else elsewhere
    if log.chance.random() < 0.05:
        start(log, car, key)
    program(log, car, key)


def enter(log: Log, car: str, service: str) -> None:
    """The car comes into a service."""
    if log.chance.random() < 0.1:
        service = NO_SERVICE
    data = {"service": service, "official_time": "2026-05-16T13:02:00+02:00"}
    log.add("service.entered", car, SUBJECT_OF_CAR, data, "p-codriver")


def release(log: Log, car: str) -> None:
    """The car is let go: all of its versions seen, some, or none."""
    versions = [one["id"] for one in log.versions(car)]
    covers = log.chance.choice([versions, [], log.chance.sample(versions, len(versions) // 2)])
    data = {"service": log.chance.choice(sorted(log.setup.services)), "covers": sorted(covers)}
    log.add("car.released", car, SUBJECT_OF_CAR, data, log.chance.choice(["p-manager", "p-mechanic-2"]))


def void(log: Log, car: str) -> None:
    """An undo: by the author, a manager or somebody else; of what can be undone or not; of this car or the other."""
    can = [one for one in log.entries if one["kind"] in VOIDABLE_KINDS and one["person"] != NEVER_REPAIRS]
    picked = can if log.chance.random() < 0.7 else log.entries
    if not picked:
        return
    voided = log.chance.choice(picked)
    person = log.chance.choice([voided["person"], voided["person"], "p-manager", log.chance.choice(EVERYBODY)])
    own_car = voided["car"] if log.chance.random() < 0.85 else log.chance.choice(log.setup.cars)
    log.add("entry.voided", own_car, SUBJECT_OF_CAR, {"voids": [voided["id"]], "reason": "mis-tap"}, person)


def aside(log: Log, car: str) -> None:
    """Something that changes no job."""
    chance = log.chance
    kind = chance.choice([*CAR_KINDS, "incident.grouped", "photo.linked", "voice.linked", "cost.adjusted"])
    reports = sorted({one["subject"] for one in log.versions(car)})
    if kind in CAR_KINDS:
        log.add(kind, car, SUBJECT_OF_CAR, aside_data(log, kind), chance.choice(EVERYBODY))
    elif reports and kind == "incident.grouped":
        log.add(kind, car, SUBJECT_OF_CAR, {"reports": reports[:2], "title": "the bank"}, "p-codriver")
    elif reports and kind == "photo.linked":
        log.add(kind, car, chance.choice(reports), {"photo": log.photo(), "caption": "after"}, "p-mechanic-1")
    elif reports and kind == "voice.linked":
        log.add(kind, car, chance.choice(reports), {"voice": log.photo(), "seconds": 7.5}, "p-codriver")
    elif kind == "cost.adjusted" and log.keys(car):
        key = chance.choice(log.keys(car))
        log.add(kind, car, key, {"line": key, "amount": "12", "reason": "by agreement"}, "p-manager")


def aside_data(log: Log, kind: str) -> dict[str, Any]:
    """The data of a kind that is about the car."""
    stage, service = log.setup.stages[0], sorted(log.setup.services)[0]
    return {
        "stage.nothing_seen": {"stage": stage, "how": log.chance.choice(["from-seat", "walked-round"])},
        "service.left": {"service": service, "official_time": "2026-05-16T13:32:00+02:00"},
        "driver.changed": {"driver": "p-driver"},
        "control.entered": {"control": "parc-ferme", "official_time": "19:30"},
        "control.left": {"ends": []},
        "driver.asked": {"answers": [{"question": "steering", "as_before": True}], "service": "A"},
        "car.retired": {"stage": stage, "ready_by": None},
        "car.restarts": {"stage": log.setup.stages[-1], "ready_by": "2026-05-17T07:00:00+02:00"},
        "reading.taken": {"reading": "oil added", "value": 0.5, "unit": "l"},
    }[kind]

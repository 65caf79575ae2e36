"""Draws reports and what becomes of them: amendments, rings, withdrawals."""

import copy
from typing import Any

from .carmap import CONDITIONS
from .log import Log
from .setups import NAMED_BY_NO_MAP

CREW = ["p-codriver", "p-driver", "p-mechanic-1", "p-nobody-known", "p-codriver", "p-looker-1"]


def draw_body(log: Log, hot: list[Any]) -> dict[str, Any]:
    """A report body: mostly on a few hot keys, so that they are hit again and again."""
    chance = log.chance
    zone, component = chance.choice(hot).split("/")
    body = {
        "stage": chance.choice([*log.setup.stages, *log.setup.stages, None, "SS99"]),
        "km": chance.choice([None, 3, 7.4, 11.25]),
        "where": chance.choice(["stage"] * 6 + ["hand-over", "hand-over", "service", "unknown", "recce"]),
        "zone": draw_zone(log, zone),
        "direction": chance.choice([None, 1, 12, "below"]),
        "cause": chance.choice(["stone", "bank", "wear", "unknown"]),
        "caused_by": None,
        "findings": draw_findings(log, component),
        "symptoms": draw_symptoms(log),
        "drives": chance.choice(["well", "poorly", "no"]),
        "photos": sorted({log.photo() for _ in range(chance.choice([0, 0, 1, 2]))}),
        "note_page": chance.choice([None, None, 23]),
        "position": chance.choice([None, None, {"lat": 43.079, "lon": -19.176, "accuracy_m": 12}]),
        "note": chance.choice(["", "bang, then straight on", "Stein – vorne links ☂"]),
    }
    for name in ("findings", "symptoms", "photos"):
        if not body[name] and chance.random() < 0.3:
            del body[name]
    return body


def draw_zone(log: Log, zone: str) -> str | None:
    """The hot zone, seldom another, one that the map does not have, or none."""
    others = [None, "no-such-zone", "kühler", log.chance.choice(sorted(log.setup.car_map["zones"]))]
    return zone if log.chance.random() < 0.88 else log.chance.choice(others)


def draw_findings(log: Log, component: str) -> list[Any]:
    """Findings of a body: often one, sometimes none, several, or the same component twice."""
    chance = log.chance
    wanted = [component] * chance.choice([0, 1, 1, 1, 1, 2])
    if chance.random() < 0.25:
        wanted.append(chance.choice(sorted(log.setup.car_map["components"])))
    if chance.random() < 0.03:
        wanted.append(chance.choice(NAMED_BY_NO_MAP))
    return [{"component": one, "condition": chance.choice(CONDITIONS)} for one in wanted]


def draw_symptoms(log: Log) -> list[Any]:
    """Seldom a symptom, sometimes one that the map does not know."""
    known = sorted(log.setup.car_map["symptoms"])
    if log.chance.random() < 0.8:
        return []
    return log.chance.sample([*known, "singing"], log.chance.choice([1, 1, 2]))


def file_report(log: Log, car: str, hot: list[Any]) -> None:
    """A new report, sometimes of something found to be behind an earlier one."""
    body = draw_body(log, hot)
    filed = [one["id"] for one in log.entries if one["kind"] == "report.filed"]
    if filed and log.chance.random() < 0.1:
        body["caused_by"] = log.chance.choice(filed)
    log.add("report.filed", car, None, body, log.chance.choice(CREW))


def amend(log: Log, car: str, hot: list[Any]) -> None:
    """An amendment of some version, that may replace others too, itself, nothing known, or what is not its own.

    Seldom it goes to the other car, or to a report that was never filed: then it replaces nothing there.
    """
    versions = log.versions(car)
    if not versions:
        return
    source = log.chance.choice(versions[-12:] if log.chance.random() < 0.6 else versions)
    own_id = log.new_id("d-2")
    data = amended_body(log, source, hot) | {"replaces": draw_replaces(log, source, own_id)}
    owner = log.chance.choice([car] * 15 + log.setup.cars)
    subject = log.chance.choice([source["subject"]] * 30 + [log.new_id("d-3")])
    log.add("report.amended", owner, subject, data, log.chance.choice(CREW), own_id)


def draw_replaces(log: Log, source: dict[str, Any], own_id: str) -> list[Any]:
    """The version that was changed, mostly; ids ascend."""
    chance = log.chance
    siblings = [one["id"] for one in log.entries if one["subject"] == source["subject"]]
    every = [one for owner in log.setup.cars for one in log.versions(owner)]
    strangers = [one["id"] for one in every if one["subject"] != source["subject"]]
    picked = {
        "it": [source["id"]],
        "all": siblings,
        "itself": [source["id"], own_id],
        "only itself": [own_id],
        "unknown": [log.new_id("d-3")],
        "stranger": [*strangers[-1:], *chance.sample(strangers, min(1, len(strangers)))] or [source["id"]],
    }
    names = ["it"] * 10 + ["all"] * 5 + ["itself", "only itself", "unknown", "stranger", "stranger"]
    return sorted(set(picked[chance.choice(names)]))


def amended_body(log: Log, source: dict[str, Any], hot: list[Any]) -> dict[str, Any]:
    """The source's body with the km put right, a condition changed, a finding dropped; or another body."""
    body: dict[str, Any] = copy.deepcopy(source["data"])
    body.pop("replaces", None)
    if "where" not in body:
        return draw_body(log, hot)
    change = log.chance.choice(["km", "km", "km", "condition", "drop", "move", "other"])
    if change == "other":
        return draw_body(log, hot)
    change_body(log, body, change)
    return body


def change_body(log: Log, body: dict[str, Any], change: str) -> None:
    """Change one thing in a body."""
    said = body.get("findings", [])
    body["km"] = log.chance.choice([1, 2.5, 8.75])
    if change == "condition" and said:
        said[0]["condition"] = log.chance.choice(CONDITIONS)
    elif change == "drop" and said:
        said.pop()
    elif change == "move":
        body["zone"] = log.chance.choice([None, *sorted(log.setup.car_map["zones"])])


def ring(log: Log, car: str, hot: list[Any]) -> None:
    """Two or three amendments of one report that replace each other in a ring, and perhaps one below the ring."""
    versions = log.versions(car)
    if not versions:
        return
    source = log.chance.choice(versions)
    ids = [log.new_id("d-4") for _ in range(log.chance.choice([2, 2, 3]))]
    for place, own_id in enumerate(ids):
        replaced = sorted({ids[place - 1], source["id"]} if place == 0 else {ids[place - 1]})
        data = amended_body(log, source, hot) | {"replaces": replaced}
        log.add("report.amended", car, source["subject"], data, log.chance.choice(CREW), own_id)
    if log.chance.random() < 0.5:
        data = amended_body(log, source, hot) | {"replaces": [ids[0]]}
        log.add("report.amended", car, source["subject"], data, log.chance.choice(CREW))


def chain(log: Log, car: str, hot: list[Any]) -> None:
    """A row of versions, each replacing the one before, mostly saying the same."""
    versions = log.versions(car)
    if not versions:
        return
    source = log.chance.choice(versions)
    for _ in range(log.chance.choice([2, 3])):
        data = amended_body(log, source, hot) | {"replaces": [source["id"]]}
        source = log.add("report.amended", car, source["subject"], data, log.chance.choice(CREW))


def withdraw(log: Log, car: str) -> None:
    """A report taken back: one version of it, or all."""
    versions = log.versions(car)
    if not versions:
        return
    source = log.chance.choice(versions)
    data = {"replaces": draw_replaces(log, source, log.new_id("d-1")), "reason": "wrong car"}
    log.add("report.withdrawn", car, source["subject"], data, log.chance.choice(CREW))

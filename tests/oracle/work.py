"""Draws what is done about a job: starts, repairs, deferrals, looks, and the whole way to a pass."""

from typing import Any

from .log import Log
from .rate_files import BY_THE_LITRE, PARTS
from .setups import CHECKS, PACKAGE_MUSTS

MECHANICS = ["p-mechanic-1", "p-mechanic-2", "p-looker-2", "p-both"]
STARTERS = ["p-mechanic-1", "p-mechanic-2", "p-looker-2", "p-looker-2", "p-looker-1"]
LOOKERS = ["p-looker-1"] * 4 + ["p-looker-2"] * 3 + ["p-mechanic-1", "p-nothing", "p-nobody-known"]
NO_SERVICE = "Z"
"""A service that no itinerary has."""
NEVER_REPAIRS = "p-looker-3"
CLOSABLE = ["job.finished", "inspection.failed", "inspection.passed"]


def draw_covers(log: Log, car: str, key: str) -> list[Any]:
    """What a closing entry covers: mostly all that is there to cover on the job, else a part, or not its own."""
    chance = log.chance
    there = all_on_job(log, car, key)
    way = chance.choice(["all"] * 7 + ["but one", "some", "stray"])
    if way == "but one":
        there = there[1:]
    elif way == "some":
        there = chance.sample(there, len(there) // 2)
    elif way == "stray":
        there = there + [one["id"] for one in chance.sample(log.entries, min(4, len(log.entries)))]
    return sorted(set(there))


def all_on_job(log: Log, car: str, key: str) -> list[Any]:
    """Versions that say the key, and the job's repairs and inspections."""
    return [*log.naming.get((car, key), []), *log.on_job(car, key, *CLOSABLE)]


def start(log: Log, car: str, key: str) -> dict[str, Any]:
    """A mechanic goes to the job."""
    return log.add("job.started", car, key, {}, log.chance.choice(STARTERS))


def stop(log: Log, car: str, key: str) -> None:
    """A mechanic leaves; he may end a start of another job by mistake."""
    starts = log.on_job(car, key, "job.started")
    others = [one["id"] for one in log.entries if one["kind"] == "job.started" and one["subject"] != key]
    ends = others[-1:] if others and log.chance.random() < 0.25 else starts[-1:]
    if ends:
        log.add("job.stopped", car, key, {"ends": ends}, log.chance.choice(MECHANICS))


def finish(log: Log, car: str, key: str, temporary: bool) -> dict[str, Any]:
    """A repair of what it covers, by its author and others."""
    chance = log.chance
    starts = log.on_job(car, key, "job.started")
    others = [one["id"] for one in log.entries if one["kind"] == "job.started" and one["subject"] != key]
    data = {
        "covers": draw_covers(log, car, key),
        "ends": sorted({*starts[-2:], *(others[-1:] if chance.random() < 0.3 else [])}),
        "action": chance.choice(["replace", "tape", "straighten"]),
        "minutes": chance.choice([None, 4, 7.5]),
        "mechanics": chance.randint(1, 3),
        "parts": draw_parts(log),
        "repairers": sorted(set(chance.choices([*MECHANICS, "p-looker-1"], k=chance.choice([0, 0, 1, 2])))),
        "temporary": temporary,
    }
    for name in ("ends", "parts", "repairers"):
        if not data[name] and chance.random() < 0.3:
            del data[name]
    return log.add("job.finished", car, key, data, chance.choice(MECHANICS))


def draw_parts(log: Log) -> list[Any]:
    """Now and then a part out of the van."""
    if log.chance.random() < 0.7:
        return []
    part = log.chance.choice(PARTS)
    return [{"part": part, "qty": 0.25 if part in BY_THE_LITRE else log.chance.randint(1, 2)}]


def defer(log: Log, car: str, key: str) -> None:
    """Left for later."""
    data = {
        "covers": draw_covers(log, car, key),
        "to": log.chance.choice(["next-service", "road"]),
        "reason": "no time",
    }
    log.add("job.deferred", car, key, data, log.chance.choice(MECHANICS))


def look(log: Log, car: str, key: str, person: str | None = None) -> None:
    """An inspection passed, in all the ways that may make it good for something or not."""
    chance = log.chance
    data: dict[str, Any] = {"covers": draw_covers(log, car, key), "checks": draw_rows(log)}
    if not data["checks"] and chance.random() < 0.5:
        del data["checks"]
    if chance.random() < 0.4:
        data["until"] = chance.choice([*sorted(log.setup.services), NO_SERVICE])
    if chance.random() < 0.6:
        data |= {"shown_to": "official at the regroup", "official_said": chance.choice(["go on", "go on", ""])}
    log.add("inspection.passed", car, key, data, person or chance.choice(LOOKERS))


def draw_rows(log: Log) -> list[Any]:
    """The rows of an inspection: mostly all ok, now and then one left out, not done, twice, or not ok; seldom none."""
    chance = log.chance
    way = chance.choice(["all"] * 8 + ["out", "out", "null", "null", "twice", "false", "false", "all null", "none"])
    if way == "none":
        return []
    rows: list[Any] = [{"check": check, "ok": True} for check in [*CHECKS, *PACKAGE_MUSTS]]
    row = chance.choice(rows)
    if way == "out":
        rows.remove(row)
    elif way in ("null", "twice"):
        other = {"check": row["check"], "ok": None, "why": "no light"}
        rows = [*(one for one in rows if one is not row or way == "twice"), other]
    elif way == "false":
        row["ok"] = False
    elif way == "all null":
        rows = [{"check": one["check"], "ok": None} for one in rows]
    return rows


def fail(log: Log, car: str, key: str) -> None:
    """An inspection that failed."""
    data = {"covers": draw_covers(log, car, key), "checks": [{"check": "by eye", "ok": False}], "note": "weeps"}
    log.add("inspection.failed", car, key, data, log.chance.choice(LOOKERS))


def program(log: Log, car: str, key: str) -> None:
    """One of the ways that a job goes."""
    way = log.chance.choice(
        ["start", "defer", "patch", "look", "repair", "repair", "fail", "fail", "stop", "patch look", "own", "own"]
    )
    if way == "own":
        own_work(log, car, key)
    if way in ("start", "stop", "repair"):
        start(log, car, key)
    if way == "stop":
        stop(log, car, key)
    if way == "defer":
        defer(log, car, key)
    if way == "fail":
        fail(log, car, key)
    if way in ("patch", "patch look"):
        finish(log, car, key, temporary=True)
    if way == "repair" or (way == "fail" and log.chance.random() < 0.3):
        finish(log, car, key, temporary=False)
    if way in ("look", "patch look") or (way in ("repair", "fail") and log.chance.random() < 0.4):
        look(log, car, key)


def own_work(log: Log, car: str, key: str) -> None:
    """An inspector works on a job, undoes it, somebody else finishes it, and the inspector passes it all the same."""
    chance = log.chance
    worker = chance.choice(["p-looker-2", "p-looker-1"])
    begun = log.add("job.started", car, key, {}, worker)
    way = chance.choice(["started", "undone", "finished", "finished", "undone by manager too"])
    if way == "finished":
        data = {"covers": draw_covers(log, car, key), "ends": [begun["id"]], "temporary": False}
        begun = log.add("job.finished", car, key, data, worker)
    undoing = {"started": [], "undone": [worker], "finished": [worker], "undone by manager too": [worker, "p-manager"]}
    for person in undoing[way]:
        log.add("entry.voided", car, None, {"voids": [begun["id"]], "reason": "mis-tap"}, person)
    if chance.random() < 0.7:
        others = {"covers": draw_covers(log, car, key), "temporary": chance.random() < 0.2}
        log.add("job.finished", car, key, others, "p-mechanic-1")
    look(log, car, key, worker)


def tidy(log: Log, car: str) -> None:
    """Somebody who repaired nothing passes every job of the car, with the official; at some cars until a service.

    Mostly all is repaired before, since a pass accepts little that is not.
    """
    services = sorted(log.setup.services)
    until = log.chance.choice([None, None, *services, services[-1], services[-1], services[-1]])
    jobs = {one["subject"] for one in log.entries if one["car"] == car and one["kind"] in CLOSABLE}
    repaired = log.chance.random() < 0.65
    for key in sorted({*log.keys(car), *jobs}):
        if repaired:
            log.add("job.finished", car, key, {"covers": sorted(set(all_on_job(log, car, key)))}, "p-mechanic-1")
        data = {
            "covers": sorted(set(all_on_job(log, car, key))),
            "checks": [{"check": check, "ok": True} for check in [*CHECKS, *PACKAGE_MUSTS]],
            "shown_to": "official in service",
            "official_said": "go on",
        }
        if until:
            data["until"] = until
        log.add("inspection.passed", car, key, data, NEVER_REPAIRS)

"""Draws agreements, and logs of one hired car to hold them against: every way a line can come to be charged or not."""

import datetime as dt
from random import Random
from typing import Any

ZONES = ["front-left", "front-right", "rear-left"]
COMPONENTS = ["wheel", "arm", "tyre", "flap", "lamp"]
CONDITIONS = ["marked", "worn", "loose", "bent", "cracked", "leaking", "flat", "seized", "broken", "missing"]
STAGES = ["SS1", "SS2", "SS3"]
SERVICES = ["A", "B"]
MANAGERS = ["p-vera", "p-max"]
DRIVERS = ["p-lena", "p-omar"]
CURRENCIES = {"EUR": 2, "JPY": 0, "KWD": 3}
START = dt.datetime(2026, 6, 13, 8, tzinfo=dt.UTC)


class Drawing:
    """A log in the making: ids and times ascend."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.entries: list[Any] = []
        self.clock = START

    def write(self, kind: str, subject: str | None, person: str, data: dict[str, Any]) -> Any:
        """Write an entry some minutes later."""
        self.clock += dt.timedelta(minutes=self.chance.randint(1, 200))
        count = len(self.entries) + 1
        name = f"{int(self.clock.timestamp() * 1000):012x}"
        name = f"{name[:8]}-{name[8:]}-7000-8000-{count:012x}"
        entry = {
            "id": name, "v": 1, "kind": kind, "event": "hire-2026", "car": "41",
            "subject": name if kind == "report.filed" else subject, "at": self.clock.isoformat(),
            "device": "d-1", "seq": count, "person": person, "data": data,
        }  # fmt: skip
        self.entries.append(entry)
        return entry


def draw(seed: int) -> dict[str, Any]:
    """An agreement with a log, rates and everything else that the sums hang on; the same for the same seed."""
    chance = Random(seed)
    currency = chance.choice(sorted(CURRENCIES))
    digits = CURRENCIES[currency]
    drawing = Drawing(chance)
    rows = draw_rows(chance)
    hand_over(drawing)
    reports = [report for _ in range(chance.randint(1, 6)) for report in stage_day(drawing)]
    finish(drawing, reports, rows)
    if chance.random() < 0.5:
        late = come_back(drawing, reports)
        finish(drawing, late, rows)
    decide(drawing)
    return {
        "currency": currency,
        "labour_per_hour": amount(chance, 0, 90, digits),
        "consumables_percent": chance.choice(["0", "2.5", "5"]),
        "assess_minutes": "6",
        "rows": rows,
        "access": {"stands": ("car", chance.choice(["6", "4.5"])), "wheel-off": ("zone", chance.choice(["2", "1.25"]))},
        "parts": {part: amount(chance, 1, 400, digits) for part in COMPONENTS},
        "conditions": CONDITIONS,
        "stages": STAGES,
        "managers": MANAGERS,
        "agreement": draw_agreement(chance, digits),
        "entries": drawing.entries,
    }


def amount(chance: Random, least: int, most: int, digits: int) -> str:
    """Some money."""
    return f"{chance.randint(least * 10**digits, most * 10**digits) / 10**digits:.{digits}f}"


def draw_rows(chance: Random) -> dict[Any, Any]:
    """Rows of the rate table by component and condition; some pairs have none."""
    pairs = [(component, condition) for component in COMPONENTS for condition in CONDITIONS]
    return {
        pair: {
            "minutes": chance.choice(["3", "7.5", "10", "25"]),
            "mechanics": chance.randint(1, 2),
            "access": chance.sample(["stands", "wheel-off"], chance.randint(0, 2)),
            "parts": {
                part: chance.choice(["1", "2", "0.25"]) for part in chance.sample(COMPONENTS, chance.randint(0, 2))
            },
        }
        for pair in pairs
        if chance.random() < 0.8
    }


def draw_agreement(chance: Random, digits: int) -> dict[str, Any]:
    """Any mixture of terms."""
    terms: dict[str, Any] = {
        "drivers": chance.sample(DRIVERS, chance.randint(1, 2)),
        "excess": amount(chance, 0, 900, digits),
        "excess_per": chance.choice(["incident", "event"]),
        "cap": amount(chance, 0, 1500, digits),
        "share_percent": chance.choice(["0", "33.3", "50", "80", "12.345678901234567890123456789"]),
        "excluded": chance.sample(COMPONENTS, chance.randint(1, 2)),
        "wear_excluded": chance.sample(COMPONENTS, 1),
        "wear": chance.choice(["charged", "excluded"]),
        "included": {part: chance.choice(["1", "2", "0.5"]) for part in chance.sample(COMPONENTS, 2)},
        "part_worn": chance.random() < 0.7,
        "labour_per_hour": amount(chance, 0, 80, digits),
        "consumables_percent": chance.choice(["0", "3.75", "7"]),
        "recovery": chance.choice(["charged", "included"]),
        "deposit": amount(chance, 0, 2000, digits),
        "tax_percent": chance.choice(["0", "7.7", "19", "20"]),
        "later_findings_days": chance.randint(0, 3),
    }
    return {name: value for name, value in terms.items() if chance.random() < 0.45}


def body(chance: Random, where: str, **more: Any) -> dict[str, Any]:
    """What a report says: one place, a part or two."""
    found = [
        {"component": one, "condition": chance.choice(CONDITIONS)}
        for one in chance.sample(COMPONENTS, chance.randint(1, 2))
    ]
    cause = chance.choice(["stone", "bank", "wear", "recovery", "unknown"])
    return {"zone": chance.choice(ZONES), "findings": found, "where": where, "cause": cause, **more}


def hand_over(drawing: Drawing) -> None:
    """The car goes out with some marks."""
    chance = drawing.chance
    marks = [
        drawing.write("report.filed", None, "p-vera", body(chance, "hand-over")) for _ in range(chance.randint(0, 2))
    ]
    data = {"walk": "out", "marks": [one["id"] for one in marks]}
    drawing.write("handover.signed", None, "p-vera", data)


def stage_day(drawing: Drawing) -> list[Any]:
    """Somebody drives a stage and hits something, perhaps twice; perhaps it is found to be one hit."""
    chance = drawing.chance
    if chance.random() < 0.6:
        drawing.write("driver.changed", None, "p-lena", {"driver": chance.choice(DRIVERS)})
    stage = chance.choice([*STAGES, None])
    where = "stage" if stage else chance.choice(["road-section", "workshop"])
    reports = [
        drawing.write("report.filed", None, "p-lena", body(chance, where, stage=stage))
        for _ in range(chance.randint(1, 2))
    ]
    if len(reports) == 2 and chance.random() < 0.4:
        reports[1]["data"]["caused_by"] = reports[0]["id"]
    elif chance.random() < 0.2:
        data = {"reports": [one["id"] for one in reports], "title": "The bank"}
        drawing.write("incident.grouped", None, "p-vera", data)
    return reports


def finish(drawing: Drawing, reports: list[Any], rows: dict[Any, Any]) -> None:
    """Repair most keys, each once, with all reports of it so far."""
    chance = drawing.chance
    done = {one["subject"] for one in drawing.entries if one["kind"] == "job.finished"}
    for key in sorted({key for report in reports for key in keys_of(report)} - done):
        if chance.random() < 0.75:
            covers = [one["id"] for one in drawing.entries if one["kind"] == "report.filed" and key in keys_of(one)]
            parts = chance.sample([*COMPONENTS, "no-such-part"], chance.randint(0, 3))
            drawing.write("job.finished", key, "p-bodo", {
                "covers": covers,
                "service": chance.choice(SERVICES),
                "minutes": chance.choice([None, 5, 7.25, 33]),
                "mechanics": chance.choice([None, 1, 2]),
                "parts": [{"part": part, "qty": chance.choice([1, 2, 0.5, 0.333])} for part in parts],
            })  # fmt: skip


def keys_of(report: Any) -> list[str]:
    """The keys that a report names."""
    return [f"{report['data']['zone']}/{one['component']}" for one in report["data"]["findings"]]


def come_back(drawing: Drawing, reports: list[Any]) -> list[Any]:
    """The car comes back, and more is found, some of it days later."""
    chance = drawing.chance
    marks = [
        drawing.write("report.filed", None, "p-vera", body(chance, "workshop")) for _ in range(chance.randint(0, 2))
    ]
    data = {"walk": "return", "marks": [one["id"] for one in marks if chance.random() < 0.7]}
    drawing.write("handover.signed", None, "p-vera", data)
    drawing.clock += dt.timedelta(days=chance.randint(0, 4))
    behind = {"caused_by": chance.choice(reports)["id"]} if chance.random() < 0.5 else {}
    found = [
        drawing.write("report.filed", None, "p-vera", body(chance, "workshop", **behind))
        for _ in range(chance.randint(0, 2))
    ]
    return [*marks, *found]


def decide(drawing: Drawing) -> None:
    """Managers decide about some lines, and a mechanic who may not; some take a decision over."""
    chance = drawing.chance
    repaired = {
        one["subject"]: f"repair/41/{one['subject']}/{one['id']}"
        for one in drawing.entries
        if one["kind"] == "job.finished"
    }
    keys = sorted({key for one in drawing.entries if one["kind"] == "report.filed" for key in keys_of(one)})
    for key in keys:
        line = repaired.get(key, f"open/41/{key}")
        before: list[str] = []
        for _ in range(chance.choice([0, 0, 1, 1, 2])):
            data: dict[str, Any] = {"worn": draw_worn(chance)}
            if chance.random() < 0.6:
                data["charge"] = chance.choice(["damage", "wear", "misuse", "misuse", "not-charged"])
            if before and chance.random() < 0.5:
                data["replaces"] = before[-1:]
            before.append(drawing.write("charge.decided", line, chance.choice([*MANAGERS, "p-bodo"]), data)["id"])


def draw_worn(chance: Random) -> list[Any]:
    """How far some parts were used."""
    parts = chance.sample(COMPONENTS, chance.randint(0, 3))
    return [{"part": part, "used_percent": chance.choice([0, 10, 33.3, 40, 100])} for part in parts]

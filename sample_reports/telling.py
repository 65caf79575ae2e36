"""Reads the story (`story.toml`) into entries that still name each other by label."""

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

DEVICES = {
    "toma": "d-1a41",  # co-driver's phone, car 41
    "jule": "d-1a42",  # co-driver's phone, car 42
    "ilka": "d-c5b0",  # driver's own phone, mostly switched off
    "odil": "d-0d11",  # inspector's phone
    "kasp": "d-5e90",  # mechanic's phone
    "vera": "d-7e2a",  # manager's laptop
    "bodo": "d-0b0d",  # the service tablet: Bodo keeps it,
    "anni": "d-0b0d",  # and Anni writes on it too
}
"""Whose entries come from which device."""

EVERYTHING_HEARD = ["everything-heard"]
"""What a release covers, until it is known which reports had been heard of."""

Line = dict[str, Any]


@dataclass(frozen=True)
class Told:
    """One entry before it has an id: who wrote what of which car, when, and when the others heard of it."""

    label: str
    when: str
    heard: str
    who: str
    car: str
    kind: str
    subject: str | None
    data: Line
    said_at: str | None


def read_story(file: Path) -> list[Told]:
    """Return the entries of `story.toml` in the order in which they stand there."""
    parts = tomllib.loads(file.read_text(encoding="utf-8"))
    return [_told(label, line) for part in parts.values() for label, line in part.items()]


def _told(label: str, line: Line) -> Told:
    when, who, car, kind = (line.pop(key) for key in ("when", "who", "car", "kind"))
    subject = label if kind == "report.filed" else line.pop("on", None)
    heard, said_at = line.pop("heard", when), line.pop("said_at", None)
    return Told(label, when, heard, who, car, kind, subject, DATA.get(kind, dict)(line), said_at)


def _report(line: Line) -> Line:
    """Return a whole report body; what the line leaves out is null or empty."""
    usual: Line = dict.fromkeys(("stage", "km", "zone", "direction", "caused_by"))
    usual |= {"where": "stage", "cause": "unknown", "symptoms": [], "drives": "well", "photos": [], "note": ""}
    pairs = [item.split() for item in line.pop("seen", "").split(",") if item.strip()]
    findings = [{"component": component, "condition": condition} for component, condition in pairs]
    return usual | line | {"findings": findings}


def _finished(line: Line) -> Line:
    repairers = [f"p-{name}" for name in line.pop("by")]
    parts = [part.split("*") for part in line.pop("parts", [])]
    used = [{"part": part, "qty": int(qty)} for part, qty in parts]
    usual: Line = {"ends": [], "minutes": None, "temporary": False}
    return usual | line | {"mechanics": len(repairers), "parts": used, "repairers": repairers}


def _passed(line: Line) -> Line:
    return {"checks": [{"check": check, "ok": True} for check in line.pop("looked_at")]} | line


def _failed(line: Line) -> Line:
    return {"checks": [{"check": check, "ok": False} for check in line.pop("looked_at")]} | line


def _released(line: Line) -> Line:
    answers = [_answer(*words.split()) for words in line.pop("answered", [])]
    return line | {"covers": EVERYTHING_HEARD} | ({"answers": answers} if answers else {})


def _answer(ask: str, *place_and_who: str) -> Line:
    *place, who = place_and_who
    return {"ask": ask, "place": "".join(place), "ok": True, "by": f"p-{who}"}


DATA = {
    "report.filed": _report,
    "report.amended": _report,
    "job.finished": _finished,
    "inspection.passed": _passed,
    "inspection.failed": _failed,
    "car.released": _released,
}
"""How a line becomes an entry's `data`, where it is not the line itself."""

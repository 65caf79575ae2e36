"""Writes the sample event's log, photos and rate table from `story.toml`: the same bytes on each run.

    python sample_reports/make_sample.py [FOLDER]

FOLDER is by default the event's own, beside this file. event.toml and van.csv are written by hand and stay
as they are. An id is a UUIDv7 (RFC 9562): the entry's time in milliseconds, then bits drawn from its label.
Lines stand in the order in which the others heard of them, not in that of their clocks.
"""

import hashlib
import json
import random
import shutil
import sys
import uuid
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from pictures import photos
from telling import DEVICES, EVERYTHING_HEARD, Told, read_story

HERE = Path(__file__).parent
EVENT = "thornquell-2026"
RATES = HERE.parent / "api" / "shuntbook" / "defaults" / "rates"
DAYS = {"Fri": "2026-06-12", "Sat": "2026-06-13", "Sun": "2026-06-14"}
NAMES_ENTRIES = ("covers", "replaces", "ends", "voids", "reports")
WORK = ("job.started", "job.finished", "inspection.passed", "inspection.failed")
SEEN_BY_A_RELEASE = ("report.filed", "report.amended", "report.withdrawn", "inspection.failed")


def main(folder: Path) -> None:
    """Write entries.jsonl, photos/ and rates/ into `folder`."""
    hashes = _write_photos(folder / "photos")
    lines = [json.dumps(entry, ensure_ascii=False, separators=(",", ":")) for entry in entries(hashes)]
    (folder / "entries.jsonl").write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")
    shutil.copytree(RATES, folder / "rates", dirs_exist_ok=True)


def _write_photos(folder: Path) -> dict[str, str]:
    """Write the photos by their hash; return the hashes by name."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    hashes = {}
    for name, data in photos():
        hashes[name] = hashlib.sha256(data).hexdigest()
        (folder / f"{hashes[name]}.jpg").write_bytes(data)
    return hashes


def entries(hashes: dict[str, str]) -> list[dict[str, Any]]:
    """Return the entries as they are kept, in the order in which they were heard."""
    told = read_story(HERE / "story.toml")
    ids = {one.label: _uuid7(one) for one in told}
    if len(ids) != len(told):
        raise ValueError("two entries of the story have one label; give each its own")
    numbers = _sequence(told)
    told.sort(key=lambda one: (_time(one.heard, one.label), ids[one.label]))
    return [_entry(one, told, ids, hashes, numbers[one.label]) for one in told]


def _sequence(told: list[Told]) -> dict[str, int]:
    """Number each device's entries 1, 2, 3 … by its own clock."""
    counters: dict[str, int] = {}
    numbers = {}
    for one in sorted(told, key=lambda one: _time(one.when, one.label)):
        device = DEVICES[one.who]
        counters[device] = numbers[one.label] = counters.get(device, 0) + 1
    return numbers


def _time(when: str, label: str) -> datetime:
    """Return "Sat 09:41" as a time; the seconds are drawn from the label."""
    day, clock = when.split()
    seconds = random.Random(f"seconds of {label}").randrange(60)
    return datetime.fromisoformat(f"{DAYS[day]}T{clock}:00+02:00") + timedelta(seconds=seconds)


def _uuid7(one: Told) -> str:
    """Return the entry's id: 48 bits of time, version 7, 12 bits, variant 2, 62 bits."""
    chance = random.Random(f"id of {one.label}")
    milliseconds = int(_time(one.when, one.label).timestamp()) * 1000 + chance.randrange(1000)
    bits = milliseconds << 80 | 7 << 76 | chance.getrandbits(12) << 64 | 2 << 62 | chance.getrandbits(62)
    return str(uuid.UUID(int=bits))


def _entry(one: Told, told: list[Told], ids: dict[str, str], hashes: dict[str, str], seq: int) -> dict[str, Any]:
    entry = {
        "id": ids[one.label],
        "v": 1,
        "kind": one.kind,
        "event": EVENT,
        "car": one.car,
        "subject": ids.get(one.subject or "", one.subject),
        "at": _time(one.when, one.label).isoformat(),
        "device": DEVICES[one.who],
        "seq": seq,
        "person": f"p-{one.who}",
        "data": _data(one, told, ids, hashes),
    }
    return entry | ({"said_at": one.said_at} if one.said_at else {})


def _data(one: Told, told: list[Told], ids: dict[str, str], hashes: dict[str, str]) -> dict[str, Any]:
    """Put ids and hashes in the place of labels and names."""
    data = dict(one.data)
    for key in NAMES_ENTRIES:
        if key in data:
            labels = _heard(one, told) if data[key] == EVERYTHING_HEARD else data[key]
            data[key] = sorted(ids[label] for label in labels)
    if "answers" in data:
        data["answers"] = [{**row, "entries": sorted(ids[n] for n in _work(one, told, row))} for row in data["answers"]]
    if data.get("caused_by"):
        data["caused_by"] = ids[data["caused_by"]]
    if "photos" in data:
        data["photos"] = sorted(hashes[name] for name in data["photos"])
    if "photo" in data:
        data["photo"] = hashes[data["photo"]]
    return data


def _heard(release: Told, told: list[Told]) -> list[str]:
    """Return the reports and failed looks of the car that had been heard of when it was released."""
    then = _time(release.when, release.label)
    seen = [one for one in told if one.car == release.car and one.kind in SEEN_BY_A_RELEASE]
    return [one.label for one in seen if _time(one.heard, one.label) < then]


def _work(release: Told, told: list[Told], answer: dict[str, Any]) -> list[str]:
    """Return the work that an answer of a release is about: all that was heard of at that place, or on the car."""
    then = _time(release.when, release.label)
    done = [one for one in told if one.car == release.car and one.kind in WORK]
    there = [one for one in done if (one.subject or "").startswith(answer["place"])]
    return [one.label for one in there if _time(one.heard, one.label) < then]


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else HERE / EVENT)

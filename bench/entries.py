"""Makes a long, plausible log for the sample event: reports, repairs, inspections, seeded."""

import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

from shuntbook.kit.ids import uuid7
from shuntbook.serving import sample_folder
from shuntbook.setup.folder import default_car_map

EVENT, CARS = "thornquell-2026", ("41", "42")
START_MS = 1_781_000_000_000
CONDITIONS = ("marked", "bent", "cracked", "loose", "broken")


def event_folder(folder: Path) -> Path:
    """Copy the sample event, signatures off: nobody signs these logs, as no phone wrote them."""
    shutil.copytree(sample_folder(), folder)
    event = folder / "event.toml"
    event.write_text(event.read_text() + '\n[trust]\nsignatures = "off"\n')
    return folder


def log(size: int, seed: int = 1) -> list[bytes]:
    """Return `size` entries as their JSON bytes, the same for the same seed."""
    return [json.dumps(entry).encode() for entry in _entries(size, Random(seed))]


def _entries(size: int, chance: Random) -> Iterator[dict[str, Any]]:
    zones = default_car_map().zones
    open_jobs: list[tuple[str, str, str]] = []
    for number in range(size):
        name = uuid7(START_MS + number * 1000, chance.getrandbits(74))
        roll = chance.random()
        if roll < 0.5 or not open_jobs:
            car, zone = chance.choice(CARS), chance.choice(list(zones))
            component = chance.choice(zones[zone].components)
            open_jobs.append((car, f"{zone}/{component}", name))
            finding = {"component": component, "condition": chance.choice(CONDITIONS)}
            data: dict[str, Any] = {
                "stage": f"SS{chance.randint(1, 9)}",
                "where": "stage",
                "zone": zone,
                "findings": [finding],
            }
            yield _entry(number, name, "report.filed", car, name, "p-toma", {**data, "km": 3.2, "note": "hit a stone"})
            continue
        car, job, finding_id = chance.choice(open_jobs)
        if roll < 0.75:
            data = {"covers": [finding_id], "minutes": 12, "mechanics": 1, "repairers": ["p-bodo"], "parts": []}
            yield _entry(number, name, "job.finished", car, job, "p-bodo", data)
        else:
            yield _entry(number, name, "inspection.passed", car, job, "p-odil", {"covers": [finding_id], "checks": []})


def _entry(
    number: int, name: str, kind: str, car: str, subject: str, person: str, data: dict[str, Any]
) -> dict[str, Any]:
    at = "2026-06-12T10:00:00+02:00"
    device = {"device": f"d-{number % 5}", "seq": number // 5 + 1}
    return {"id": name, "v": 1, "kind": kind, "event": EVENT, "car": car, "subject": subject, "at": at} | {
        **device,
        "person": person,
        "data": data,
    }

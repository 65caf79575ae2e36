"""Makes an event as large as a phone may ever hold: 500 reports of one car, each a job of its own, and 200 photos.

The car has invented parts beside the usual ones, since the package's car map has no 500 places. The picture is the same
each time, with a comment of its own (ITU-T T.81, COM), so that each has a hash of its own as real ones have.
"""

import hashlib
import io
import json
import re
import shutil
from importlib.resources import files as resources
from pathlib import Path
from typing import Any

from PIL import Image

from shuntbook.kit.ids import uuid7
from shuntbook.serving import sample_folder
from shuntbook.setup.folder import default_car_map

EVENT, CAR = "thornquell-2026", "41"
CREW, MECHANIC = "p-toma", "p-bodo"
REPORTS, PHOTOS = 500, 200
INVENTED_PARTS = 20
"""In each of the 15 zones: 214 usual places and 300 invented ones."""
START_MS = 1_781_300_000_000
SIDES = (1200, 1600)
"""Pixels of a photo as the app keeps it of an upright 12-megapixel one."""


def write_event(folder: Path) -> Path:
    """Write the event's folder: set-up of the sample with one car and more parts, reports, photos."""
    shutil.copytree(sample_folder(), folder, ignore=shutil.ignore_patterns("photos"))
    (folder / "event.toml").write_text(_one_car((folder / "event.toml").read_text()))
    (folder / "car_map.toml").write_text(_more_parts())
    picture = _picture()
    photos = [_commented(picture, number) for number in range(PHOTOS)]
    (folder / "photos").mkdir()
    names = [hashlib.sha256(photo).hexdigest() for photo in photos]
    for name, photo in zip(names, photos, strict=True):
        (folder / "photos" / f"{name}.jpg").write_bytes(photo)
    (folder / "entries.jsonl").write_text("".join(json.dumps(entry) + "\n" for entry in _reports(names)))
    return folder


def write_day(folder: Path) -> Path:
    """Write the sample event with one of its cars: two days of a car as they are."""
    shutil.copytree(sample_folder(), folder, ignore=shutil.ignore_patterns("photos"))
    (folder / "event.toml").write_text(_one_car((folder / "event.toml").read_text()))
    lines = (folder / "entries.jsonl").read_text().splitlines(keepends=True)
    (folder / "entries.jsonl").write_text("".join(line for line in lines if json.loads(line)["car"] == CAR))
    return folder


def _one_car(event: str) -> str:
    """Leave the hired car and its terms out, so that nobody is asked which car; signatures off: nobody signs these."""
    tables = re.split(r"(?m)^(?=\[)", event)
    kept = [table for table in tables if not re.search(r'(?m)^(car = "42"|agreement = "hire-42")', table)]
    return "".join([*kept, '\n[trust]\nsignatures = "off"\n'])


def _more_parts() -> str:
    """Return the package's car map with invented parts in every zone."""
    usual = resources("shuntbook").joinpath("defaults", "car_map.toml").read_text()
    parts = [f"panel-{number + 1}" for number in range(INVENTED_PARTS)]
    listed = "components = [\n    " + ", ".join(f'"{part}"' for part in parts) + ","
    tables = "".join(f'\n[components.{part}]\nlabel = "{part.replace("-", " ").capitalize()}"\n' for part in parts)
    return usual.replace("components = [", listed) + tables


def _reports(photos: list[str]) -> list[dict[str, Any]]:
    """Return the reports, each of another place; the first ones with a photo each."""
    usual = [(zone.zone, part) for zone in default_car_map().zones.values() for part in zone.components]
    invented = [(zone, f"panel-{number + 1}") for zone in default_car_map().zones for number in range(INVENTED_PARTS)]
    places = (usual + invented)[:REPORTS]
    return [_report(number, place, photos[number : number + 1]) for number, place in enumerate(places)]


def _report(number: int, place: tuple[str, str], photos: list[str]) -> dict[str, Any]:
    zone, component = place
    at_ms = START_MS + number * 60_000
    name = uuid7(at_ms, number)
    data = {"stage": f"SS{1 + number * 9 // REPORTS}", "where": "stage", "zone": zone, "km": 3.2, "photos": photos}
    data |= {"findings": [{"component": component, "condition": "bent"}], "note": "Hit a stone in the cut."}
    return {
        "id": name, "v": 1, "kind": "report.filed", "event": EVENT, "car": CAR, "subject": name,
        "at": f"2026-06-12T{10 + number // 60:02}:{number % 60:02}:00+02:00", "device": "d-bench", "seq": number + 1,
        "person": CREW, "data": data,
    }  # fmt: skip


def _picture() -> bytes:
    """Return a JPEG of about 300 kB, what the app keeps of a 12-megapixel photo."""
    kept = io.BytesIO()
    coarse = Image.effect_noise((SIDES[0] // 2, SIDES[1] // 2), 22)
    coarse.resize(SIDES).convert("RGB").save(kept, "JPEG", quality=80)
    return kept.getvalue()


def _commented(jpeg: bytes, number: int) -> bytes:
    text = f"photo {number}".encode()
    return jpeg[:2] + b"\xff\xfe" + (len(text) + 2).to_bytes(2) + text + jpeg[2:]

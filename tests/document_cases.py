"""What documents are made of in tests: a car's file from entries, and pictures to show."""

import io
from collections.abc import Iterable, Mapping

from PIL import Image, ImageDraw

from making import Json, parsed, queue_of
from shuntbook.document.car_file import CarFile, Kept
from shuntbook.kit.canonical import sha256
from shuntbook.queue.car import jobs_of_car
from shuntbook.queue.totals import add_up
from shuntbook.setup.folder import Setup


def car_file(
    entries: Iterable[Json], setup: Setup, car: str = "41", photos: Mapping[str, bytes] | None = None
) -> CarFile:
    """Return the file of one car; what was received was received when it was written."""
    every = list(entries)
    mine = [entry for entry in every if entry["car"] == car]
    return CarFile(
        setup=setup,
        car=car,
        entries=tuple(parsed(mine)),
        queue=queue_of(every, setup, car),
        kept={str(entry["id"]): Kept(str(entry["at"]), str(entry.get("said_at") or "")) for entry in mine},
        used=add_up(job.used for job in jobs_of_car(parsed(mine), setup)),
        photos=frozenset(photos or {}),
    )


def pictures(count: int, size: tuple[int, int] = (320, 240)) -> dict[str, bytes]:
    """Return so many different JPEG pictures in colour by their SHA-256."""
    found = {}
    for number in range(count):
        image = Image.new("RGB", size, (200, (number * 37) % 256, (number * 91) % 256))
        ImageDraw.Draw(image).rectangle((20, 20, 60 + number, 100), fill=(0, 90, 200))
        out = io.BytesIO()
        image.save(out, "JPEG")
        found[sha256(out.getvalue())] = out.getvalue()
    return found

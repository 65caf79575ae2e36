"""A car that was hit sixty times, with the longest names, and what lies where on its pages."""

from typing import Any

from document_cases import car_file
from making import Pen
from reading_pdf import Pdf
from sample_event import event_files
from shuntbook.document.car_file import CarFile
from shuntbook.setup.folder import Setup, read_setup

HITS = 60
LONG = "Maximiliane-Charlotte Featherstonehaugh-Wojciechowska"
EVENT = "The Seventy-Fifth International Thornquell Gravel and Forest Days"
FOOT_PT = 56.5
"""The foot's rule and text lie below this, from the bottom of the page (20 mm); no other line stands as low."""


def crowded_setup() -> Setup:
    """Return the sample event's set-up with the longest names."""
    files = event_files("off")
    text = files["event.toml"].decode()
    for old, new in [("Rens", LONG), ("Marlies Ohm", LONG), ("Thornquell Gravel Days", EVENT)]:
        assert f'"{old}"' in text
        text = text.replace(f'"{old}"', f'"{new}"')
    label = "hired out, blue over white, chassis WXZ1234567890ABCD, registration TH-RA 4242"
    return read_setup({**files, "event.toml": text.replace('"hired out"', f'"{label}"').encode()})


def crowded_car() -> CarFile:
    """Return its file."""
    setup, pen = crowded_setup(), Pen("thornquell-2026", car="42")
    keys = [f"{zone}/{name}" for zone, one in setup.car_map.zones.items() for name in one.components]
    chosen = keys[:: len(keys) // HITS][:HITS]
    entries = [
        pen.filed(f"{key} {('bent', 'broken', 'cracked')[at % 3]}", stage=f"SS{1 + at % 8}", km=at / 4, cause="bank")
        for at, key in enumerate(chosen)
    ]
    return car_file(entries, setup, car="42")


def lines(read: Pdf, page: int) -> list[tuple[float, str]]:
    """Return the height above the foot of the page of each piece of text, and the text."""
    found: list[tuple[float, str]] = []

    def see(text: str, matrix: Any, text_matrix: Any, *_: Any) -> None:
        if text.strip():
            found.append((text_matrix[5] * matrix[3] + matrix[5], text))

    read.reader.pages[page].extract_text(visitor_text=see)
    return found


def is_foot(text: str) -> bool:
    """Return whether a text is of the foot of a page in English."""
    return any(said in text for said in ("calculation", "Made from", "Times:", "Page", "Europe/", "Statement Car"))

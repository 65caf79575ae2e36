"""Pictures of the gallery's components, and how they are held against the stored ones.

    PYTHONPATH=tests:tools .venv/bin/python tests/browser/gallery.py

takes the stored pictures again, after a change of the look; `[FOLDER]` puts them elsewhere.

Each is a whole page of one group in one theme, with the shipped font, letters unhinted and in greys, so that machines
agree. What is compared is not pixels but squares of them: an edge of a letter may fall a shade lighter elsewhere, which
moves a square's mean little, while a colour, a line, an icon or a place that is another one moves it much.
"""

import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from engines import CHROMIUM, FLAGS
from harness import build, serving
from PIL import Image, ImageChops
from playwright.sync_api import Browser, Page, Playwright, ViewportSize, sync_playwright

STORED = Path(__file__).parent.parent / "data" / "gallery"
CONFIG = "gallery/vite.config.ts"
PHONE: ViewportSize = {"width": 390, "height": 844}
LAPTOP: ViewportSize = {"width": 1280, "height": 800}
THEMES = ("day", "dark", "night", "contrast")
GROUPS = ("bars", "lists", "figures", "actions", "fields", "tables", "over", "queue")
WIDE_GROUPS = ("bars", "tables", "over", "costs")
"""Those that lie otherwise where there is room."""

SQUARE_PX = 10
TOLERANCE = 8
"""How much a square's mean may differ, of 255, in any of red, green and blue.

Storing costs up to 3 of it. A grey that is a tenth lighter, weight 600 for 650, or corners of 6 px for 10 move some
square by 10 to 47 (measured on these pictures); letters hinted as desktops do it, by up to 55, so that is turned off.
"""
HALF = 2
"""Stored at half their size and with at most so many colours: a seventh of the bytes."""
COLOURS = 256

# Without hints and without colours in the edges of letters, which machines set in their own ways.
LETTERS = ["--font-render-hinting=none", "--disable-lcd-text", "--force-color-profile=srgb", "--hide-scrollbars"]


@dataclass(frozen=True)
class Shot:
    """One picture. size: phone or laptop."""

    group: str
    theme: str = "day"
    size: Literal["phone", "laptop"] = "phone"

    @property
    def name(self) -> str:
        return f"{self.group}-{self.theme}-{self.size}.png"


SHOTS = [
    *(Shot(group, theme) for group in GROUPS for theme in THEMES),
    Shot("icons"),
    *(Shot(group, size="laptop") for group in WIDE_GROUPS),
]


@contextmanager
def served() -> Iterator[str]:
    """Build the gallery and serve it; gives its address."""
    with tempfile.TemporaryDirectory() as folder:
        build(Path(folder), CONFIG)
        with serving(Path(folder)) as address:
            yield f"{address}gallery/"


def launch(playwright: Playwright) -> Browser:
    """Start Chromium so that letters look the same on each machine."""
    return playwright.chromium.launch(executable_path=CHROMIUM, args=[*FLAGS, *LETTERS])


def show(page: Page, address: str, group: str) -> None:
    """Open a group by itself, drawn with the shipped font; what lies over a screen is opened, too."""
    page.goto(f"{address}?group={group}")
    page.locator("html[data-drawn]").wait_for()
    if group == "over":
        page.get_by_role("button", name="Say something").click()
        page.get_by_role("button", name="Open the sheet").click()
        page.get_by_role("dialog").wait_for()


def wear(page: Page, theme: str) -> None:
    """Have the next page opened in a theme: the dark one is the phone's own, the others are chosen."""
    page.emulate_media(color_scheme="dark" if theme == "dark" else "light", reduced_motion="reduce")
    chosen = "removeItem('shuntbook.theme')" if theme == "dark" else f"setItem('shuntbook.theme', '{theme}')"
    page.evaluate(f"localStorage.{chosen}")


def take(page: Page, address: str, shot: Shot, path: Path) -> None:
    """Write the picture of a whole group."""
    page.set_viewport_size(PHONE if shot.size == "phone" else LAPTOP)
    page.goto(address)
    wear(page, shot.theme)
    show(page, address, shot.group)
    # A sheet covers what is in sight, and the picture is that.
    page.screenshot(path=path, full_page=shot.group != "over", animations="disabled")


def halved(picture: Image.Image) -> Image.Image:
    """Return a screenshot at the size in which pictures are stored."""
    return picture.convert("RGB").reduce(HALF)


def means(half: Image.Image) -> Image.Image:
    """Return a picture whose pixels are the means of squares."""
    side = SQUARE_PX // HALF
    across, down = (-(-length // side) for length in half.size)
    whole = Image.new("RGB", (across * side, down * side))
    whole.paste(half.convert("RGB"))
    return whole.reduce(side)


def differing(found: Image.Image, stored: Image.Image) -> list[str]:
    """Return where two halved pictures are not alike, in CSS pixels; or how large they are, where that differs."""
    if found.size != stored.size:
        return [f"{found.size[0]} × {found.size[1]}, stored {stored.size[0]} × {stored.size[1]}"]
    apart = ImageChops.difference(means(found), means(stored))
    squares = [(x, y) for y in range(apart.height) for x in range(apart.width)]
    by = {at: max(colour) for at, colour in zip(squares, _pixels(apart), strict=True)}
    return [f"{x * SQUARE_PX}, {y * SQUARE_PX}: by {most}" for (x, y), most in by.items() if most > TOLERANCE]


def _pixels(picture: Image.Image) -> list[tuple[int, int, int]]:
    data = picture.tobytes()
    return [(data[at], data[at + 1], data[at + 2]) for at in range(0, len(data), 3)]


def store(playwright: Playwright, folder: Path) -> None:
    """Take every picture and keep it."""
    folder.mkdir(parents=True, exist_ok=True)
    browser = launch(playwright)
    page = browser.new_page()
    with served() as address:
        for shot in SHOTS:
            path = folder / shot.name
            take(page, address, shot, path)
            with Image.open(path) as picture:
                few = halved(picture).quantize(COLOURS, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE)
            few.save(path, optimize=True)
    browser.close()


if __name__ == "__main__":
    with sync_playwright() as started:
        store(started, Path(sys.argv[1]) if len(sys.argv) > 1 else STORED)

"""Takes a picture of every screen in each theme and width, and lays them out on contact sheets for a reviewer.

    PYTHONPATH=tests:tests/browser python tools/every_screen.py [--themes day night] [--widths 390 1280] [--only TEXT]

Pictures go to build/screens/THEME-WIDTH/, the sheets beside these folders. The screens are those of the browser tests,
so that none is left out.
"""

import argparse
import tempfile
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from phones import Phone, start_browser
from PIL import Image, ImageDraw
from playwright.sync_api import Browser, ViewportSize, sync_playwright
from screens import CREW, EMPTY, INSPECTOR, MANAGER, MECHANIC, Screen
from server import Server, running, with_sample, without_entries

TARGET = Path(__file__).resolve().parent.parent / "build" / "screens"
THEMES = ("day", "dark", "night", "contrast")
HEIGHTS = {320: 640, 390: 844, 1280: 800, 1920: 1080}
SETTLED_MS = 1_200
"""Thumbnails and what is loaded late come in after the heading."""

THUMB_PX = 260
TITLE_PX = 22
GAP_PX = 12
SHEET_PX = 2_600


@dataclass(frozen=True)
class Shown:
    """How screens are looked at: a theme, and a width in px."""

    theme: str
    width: int

    @property
    def size(self) -> ViewportSize:
        """Return what the browser is to be as large as."""
        return {"width": self.width, "height": HEIGHTS.get(self.width, 844)}

    @property
    def name(self) -> str:
        """Return what its folder is called."""
        return f"{self.theme}-{self.width}"


def main() -> None:
    """Take every picture that was asked for."""
    asked = arguments()
    with sync_playwright() as playwright, closing(start_browser(playwright)) as browser:
        for theme in asked.themes:
            for width in asked.widths:
                shown = Shown(theme, width)
                sheet(shown, list(take(browser, shown, asked.only)))


def arguments() -> argparse.Namespace:
    """Return what was asked for."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    parser.add_argument("--themes", nargs="+", choices=THEMES, default=THEMES)
    parser.add_argument("--widths", nargs="+", type=int, default=[390, 1280])
    parser.add_argument("--only", default="", help="screens whose name has this in it")
    return parser.parse_args()


def take(browser: Browser, shown: Shown, only: str) -> Iterator[tuple[str, Path]]:
    """Yield each screen's name and picture."""
    folder = TARGET / shown.name
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as data:
        logged = with_sample(Path(data) / "logged")
        nothing = without_entries(Path(data) / "nothing", Path(data) / "event", [])
        for server, screens in ((logged, CREW + MECHANIC + INSPECTOR + MANAGER), (nothing, EMPTY)):
            chosen = [one for one in screens if only in one.name]
            for served in running(server) if chosen else ():
                yield from each(browser, served, shown, chosen, folder)


def each(
    browser: Browser, server: Server, shown: Shown, screens: list[Screen], folder: Path
) -> Iterator[tuple[str, Path]]:
    """Yield the same of one server's screens; everybody joins once."""
    phones: dict[str, Phone] = {}
    for screen in screens:
        phone = phones.get(screen.who) or joined(browser, server, shown, screen.who)
        phones[screen.who] = phone
        phone.fresh(server, screen.address, screen.car)
        if screen.act:
            screen.act(phone.page)
        phone.page.wait_for_timeout(SETTLED_MS)
        path = folder / f"{screen.name.replace(',', '').replace(' ', '-').replace(':', '')}.png"
        phone.page.screenshot(path=path, animations="disabled")
        yield screen.name, path
    for phone in phones.values():
        phone.close()


def joined(browser: Browser, server: Server, shown: Shown, who: str) -> Phone:
    """Return a phone on which a person has joined, in a theme that is kept as if it was chosen under Me."""
    context = browser.new_context(viewport=shown.size, timezone_id="Europe/Vienna", service_workers="block")
    if shown.theme == "dark":
        context.add_init_script("localStorage.removeItem('shuntbook.theme')")
    else:
        context.add_init_script(f"localStorage.setItem('shuntbook.theme', '{shown.theme}')")
    phone = Phone(context, keeps_app=False)
    phone.page.emulate_media(color_scheme="dark" if shown.theme == "dark" else "light")
    phone.join(server, who)
    return phone


def sheet(shown: Shown, pictures: list[tuple[str, Path]]) -> None:
    """Lay pictures out in rows, each small and with its name."""
    size = shown.size
    wide = THUMB_PX * (1 if shown.width < 900 else 2)
    high = wide * size["height"] // size["width"]
    columns = SHEET_PX // (wide + GAP_PX)
    rows = -(-len(pictures) // columns)
    whole = Image.new("RGB", (columns * (wide + GAP_PX), rows * (high + TITLE_PX + GAP_PX)), "white")
    draw = ImageDraw.Draw(whole)
    for place, (name, path) in enumerate(pictures):
        x, y = place % columns * (wide + GAP_PX), place // columns * (high + TITLE_PX + GAP_PX)
        draw.text((x + 2, y + 4), name, "black")
        with Image.open(path) as picture:
            whole.paste(picture.convert("RGB").resize((wide, high), Image.Resampling.LANCZOS), (x, y + TITLE_PX))
    whole.save(TARGET / f"{shown.name}.jpg", quality=85)


if __name__ == "__main__":
    main()

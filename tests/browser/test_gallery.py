"""The components by themselves, in all their states: how they look (stored pictures), and what axe and a ruler find."""

import re
from collections.abc import Iterator
from pathlib import Path

import gallery
import pytest
from cutting import cut_off, letters, resize
from gallery import GROUPS, PHONE, SHOTS, STORED, THEMES, TOLERANCE, Shot
from looking import COLOURS, NARROW, at_rest, axe_finds, fits, put_on, too_wide
from node import PWA
from painted import vanished
from PIL import Image, ImageDraw
from playwright.sync_api import Browser, Page, Playwright

from longer import some

pytestmark = pytest.mark.only_in("chromium", "the stored pictures are Chromium's")

REPORTED = Path("build") / "gallery"
"""Where a picture goes that is not as the stored one."""


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    with gallery.served() as served:
        yield served


@pytest.fixture(scope="module")
def drawing(playwright: Playwright) -> Iterator[Browser]:
    """A browser whose letters look the same on each machine."""
    browser = gallery.launch(playwright)
    yield browser
    browser.close()


@pytest.fixture
def page(drawing: Browser) -> Iterator[Page]:
    """A page in which no script may fail."""
    page = drawing.new_page(viewport=PHONE)
    complaints: list[str] = []
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("console", lambda line: complaints.append(line.text) if line.type in ("error", "warning") else None)
    yield page
    page.close()
    assert complaints == []


@pytest.mark.parametrize("theme", some(THEMES, 4))
def test_each_group_looks_as_it_did(theme: str, address: str, page: Page, subtests: pytest.Subtests) -> None:
    REPORTED.mkdir(parents=True, exist_ok=True)
    for shot in some([one for one in SHOTS if one.theme == theme], 2):
        with subtests.test(shot.name):
            path = REPORTED / shot.name
            gallery.take(page, address, shot, path)
            with Image.open(path) as found, Image.open(STORED / shot.name) as stored:
                apart = gallery.differing(gallery.halved(found), stored)
            assert apart == [], f"see {path}; docs/components.md says how to keep it"
            path.unlink()


def test_every_stored_picture_is_held_and_none_is_large() -> None:
    stored = sorted(path.name for path in STORED.iterdir())
    assert stored == sorted(shot.name for shot in SHOTS)
    assert max(path.stat().st_size for path in STORED.iterdir()) < 32_000


def test_what_changes_in_a_picture_is_found_and_what_machines_do_is_not() -> None:
    with Image.open(STORED / Shot("actions").name) as picture:
        stored = picture.convert("RGB")
    assert gallery.differing(stored, stored) == []
    shade = stored.point(lambda value: max(0, value - TOLERANCE // 2))
    assert gallery.differing(shade, stored) == []
    # A square of the tag's size in another colour; a line; and all of it one line lower.
    for box, colour in (((40, 40, 49, 49), "#1e6b45"), ((20, 100, 180, 100), "#7a8793")):
        changed = stored.copy()
        ImageDraw.Draw(changed).rectangle(box, fill=colour)
        assert gallery.differing(changed, stored)
    lower = Image.new("RGB", stored.size, stored.getpixel((0, 0)))
    lower.paste(stored, (0, 1))
    assert len(gallery.differing(lower, stored)) > 100
    assert gallery.differing(stored.crop((0, 0, stored.width, stored.height - 1)), stored)


@pytest.mark.parametrize("group", some(GROUPS, 6))
def test_axe_a_ruler_and_letters_twice_as_large_find_nothing(group: str, address: str, page: Page) -> None:
    page.goto(address)
    gallery.wear(page, "day")
    gallery.show(page, address, group)
    assert axe_finds(page) == []
    for theme in THEMES[1:]:
        put_on(page, theme)
        assert axe_finds(page, COLOURS) == [], theme
    put_on(page, "day")
    assert fits(page) == []
    resize(page, NARROW)
    assert fits(page) == [], "320 px"
    resize(page, PHONE)
    letters(page, 200)
    assert at_rest(page, lambda: too_wide(page) + cut_off(page)) == [], "letters twice as large"


@pytest.mark.parametrize("group", some(gallery.WIDE_GROUPS, 4))
def test_the_same_on_a_laptop(group: str, address: str, page: Page) -> None:
    page.set_viewport_size(gallery.LAPTOP)
    gallery.show(page, address, group)
    assert axe_finds(page) == []
    assert fits(page) == []


def has_focus(page: Page, name: str) -> None:
    """Wait until what is named so has the focus: it goes where it belongs after the dialog came or went."""
    named = "name => (document.activeElement.textContent || document.activeElement.ariaLabel) === name"
    page.wait_for_function(named, arg=name)


def test_a_sheet_keeps_the_keyboard_and_gives_it_back(address: str, page: Page) -> None:
    gallery.show(page, address, "over")
    page.keyboard.press("Escape")
    page.get_by_role("dialog").wait_for(state="detached")
    has_focus(page, "Open the sheet")
    page.keyboard.press("Enter")
    page.get_by_role("dialog").wait_for()
    has_focus(page, "Why the car is held")
    stops = []
    for _ in range(5):
        page.keyboard.press("Tab")
        stops.append(page.evaluate("document.activeElement.closest('dialog') !== null"))
    assert stops == [True] * 5
    assert page.evaluate("document.activeElement.ariaLabel") == "Close", "round, and at its first stop again"


FILLED = {
    "bars": [".ui-hold.is-hold .ui-hold-text", ".ui-dock .is-primary", ".ui-dock .is-danger", ".ui-count"],
    "actions": [".ui-button.is-danger", "input:checked + .ui-segment", "input:checked + .ui-chip-face"],
    "over": [".ui-message p"],
}
"""What is filled, by group; and what is chosen, which the system's own pair must mark."""


@pytest.mark.parametrize("group", some(list(FILLED), 4))
def test_letters_stay_where_the_system_forces_its_colours(group: str, address: str, page: Page) -> None:
    """As in Windows' high contrast, where Chromium lays a ground of its own behind each line of text."""
    page.emulate_media(forced_colors="active", reduced_motion="reduce")
    gallery.show(page, address, group)
    if group == "over":
        page.keyboard.press("Escape")
        page.get_by_role("dialog").wait_for(state="detached")
    assert [place for place in FILLED[group] if vanished(page.locator(place).first)] == []


def test_with_reduced_motion_nothing_moves(address: str, page: Page) -> None:
    moves = "[...document.querySelectorAll('*')].some(one => getComputedStyle(one).transitionDuration !== '0s')"
    gallery.show(page, address, "actions")
    page.emulate_media(reduced_motion="no-preference")
    assert page.evaluate(moves)
    page.emulate_media(reduced_motion="reduce")
    assert not page.evaluate(moves)


@pytest.mark.longer
def test_the_gallery_shows_each_group_in_a_frame_of_its_own(address: str, page: Page) -> None:
    page.goto(address)
    for group in (*GROUPS, "icons", "costs"):
        page.get_by_label(group, exact=True).check()
        page.frame_locator("iframe").locator("html[data-drawn]").wait_for()
    page.get_by_label("dark", exact=True).check()
    frame = page.frame_locator("iframe")
    frame.locator("html[data-drawn]").wait_for()
    ground = frame.locator("body").evaluate("one => getComputedStyle(one).backgroundColor")
    assert ground == "rgb(13, 18, 22)"


def test_the_built_app_has_nothing_of_the_gallery_nor_of_what_no_screen_uses() -> None:
    built = [path for path in (PWA / "dist").rglob("*") if path.suffix in (".js", ".css", ".html")]
    assert len(built) > 50
    assert [path.name for path in built if re.search(r"gallery-(page|case|frame)", path.read_text())] == []
    # Each component's style sheet begins every one of its names with ui-.
    screens = [path for path in (PWA / "src").rglob("*.tsx") if path.parent.name != "ui"]
    used = [path.name for path in screens if re.search(r"/ui/[A-Z]", path.read_text())]
    holding = [path.name for path in built if ".ui-" in path.read_text()]
    assert used or holding == []

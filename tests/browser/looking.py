"""What must hold of every screen whatever it shows: axe, touch targets, width, no promise about the car."""

import re
import zlib
from collections.abc import Callable
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from cutting import cut_off, letters, resize
from engines import engine
from phones import SIZE, Phone
from playwright.sync_api import Page, ViewportSize, expect

from longer import is_longer

REST_TRIES = 50
NARROW: ViewportSize = {"width": 320, "height": 640}
SIDEWAYS: ViewportSize = {"width": SIZE["height"], "height": SIZE["width"]}
LAPTOP: ViewportSize = {"width": 1280, "height": 800}
DESK: ViewportSize = {"width": 1920, "height": 1080}

# In CSS pixels. 48 is more than WCAG 2.2 asks (24 by 2.5.8, 44 by 2.5.5): gloves, and a car that moves.
TARGET = 48
TARGET_IN_CAR = 56
"""On the screens that the crew uses with the belts on, and in what stands round every screen."""

# The car is never said to be safe or clear. These speak of the road, a browser's store, hoses, film and a clutch.
ALLOWED = [
    "Keep clear of the road.",
    "are you clear of the road",
    "the browser may clear it when space runs out",
    "Lines clear of edges and heat",
    "Clear lamp film",
    "Clear screen film",
    "Clutch slips or will not clear",
]

# A link counts as part of a sentence if its own line of text holds words beside it: WCAG 2.5.8 leaves those out, since
# the line's height makes them what they are. An SVG shape with the button role counts as a button.
SMALL = """([target, inCar]) => {
  const all = document.querySelectorAll('button, a, input, select, textarea, summary, [role=button]');
  const inSentence = (one) =>
    one.matches('a') && one.parentElement.textContent.trim() !== one.textContent.trim() &&
    !['flex', 'grid', 'inline-flex'].includes(getComputedStyle(one.parentElement).display);
  return [...all]
    .filter((one) => one.checkVisibility({ visibilityProperty: true }) && !inSentence(one))
    .map((one) => [one, one.getBoundingClientRect(),
      one.closest('.incar, .ui-app-bar, .ui-hold, .ui-tabs') ? inCar : target])
    .filter(([, box, least]) => Math.min(box.width, box.height) < least - 0.5)
    .map(([one, box, least]) =>
      `${one.outerHTML.slice(0, 120)} is ${box.width.toFixed()} × ${box.height.toFixed()}, should be ${least}`);
}"""
TOO_WIDE = """() => [...document.querySelectorAll('body *')]
  .filter((one) => document.documentElement.scrollWidth > innerWidth && one.getBoundingClientRect().right > innerWidth)
  .map((one) => one.outerHTML.slice(0, 120))"""
SAID = """() => [document.title, document.body.innerText,
  ...[...document.querySelectorAll('[aria-label], [alt]')].map((one) => one.getAttribute('aria-label') ?? one.alt)
].join('\\n')"""


# axe-core's rules as they come, which hold WCAG 2.x A and AA and best practices.
ALL_RULES: dict[str, Any] = {"resultTypes": ["violations"]}
AXE = Axe()
FINDS = """(options) => axe.run(document, options).then(({ violations }) => violations.map(({ id, help, nodes }) =>
  `${id}: ${help}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 140)).join(' ')}`))"""
COLOURS = {**ALL_RULES, "runOnly": ["color-contrast"]}
"""In another theme nothing but the colours differs."""

THEMES = ["dark", "night", "contrast"] if engine().emulates_media else ["night", "contrast"]
"""Beside the day: what the phone shows in the dark, and what somebody may choose."""
WEAR = """theme => {
  if (['dark', 'day'].includes(theme)) localStorage.removeItem('shuntbook.theme');
  else localStorage.setItem('shuntbook.theme', theme);
  dispatchEvent(new StorageEvent('storage', { key: 'shuntbook.theme' }));
}"""


def themes_for(name: str) -> list[str]:
    """Return the themes that a screen is seen in: all in the longer run, else one of them by its name."""
    themes = ["day", *THEMES]
    return themes if is_longer() else [themes[zlib.crc32(name.encode()) % len(themes)]]


def put_on(page: Page, theme: str) -> None:
    """Show the page in a theme, as its picker does, without loading it again."""
    page.emulate_media(color_scheme="dark" if theme == "dark" else "light")
    page.evaluate(WEAR, theme)


def carries_axe(page: Page) -> None:
    """Have each load of the page bring axe with it: half a megabyte, sent once for many screens."""
    page.add_init_script(AXE.axe_script)


def axe_finds(page: Page, options: dict[str, Any] = ALL_RULES) -> list[str]:
    """Return what axe finds, a line a rule. It is put into a page once, and what it says of all nodes stays there."""
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(AXE.axe_script)
    found: list[str] = page.evaluate(FINDS, options)
    return found


def small_targets(page: Page) -> list[str]:
    answer: list[str] = page.evaluate(SMALL, [TARGET, TARGET_IN_CAR])
    return answer


def too_wide(page: Page) -> list[str]:
    """Return what sticks out to the right; empty where nothing can be scrolled sideways."""
    answer: list[str] = page.evaluate(TOO_WIDE)
    return answer


def promises(page: Page) -> list[str]:
    """Return the words that say that the car is safe or clear."""
    said = page.evaluate(SAID)
    for sentence in ALLOWED:
        said = said.replace(sentence, "")
    return re.findall(r"(?i).*\b(?:un)?(?:safe|safely|clear|cleared)\b.*", said)


def is_as_it_should_be(phone: Phone, name: str = "") -> None:
    """Hold what a phone shows against all that holds of every screen. name: decides which theme the short run sees."""
    page = phone.page
    page.emulate_media(color_scheme="light", reduced_motion="reduce")
    resize(page, SIZE)
    page.get_by_role("heading", level=1).first.wait_for()
    expect(page.locator("h1")).to_have_count(1)
    assert promises(page) == []
    assert fits(page) == []
    first, *others = themes_for(name or page.title())
    put_on(page, first)
    assert axe_finds(page) == [], first
    for theme in others:
        put_on(page, theme)
        assert axe_finds(page, COLOURS) == [], theme
    put_on(page, "day")
    for size in (NARROW, LAPTOP, DESK):
        resize(page, size)
        assert fits(page) == [], size
    if is_longer():
        holds_on_its_side_and_large(page)
    assert phone.complaints == []


def holds_on_its_side_and_large(page: Page) -> None:
    """Hold a screen on its side, as on the dash, and upright with letters twice as large (WCAG 1.4.4)."""
    resize(page, SIDEWAYS)
    assert fits(page) == [], "on its side"
    resize(page, SIZE)
    letters(page, 200)
    assert fits(page) == [], "letters twice as large"
    letters(page, 100)


def fits(page: Page) -> list[str]:
    """Return what is too wide, too small or cut off, once the page is at rest: rows that fit themselves take frames."""
    return at_rest(page, lambda: too_wide(page) + small_targets(page) + cut_off(page))


def at_rest(page: Page, look: Callable[[], list[str]]) -> list[str]:
    """Return what a look finds, once that is nothing or stays."""
    for _ in range(REST_TRIES):
        found = look()
        if not found:
            break
        page.wait_for_timeout(100)
    return found

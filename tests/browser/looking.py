"""What must hold of every screen whatever it shows: axe, touch targets, width, no promise about the car."""

import re

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

# In CSS pixels. 48 is more than WCAG 2.2 asks (24 by 2.5.8, 44 by 2.5.5): gloves, and a car that moves.
TARGET = 48
TARGET_IN_CAR = 56
"""On the screens that the crew uses with the belts on, and in what stands round every screen."""

# The car is never said to be safe or clear. These speak of the road, of the browser's store, of film and of a clutch.
ALLOWED = [
    "Keep clear of the road.",
    "are you clear of the road",
    "the browser may clear it when space runs out",
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
    .map((one) => [one, one.getBoundingClientRect(), one.closest('.incar, .head, .foot') ? inCar : target])
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
ALL_RULES: dict = {"resultTypes": ["violations"]}
COLOURS = {**ALL_RULES, "runOnly": ["color-contrast"]}
"""In the dark nothing but the colours differs."""


def axe_finds(page: Page, options: dict = ALL_RULES) -> list[str]:
    found = Axe().run(page, options=options).response["violations"]
    return [f"{one['id']}: {one['help']}: {[node['html'][:140] for node in one['nodes'][:3]]}" for one in found]


def small_targets(page: Page) -> list[str]:
    return page.evaluate(SMALL, [TARGET, TARGET_IN_CAR])


def too_wide(page: Page) -> list[str]:
    """Return what sticks out to the right; empty where nothing can be scrolled sideways."""
    return page.evaluate(TOO_WIDE)


def promises(page: Page) -> list[str]:
    """Return the words that say that the car is safe or clear."""
    said = page.evaluate(SAID)
    for sentence in ALLOWED:
        said = said.replace(sentence, "")
    return re.findall(r"(?i).*\b(?:un)?(?:safe|safely|clear|cleared)\b.*", said)

"""The app's own font: kept with the app, and never put in later under somebody's finger."""

from collections.abc import Callable

import pytest
from cutting import DRAWN
from phones import Phone
from playwright.sync_api import Page, Route
from server import Server

FONT = "**/*.woff2"
LOADED = """() => document.fonts.load('16px "Atkinson Hyperlegible Next"')
  .then((faces) => faces.map((face) => face.status))"""
KEPT = """async () => {
  const kept = [];
  for (const name of await caches.keys())
    for (const { url } of await (await caches.open(name)).keys()) if (/woff2/.test(url)) kept.push(url);
  return kept.length;
}"""
# Where the words and what is tapped stand: of another font most would be wider or narrower.
PLACES = """() => [...document.querySelectorAll('h1, h2, p, button, a, text')].map((one) => {
  const { x, y, width, height } = one.getBoundingClientRect();
  return [one.textContent.slice(0, 30), x, y, width, height].join(' ');
})"""
# CSS Fonts 4 gives an optional font 100 ms from when its words are first wanted; this is well beyond them.
TOO_LATE = "() => performance.now() - (performance.getEntriesByType('paint')[0]?.startTime ?? Infinity) > 1000"


@pytest.mark.longer
@pytest.mark.keeps_app
def test_the_letters_are_there_without_a_network(empty_server: Server, new_phone: Callable[[], Phone]) -> None:
    page = new_phone().join(empty_server, "p-toma")
    assert page.evaluate(KEPT) == 1
    empty_server.stop()
    page.reload()
    page.get_by_role("heading", level=1).first.wait_for()
    assert page.evaluate(LOADED) == ["loaded"]
    family = page.evaluate("getComputedStyle(document.body).fontFamily")
    assert family.startswith('"Atkinson Hyperlegible Next"')


@pytest.mark.longer
def test_letters_that_come_late_move_nothing(empty_server: Server, new_phone: Callable[[], Phone]) -> None:
    page = new_phone().join(empty_server, "p-toma")
    held: list[Route] = []
    page.route(FONT, lambda route: held.append(route))
    address = page.url
    page.goto("about:blank")
    # Not by a reload: Chromium scrolls that to what it showed before, whose letters had come and made other lines.
    with page.expect_request(FONT):
        page.goto(address, wait_until="commit")
    page.get_by_role("heading", level=1).first.wait_for()
    page.wait_for_function(TOO_LATE)
    before = at_rest(page)
    held[0].continue_()
    assert page.evaluate(LOADED) == ["loaded"]
    assert places(page) == before


def at_rest(page: Page) -> list[str]:
    """Return the places once nothing else moves them: on a busy machine the screen itself still comes in."""
    before: list[str] = []
    while (now := places(page)) != before:
        before = now
        page.wait_for_timeout(1_000)
    return now


def places(page: Page) -> list[str]:
    page.evaluate(DRAWN)
    found: list[str] = page.evaluate(PLACES)
    assert len(found) > 10
    return found

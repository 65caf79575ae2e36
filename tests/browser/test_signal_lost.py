"""The signal goes seconds after joining, with a few of the app's files kept: it says so, and goes on by itself."""

import math
import re
from collections.abc import Callable

import pytest
from phones import PATIENCE_MS, Phone, wait_until
from playwright.sync_api import Page, expect
from server import Server

from faults.proxy import NOTHING, REFUSED, Fault, Proxy, Request

KEPT_FIRST = 3
FOLLOWS = r"/assets/((walk_paper|SetupScreen|SeasonScreen|sheets|fr)-.*\.js|web-worker-|.*\.ttf)"
"""`follows` in pwa/src/kit/kept_app.ts."""


class Line:
    """Lets so many of the files through that the service worker keeps, and all else until it is lost."""

    def __init__(self) -> None:
        self.left: float = KEPT_FIRST
        self.is_lost = False
        self.form = ""

    def rule(self, request: Request) -> Fault:
        if "/assets/log-" in request.path:
            self.form = request.path
        # The page asks for its scripts as such; a worker's own fetch has no such aim (W3C, Fetch Metadata).
        if b"sec-fetch-dest: empty" in request.head.lower() and not request.path.startswith("/api/"):
            self.left -= 1
            return NOTHING if self.left >= 0 else REFUSED
        return REFUSED if self.is_lost else NOTHING


def joins(page: Page, link: str) -> None:
    page.goto(link)
    page.get_by_role("button", name="Car 41").click()
    page.get_by_role("heading", name="Log a hit").wait_for()


def has_the_form(page: Page, line: Line) -> None:
    """Wait until the page has, unasked, what comes after the first tap: the module, and all that it imports."""
    wait_until(page, lambda: line.form != "")
    page.evaluate("async (form) => void await import(form)", line.form)


def logs_a_hit(page: Page) -> None:
    # By key: what is told of keeping the app grows and shrinks above the car, and a finger may come down beside.
    page.get_by_role("button", name="Front left").first.press("Enter")
    page.get_by_label("Wheel rim", exact=True).check()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_role("heading", name="Kept on this phone").wait_for()


@pytest.mark.keeps_app
def test_the_signal_goes_seconds_after_joining_and_comes_back(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    line = Line()
    proxy = Proxy(empty_server.port, lambda ids: None)
    proxy.rule = line.rule
    phone = new_phone()
    page = phone.page
    try:
        joins(page, empty_server.link("p-toma").replace(empty_server.url, proxy.url))
        stopped = page.get_by_text(re.compile(r"^\d+ of \d+ files kept, retrying$"))
        stopped.wait_for()
        kept, of = map(int, re.findall(r"\d+", stopped.inner_text()))
        assert 0 < kept < of, "some came from the browser's own cache, most did not"
        has_the_form(page, line)
        line.is_lost = True
        logs_a_hit(page)
        # The code of voice notes can't be had: its place says so, and nothing on the card is called broken.
        page.get_by_text("Voice notes: not on this phone yet.").wait_for()
        expect(page.get_by_text("could not be loaded")).to_have_count(0)

        line.left, line.is_lost = math.inf, False
        page.evaluate("dispatchEvent(new Event('online'))")
        expect(page.get_by_text("not on this phone yet")).to_have_count(0, timeout=PATIENCE_MS)
        page.get_by_text("Ready to work without signal ✓ Papers and workbooks work without signal, too").wait_for()
        line.left, line.is_lost = 0, True
        page.reload()
        page.get_by_role("button", name="Front left").first.wait_for()
        expect(page.get_by_text("Ready to work without signal")).to_have_count(0)
        phone.show("me")
        page.get_by_text("Ready to work without signal ✓").wait_for()
        page.get_by_text("Papers and workbooks work without signal, too").wait_for()
    finally:
        proxy.close()
    # Chromium's own word where it looks for a newer worker and finds no server: away on purpose, as in phones.py.
    phone.complaints[:] = [one for one in phone.complaints if "error occurred when fetching the script" not in one]


def test_an_older_browser_is_told_what_is_needed_and_the_content_policy_lets_it(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    phone.context.add_init_script("delete Array.prototype.toSorted")
    phone.page.goto(empty_server.url)
    phone.page.get_by_role("heading", name="Shuntbook needs a newer browser").wait_for()
    expect(phone.page.get_by_text("Missing here: Array.prototype.toSorted")).to_be_visible()
    expect(phone.page.locator("[lang=fr]").get_by_text("Firefox 121")).to_be_visible()
    assert phone.complaints == []


class Ration:
    """Lets everything through but files that follow in the background, of which it refuses all until told otherwise."""

    def __init__(self) -> None:
        self.refuses = True

    def rule(self, request: Request) -> Fault:
        follows = re.search(FOLLOWS, request.path)
        return REFUSED if self.refuses and follows else NOTHING


@pytest.mark.longer
@pytest.mark.keeps_app
def test_the_app_is_ready_before_what_makes_papers_is_there_and_says_so_until_it_follows(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    ration = Ration()
    proxy = Proxy(empty_server.port, lambda ids: None)
    proxy.rule = ration.rule
    phone = new_phone()
    try:
        joins(phone.page, empty_server.link("p-toma").replace(empty_server.url, proxy.url))
        phone.show("me")
        phone.page.get_by_text("Ready to work without signal ✓").wait_for()
        phone.page.get_by_text(re.compile(r"^Papers and workbooks: 0 of \d files kept, retrying$")).wait_for()
        ration.refuses = False
        phone.page.evaluate("dispatchEvent(new Event('online'))")
        phone.page.get_by_text("Papers and workbooks work without signal, too").wait_for()
    finally:
        proxy.close()

"""A page is about as long at one width as at the next: no row drops a part, and nothing scrolls sideways."""

from collections.abc import Callable
from itertools import pairwise

import pytest
from phones import SIZE, Phone, wait_until
from playwright.sync_api import Page, Request
from screens import CREW, INSPECTOR, MANAGER, MECHANIC, Screen
from server import Server

WIDTHS = (320, 336, 344, 360, 375, 378, 380, 390, 412, 430)
NEIGHBOURS_PX = 20
MOST_LONGER = 0.15

# Two frames: after the second one the page stands as the new width has it.
LENGTH = """() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => {
  const main = document.querySelector('main');
  done([main.scrollHeight, document.documentElement.scrollWidth - innerWidth]);
})))"""
# The screen is there, and what it loads by itself: its length stays the same over some frames.
SETTLED = """() => new Promise((done) => {
  let same = 0, last = -1;
  const look = () => {
    const now = document.querySelector('main').scrollHeight;
    same = now === last ? same + 1 : 0;
    last = now;
    if (same > 30) done(true); else requestAnimationFrame(look);
  };
  look();
})"""


def lengths(page: Page) -> dict[int, tuple[int, int]]:
    """Return the page's length, and by how much it scrolls sideways, by width."""
    page.evaluate(SETTLED)
    found = {}
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": SIZE["height"]})
        found[width] = tuple(page.evaluate(LENGTH))
    page.set_viewport_size(SIZE)
    return found


def jumps(found: dict[int, tuple[int, int]]) -> list[str]:
    """Return what is wrong: a jump between neighbours either way, a page that scrolls sideways."""
    wrong = [f"{width} px scrolls sideways by {over}" for width, (_, over) in found.items() if over > 0]
    for (narrow, (a, _)), (wide, (b, _)) in pairwise(found.items()):
        if wide - narrow <= NEIGHBOURS_PX and max(a, b) > (1 + MOST_LONGER) * min(a, b):
            wrong.append(f"{narrow} px is {a} long, {wide} px {b}")
    return wrong


def test_a_jump_is_found() -> None:
    assert jumps({360: (1000, 0), 375: (1160, 0), 378: (1160, 3), 412: (800, 0)}) == [
        "378 px scrolls sideways by 3",
        "360 px is 1000 long, 375 px 1160",
    ]


@pytest.mark.longer
def test_no_page_jumps_in_length_from_one_width_to_the_next(server: Server, new_phone: Callable[[], Phone]) -> None:
    screens = CREW + MECHANIC + INSPECTOR + MANAGER
    phones: dict[str, Patient] = {}
    found: dict[str, list[str]] = {}
    for screen in screens:
        if screen.who not in phones:
            phones[screen.who] = Patient(new_phone(), server, screen.who)
        found[screen.name] = jumps(lengths(phones[screen.who].opened(screen)))
    assert {name: wrong for name, wrong in found.items() if wrong} == {}


class Patient:
    """A phone that joined, and waits for what a screen asks the server: on a busy machine that may be long."""

    def __init__(self, phone: Phone, server: Server, person: str) -> None:
        self.phone, self.server = phone, server
        self.open: set[Request] = set()
        phone.page.on("request", self._note)
        phone.page.on("requestfinished", self._forget)
        phone.page.on("requestfailed", self._forget)
        phone.join(server, person)

    def _note(self, request: Request) -> None:
        if request.is_navigation_request():
            self.open.clear()  # what a page asked when it was left never ends
        if "/api/" in request.url and "/api/v1/live" not in request.url:
            self.open.add(request)

    def _forget(self, request: Request) -> None:
        self.open.discard(request)

    def opened(self, screen: Screen) -> Page:
        """Open a screen, do what leads to its state, and wait until nothing is asked any more."""
        self.phone.fresh(self.server, screen.address, screen.car)
        if screen.act:
            screen.act(self.phone.page)
        wait_until(self.phone.page, lambda: not self.open)
        return self.phone.page

"""A page is about as long at one width as at the next: no row drops a part, and nothing scrolls sideways."""

from collections.abc import Callable
from itertools import pairwise

from phones import SIZE, Phone
from playwright.sync_api import Page
from screens import CREW, INSPECTOR, MANAGER, MECHANIC, Screen
from server import Server

from longer import is_longer

WIDTHS = (320, 336, 344, 360, 375, 378, 380, 390, 412, 430)
NEIGHBOURS_PX = 20
MOST_LONGER = 0.15
SOME = ("log, form", "readings", "walk, figures", "queue", "costs")
"""Of each kind of screen one, and those that grew by a third at 375 px."""

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


def test_no_page_jumps_in_length_from_one_width_to_the_next(server: Server, new_phone: Callable[[], Phone]) -> None:
    every = CREW + MECHANIC + INSPECTOR + MANAGER
    screens = every if is_longer() else [one for one in every if one.name in SOME]
    assert len(screens) >= len(SOME)
    phones: dict[str, Phone] = {}
    assert {
        one.name: wrong for one in screens if (wrong := jumps(lengths(opened(one, server, new_phone, phones))))
    } == {}


def opened(screen: Screen, server: Server, new_phone: Callable[[], Phone], phones: dict[str, Phone]) -> Page:
    if screen.who not in phones:
        phones[screen.who] = new_phone()
        phones[screen.who].join(server, screen.who)
    phone = phones[screen.who]
    phone.fresh(server, screen.address, screen.car)
    if screen.act:
        screen.act(phone.page)
    return phone.page

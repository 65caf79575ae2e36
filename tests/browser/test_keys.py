"""On a laptop the lists go by keyboard: arrows, Enter, a search, and the list of keys."""

import time
from collections.abc import Callable

from phones import Phone
from playwright.sync_api import Page, ViewportSize, expect
from server import Server

LAPTOP: ViewportSize = {"width": 1280, "height": 800}
PATIENCE_S = 60.0
"""Guards against hanging."""


def press_until(page: Page, key: str, heard: Callable[[], bool]) -> None:
    """Press a key until it is heard: what listens comes after the list, and nothing on the screen says that it has."""
    until = time.monotonic() + PATIENCE_S
    while not heard():
        assert time.monotonic() < until, f"{key} is not heard"
        page.keyboard.press(key)
        page.wait_for_timeout(500)


def test_the_queue_goes_by_keyboard_alone(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(server, "p-bodo")
    page.set_viewport_size(LAPTOP)
    phone.show("queue")
    rows = page.locator("main a.ui-row")
    rows.first.wait_for()
    everything = rows.count()

    keys = page.get_by_role("dialog", name="Keys")
    press_until(page, "?", keys.is_visible)
    page.keyboard.press("ArrowDown")
    expect(page.get_by_role("dialog", name="Keys"), "what lies over the list has the keys").to_be_visible()
    page.keyboard.press("Escape")
    page.get_by_role("dialog").wait_for(state="detached")

    page.keyboard.press("ArrowDown")
    expect(rows.nth(0)).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(rows.nth(1)).to_be_focused()
    page.keyboard.press("ArrowUp")
    expect(rows.nth(0)).to_be_focused()
    page.keyboard.press("Enter")
    page.wait_for_url("**/#/job/**")

    phone.show("queue")
    field = page.get_by_role("searchbox", name="Search the list")
    press_until(page, "/", lambda: field.evaluate("field => field === document.activeElement"))
    page.keyboard.type("mud flap")
    expect(rows.filter(has_text="Mud flap").first).to_be_visible()
    expect(rows).not_to_have_count(everything)
    field.fill("zzz")
    page.get_by_text("Nothing in the list has these letters.").wait_for()
    expect(page.get_by_text("HOLD").first, "what is searched for hides no hold").to_be_visible()

"""The first screenful answers what somebody came for: counted on the sample event, as docs/screens.md promises it."""

from collections.abc import Callable

import pytest
from looking import LAPTOP
from phones import SIZE, Phone, wait_until
from playwright.sync_api import Page, expect
from server import Server

# Whole in the window, and under no bar that stays.
IN_SIGHT = """selector => {
  const top = document.querySelector('.ui-frame-top').getBoundingClientRect().bottom;
  const foot = document.querySelector('.ui-frame-foot').getBoundingClientRect();
  const bottom = foot.height > 0 ? foot.top : innerHeight;
  return [...document.querySelectorAll(selector)]
    .map((one) => one.getBoundingClientRect())
    .filter((box) => box.height > 0 && box.top >= top - 1 && box.bottom <= bottom + 1).length;
}"""

# Layout Instability, the W3C's draft: what moved by itself, each with the score that CLS adds up and what it was.
SHIFTS = """
  window.shifts = [];
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) if (!one.hadRecentInput) window.shifts.push([one.value.toFixed(3),
      ...one.sources.map(({ node }) => (node?.outerHTML ?? node?.textContent ?? '').slice(0, 80))].join(' '));
  }).observe({ type: 'layout-shift', buffered: true });
"""
STILL_MS = 2_000
"""What comes late is there by then; a shift that comes later still is missed, never made up."""


def in_sight(page: Page, selector: str, least: int) -> None:
    """Wait until so many things stand whole between the bars, without scrolling."""
    page.locator(selector).first.wait_for()
    page.evaluate("scrollTo(0, 0)")
    wait_until(page, lambda: page.evaluate(IN_SIGHT, selector) >= least)


def seen(phone: Phone) -> Page:
    """Go to the queue and say that what is there was seen, as on every visit but the first."""
    page = phone.show("queue")
    page.get_by_role("button", name="Seen", exact=True).click()
    page.get_by_role("button", name="Seen", exact=True).wait_for(state="detached")
    return page


def test_six_jobs_under_a_hold(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    phone.join(server, "p-bodo")
    page = seen(phone)
    page.locator(".ui-hold.is-hold").wait_for()
    assert page.viewport_size == SIZE
    in_sight(page, ".queue .ui-row", 6)


@pytest.mark.longer
def test_six_reports(server: Server, new_phone: Callable[[], Phone]) -> None:
    for who in ("p-toma", "p-bodo"):
        phone = new_phone()
        phone.join(server, who)
        page = phone.show("reports")
        in_sight(page, ".reports .ui-row", 6)


@pytest.mark.longer
def test_the_total_of_the_costs(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    phone.join(server, "p-vera")
    page = phone.show("costs")
    in_sight(page, ".costs-total", 1)
    page.set_viewport_size(LAPTOP)
    in_sight(page, ".costs-total", 1)


@pytest.mark.longer
def test_a_list_and_what_is_chosen_in_it_stand_side_by_side_on_a_laptop(
    server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(server, "p-bodo")
    page.set_viewport_size(LAPTOP)
    phone.show("queue")
    page.get_by_role("navigation").get_by_role("link", name="Reports").wait_for()
    row = page.get_by_role("link", name="Open job: Front right corner: Brake hose")
    row.click()
    title = page.get_by_role("heading", level=1, name="Brake hose")
    title.wait_for()
    expect(row).to_have_attribute("aria-current", "true")
    left, right = row.bounding_box(), title.bounding_box()
    assert left and right
    assert left["x"] + left["width"] <= right["x"]
    dock = page.locator(".ui-dock").bounding_box()
    assert dock and dock["y"] + dock["height"] == LAPTOP["height"], "nothing of the page shows below the action"
    # At its middle, as a pointer clicks: scrolled to, it lies behind nothing.
    page.get_by_role("button", name="Finish …").click(force=True)
    page.get_by_role("heading", name="Finish the job").wait_for()
    page.set_viewport_size(SIZE)
    row.wait_for(state="detached")


@pytest.mark.longer
def test_on_a_laptop_the_side_bar_leads_and_messages_stand_over_the_list(
    server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(server, "p-bodo")
    page.set_viewport_size(LAPTOP)
    back = page.get_by_role("button", name="Back", exact=True)
    phone.show("documents")
    expect(back).to_have_count(0)
    phone.show("briefing")
    expect(back).to_have_count(1)
    page.evaluate("location.hash = '#/job/right-side/mirror'")
    page.get_by_role("heading", level=1, name="Mirror").wait_for()
    page.get_by_role("button", name="Start", exact=True).click()
    message, deed = page.locator(".ui-message"), page.get_by_role("button", name="Stop, not finished")
    message.get_by_text("Started.").wait_for()
    left, right = message.bounding_box(), deed.bounding_box()
    assert left and right
    assert left["x"] + left["width"] <= right["x"]
    message.get_by_role("button", name="Undo").click()
    page.get_by_role("button", name="Start", exact=True).wait_for()
    page.set_viewport_size(SIZE)
    phone.show("documents")
    expect(back).to_have_count(1)


@pytest.mark.longer
def test_the_way_back_leads_where_one_came_from(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(server, "p-toma")
    phone.show("reports")
    page.locator(".reports .ui-row").first.click()
    page.get_by_role("article").wait_for()
    address = page.evaluate("location.hash")
    page.get_by_role("button", name="Back", exact=True).click()
    page.locator(".reports .ui-row").first.wait_for()
    page.wait_for_url("**/#/reports")
    # Opened by its address, it has nothing to go back to but the list.
    page.goto("about:blank")
    page.goto(f"{server.url}/{address}")
    page.get_by_role("article").wait_for()
    page.get_by_role("button", name="Back", exact=True).click()
    page.locator(".reports .ui-row").first.wait_for()


@pytest.mark.longer
def test_a_message_is_gone_with_the_screen_and_the_reasons_stand_by_place(
    server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(server, "p-bodo")
    phone.show("job/right-side/mirror")
    page.get_by_role("button", name="Start", exact=True).click()
    said = page.get_by_text("Started.", exact=True)
    said.wait_for()
    tabs, bar = page.locator(".ui-tabs").bounding_box(), page.locator(".ui-message").bounding_box()
    assert tabs and bar
    assert bar["y"] + bar["height"] <= tabs["y"]
    dock = page.locator(".ui-dock").bounding_box()
    assert dock
    assert bar["y"] + bar["height"] <= dock["y"], "what is to be tapped next stays free"
    page.mouse.move(5, 300)  # it stays while a pointer is on it
    said.wait_for(state="detached")  # by itself
    page.get_by_role("button", name="Why: what the log holds").click()
    dialog = page.get_by_role("dialog", name="HOLD")
    dialog.get_by_role("heading", name="Front right corner").wait_for()
    dialog.get_by_role("link", name="Brake hose").first.click()
    dialog.wait_for(state="detached")
    page.get_by_role("heading", level=1, name="Brake hose").wait_for()


@pytest.mark.longer
@pytest.mark.only_in("chromium", "no other engine tells of what moved")
def test_nothing_moves_by_itself_once_it_is_there(server: Server, new_phone: Callable[[], Phone]) -> None:
    crew = new_phone()
    crew.context.add_init_script(SHIFTS)
    crew.join(server, "p-toma")
    moved = {screen: shifts(crew, server, screen) for screen in ("log", "reports", "service", "me")}
    mechanic = new_phone()
    mechanic.context.add_init_script(SHIFTS)
    mechanic.join(server, "p-bodo")
    moved |= {screen: shifts(mechanic, server, screen) for screen in ("queue", "job/front-right/tyre")}
    said = [f"{screen}: {one}" for screen, found in moved.items() for one in found]
    assert not said, "\n".join(said)


def shifts(phone: Phone, server: Server, screen: str) -> list[str]:
    """Open the app at a screen, and return what moved there with nobody touching it."""
    page = phone.fresh(server, screen, "41")
    page.wait_for_timeout(STILL_MS)
    found: list[str] = page.evaluate("window.shifts")
    return found

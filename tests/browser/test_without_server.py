"""At a remote service there are two phones and no laptop: the queue is worked out on the phone, and is the server's."""

import re
from collections.abc import Callable

import pytest
from engines import emulates
from looking import axe_finds, promises, small_targets, too_wide
from phones import SLOW_MS, PocketPhone, wait_until
from playwright.sync_api import Locator, Page, expect
from server import Server

WORKED_OUT = "Calculated on this phone from what it holds"


def log_a_hit(page: Page, zone: str, component: str) -> None:
    page.get_by_role("button", name=zone).first.click()
    page.get_by_label(component, exact=True).check()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()


def check_of(page: Page) -> str:
    """Return the hash of the queue that is shown."""
    return page.locator("[data-hash]").get_attribute("data-hash") or ""


def check_packing_list(page: Page) -> None:
    page.get_by_text("Pack for a remote service").click()
    packing = page.locator(".packing")
    expect(packing).to_contain_text("2 × Gravel rim")
    expect(packing).to_contain_text("car on stands")
    assert [*axe_finds(page), *small_targets(page), *too_wide(page), *promises(page)] == []
    if emulates(page, media="print"):
        is_printed_alone(page, packing)


def is_printed_alone(page: Page, packing: Locator) -> None:
    expect(packing).to_be_visible()
    for other in (page.locator(".ui-tabs"), page.locator(".queue .ui-row").first, packing.get_by_role("button")):
        expect(other).to_be_hidden()
    page.emulate_media(media="screen")
    expect(page.locator(".ui-tabs")).to_be_visible()


@pytest.mark.longer
def test_two_hits_logged_without_a_server_are_a_queue_with_estimates_hold_and_totals(
    empty_server: Server, phone: Callable[[str], PocketPhone]
) -> None:
    bodo = phone("bodo")
    page = bodo.join(empty_server, "p-bodo")
    bodo.show("queue")
    page.get_by_text("Server heard").first.wait_for()
    empty_server.stop()
    bodo.show("log")
    log_a_hit(page, "Front left", "Wheel rim")
    page.get_by_role("button", name="Log another hit").click()
    log_a_hit(page, "Front right", "Wheel rim")

    bodo.show("queue")
    page.get_by_text(WORKED_OUT, exact=True).wait_for()
    card = page.get_by_role("link", name="Open job: Front left corner: Wheel rim")
    expect(card).to_contain_text(re.compile(r"Wheel rim ?bent.*[0-9]+ min ?swap"))
    expect(page.locator(".ui-hold")).to_contain_text("HOLD")
    page.get_by_role("button", name="Why: what the log holds").click()
    expect(page.get_by_role("dialog")).to_contain_text("Front right corner")
    expect(page.get_by_role("dialog").get_by_role("link", name="Brake hose").first).to_be_visible()
    page.get_by_role("dialog").get_by_role("button", name="Close").click()
    expect(page.locator(".queue-head")).to_contain_text(re.compile(r"[0-9]+ min of work"))
    check_packing_list(page)
    own = check_of(page)
    assert re.fullmatch(r"[0-9a-f]{64}", own)

    empty_server.start()
    wait_until(page, lambda: len(empty_server.entries(kind="report.filed")) == 2)
    page.get_by_text(WORKED_OUT, exact=True).wait_for(state="detached")
    of_server = empty_server.queue("41")
    assert own == of_server["hash"] == check_of(page)
    assert of_server["release"] == "hold"


@pytest.mark.longer
def test_nothing_open_is_not_said_on_the_phones_own_word(
    empty_server: Server, phone: Callable[[str], PocketPhone]
) -> None:
    bodo = phone("bodo")
    page = bodo.join(empty_server, "p-bodo")
    bodo.show("queue")
    bar = page.locator(".ui-hold")
    expect(bar).to_contain_text("Nothing open in the log")
    empty_server.stop()
    bodo.show("log")
    log_a_hit(page, "Rear end", "Number plate")
    bodo.show("queue")
    page.get_by_text(WORKED_OUT, exact=True).wait_for()
    expect(page.locator(".queue .ui-row")).to_have_count(1)
    expect(bar).to_contain_text("Not known yet")
    page.get_by_role("button", name="Why: what the log holds").click()
    why = page.get_by_text("Calculated on this phone from what it holds: the server may know of more.")
    expect(why).to_be_visible()
    page.get_by_role("dialog").get_by_role("button", name="Close").click()
    empty_server.start()
    expect(bar).to_contain_text("Nothing open in the log", timeout=SLOW_MS)

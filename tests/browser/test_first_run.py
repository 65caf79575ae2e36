"""The first day with the app on a phone: three cards once, the home screen offered once and at the right moment."""

import json
import urllib.request
from collections.abc import Callable

import pytest
from looking import axe_finds, promises, small_targets, too_wide
from phones import Phone
from playwright.sync_api import Page, expect
from server import Server

# Chromium's event as a page sees it; a headless one does not fire it by itself.
OFFER = """() => dispatchEvent(Object.assign(new Event('beforeinstallprompt', { cancelable: true }), {
  prompt: async () => { window.asked = (window.asked ?? 0) + 1; } }))"""
HOME = "Put Shuntbook on the home screen"


def looks_right(phone: Phone) -> None:
    page = phone.page
    assert promises(page) == axe_finds(page) == small_targets(page) == too_wide(page) == phone.complaints == []


def saves_a_hit(page: Page) -> None:
    page.get_by_role("button", name="Front left").first.click()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_role("heading", name="Kept on this phone").wait_for()


@pytest.mark.longer
def test_three_cards_stand_on_the_log_once_and_again_under_about(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(empty_server, "p-rens")
    cards = page.get_by_role("region", name="How it works")
    cards.wait_for()
    looks_right(phone)
    expect(page.get_by_role("button", name="Front left").first).to_be_enabled()  # they stand over nothing
    for title in ("What the marks mean", "What it is not"):
        page.get_by_role("button", name="Next").click()
        cards.get_by_role("heading", name=title).wait_for()
    page.reload()  # not read to the end: they come again
    cards.get_by_role("button", name="Skip").click()
    expect(page.get_by_role("heading", name="Log a hit")).to_be_focused()
    page.reload()
    page.get_by_role("heading", name="Log a hit").wait_for()
    expect(cards).to_have_count(0)
    phone.show("me").get_by_role("link", name="About").click()
    page.get_by_role("button", name="See the three cards").click()
    cards.wait_for()
    looks_right(phone)


@pytest.mark.longer
def test_the_home_screen_is_offered_after_the_first_report_and_then_only_under_me(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(empty_server, "p-toma")
    page.evaluate(OFFER)
    offer = page.get_by_role("heading", name=HOME)
    expect(offer).to_have_count(0)
    saves_a_hit(page)
    offer.wait_for()
    expect(page.get_by_role("region", name="How it works")).to_have_count(0)  # whoever taps a place knows how
    looks_right(phone)
    page.get_by_role("button", name="Log another hit").click()
    saves_a_hit(page)
    expect(offer).to_have_count(0)

    phone.show("me")
    page.get_by_role("button", name="Put it on the home screen").click()
    expect(offer).to_have_count(0)
    assert page.evaluate("window.asked") == 1
    page.evaluate(OFFER)
    offer.wait_for()
    page.evaluate("dispatchEvent(new Event('appinstalled'))")
    expect(offer).to_have_count(0)
    for name, title in shortcuts(empty_server).items():
        phone.page.goto(f"{empty_server.url}{name}")
        page.wait_for_function("title => document.title === title", arg=f"{title} · Shuntbook")


def shortcuts(server: Server) -> dict[str, str]:
    """Return the title that each shortcut of the manifest leads to, by its address (W3C, Web Application Manifest)."""
    with urllib.request.urlopen(f"{server.url}/manifest.webmanifest", timeout=30) as answer:
        manifest = json.load(answer)
    said = {one["name"]: one["url"] for one in manifest["shortcuts"]}
    titles = {"Log a hit": "Log", "My reports": "Reports", "Queue": "Queue", "Service": "Service"}
    assert said.keys() == titles.keys()
    return {said[name]: title for name, title in titles.items()}


@pytest.mark.longer
def test_where_the_browser_offers_nothing_words_say_how_and_a_full_phone_is_told(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    """As Safari on a phone has it: `navigator.standalone` false, and no beforeinstallprompt (vendor's documents, M)."""
    phone = new_phone()
    phone.context.add_init_script(
        """Object.defineProperty(navigator, 'standalone', { value: false });
        if (navigator.storage) navigator.storage.estimate = async () => ({ usage: 4_200_000, quota: 16_200_000 });"""
    )
    page = phone.join(empty_server, "p-toma")
    phone.show("me")
    page.get_by_role("heading", name=HOME).wait_for()
    page.get_by_text("Choose Add to Home Screen.").wait_for()
    page.get_by_text("Room: only 12.0 MB left").wait_for()
    looks_right(phone)


def test_an_address_that_changes_while_the_app_opens_is_where_it_goes(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(empty_server, "p-toma")
    phone.show("reports")
    # The app's script has run by then, and still waits for the store.
    page.add_init_script("addEventListener('DOMContentLoaded', () => { location.hash = '#/me'; })")
    page.reload()
    page.get_by_role("heading", name="Me and this phone", level=1).wait_for()

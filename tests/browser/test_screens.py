"""Every screen of every role in the real app: axe in a theme or all, touch targets, width, words, policy."""

from collections.abc import Callable
from pathlib import Path

import pytest
from looking import SIDEWAYS, carries_axe, holds_on_its_side_and_large, is_as_it_should_be
from painted import vanished
from phones import SIZE, Phone, stored, wait_until
from playwright.sync_api import Page, expect
from screens import CREW, EMPTY, INSPECTOR, MANAGER, MECHANIC, Screen, form, saved, unfold
from server import Server, running, with_everything_reported
from states import ANSWERS, CASES, CROWDED, FORCED, IN_THE_CAR

from longer import some

NAMED = {screen.name: screen for screen in CREW + MECHANIC}


def by_person(screens: list[Screen], every: int) -> dict[str, list[Screen]]:
    """Return each person's share of the screens: everybody joins once."""
    chosen = some(screens, every)
    return {who: [screen for screen in chosen if screen.who == who] for who in dict.fromkeys(one.who for one in chosen)}


LOGGED = by_person(CREW + MECHANIC + INSPECTOR + MANAGER, 36)
NOTHING_LOGGED = by_person(EMPTY, 16)


def opened(phone: Phone, server: Server, screen: Screen) -> Page:
    """Open the app at a screen and do what leads to its state."""
    phone.fresh(server, screen.address, screen.car)
    if screen.act:
        screen.act(phone.page)
    return phone.page


def go_through(server: Server, phone: Phone, screens: list[Screen], subtests: pytest.Subtests) -> None:
    carries_axe(phone.page)
    for screen in screens:
        with subtests.test(screen.name):
            opened(phone, server, screen)
            is_as_it_should_be(phone, screen.name)


@pytest.mark.parametrize("who", LOGGED)
def test_screens(who: str, server: Server, new_phone: Callable[[], Phone], subtests: pytest.Subtests) -> None:
    phone = new_phone()
    phone.join(server, who)
    go_through(server, phone, LOGGED[who], subtests)


@pytest.mark.parametrize("who", NOTHING_LOGGED)
def test_screens_without_entries(
    who: str, empty_server: Server, new_phone: Callable[[], Phone], subtests: pytest.Subtests
) -> None:
    phone = new_phone()
    phone.join(empty_server, who)
    go_through(empty_server, phone, NOTHING_LOGGED[who], subtests)


@pytest.mark.longer
def test_on_its_side_and_with_letters_twice_as_large(server: Server, new_phone: Callable[[], Phone]) -> None:
    """What the crew uses in the car, and the board; the longer run does it with every screen."""
    toma, bodo = new_phone(), new_phone()
    toma.join(server, "p-toma")
    bodo.join(server, "p-bodo")
    for name in IN_THE_CAR:
        screen = NAMED[name]
        holds_on_its_side_and_large(opened(toma if screen.who == "p-toma" else bodo, server, screen))
    page = opened(toma, server, NAMED["log, form"])
    page.set_viewport_size(SIDEWAYS)
    drawing, save = page.locator(".drawing").bounding_box(), page.get_by_role("button", name="Save").bounding_box()
    assert drawing and save
    assert (drawing["y"], drawing["height"]) == (0, SIDEWAYS["height"]), "the whole car is in sight"
    assert drawing["x"] + drawing["width"] <= save["x"], "beside the form"
    assert save["height"] >= 72
    assert save["y"] + save["height"] <= SIDEWAYS["height"]
    page.set_viewport_size(SIZE)
    save_is_as_large_as_a_finger_needs(page)


def save_is_as_large_as_a_finger_needs(page: Page) -> None:
    """20 mm, 126 px: there finger studies level out (Colle & Hiszem, Ergonomics 47, 2004)."""
    save = page.get_by_role("button", name="Save").bounding_box()
    assert save
    assert min(save["width"], save["height"]) >= 126
    page.evaluate("scrollTo(0, 0)")
    assert save["y"] + save["height"] <= SIZE["height"], "in reach without scrolling"


@pytest.mark.longer
@pytest.mark.only_in("chromium", "Playwright can't show a page as printed, in the dark or in forced colours in Firefox")
def test_letters_stay_where_the_system_forces_its_colours(server: Server, new_phone: Callable[[], Phone]) -> None:
    """As in Windows' high contrast, where Chromium lays a ground of its own behind each line of text."""
    phones = {"p-toma": new_phone(), "p-bodo": new_phone()}
    for who, phone in phones.items():
        phone.join(server, who)
        phone.page.emulate_media(forced_colors="active", reduced_motion="reduce")
    for name, places in FORCED.items():
        page = opened(phones[NAMED[name].who], server, NAMED[name])
        assert [place for place in places if vanished(page.locator(place).first)] == []


def test_before_anybody_has_joined(empty_server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.page
    page.goto(empty_server.url)
    page.get_by_role("heading", name="Join your team").wait_for()
    is_as_it_should_be(phone)
    page.get_by_label("Code").fill("no-such-code")
    page.get_by_role("button", name="Join").click()
    page.locator(".problem p").wait_for()
    is_as_it_should_be(phone)
    page.goto(empty_server.link("p-jule"))
    page.get_by_role("heading", name="Which car").wait_for()
    is_as_it_should_be(phone)


def test_a_link_that_is_followed_out_of_reach_shows_nobodys_screen(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(empty_server, "p-toma")
    link = empty_server.link("p-bodo")
    page.context.route("**/api/v1/**", lambda route: route.abort())
    page.goto(link)
    page.get_by_text("The server did not answer, and joining needs it.").wait_for()
    expect(page.get_by_role("navigation"), "what is tapped now would be Toma's").to_have_count(0)
    is_as_it_should_be(phone)
    page.get_by_role("button", name="Try again").click()
    page.get_by_role("button", name="Try again").wait_for()
    page.get_by_role("link", name="Go on as Toma").click()
    expect(page.get_by_role("navigation").first).to_be_visible()


@pytest.mark.longer
@pytest.mark.keeps_app
def test_out_of_reach_with_something_unsent(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(server, "p-kasp")
    # Where entries of the car are missing, the phone shows the server's answer and not a queue of its own.
    wait_until(page, lambda: len(stored(page, "entries")) == len(server.entries()))
    page.get_by_text("HOLD").first.wait_for()
    phone.context.set_offline(True)
    page.get_by_role("link", name="Log").click()
    form(page)
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Waiting to be sent").first.wait_for()
    is_as_it_should_be(phone)
    for address, said in [
        ("queue", "not reachable now"),
        ("job/front-right/tyre", "HOLD"),
        ("reports", "Waiting to be sent"),
        ("service", "HOLD"),
        ("me", "did not reach the server"),
    ]:
        phone.fresh(server, address, "41")
        page.get_by_text(said).first.wait_for(state="attached")  # what is folded is there before it is unfolded
        unfold(page)
        page.get_by_text(said).first.wait_for()
        is_as_it_should_be(phone)
    phone.context.set_offline(False)


@pytest.mark.longer
def test_shut_out_with_a_refused_entry(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(server, "p-anni")
    phone.show("me")
    device = page.get_by_text("This phone's number").inner_text().split(": ")[1]
    server.shut_out(device)
    phone.show("log")
    saved(page)
    phone.show("me")
    page.get_by_text("The server does not know you on this phone any more").wait_for()
    is_as_it_should_be(phone)
    page.goto(server.link("p-anni"))
    page.get_by_text("Attention: 1").wait_for()
    for address, said in [("reports", "This phone was blocked"), ("me", "1 need attention"), ("queue", "HOLD")]:
        phone.fresh(server, address, "41")
        page.get_by_text(said).first.wait_for()
        is_as_it_should_be(phone)
    manager = new_phone()
    manager.join(server, "p-vera")
    manager.show("aside")
    manager.page.get_by_text("1 needs your review").wait_for()
    unfold(manager.page)
    is_as_it_should_be(manager)


@pytest.mark.longer
def test_several_people_on_one_phone(server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(server, "p-odil")
    phone.show("me")
    page.get_by_role("button", name="Your PIN on this phone").click()
    page.get_by_label("New PIN").fill("246824")
    page.get_by_label("The same once more").fill("246824")
    page.get_by_role("button", name="Keep this PIN").click()
    page.get_by_text("The PIN is kept on this phone.").wait_for()
    page.goto(server.link("p-jule"))
    page.get_by_role("button", name="Jule uses this phone now").click()
    is_as_it_should_be(phone)
    page.get_by_role("button", name="Odil").click()
    page.get_by_label("PIN of Odil").fill("1357")
    page.get_by_role("button", name="Change to Odil").click()
    page.locator(".problem p").first.wait_for()
    is_as_it_should_be(phone)


def test_screens_without_their_answer(
    server: Server, new_phone: Callable[[], Phone], subtests: pytest.Subtests
) -> None:
    """A manager has just joined: the log is on the phone, and no answer that a screen asked for."""
    phone = new_phone()
    phone.join(server, "p-vera")
    carries_axe(phone.page)
    for screen, does in some(CASES, 40):
        phone.take_car(screen.car)
        phone.context.route(ANSWERS, does)
        with subtests.test(f"{screen.name}, {does.__name__}"):
            opened(phone, server, screen)
            is_as_it_should_be(phone, f"{screen.name} {does.__name__}")
        phone.context.unroute_all(behavior="ignoreErrors")


@pytest.mark.longer
def test_everything_on_the_car_is_reported(tmp_path: Path, new_phone: Callable[[], Phone]) -> None:
    for server in running(with_everything_reported(tmp_path / "data", tmp_path / "event")):
        assert len(server.queue("41")["jobs"]) >= 200
        phone = new_phone()
        page = phone.join(server, "p-bodo")
        for address, there in some(CROWDED, 5):
            phone.show(address)
            page.locator(there).first.wait_for(state="attached")
            is_as_it_should_be(phone, f"crowded {address}")

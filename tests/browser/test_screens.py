"""Every screen of every role in the real app: axe by day and in another theme, touch targets, width, words, policy."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from looking import SIDEWAYS, holds_on_its_side_and_large, is_as_it_should_be
from painted import vanished
from phones import SIZE, Phone
from screens import CREW, EMPTY, INSPECTOR, MANAGER, MECHANIC, Screen, form, saved, unfold
from server import Server, running, with_everything_reported, with_sample, without_entries
from states import ANSWERS, CASES, CROWDED, FORCED, IN_THE_CAR, Does

from longer import some

Opened = Callable[[Screen], Phone]


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The sample event for the whole module: what one screen's taps log harms no other screen."""
    yield from running(with_sample(tmp_path_factory.mktemp("sample") / "data"))


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The sample event's set-up without an entry."""
    folder: Path = tmp_path_factory.mktemp("bare")
    yield from running(without_entries(folder / "data", folder / "event", []))


@pytest.fixture(scope="module")
def on_sample(sample: Server, new_phone: Callable[[], Phone]) -> Opened:
    return opener(sample, new_phone)


@pytest.fixture(scope="module")
def on_bare(bare: Server, new_phone: Callable[[], Phone]) -> Opened:
    return opener(bare, new_phone)


@pytest.fixture(scope="module")
def newcomer(sample: Server, new_phone: Callable[[], Phone]) -> Phone:
    """A phone on which the manager has just joined: the log is on it, and no answer that a screen asked for."""
    phone = new_phone()
    phone.join(sample, "p-vera")
    return phone


def opener(server: Server, new_phone: Callable[[], Phone]) -> Opened:
    """Return a function that opens a screen on its person's phone; each person joins once."""
    phones: dict[str, Phone] = {}

    def opened(screen: Screen) -> Phone:
        if screen.who not in phones:
            phones[screen.who] = new_phone()
            phones[screen.who].join(server, screen.who)
        phone = phones[screen.who]
        phone.fresh(server, screen.address, screen.car)
        if screen.act:
            screen.act(phone.page)
        return phone

    return opened


def named(screens: list[Screen]) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("screen", screens, ids=lambda screen: screen.name)


@named(some(CREW + MECHANIC + INSPECTOR + MANAGER, 3))
def test_screen(screen: Screen, on_sample: Opened) -> None:
    is_as_it_should_be(on_sample(screen), screen.name)


def test_on_its_side_and_with_letters_twice_as_large(on_sample: Opened) -> None:
    """What the crew uses in the car, and the board; the longer run does it with every screen."""
    for screen in [one for one in CREW + MECHANIC if one.name in IN_THE_CAR]:
        holds_on_its_side_and_large(on_sample(screen).page)
    page = on_sample(next(one for one in CREW if one.name == "log, form")).page
    page.set_viewport_size(SIDEWAYS)
    drawing, save = page.locator(".drawing").bounding_box(), page.get_by_role("button", name="Save").bounding_box()
    assert drawing and save
    assert (drawing["y"], drawing["height"]) == (0, SIDEWAYS["height"]), "the whole car is in sight"
    assert drawing["x"] + drawing["width"] <= save["x"], "beside the form"
    assert save["height"] >= 72
    assert save["y"] + save["height"] <= SIDEWAYS["height"]


def test_save_is_as_large_as_a_finger_needs(on_sample: Opened) -> None:
    """20 mm, 126 px: there finger studies level out (Colle & Hiszem, Ergonomics 47, 2004)."""
    page = on_sample(next(one for one in CREW if one.name == "log, form")).page
    page.set_viewport_size(SIZE)
    save = page.get_by_role("button", name="Save").bounding_box()
    assert save
    assert min(save["width"], save["height"]) >= 126
    page.evaluate("scrollTo(0, 0)")
    assert save["y"] + save["height"] <= SIZE["height"], "in reach without scrolling"


def test_letters_stay_where_the_system_forces_its_colours(on_sample: Opened) -> None:
    """As in Windows' high contrast, where Chromium lays a ground of its own behind each line of text."""
    for name, places in FORCED.items():
        page = on_sample(next(one for one in CREW + MECHANIC if one.name == name)).page
        page.set_viewport_size(SIZE)
        page.emulate_media(forced_colors="active", reduced_motion="reduce")
        assert [place for place in places if vanished(page.locator(place).first)] == []
        page.emulate_media(forced_colors="none")


@named(some(EMPTY, 3))
def test_screen_without_entries(screen: Screen, on_bare: Opened) -> None:
    is_as_it_should_be(on_bare(screen), screen.name)


def test_before_anybody_has_joined(bare: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.page
    page.goto(bare.url)
    page.get_by_role("heading", name="Join your team").wait_for()
    is_as_it_should_be(phone)
    page.get_by_label("Code").fill("no-such-code")
    page.get_by_role("button", name="Join").click()
    page.locator(".problem p").wait_for()
    is_as_it_should_be(phone)
    page.goto(bare.link("p-jule"))
    page.get_by_role("heading", name="Which car").wait_for()
    is_as_it_should_be(phone)


def test_out_of_reach_with_something_unsent(sample: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(sample, "p-kasp")
    page.get_by_text("HOLD").first.wait_for()
    phone.context.set_offline(True)
    page.get_by_role("link", name="Log").click()
    form(page)
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Waiting to be sent").first.wait_for()
    is_as_it_should_be(phone)
    for address, said in [
        ("queue", "not reachable now"),
        ("job/front-right/tyre", "not sent yet"),
        ("reports", "Waiting to be sent"),
        ("service", "HOLD"),
        ("me", "did not reach the server"),
    ]:
        phone.fresh(sample, address, "41")
        unfold(page)
        page.get_by_text(said).first.wait_for()
        is_as_it_should_be(phone)
    phone.context.set_offline(False)


def test_shut_out_with_a_refused_entry(sample: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(sample, "p-anni")
    phone.show("me")
    device = page.get_by_text("This phone's number").inner_text().split(": ")[1]
    sample.shut_out(device)
    phone.show("log")
    saved(page)
    phone.show("me")
    page.get_by_text("The server does not know you on this phone any more").wait_for()
    is_as_it_should_be(phone)
    page.goto(sample.link("p-anni"))
    page.get_by_text("Attention: 1").wait_for()
    for address, said in [("reports", "This phone was shut out"), ("me", "1 need attention"), ("queue", "HOLD")]:
        phone.fresh(sample, address, "41")
        page.get_by_text(said).first.wait_for()
        is_as_it_should_be(phone)
    manager = new_phone()
    manager.join(sample, "p-vera")
    manager.show("aside")
    manager.page.get_by_text("1 waits for your look").wait_for()
    unfold(manager.page)
    is_as_it_should_be(manager)


def test_several_people_on_one_phone(sample: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(sample, "p-odil")
    phone.show("me")
    page.get_by_role("button", name="Your PIN on this phone").click()
    page.get_by_label("New PIN").fill("2468")
    page.get_by_label("The same once more").fill("2468")
    page.get_by_role("button", name="Keep this PIN").click()
    page.get_by_text("The PIN is kept on this phone.").wait_for()
    page.goto(sample.link("p-jule"))
    page.get_by_role("button", name="Jule uses this phone now").click()
    is_as_it_should_be(phone)
    page.get_by_role("button", name="Odil").click()
    page.get_by_label("PIN of Odil").fill("1357")
    page.get_by_role("button", name="Change to Odil").click()
    page.locator(".problem p").first.wait_for()
    is_as_it_should_be(phone)


@pytest.mark.parametrize(
    ("screen", "does"), some(CASES, 10), ids=[f"{screen.name}, {does.__name__}" for screen, does in some(CASES, 10)]
)
def test_a_screen_without_its_answer(screen: Screen, does: Does, sample: Server, newcomer: Phone) -> None:
    phone = newcomer
    phone.take_car(screen.car)
    phone.context.route(ANSWERS, does)
    try:
        phone.fresh(sample, screen.address, screen.car)
        if screen.act:
            screen.act(phone.page)
        is_as_it_should_be(phone, f"{screen.name} {does.__name__}")
    finally:
        phone.context.unroute_all(behavior="ignoreErrors")


def test_everything_on_the_car_is_reported(
    tmp_path_factory: pytest.TempPathFactory, new_phone: Callable[[], Phone]
) -> None:
    folder = tmp_path_factory.mktemp("crowded")
    for server in running(with_everything_reported(folder / "data", folder / "event")):
        assert len(server.queue("41")["jobs"]) >= 200
        phone = new_phone()
        page = phone.join(server, "p-bodo")
        for address, there in some(CROWDED, 5):
            phone.show(address)
            page.locator(there).first.wait_for(state="attached")
            is_as_it_should_be(phone, f"crowded {address}")

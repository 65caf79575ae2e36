"""The app of 0.1.0, as it was built, against today's server: the rows of docs/trust.md, driven on its own screens."""

import json
import re
import shutil
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from phones import SIZE, Phone, stored, wait_until
from playwright.sync_api import Browser, Page, Route, TimeoutError
from server import EVENT, Server, running
from signed import SIGNED, invited, sample_with

from making import Pen
from release_0_1_0 import app
from sample_event import event_files
from shuntbook.flow import joining, uploads
from shuntbook.flow.clock import now
from shuntbook.store.database import Store
from shuntbook.web.pages import HEADERS

PIN = "836190"
HEARD_MS = 5_000
OLD_HOSE, OLD_PIPE = "front-right/brake-hose", "front-right/brake-pipe-end"
"""Two jobs of the sample's car 41 that wait for an inspection."""


@pytest.fixture
def signed_server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the whole sample event, signatures demanded."""
    yield from running(sample_with(tmp_path / "data", SIGNED))


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the pages that 0.1.0 built."""
    return app(tmp_path_factory.mktemp("0.1.0"))


@pytest.fixture
def old_phone(browser: Browser, built: Path) -> Iterator[Callable[[Server], Phone]]:
    """Makes phones on which the app is that of 0.1.0; none may have complained at the end."""
    made: list[Phone] = []

    def make(server: Server) -> Phone:
        context = browser.new_context(viewport=SIZE, service_workers="block")

        def frozen(route: Route) -> None:
            name = urlsplit(route.request.url).path.lstrip("/") or "index.html"
            route.fulfill(path=built / name, headers=HEADERS)

        context.route(re.compile(rf"^{re.escape(server.url)}/(?!api/)"), frozen)
        made.append(Phone(context, keeps_app=False))
        return made[-1]

    yield make
    for phone in made:
        phone.context.unroute_all(behavior="ignoreErrors")
        phone.close()
    assert [complaint for phone in made for complaint in phone.complaints] == []


def comes_in(phone: Phone, link: str) -> Page:
    """Join by a link, with car 41."""
    page = phone.page
    page.goto(link)
    pick = page.get_by_role("button", name="Car 41")
    pick.or_(page.get_by_role("combobox", name="Which car")).first.wait_for()
    if pick.count():
        pick.click()
    page.get_by_role("combobox", name="Which car").select_option("41")
    return page


def goes_to(page: Page, address: str, title: str) -> None:
    """Go to a screen; said again where it was not heard, since that app draws a moment before it listens."""
    heading = page.get_by_role("heading", level=1, name=title)
    page.get_by_role("heading", level=1).first.wait_for()

    def is_there() -> bool:
        page.evaluate("address => { location.hash = '#/'; location.hash = address; }", address)
        with suppress(TimeoutError):
            heading.wait_for(timeout=HEARD_MS)
        return heading.is_visible()

    wait_until(page, is_there)


def logs_a_hit(page: Page, place: str) -> None:
    goes_to(page, "#/log", "Log a hit")
    again = page.get_by_role("button", name="Log another")
    page.get_by_role("button", name=place).first.or_(again).first.wait_for()
    if again.count():
        again.click()
    page.get_by_role("button", name=place).first.click()
    page.get_by_label("Wheel rim", exact=True).check()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()


def signs_a_look(page: Page, key: str, *, new_pin: bool) -> None:
    goes_to(page, "#/queue", "Queue")
    page.locator(f'main a[href="#/job/{key}"]').first.wait_for(state="attached")
    page.evaluate("key => { location.hash = `#/job/${key}`; }", key)
    page.get_by_role("button", name="Look …").click()
    ticks = page.get_by_role("group", name="What you looked at")
    if ticks.count():
        ticks.get_by_role("checkbox").first.check()
    if new_pin:
        page.get_by_label("New PIN").fill(PIN)
        page.get_by_label("The same once more").fill(PIN)
    else:
        page.get_by_label(re.compile("^Your PIN")).fill(PIN)
    page.get_by_role("button", name="Passed", exact=True).click()
    page.get_by_text("Saved: looked, passed.").wait_for()


def demand_the_pin(server: Server) -> None:
    """Put a set-up in force that demands signatures and the PIN."""
    files = event_files(SIGNED)
    uploads.put_setup(Store(server.data), EVENT, {**files, "event.toml": files["event.toml"] + b"pin = true\n"}, now())


def by(server: Server, person: str, kind: str) -> list[dict]:
    return [one for one in server.entries("41", kind) if one["person"] == person and "sig" in one]


def aside(server: Server) -> list[dict]:
    return [one for one in server.get("/set-aside", server.manager) if one["verdict"] is None]


@pytest.mark.longer
def test_its_inspector_counts_without_a_key_of_a_pin_until_the_event_demands_one(
    signed_server: Server, old_phone: Callable[[Server], Phone]
) -> None:
    server = signed_server
    store = Store(server.data)
    lost, _, _ = joining.join(store, joining.invite(store, "p-kasp", now()), None, now())
    server.shut_out(lost.device)
    page = comes_in(old_phone(server), invited(server, "p-odil"))
    logs_a_hit(page, "Rear left")
    signs_a_look(page, OLD_HOSE, new_pin=True)
    wait_until(page, lambda: len(by(server, "p-odil", "inspection.passed")) == 1)
    assert len(by(server, "p-odil", "report.filed")) == 1, "with a shut-out's last number in the set-up that it read"
    assert aside(server) == []

    demand_the_pin(server)
    logs_a_hit(page, "Rear right")
    signs_a_look(page, OLD_PIPE, new_pin=False)
    wait_until(page, lambda: len(aside(server)) == 1)
    [kept] = aside(server)
    assert (kept["code"], json.loads(kept["raw"])["kind"]) == ("no-pin", "inspection.passed")
    assert len(by(server, "p-odil", "report.filed")) == 2, "what needs no PIN counts"
    assert len(by(server, "p-odil", "inspection.passed")) == 1, "what counted goes on counting"
    goes_to(page, "#/me", "Me")
    page.get_by_text("1 need attention").wait_for()


@pytest.mark.longer
def test_its_manager_is_told_why_an_inspection_is_not_accepted_and_can_leave_it_out(
    signed_server: Server, old_phone: Callable[[Server], Phone]
) -> None:
    server = signed_server
    send_unsigned_pass(server)
    page = comes_in(old_phone(server), invited(server, "p-vera"))
    goes_to(page, "#/aside", "Set aside")
    page.get_by_label("Own reason").fill("Odil says that it was not hers")
    page.get_by_role("button", name="Accept into the log").click()
    page.get_by_text("No review makes an inspection count").wait_for()
    assert len(aside(server)) == 1, "an inspection counts on nobody's word but its inspector's"
    page.get_by_role("button", name="Leave it out").click()
    wait_until(page, lambda: aside(server) == [])
    assert by(server, "p-odil", "inspection.passed") == []


def send_unsigned_pass(server: Server) -> None:
    """Have a program send an inspection in the inspector's name that nobody signed."""
    entry = Pen(EVENT, start=90_000).passed(OLD_HOSE)
    store = Store(server.data)
    seat, token, _ = joining.join(store, joining.invite(store, "p-odil", now()), None, now())
    body = json.dumps({"cursor": 0, "entries": [{**entry, "device": seat.device, "seq": 1}]}).encode()
    headers = {"Authorization": f"Bearer {token}", "Content-Type": "application/json"}
    urllib.request.urlopen(urllib.request.Request(f"{server.url}/api/v1/sync", body, headers), timeout=60).close()


@pytest.mark.longer
def test_its_manager_brings_a_lost_server_back_and_goes_on_when_the_rebuild_has_ended(
    signed_server: Server, old_phone: Callable[[Server], Phone]
) -> None:
    server = signed_server
    page = comes_in(old_phone(server), invited(server, "p-vera"))
    logs_a_hit(page, "Front left")
    wait_until(page, lambda: len(by(server, "p-vera", "report.filed")) == 1)
    held = len(server.entries())
    goes_to(page, "#/setup", "Set-up")
    wait_until(page, lambda: [one["sending"] for one in stored(page, "entries")] == ["sent"] * held)
    wait_until(page, lambda: any(one["key"].startswith("files ") for one in stored(page, "answers")))
    before = server.queue("41")["hash"]
    server.stop()
    shutil.rmtree(server.data)
    del server.manager
    server.start()
    page.goto(invited(server, "p-vera"))
    wait_until(page, lambda: len(server.entries()) == held)
    assert server.queue("41")["hash"] == before
    server.call("DELETE", "/rebuild", server.manager)
    page.reload()
    logs_a_hit(page, "Rear left")
    wait_until(page, lambda: len(by(server, "p-vera", "report.filed")) == 2)
    goes_to(page, "#/me", "Me")
    page.get_by_text("Nothing refused").wait_for()

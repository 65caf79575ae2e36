"""Release 0.1.0 as it was frozen, its app on phones and its server, each to be met by the other one of today."""

import json
import os
import re
import sqlite3
import subprocess
import sys
from contextlib import closing, suppress
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from phones import SIZE, Phone, wait_until
from playwright.sync_api import Browser, Page, Request, Route, TimeoutError
from server import Server

from release_0_1_0 import unzipped
from shuntbook.store.database import FILE
from shuntbook.web.pages import HEADERS, app_folder
from warmed import Started

HEARD_MS = 5_000
TODAY = app_folder()
"""The folder of the pages that were built last."""


class OldServer(Server):
    """The server of 0.1.0, run from the folder of its package, over the data folder that it left behind."""

    def __init__(self, data: Path, program: Path) -> None:
        super().__init__(unzipped("data", data))
        self._environment = {**os.environ, "PYTHONPATH": str(program)}

    def _begun(self) -> Started:
        quiet = subprocess.DEVNULL
        command = self._command("serve", "--port", str(self.port))
        return subprocess.Popen(command, env=self._environment, stdout=quiet, stderr=quiet)

    def _code(self, person: str) -> str:
        command = self._command("invite", "--person", person, "--json")
        done = subprocess.run(command, env=self._environment, capture_output=True, text=True, check=True)
        code: str = json.loads(done.stdout)["code"]
        return code

    def entries(self, car: str | None = None, kind: str | None = None) -> list[dict[str, Any]]:
        # Read as it lies: today's store would bring the database forward, and that server could let nobody in on it.
        with closing(sqlite3.connect(f"file:{self.data / FILE}?mode=ro", uri=True)) as database:
            rows = database.execute("SELECT raw FROM entry ORDER BY cursor").fetchall()
        held = [json.loads(row[0]) for row in rows]
        return [one for one in held if car in (None, one["car"]) and kind in (None, one["kind"])]

    def _command(self, *words: str) -> list[str]:
        return [sys.executable, "-m", "shuntbook.cli", *words, "--data", str(self.data)]


def bring(phone: Phone, server: Server, pages: Path) -> None:
    """Have a phone get the app of a folder from a server from now on; what is no page is asked of the server itself."""

    def answer(route: Route) -> None:
        name = urlsplit(route.request.url).path.lstrip("/") or "index.html"
        route.fulfill(path=pages / name, headers=HEADERS)

    phone.context.unroute_all(behavior="ignoreErrors")
    phone.context.route(re.compile(rf"^{re.escape(server.url)}/(?!api/)"), answer)


def change_app(phone: Phone, server: Server, pages: Path, *others: Page) -> None:
    """Put another release's app on a phone, as a server that was updated or put back brings it to each of its tabs."""
    for page in (phone.page, *others):
        # Left first: an app fetches its screens while it is idle.
        page.goto("about:blank")
    bring(phone, server, pages)
    for page in (phone.page, *others):
        page.goto(f"{server.url}/#/me")
        page.get_by_role("heading", level=1, name="Me").wait_for()


class MakePhone:
    """Makes phones, each a context in one browser, on a server's pages of one release."""

    def __init__(self, browser: Browser, pages: Path) -> None:
        self.browser, self.pages = browser, pages
        self.phones: list[Phone] = []

    def __call__(self, server: Server) -> Phone:
        phone = Phone(self.browser.new_context(viewport=SIZE, service_workers="block"), keeps_app=False)
        bring(phone, server, self.pages)
        self.phones.append(phone)
        return phone

    def closed(self) -> list[str]:
        """Close the phones and return what their pages complained of."""
        for phone in self.phones:
            phone.context.unroute_all(behavior="ignoreErrors")
            phone.close()
        return [complaint for phone in self.phones for complaint in phone.complaints]


def comes_in(phone: Phone, link: str) -> Page:
    """Join by a link, with car 41."""
    phone.page.goto(link)
    return picks_car_41(phone.page)


def picks_car_41(page: Page) -> Page:
    """Choose car 41 on a phone that has just joined, which asks for a car or stands at one."""
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


def logs_a_hit(page: Page, place: str, part: str = "Wheel rim") -> None:
    """Log a hit on the screens of today's app or of 0.1.0's."""
    goes_to(page, "#/log", "Log a hit")
    again = page.get_by_role("button", name="Log another")
    page.get_by_role("button", name=place).first.or_(again).first.wait_for()
    if again.count():
        again.click()
    page.get_by_role("button", name=place).first.click()
    more, wanted = page.get_by_role("button", name="More parts"), page.get_by_label(part, exact=True)
    more.or_(wanted).first.wait_for()
    if more.count() and not wanted.count():
        more.click()
    wanted.check()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()


def signs_a_look(page: Page, key: str, pin: str, *, is_new: bool) -> None:
    """Sign an inspection on the screens of 0.1.0, with a PIN that is chosen at it or was chosen before."""
    goes_to(page, "#/queue", "Queue")
    page.locator(f'main a[href="#/job/{key}"]').first.wait_for(state="attached")
    page.evaluate("key => { location.hash = `#/job/${key}`; }", key)
    page.get_by_role("button", name="Look …").click()
    ticks = page.get_by_role("group", name="What you looked at")
    if ticks.count():
        ticks.get_by_role("checkbox").first.check()
    if is_new:
        page.get_by_label("New PIN").fill(pin)
        page.get_by_label("The same once more").fill(pin)
    else:
        page.get_by_label(re.compile("^Your PIN")).fill(pin)
    page.get_by_role("button", name="Passed", exact=True).click()
    page.get_by_text("Saved: looked, passed.").wait_for()


class Calls:
    """What the pages of a phone ask of the API, as it was sent."""

    def __init__(self, phone: Phone) -> None:
        self._sent: list[Request] = []
        phone.context.on("request", self._note)

    def of(self, path: str) -> list[tuple[str, dict[str, Any]]]:
        """Return the token and the body of each call to a path so far, in order; "" for no token."""
        asked = [one for one in self._sent if urlsplit(one.url).path == f"/api/v1{path}"]
        return [(one.headers.get("authorization", ""), json.loads(one.post_data or "{}")) for one in asked]

    def _note(self, request: Request) -> None:
        self._sent.append(request)


def by(server: Server, person: str, kind: str) -> list[dict[str, Any]]:
    """Return the signed entries of a person at car 41 that a server holds."""
    return [one for one in server.entries("41", kind) if one["person"] == person and "sig" in one]


def also_comes_in(phone: Phone, link: str, name: str) -> None:
    """Let another person join on a phone that somebody uses already."""
    phone.page.goto(link)
    phone.page.get_by_role("button", name=f"{name} uses this phone now").wait_for()


def changes_to(page: Page, name: str) -> None:
    """Change the person in the head line, on the screens of 0.1.0."""
    page.get_by_role("button", name="uses this phone now").click()
    page.locator("header .people").get_by_role("button", name=name).click()
    page.get_by_role("button", name=f"{name} uses this phone now").wait_for()


def aside(server: Server) -> list[dict[str, Any]]:
    """Return what waits for a review on today's server."""
    return [one for one in server.get("/set-aside", server.manager) if one["verdict"] is None]


def changes_pin(page: Page, old: str, new: str) -> None:
    """Say the PIN until now and a new one, on the screens of today's app or 0.1.0's; what comes of it is shown then."""
    goes_to(page, "#/me", "Me")
    field = page.get_by_label("PIN until now")
    if not field.count():
        page.get_by_role("button", name="Change the PIN").click()
    field.fill(old)
    page.get_by_label("New PIN").fill(new)
    page.get_by_label("The same once more").fill(new)
    page.get_by_role("button", name="Keep this PIN").click()

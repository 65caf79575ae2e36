"""Phones: a browser as large as one, with one page, that remembers what the page complains of."""

import os
import signal
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any, Literal, Protocol

import psutil
from engines import engine, processes_of
from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Page,
    Playwright,
    TimeoutError,
    ViewportSize,
    expect,
)
from server import Server

from longer import is_longer

SIZE: ViewportSize = {"width": 390, "height": 844}
MOTION: Literal["no-preference", "reduce"] = "no-preference" if is_longer() else "reduce"
"""In the short run nothing moves, as in Firefox: drawing what moves costs a tenth of the processor's time."""
PATIENCE_MS = 60_000
SLOW_MS = 90_000
"""For what the server and several retries have to do."""
# What is expected of a page may come late on a busy machine: five seconds, as Playwright has it, would judge its speed.
expect.set_options(timeout=PATIENCE_MS)


# In the place of the app's worker: one that keeps nothing and says that it is there.
NO_WORKER = """() => {
  const worker = Object.assign(new EventTarget(), { state: 'activated', postMessage() {} });
  const made = { active: worker, installing: null, waiting: null, update: async () => {} };
  const registration = Object.assign(new EventTarget(), made);
  Object.defineProperty(navigator, 'serviceWorker', { value: Object.assign(new EventTarget(), {
    controller: null, ready: Promise.resolve(registration), register: async () => registration,
    getRegistrations: async () => [registration], getRegistration: async () => registration,
  }) });
}"""


class Host(Protocol):
    """Whatever makes join links."""

    def link(self, person: str) -> str:
        """Return a join link for a person."""


def start_browser(playwright: Playwright) -> Browser:
    return engine().launch(playwright)


class Phone:
    """A browser context, and in it a page. Another context shares nothing with it, as another phone.

    keeps_app: whether the context lets the app's service worker in, which fetches all of the app when somebody joins.
    """

    def __init__(self, context: BrowserContext, *, keeps_app: bool = True) -> None:
        self.complaints: list[str] = []
        self.keeps_app = keeps_app
        self.take(context)

    def take(self, context: BrowserContext) -> None:
        self.context = context
        if not self.keeps_app:
            context.add_init_script(f"({NO_WORKER})()")
        context.set_default_timeout(PATIENCE_MS)
        context.on("page", self._listen)
        for page in context.pages:
            self._listen(page)
        self.page: Page = context.pages[0] if context.pages else context.new_page()

    def join(self, server: Host, person: str, car: str = "41") -> Page:
        """Join as a person with a car, and wait until set-up and, where the phone keeps it, app are there offline."""
        self.page.goto(server.link(person))
        pick = self.page.get_by_role("button", name=f"Car {car}")
        pick.or_(self.page.get_by_role("combobox", name="Which car")).first.wait_for()
        if pick.count():
            pick.click()
        self.page.get_by_role("heading", level=1).first.wait_for()
        if self.keeps_app:
            self.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        self.page.wait_for_url(lambda url: "join" not in url)
        self.take_car(car)
        return self.page

    def take_car(self, car: str) -> None:
        """Choose the car in the head line; loaded again, nothing on the screen can be of the car before."""
        choice = self.page.get_by_role("combobox", name="Which car", include_hidden=True)
        while choice.input_value() != car:
            choice.select_option(car)
            self.page.reload()
            self.page.get_by_role("heading", level=1).first.wait_for()

    def show(self, screen: str) -> Page:
        """Go to a screen by its address and wait until it is there."""
        self.page.evaluate("address => { location.hash = address; }", f"#/{screen}")
        name = screen.split("/")[0]
        title = {"job": "Queue", "aside": "Needs review", "setup": "Set-up", "team": "Team plan"}.get(
            name, name.capitalize()
        )
        try:
            self.page.wait_for_function("title => document.title === title", arg=f"{title} · Shuntbook")
        except TimeoutError as late:
            stands = self.page.evaluate("[document.title, location.hash, document.body.innerText.slice(0, 400)]")
            raise AssertionError(f"{screen} does not come: {stands} {self.complaints}") from late
        if name != "place":
            self.page.locator("main .job").wait_for(state="visible" if name == "job" else "detached")
        self.page.get_by_role("heading", level=1).first.wait_for()
        return self.page

    def fresh(self, server: Server, screen: str, car: str) -> Page:
        """Load the app again at a screen, as somebody who opens it again."""
        # Hidden on a wide board, which has no bars.
        choice = self.page.get_by_role("combobox", name="Which car", include_hidden=True)
        while True:
            self.take_car(car)
            # Loaded again where it is: by way of an empty page, the browser starts a process, for twice the time of a
            # processor. The screen that stood there hears nothing of the new address.
            self.page.evaluate("address => history.replaceState(null, '', address)", f"{server.url}/#/{screen}")
            self.page.reload()
            self.page.get_by_role("heading", level=1).first.wait_for()
            # Chromium hands a tab's sessionStorage on with a delay: so soon after it, a choice may be lost.
            if choice.input_value() == car:
                return self.page

    def close(self) -> None:
        with suppress(Exception):  # it may have been killed by the test
            self.context.close()

    def _listen(self, page: Page) -> None:
        page.on("pageerror", lambda error: self._note(str(error)))
        page.on("console", self._hear)

    def _hear(self, line: ConsoleMessage) -> None:
        if line.type == "error":
            self._note(line.text)

    def _note(self, complaint: str) -> None:
        if not engine().is_own_doing(complaint):
            self.complaints.append(complaint)


class PocketPhone(Phone):
    """A phone with a browser and a profile folder of its own; it can be killed and opened again."""

    def __init__(self, playwright: Playwright, profile: Path, *, keeps_app: bool = True) -> None:
        self.playwright = playwright
        self.profile = profile
        super().__init__(self._start(keeps_app), keeps_app=keeps_app)

    def open(self) -> None:
        self.take(self._start(self.keeps_app))

    def kill(self) -> None:
        """Kill the browser's processes at once, as an empty battery would."""
        for process in processes_of(self.profile):
            with suppress(psutil.NoSuchProcess, ProcessLookupError):
                os.kill(process.pid, signal.SIGKILL)
        with suppress(Exception):  # its own goodbye to a browser that is gone
            self.context.close()

    def _start(self, keeps_app: bool) -> BrowserContext:
        workers = "allow" if keeps_app else "block"
        return engine().open(
            self.playwright, self.profile, viewport=SIZE, headless=True, service_workers=workers, reduced_motion=MOTION
        )


def wait_until(page: Page, true: Callable[[], bool]) -> None:
    """Wait for what the page itself can't tell, such as what the server holds."""
    for _ in range(SLOW_MS // 250):
        if true():
            return
        page.wait_for_timeout(250)
    raise AssertionError("it did not come about within the time")


def stored(page: Page, store: str) -> list[dict[str, Any]]:
    """Return what a store of the phone's own database holds, as JSON can show it; of entries those in pages, too."""
    answer: list[dict[str, Any]] = page.evaluate(
        """name => new Promise((resolve, reject) => {
          const opened = indexedDB.open('shuntbook');
          opened.onerror = () => reject(opened.error);
          opened.onsuccess = () => {
            const tx = opened.result.transaction([name, 'meta']);
            const asked = tx.objectStore(name).getAll();
            const range = IDBKeyRange.bound(['page'], ['page', []]);
            const pages = name === 'entries' ? tx.objectStore('meta').getAll(range) : { result: [] };
            tx.oncomplete = () => {
              opened.result.close();
              const paged = pages.result.flatMap(({ records }) => JSON.parse(records));
              resolve(JSON.parse(JSON.stringify([...asked.result, ...paged])));
            };
          };
        })""",
        store,
    )
    return answer

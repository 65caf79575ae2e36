"""Takes the pictures of README.md from the real app on the sample event, so that they never lie.

python tools/screenshots.py
"""

import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Page, ViewportSize, sync_playwright

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from bench.server import serving  # noqa: E402

from shuntbook.flow import joining  # noqa: E402
from shuntbook.flow.clock import now  # noqa: E402
from shuntbook.flow.load import load  # noqa: E402
from shuntbook.serving import sample_folder  # noqa: E402
from shuntbook.store.database import Store  # noqa: E402

TARGET = ROOT / "docs" / "screens"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
WALL: ViewportSize = {"width": 1920, "height": 1080}
LAPTOP: ViewportSize = {"width": 1280, "height": 800}
LONG_MS = 240_000
IN_SERVICE = "2026-06-14T10:17:00+02:00"
"""Five minutes after car 41 came in to service D of the sample event."""
PHONE: ViewportSize = {"width": 390, "height": 844}


def main() -> None:
    """Serve the sample event and take every picture."""
    TARGET.mkdir(parents=True, exist_ok=True)
    with on_the_sample() as (browser, data, url):
        co_driver(person(browser, data, url, "p-toma"))
        mechanic(person(browser, data, url, "p-bodo"))
        manager(person(browser, data, url, "p-vera"))


@contextmanager
def on_the_sample() -> Iterator[tuple[Browser, Path, str]]:
    """Serve the sample event; yield a browser, the server's data folder and its address."""
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder) / "data"
        load(Store(data), sample_folder(), now())
        with serving(data, "p-jule") as server, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
            yield browser, data, f"http://127.0.0.1:{server.connection.port}"
            browser.close()


def person(browser: Browser, data: Path, url: str, who: str) -> Page:
    """Open a phone that joined as a person with car 41."""
    page = browser.new_context(viewport=PHONE, device_scale_factor=2, timezone_id="Europe/Vienna").new_page()
    page.goto(joining.join_link(url, joining.invite(Store(data), who, now())))
    pick = page.get_by_role("button", name="Car 41")
    pick.or_(page.get_by_role("combobox", name="Which car")).first.wait_for()
    if pick.count():
        pick.click()
    # As on the second day: the app is kept, its font with it, and nothing is told of keeping it.
    page.get_by_text("Keeping the app").first.wait_for(state="detached", timeout=LONG_MS)
    page.reload()
    return page


def co_driver(page: Page) -> None:
    """Log a hit, by day and by night, and round the car; reports, service, the driver's questions, check lists."""
    show(page, "log", "log")
    page.get_by_role("button", name="Front left").first.click()
    page.get_by_label("Wheel rim", exact=True).check()
    shoot(page, "log-form")
    page.evaluate("document.documentElement.dataset.theme = 'night'")
    shoot(page, "night")
    page.evaluate("delete document.documentElement.dataset.theme")
    show(page, "round", "round")
    show(page, "reports", "reports")
    show(page, "arrival", "arrival")
    show(page, "looks", "looks")


def mechanic(page: Page) -> None:
    """A service planned while it is on, its sheet; by the plan the service, the queue and one job; the briefing."""
    page.clock.set_system_time(IN_SERVICE)
    page.reload()
    page.evaluate("location.hash = '#/plan'")
    page.get_by_role("button", name="Plan service").click()
    page.get_by_role("heading", name="Everybody").wait_for(timeout=LONG_MS)
    page.get_by_text("Quick plan").first.wait_for(state="detached", timeout=LONG_MS)
    page.evaluate("scrollTo(0, 0)")
    shoot(page, "plan")
    show(page, "plan/sheet", "plan-sheet")
    show(page, "service", "service")
    show(page, "queue", "queue")
    page.get_by_role("button", name="Seen", exact=True).click()
    page.get_by_role("button", name="Seen", exact=True).wait_for(state="detached")
    show(page, "queue", "queue")
    show(page, "job/front-right/brake-hose", "job")
    show(page, "briefing", "briefing")
    show(page, "readings", "readings")
    page.set_viewport_size(WALL)
    show(page, "board", "board")
    page.set_viewport_size(PHONE)
    show(page, "documents", "documents")


def manager(page: Page) -> None:
    """The costs, what the customer is charged, the set-up, the season, a paper; what the app says of itself."""
    show(page, "costs", "costs")
    show(page, "me", "me")
    show(page, "setup", "setup")
    show(page, "season", "season")
    page.get_by_role("combobox", name="Which car").select_option("42")
    show(page, "statement", "statement")
    show(page, "walk", "walk")
    show(page, "incidents", "incidents")
    page.set_viewport_size(LAPTOP)
    page.evaluate("location.hash = '#/documents/statement'")
    page.get_by_role("img", name="Statement for the customer, page 1").wait_for()
    shoot(page, "documents-laptop")
    page.set_viewport_size(PHONE)


def show(page: Page, route: str, name: str) -> None:
    """Go to a screen and take its picture."""
    page.evaluate(f"location.hash = '#/{route}'")
    page.get_by_role("heading", level=1).first.wait_for()
    # Lazy screens, thumbnails and the server's answer come in after the heading.
    page.wait_for_timeout(1500)
    shoot(page, name)


def shoot(page: Page, name: str) -> None:
    """Take a picture of the phone's screen."""
    page.screenshot(path=TARGET / f"{name}.png", animations="disabled")


if __name__ == "__main__":
    main()

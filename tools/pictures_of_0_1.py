"""Takes the pictures of release 0.1.0 that docs/screens.md shows beside today's: the frozen app on today's server.

PYTHONPATH=tests python tools/pictures_of_0_1.py
"""

import re
import tempfile
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Page, Route
from screenshots import PHONE, TARGET, WALL, on_the_sample

from release_0_1_0 import app
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.store.database import Store
from shuntbook.web.pages import HEADERS

BEFORE = TARGET / "0.1.0"


def main() -> None:
    """Serve the sample event and take every picture with the app of 0.1.0."""
    BEFORE.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, on_the_sample() as (browser, data, url):
        built = app(Path(folder))
        shoot(person(browser, data, built, url, "p-toma"), "log", "reports")
        mechanic = person(browser, data, built, url, "p-bodo")
        shoot(mechanic, "queue", "service")
        mechanic.set_viewport_size(WALL)
        shoot(mechanic, "board")
        shoot(person(browser, data, built, url, "p-vera"), "costs")


def person(browser: Browser, data: Path, built: Path, url: str, who: str) -> Page:
    """Open a phone with the app of 0.1.0 that joined as a person."""
    context = browser.new_context(
        viewport=PHONE, device_scale_factor=2, timezone_id="Europe/Vienna", service_workers="block"
    )
    page = context.new_page()

    def frozen(route: Route) -> None:
        route.fulfill(path=built / (urlsplit(route.request.url).path.lstrip("/") or "index.html"), headers=HEADERS)

    page.route(re.compile(rf"^{re.escape(url)}/(?!api/)"), frozen)
    page.goto(joining.join_link(url, joining.invite(Store(data), who, now())))
    pick = page.get_by_role("button", name="Car 41")
    pick.or_(page.get_by_role("combobox", name="Which car")).first.wait_for()
    if pick.count():
        pick.click()
    return page


def shoot(page: Page, *routes: str) -> None:
    """Go to screens and take their pictures."""
    for route in routes:
        page.evaluate("where => { location.hash = where; }", f"#/{route}")
        page.get_by_role("heading", level=1).first.wait_for()
        page.wait_for_timeout(2500)
        page.screenshot(path=BEFORE / f"{route}.png", animations="disabled")


if __name__ == "__main__":
    main()

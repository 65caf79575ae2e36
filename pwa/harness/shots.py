"""Takes pictures of every screen from the harness and runs axe on each; prints what axe finds.

Needs `npx vite --config harness/vite.config.ts` running in pwa/, Debian's chromium, playwright and
axe-playwright-python. `shots.py DIR [NAME ...]` writes PNG files to DIR, only for the named screens if given.
"""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Literal

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, sync_playwright

BASE = "http://127.0.0.1:5199/"
FLAGS = "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
FLAGS += " --disable-component-update --disable-sync"


def log_form(page: Page) -> None:
    page.get_by_role("button", name="Front left").click()
    page.get_by_label("Wheel", exact=True).check()


def log_saved(page: Page) -> None:
    log_form(page)
    page.get_by_role("button", name="Save").click()
    page.get_by_role("button", name="Log another").wait_for()


def log_more(page: Page) -> None:
    log_form(page)
    page.get_by_text("Km, direction").click()
    page.locator("summary", has_text="What do you notice").click()


def underside(page: Page) -> None:
    page.get_by_label("Underside").check()


def stopped(page: Page) -> None:
    page.get_by_role("button", name="We have stopped").click()


def press(*names: str) -> Callable[[Page], None]:
    def go(page: Page) -> None:
        for name in names:
            page.get_by_role("button", name=name).first.click()

    return go


SCREENS = {
    "log": ("?advice=0#/log", None),
    "log-empty": ("?empty#/log", None),
    "log-under": ("#/log", underside),
    "log-form": ("#/log", log_form),
    "log-more": ("#/log", log_more),
    "log-saved": ("#/log", log_saved),
    "log-stopped": ("#/log", stopped),
    "amend": ("#/log/e003", None),
    "reports": ("#/reports", None),
    "reports-withdraw": ("#/reports", press("Withdraw")),
    "queue": ("?who=p-gard#/queue", None),
    "plan": ("?who=p-tove#/plan", None),
    "plan-sheet": ("?who=p-tove#/plan/sheet", None),
    "briefing": ("?who=p-tove#/briefing", None),
    "queue-nothing": ("?who=p-gard&release=nothing-open#/queue", None),
    "queue-unknown": ("?who=p-gard&release=not-known&message#/queue", None),
    "road": ("?advice=0#/queue", None),
    "job": ("?who=p-gard#/job/front-left/brake-hose", None),
    "job-look": ("?who=p-gard#/job/front-left/brake-hose", press("Look …")),
    "job-finish": ("?who=p-tove#/job/front-left/wheel", press("Finish …")),
    "job-defer": ("?who=p-tove#/job/front-left/wheel", press("Leave it …")),
    "job-cage": ("?who=p-wren#/job/cabin/door-bars", press("Look …")),
    "service": ("?who=p-gard#/service", None),
    "service-crew": ("?empty#/service", None),
    "costs": ("?who=p-kaya#/costs", None),
    "me": ("#/me", None),
    "join": ("?nobody#/log", None),
}


def shoot(page: Page, name: str, where: Path, size: str) -> None:
    path, act = SCREENS[name]
    page.goto("about:blank")
    page.goto(BASE + path)
    page.locator("h1").first.wait_for()
    if act:
        act(page)
    page.wait_for_timeout(150)
    wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    if wide > 0:
        print(f"{name} {size}: {wide} px wider than the screen")
    page.screenshot(path=where / f"{name}-{size}.png", full_page=size.endswith("full"))
    for found in Axe().run(page).response["violations"]:
        nodes = [node["html"][:140] for node in found["nodes"]]
        print(f"{name} {size}: {found['id']}: {found['help']}: {nodes[:3]}")


def main() -> None:
    where = Path(sys.argv[1])
    where.mkdir(parents=True, exist_ok=True)
    names = sys.argv[2:] or list(SCREENS)
    with sync_playwright() as p:
        browser = p.chromium.launch(executable_path="/usr/bin/chromium", args=FLAGS.split())
        sizes: dict[str, tuple[int, int, Literal["light", "dark"]]] = {
            "phone": (390, 844, "light"),
            "full": (390, 844, "dark"),
            "small-full": (320, 640, "light"),
            "desk": (1280, 800, "light"),
        }
        for size, (width, height, scheme) in sizes.items():
            context = browser.new_context(viewport={"width": width, "height": height}, color_scheme=scheme)
            page = context.new_page()
            page.on("pageerror", lambda error: print("page error:", error))
            page.on("console", lambda line: print("console:", line.text) if line.type == "error" else None)
            for name in names:
                shoot(page, name, where, size)
            context.close()
        browser.close()


if __name__ == "__main__":
    main()

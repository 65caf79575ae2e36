"""Browsers that lack a part, refuse it or never answer: joining, logging with a photo, and seeing it sent all work.

Firefox asks the person whether a store may be kept and may never be answered; private windows refuse locks and workers;
older phones lack half of the list. `pwa/tests/never_answers.test.ts` holds each part on its own.
"""

from pathlib import Path

import pytest
from phones import SIZE, Phone, wait_until
from PIL import Image
from playwright.sync_api import Browser
from server import Server

from longer import some

PARTS = """
const names = ["locks", "storage", "serviceWorker", "wakeLock", "share", "canShare", "mediaDevices", "geolocation",
  "permissions", "clipboard", "vibrate"];
const kinds = ["BroadcastChannel", "MediaRecorder", "BarcodeDetector", "Notification"];
const refuse = () => { throw new DOMException("not in this browser", "SecurityError"); };
const never = () => new Promise(() => {});
const put = (name, what) => Object.defineProperty(Navigator.prototype, name, { configurable: true, ...what });
const putKind = (name, value) => Object.defineProperty(globalThis, name, { configurable: true, writable: true, value });
"""

WAYS = {
    "missing": """
        for (const name of names) put(name, { value: undefined });
        for (const name of kinds) putKind(name, undefined);
    """,
    "refused when looked at": """
        for (const name of names) put(name, { get: refuse });
        for (const name of kinds) putKind(name, class { constructor() { refuse(); } });
    """,
    "refused when called": """
        const refusing = new Proxy({}, { get: (_, name) => (name === "then" ? undefined : () => Promise.reject(
          new DOMException("not in this browser", "SecurityError"))) });
        for (const name of names) put(name, { value: refusing });
        put("serviceWorker", { value: { ready: never(), addEventListener() {}, register: refusing.register } });
        putKind("BroadcastChannel", class { postMessage() { refuse(); } close() {} });
    """,
    "never answered": """
        const silent = new Proxy({}, { get: (_, name) => (name === "then" ? undefined : never) });
        for (const name of names) put(name, { value: silent });
        put("serviceWorker", { value: { ready: never(), addEventListener() {}, register: never } });
        putKind("BroadcastChannel", class { postMessage() {} close() {} });
        putKind("BarcodeDetector", class { static getSupportedFormats = never; });
    """,
}


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "small.jpg"
    Image.effect_noise((64, 48), 60).convert("RGB").save(path, "JPEG")
    return path


def test_whatever_the_browser_lacks_refuses_or_never_answers_a_hit_is_logged_and_sent(
    empty_server: Server, browser: Browser, picture: Path
) -> None:
    # Of what is alike, in a short run: a part that is missing, and one that never answers.
    for count, (way, script) in enumerate(some(list(WAYS.items()), 3), start=1):
        context = browser.new_context(viewport=SIZE, timezone_id="Europe/Vienna")
        context.add_init_script(f"{{ {PARTS} {script} }}")
        phone = Phone(context)
        join_by_code(phone, empty_server)
        log_with_photo(phone, picture)
        wait_until(phone.page, lambda count=count: len(sent(empty_server)) == count)
        assert len(sent(empty_server)[-1]["data"]["photos"]) == 1, way
        phone.page.evaluate("location.hash = '#/reports'")
        phone.page.get_by_text("Sent", exact=True).first.wait_for()
        assert phone.complaints == [], way
        phone.close()


def join_by_code(phone: Phone, server: Server) -> None:
    """Join as somebody who types the code and a PIN."""
    page = phone.page
    page.goto(server.url)
    page.get_by_label("Code", exact=False).first.fill(server.link("p-toma").split("/")[-1])
    page.get_by_label("PIN", exact=False).first.fill("471147")
    page.get_by_role("button", name="Join", exact=True).click()
    # Once a car has a report of this person's, the app takes that car by itself.
    pick, place = page.get_by_role("button", name="Car 41"), page.get_by_role("button", name="Front left")
    pick.or_(place).first.wait_for()
    if pick.count():
        pick.click()


def log_with_photo(phone: Phone, picture: Path) -> None:
    page = phone.page
    page.get_by_label("Photo first").set_input_files(picture)
    page.get_by_text("1 photo is kept. Tap where it was hit.").wait_for()
    page.get_by_role("button", name="Front left").first.click()
    page.get_by_label("Wheel rim", exact=True).check()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()


def sent(server: Server) -> list[dict]:
    return server.entries(kind="report.filed")

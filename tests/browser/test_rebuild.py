"""The server's disk is lost: an empty one at its address gets everything back from a manager's phone and one other."""

import hashlib
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest
from crew import answer_all_ok
from phones import PocketPhone, stored, wait_until
from playwright.sync_api import Page
from server import EVENT, Server
from signed import also_joins, change_to, invited

CARS = ("41", "42")
PIN = "836190"


def a_hit_with_a_photo(page: Page, picture: Path) -> None:
    page.get_by_role("button", name="Front left").first.click()
    page.get_by_label("Wheel rim", exact=True).check()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()
    page.locator("input[type=file]").first.set_input_files(picture)
    page.locator(".kept img").first.wait_for()


def open_job(page: Page, key: str) -> None:
    page.evaluate("() => { location.hash = '#/queue'; }")
    page.locator(f'main a[href="#/job/{key}"]').first.wait_for(state="attached")
    page.evaluate("key => { location.hash = `#/job/${key}`; }", key)
    page.get_by_role("button", name="Finish …").wait_for()


def finish(page: Page, key: str) -> None:
    open_job(page, key)
    page.get_by_role("button", name="Finish …").click()
    page.get_by_role("button", name="Finish", exact=True).click()
    page.get_by_text("Saved: finished.").wait_for()


def sign_a_look(page: Page, key: str) -> None:
    open_job(page, key)
    zone, part = key.split("/")
    page.evaluate("address => { location.hash = address; }", f"#/place/{zone}/inspect/{part}")
    page.get_by_label("New PIN").fill(PIN)
    page.get_by_label("The same once more").fill(PIN)
    answer_all_ok(page)
    page.get_by_role("button", name="Sign: 1 passed").click()
    page.get_by_text("Signed: 1 passed.").wait_for()


def state_of(server: Server) -> dict:
    """Return what must come back: both queues, the set-up's and the rate table's version, every entry."""
    files = server.get(f"/events/{EVENT}/files", server.manager)
    [setup] = server.get("/setup", server.manager)["events"]
    return {
        "queues": {car: server.queue(car) for car in CARS},
        "version": files["version"],
        "rates": setup["rates"],
        "trusted": files["trusted"],
        "setup": setup,
        "entries": {entry["id"]: entry for entry in server.entries()},
    }


def holds_all(page: Page, server: Server) -> bool:
    held = stored(page, "entries")
    # In the place of what only managers see stands that there is one.
    return len(held) == len(server.entries()) and all(one["sending"] in ("sent", "withheld") for one in held)


@pytest.mark.longer
def test_two_phones_bring_a_lost_server_back_to_the_same_queues(
    signed_server: Server, phone: Callable[..., PocketPhone], picture: Path
) -> None:
    server = signed_server
    # The server is away only while nobody opens a screen.
    toma, vera = (phone(name, keeps_app=False) for name in ("toma", "vera"))
    toma.join(server, "p-toma")
    vera.join(server, "p-vera")
    # A mechanic and an inspector share the manager's phone; neither joins again afterwards.
    also_joins(vera, server.link("p-bodo"), "Bodo")
    also_joins(vera, server.link("p-odil"), "Odil")

    a_hit_with_a_photo(toma.page, picture)
    wait_until(toma.page, lambda: len(server.entries("41", "report.amended")) > 0)
    change_to(vera.page, "Bodo")
    finish(vera.page, "front-left/wheel")
    change_to(vera.page, "Odil")
    sign_a_look(vera.page, "front-right/brake-hose")
    change_to(vera.page, "Vera")
    wait_until(vera.page, lambda: signed_by(server, "p-bodo") == signed_by(server, "p-odil") == 1)
    assert server.get("/set-aside", server.manager) == []

    path = photo_path(server)
    wait_until(toma.page, lambda: digest_on(server, path) is not None)
    for each in (toma, vera):
        wait_until(each.page, lambda each=each: holds_all(each.page, server))
    wait_until(vera.page, lambda: any(one["key"].startswith("files ") for one in stored(vera.page, "answers")))
    before = state_of(server)
    assert before["queues"]["41"]["hash"] != before["queues"]["42"]["hash"]

    server.stop()
    shutil.rmtree(server.data)
    del server.manager  # its token is of the lost server
    server.start()

    # The other comes first: what it brings waits at the server for keys and set-up, and counts by itself then.
    toma.page.goto(invited(server, "p-toma"))
    wait_until(toma.page, lambda: len(server.entries()) == 0 and waiting_aside(server) > 0)
    vera.page.goto(invited(server, "p-vera"))
    wait_until(vera.page, lambda: len(server.entries()) == len(before["entries"]))
    wait_until(toma.page, lambda: holds_all(toma.page, server))
    wait_until(vera.page, lambda: holds_all(vera.page, server))

    after = state_of(server)
    assert after["entries"] == before["entries"], "each entry as it was, signature included"
    for what in ("queues", "version", "rates", "trusted", "setup"):
        assert after[what] == before[what], what
    assert [one for one in server.get("/set-aside", server.manager) if one["verdict"] != "accepted"] == []
    wait_until(toma.page, lambda: digest_on(server, path) == path.rsplit("/", 1)[1])
    for each in (toma, vera):
        each.page.evaluate("() => { location.hash = '#/me'; }")
        each.page.get_by_text("Nothing refused").wait_for()
        each.page.get_by_text("Nothing waiting to be sent").wait_for()


def signed_by(server: Server, person: str) -> int:
    return len([one for one in server.entries("41") if one["person"] == person and "sig" in one])


def photo_path(server: Server) -> str:
    [amended] = [one for one in server.entries("41", "report.amended") if "sig" in one]
    return f"/photos/{amended['data']['photos'][0]}"


def digest_on(server: Server, path: str) -> str | None:
    """Return the SHA-256 of a photo as the server gives it, None where it has none."""
    try:
        return hashlib.sha256(server.call("GET", path, server.manager)).hexdigest()
    except HTTPError:
        return None


def waiting_aside(server: Server) -> int:
    with urlopen(f"{server.url}/api/v1/health", timeout=30) as answer:
        return json.load(answer)["waiting_review"]

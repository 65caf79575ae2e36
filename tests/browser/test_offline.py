"""One hit from the phone to the queue: offline, killed, reopened, sent once, with its photo."""

import hashlib
import json
import urllib.request
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from engines import Firefox
from phones import SIZE, Phone, PocketPhone, wait_until
from playwright.sync_api import Page, Playwright
from server import EVENT, Server


def log_a_bent_wheel(page: Page, picture: Path | None = None) -> None:
    page.get_by_role("button", name="Front left").first.click()
    page.get_by_label("Wheel rim", exact=True).check()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()
    if picture is not None:
        page.locator("input[type=file]").first.set_input_files(picture)
        page.locator(".kept img").first.wait_for()


def reports(server: Server) -> list[dict]:
    return server.entries(kind="report.filed")


@pytest.mark.main_job
def test_a_hit_logged_offline_survives_a_killed_browser_and_arrives_once(
    empty_server: Server, phone: Callable[[str], PocketPhone], picture: Path
) -> None:
    toma = phone("toma")
    page = toma.join(empty_server, "p-toma")
    empty_server.stop()
    log_a_bent_wheel(page, picture)
    page.reload()
    page.get_by_role("heading", level=1).first.wait_for()
    toma.kill()

    toma.open()
    toma.page.goto(f"{empty_server.url}/#/reports")
    toma.page.get_by_text("Waiting").first.wait_for()

    empty_server.start()
    wait_until(toma.page, lambda: len(empty_server.entries(kind="report.amended")) == 1)
    assert all(entry["sig"] for entry in empty_server.entries())
    amended = empty_server.entries(kind="report.amended")[0]["data"]
    assert amended["replaces"] == [reports(empty_server)[0]["id"]], "the photo came after the save"
    photo = amended["photos"][0]
    token = empty_server.token("p-bodo")
    wait_until(toma.page, lambda: photo_on(empty_server, photo, token) is not None)
    data = photo_on(empty_server, photo, token)
    assert data is not None
    assert hashlib.sha256(data).hexdigest() == photo
    assert b"Exif" not in data[:64], "EXIF, and GPS with it, stays on the phone"

    queue = empty_server.get(f"/events/{EVENT}/cars/41/queue", token)
    assert [job["job"] for job in queue["jobs"] if not job["knock_on"]] == ["front-left/wheel"]
    assert queue["release"] == "hold", "a bent wheel makes the crew look at hose and steering"
    assert queue["jobs"][0]["two_versions"] is False
    wheel = next(job for job in queue["jobs"] if job["job"] == "front-left/wheel")
    assert wheel["photos"] == [photo]
    toma.page.get_by_text("Sent").first.wait_for()
    assert len(reports(empty_server)) == 1


@pytest.mark.main_job
@pytest.mark.only_in("firefox", "Chromium answers by itself whether the store may be kept for good")
def test_joining_does_not_wait_until_somebody_allows_lasting_storage(
    empty_server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    asking = Firefox(is_answered=False)
    with closing(Phone(asking.open(playwright, tmp_path / "profile", viewport=SIZE, headless=True))) as toma:
        page = toma.join(empty_server, "p-toma")
        log_a_bent_wheel(page)
        wait_until(page, lambda: len(reports(empty_server)) == 1)
        assert toma.complaints == []


def test_a_photo_may_come_first_and_goes_out_with_the_report(
    empty_server: Server, phone: Callable[[str], PocketPhone], picture: Path
) -> None:
    toma = phone("toma")
    page = toma.join(empty_server, "p-toma")
    page.get_by_label("Photo first").set_input_files(picture)
    page.get_by_text("1 photo is kept. Tap where it was hit.").wait_for()
    page.get_by_role("button", name="Front left").first.click()
    page.locator(".log-form img").wait_for()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()
    wait_until(page, lambda: len(reports(empty_server)) == 1)
    [photo] = reports(empty_server)[0]["data"]["photos"]
    token = empty_server.token("p-bodo")
    wait_until(page, lambda: photo_on(empty_server, photo, token) is not None)


def photo_on(server: Server, photo: str, token: str) -> bytes | None:
    request = urllib.request.Request(
        f"{server.url}/api/v1/photos/{photo}", headers={"Authorization": f"Bearer {token}"}
    )
    try:
        with urllib.request.urlopen(request, timeout=120) as answer:
            return answer.read()
    except OSError:
        return None


@pytest.mark.keeps_app
def test_with_the_network_off_the_app_opens_saves_and_sends_later(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    toma = new_phone()
    page = toma.join(empty_server, "p-toma")
    toma.context.set_offline(True)
    page.reload()
    log_a_bent_wheel(page)
    other = toma.context.new_page()
    other.goto(f"{empty_server.url}/#/reports")
    other.get_by_text("Waiting").first.wait_for()
    assert reports(empty_server) == []
    toma.context.set_offline(False)
    wait_until(page, lambda: len(reports(empty_server)) == 1)


def test_two_tabs_send_a_report_once(empty_server: Server, new_phone: Callable[[], Phone]) -> None:
    toma = new_phone()
    first = toma.join(empty_server, "p-toma")
    second = toma.context.new_page()
    second.goto(f"{empty_server.url}/#/log")
    second.get_by_role("heading", level=1).first.wait_for()
    log_a_bent_wheel(first)
    log_a_bent_wheel(second)
    wait_until(first, lambda: len(reports(empty_server)) == 2)
    first.wait_for_timeout(1500)
    sent = empty_server.entries()
    assert len({entry["id"] for entry in sent}) == len(sent) == 2
    assert sorted(entry["seq"] for entry in sent) == [1, 2]


def test_nothing_seen_and_in_service_reach_the_server(empty_server: Server, new_phone: Callable[[], Phone]) -> None:
    toma = new_phone()
    page = toma.join(empty_server, "p-toma")
    page.get_by_role("button", name="Nothing seen, walked round").click()
    page.get_by_text("Saved: nothing seen on SS1").wait_for()
    toma.show("service")
    page.get_by_role("button", name="We are in").first.click()
    wait_until(page, lambda: len(empty_server.entries()) == 2)
    kinds = {entry["kind"]: entry["data"] for entry in empty_server.entries()}
    assert kinds["stage.nothing_seen"] == {"stage": "SS1", "how": "walked-round"}
    assert kinds["service.entered"]["service"] == "A"


def test_a_report_amended_and_withdrawn_stays_one_report_with_its_history(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    toma = new_phone()
    page = toma.join(empty_server, "p-toma")
    log_a_bent_wheel(page)
    wait_until(page, lambda: len(reports(empty_server)) == 1)
    toma.show("reports")
    page.locator(".reports .ui-row").first.click()
    page.get_by_role("button", name="Withdraw").first.click()
    page.get_by_label("Reason").fill("wrong car")
    page.get_by_role("button", name="Withdraw").last.click()
    wait_until(page, lambda: len(empty_server.entries()) == 2)
    filed, withdrawn = empty_server.entries()
    assert withdrawn["kind"] == "report.withdrawn"
    assert (withdrawn["subject"], withdrawn["data"]["replaces"]) == (filed["id"], [filed["id"]])
    queue = empty_server.get(f"/events/{EVENT}/cars/41/queue", empty_server.token("p-bodo"))
    assert queue["jobs"] == [], json.dumps(queue["jobs"])

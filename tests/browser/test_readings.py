"""Readings at a service: what is touched is saved, a falling brake reservoir opens a brake job, wear against km."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from looking import axe_finds, promises, small_targets, too_wide
from phones import Phone, wait_until
from playwright.sync_api import Locator, Page, ViewportSize, expect
from server import Server, running, without_entries

from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import Store

NARROW: ViewportSize = {"width": 360, "height": 740}
SECONDS_MOST = 30.0

# Keystroke-level model: Card, Moran, Newell, "The keystroke-level model for user performance time with interactive
# systems", CACM 23(7), 1980; operators from memory: think 1.35 s, point 1.1 s, press 0.28 s (who types little).
THINK_S, POINT_S, PRESS_S = 1.35, 1.1, 0.28


class Thumb:
    """Taps, and counts what the taps cost."""

    def __init__(self) -> None:
        self.seconds = 0.0
        self.taps = 0

    def tap(self, target: Locator, times: int = 1) -> None:
        """One thought and one movement to a new target, a press for each tap on it."""
        for _ in range(times):
            target.click()
        self.seconds += THINK_S + POINT_S + times * PRESS_S
        self.taps += times

    def scroll(self) -> None:
        self.seconds += POINT_S


def step(page: Page, what: str, by: str) -> Locator:
    return page.get_by_role("button", name=f"{what}: {by}", exact=True)


def brake(page: Page, level: str) -> Locator:
    return page.get_by_role("region", name="Brake reservoir").get_by_label(level, exact=True)


def save(page: Page, count: int) -> Locator:
    return page.get_by_role("button", name="Save 1 reading" if count == 1 else f"Save {count} readings", exact=True)


def saved(page: Page, count: int) -> None:
    page.get_by_text("1 reading saved." if count == 1 else f"{count} readings saved.").wait_for()


CORNERS = ("Front left", "Front right", "Rear left", "Rear right")


def first_readings(page: Page) -> None:
    """The first tap on a stepper shows where it starts: 2.00 bar, 10.0 mm, 90 °C."""
    brake(page, "Full").check()
    for corner in CORNERS:
        step(page, f"Tyre pressure, {corner}", "+0.1").click()
        step(page, f"Brake pads, {corner}", "+1").click()
    step(page, "Peak water temperature", "+1").click()
    save(page, 10).click()
    saved(page, 10)


def drive(phone: Phone, stages: int) -> None:
    """Nothing was seen on so many stages: said on the screen between two turns, which waits for no itinerary."""
    for _ in range(stages):
        page = phone.show("turn")
        page.get_by_label("As before").first.wait_for()
        for place in page.get_by_label("As before").all():
            place.check()
        page.get_by_role("button", name="Save: nothing new on").click()
        page.get_by_text("Saved: nothing seen on").wait_for()
        page.get_by_role("heading", name="Log a hit").wait_for()


@pytest.mark.longer
@pytest.mark.keeps_app
def test_what_is_touched_is_saved_and_a_usual_service_takes_less_than_half_a_minute(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    """Four pressures as they were, four pads, the reservoirs, one temperature."""
    bodo = new_phone()
    page = bodo.join(empty_server, "p-bodo")
    bodo.context.set_offline(True)
    bodo.show("readings")
    first_readings(page)
    page.reload()
    page.get_by_text("last 10.0").first.wait_for()

    thumb = Thumb()
    thumb.tap(brake(page, "Full"))
    thumb.tap(page.get_by_role("button", name="Tyre pressure: all as last time"))
    thumb.scroll()
    for corner in CORNERS:
        thumb.tap(step(page, f"Brake pads, {corner}", "−0.5"))
    thumb.scroll()
    thumb.tap(step(page, "Peak water temperature", "+1"), times=3)
    thumb.tap(save(page, 10))
    saved(page, 10)
    assert thumb.taps == 10
    assert thumb.seconds < SECONDS_MOST, thumb.seconds

    bodo.context.set_offline(False)
    wait_until(page, lambda: len(empty_server.entries("41", "reading.taken")) == 20)
    assert {one["kind"] for one in empty_server.entries("41")} == {"reading.taken"}, "readings alone open nothing"
    last = [one["data"] for one in empty_server.entries("41", "reading.taken")][10:]
    assert {"reading": "brake reservoir", "value": "full", "place": "engine-bay"} in last
    assert {"reading": "tyre pressure", "value": 2, "unit": "bar", "place": "front-left"} in last
    assert {"reading": "brake pad", "value": 9.5, "unit": "mm", "place": "rear-right"} in last
    assert {"reading": "peak water temperature", "value": 93, "unit": "°C"} in last


@pytest.mark.longer
def test_a_falling_brake_reservoir_says_so_and_opens_a_brake_job(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    bodo = new_phone()
    page = bodo.join(empty_server, "p-bodo")
    bodo.show("readings")
    brake(page, "Full").check()
    save(page, 1).click()
    saved(page, 1)
    brake(page, "Low").check()
    page.get_by_text("The brake reservoir fell. Saving also reports the brakes").wait_for()
    page.get_by_role("button", name="Undo the last tap").click()
    page.get_by_text("The brake reservoir fell").wait_for(state="detached")
    brake(page, "Low").check()
    save(page, 1).click()
    page.get_by_role("link", name="See the queue").wait_for()
    wait_until(page, lambda: len(empty_server.entries("41")) == 3)
    [report] = empty_server.entries("41", "report.filed")
    assert report["data"]["zone"] == "engine-bay"
    assert report["data"]["findings"] == [{"component": "master-cylinders-and-reservoir", "condition": "unknown"}]
    assert "fell from full to low" in report["data"]["note"]
    job = empty_server.job("41", "engine-bay/master-cylinders-and-reservoir")
    assert (job["safety_critical"], job["inspection"]) == (True, "needed")
    assert empty_server.queue("41")["release"] == "hold"
    brake(page, "Low").check()
    save(page, 1).click()
    wait_until(page, lambda: len(empty_server.entries("41", "reading.taken")) == 3)
    assert len(empty_server.entries("41", "report.filed")) == 1, "as low as before is no new fall"


@pytest.mark.longer
def test_wear_goes_by_stage_km_and_a_jump_leads_to_the_log(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    """By hand: SS1 to SS3 of the sample are 9.4 + 14.2 + 12.75 = 36.35 km; 1 mm in that is 2.8 mm in 100 km,
    and from 9 mm to the limit of 3 mm it is 6 / 1 * 36.35 = 218 km. After SS4 (9.4 km) 4 mm less are no wear."""
    bodo = new_phone()
    page = bodo.join(empty_server, "p-bodo")
    bodo.show("readings")
    first_readings(page)
    drive(bodo, 3)
    bodo.show("readings")
    for corner in CORNERS:
        step(page, f"Brake pads, {corner}", "−1").click()
    save(page, 4).click()
    saved(page, 4)
    row = page.get_by_role("region", name="Wear of brake pads").get_by_role("row", name="Front left")
    row.wait_for()
    expect(row.locator("td")).to_have_text(["9.0", "2.8", "218"])
    drive(bodo, 1)
    bodo.show("readings")
    step(page, "Brake pads, Front left", "−1").click(click_count=4)
    save(page, 1).click()
    page.get_by_text("4.0 mm in 9 stage km. Looks like damage, not wear.").wait_for()
    looks_right(page)
    page.get_by_role("button", name="Front left, brake pads: log it").click()
    page.get_by_role("heading", name="Front left corner").wait_for()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text("Kept on this phone").wait_for()
    wait_until(page, lambda: len(empty_server.entries("41", "report.filed")) == 1)
    [report] = empty_server.entries("41", "report.filed")
    assert report["data"]["findings"] == [{"component": "brake-pads", "condition": "unknown"}]
    assert "4.0 mm in 9 stage km" in report["data"]["note"]


def looks_right(page: Page) -> None:
    page.set_viewport_size(NARROW)
    page.emulate_media(reduced_motion="reduce")
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
    assert axe_finds(page) == []
    assert small_targets(page) == []
    assert too_wide(page) == []
    assert promises(page) == []


@pytest.mark.longer
def test_readings_can_be_taken_by_keyboard_and_look_right(empty_server: Server, new_phone: Callable[[], Phone]) -> None:
    bodo = new_phone()
    page = bodo.join(empty_server, "p-bodo")
    bodo.show("readings")
    looks_right(page)
    brake(page, "Full").focus()
    page.keyboard.press("Space")
    step(page, "Brake pads, Front left", "+1").focus()
    page.keyboard.press("Enter")
    looks_right(page)
    save(page, 2).focus()
    page.keyboard.press("Enter")
    saved(page, 2)
    wait_until(page, lambda: len(empty_server.entries("41", "reading.taken")) == 2)
    assert bodo.complaints == []


@pytest.fixture
def dated_server(tmp_path: Path) -> Iterator[Server]:
    """The sample event with things on car 41 that run out, and a seal."""
    today = datetime.now(UTC).date()
    server = without_entries(tmp_path / "data", tmp_path / "event", [])
    items = [
        ("Harness of the driver", today - timedelta(days=3), ""),
        ("Bottle of the driver", today + timedelta(days=20), ""),
    ]
    text = "".join(
        f'[[dated]]\ncar = "41"\nitem = "{item}"\nexpires = {day}\nseal = "{seal}"\n\n' for item, day, seal in items
    )
    text += '[[dated]]\ncar = "41"\nitem = "Turbo"\nseal = "K-118"\n\n'
    event = tmp_path / "event" / "event.toml"
    event.write_text(event.read_text().replace("[[people]]", text + "[[people]]", 1))
    load(Store(tmp_path / "data"), tmp_path / "event", now())
    yield from running(server)


@pytest.mark.longer
def test_what_has_run_out_is_said_where_one_looks(dated_server: Server, new_phone: Callable[[], Phone]) -> None:
    vera = new_phone()
    page = vera.join(dated_server, "p-vera")
    for screen in ("readings", "service"):
        vera.show(screen)
        line(page, "Harness of the driver").get_by_text("Ran out on").wait_for()
        line(page, "Bottle of the driver").get_by_text("within 30 days").wait_for()
        expect(page.get_by_text("K-118")).to_have_count(0)
    vera.show("walk")
    page.get_by_text("Seal K-118: call the scrutineer before it is opened.").wait_for()
    line(page, "Harness of the driver").get_by_text("Ran out on").wait_for()
    assert promises(page) == []


def line(page: Page, item: str) -> Locator:
    return page.get_by_role("listitem").filter(has_text=item)

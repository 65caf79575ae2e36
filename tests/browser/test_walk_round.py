"""The hand-over walk on a phone with no network: kept from the first tap, signed, on paper at once, sent later."""

import io
import json
import re
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from downloads import save
from looking import axe_finds, promises, small_targets, too_wide
from phones import Phone, stored, wait_until
from PIL import Image, ImageDraw
from playwright.sync_api import Page, ViewportSize, expect
from pypdf import PdfReader
from server import EVENT, Server
from test_offline import photo_on

from pdfua_checked import pdfua_finds
from shuntbook.flow.bundle_export import export_bundle
from shuntbook.flow.clock import now
from shuntbook.store.database import Store

VIEWS = 18
NARROW: ViewportSize = {"width": 360, "height": 740}
A4_PT = (595.28, 841.89)
"""210 × 297 mm (ISO 216) in points of 1/72 inch."""
LETTER_PT = (612, 792)
"""8.5 × 11 inch."""


@pytest.fixture(scope="module")
def shots(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """A picture for each view, all different, as a phone's camera gives them."""
    folder = tmp_path_factory.mktemp("shots")
    return [shot(folder / f"{number}.jpg", number) for number in range(2 * VIEWS)]


def shot(path: Path, number: int) -> Path:
    image = Image.new("RGB", (1600, 1200), (40 + 5 * number, 90, 120))
    ImageDraw.Draw(image).rectangle((100 + 15 * number, 200, 700, 900), fill=(200, 180 - 4 * number, 60))
    image.save(path, "JPEG", quality=85)
    return path


def take_all(page: Page, shots: list[Path]) -> None:
    """Take every view in the order in which the walk asks for it."""
    for place, one in enumerate(shots, start=1):
        page.get_by_text(f"Photo {place} of {VIEWS}", exact=True).wait_for()
        page.locator(".walk-take input").set_input_files(one)
        if place < VIEWS:
            page.get_by_text(f"Photo {place + 1} of {VIEWS}", exact=True).wait_for()
    page.get_by_text("All photos are taken or left out.").wait_for()


def tap(page: Page, name: str) -> None:
    page.get_by_role("button", name=name).first.click()


def step_to(page: Page, name: str) -> None:
    page.get_by_role("navigation", name="Steps of the walk").get_by_role("button", name=name).click()
    page.locator(f".walk-steps [aria-current=step]:has-text('{name}')").wait_for()


def mark(page: Page, zone: str, part: str, condition: str) -> None:
    page.get_by_role("button", name=zone).first.click()
    page.get_by_role("heading", name=f"{zone}: what is marked?").wait_for()
    more = page.get_by_role("button", name="More parts")
    if more.count():
        more.click()
    page.get_by_label(part, exact=True).check()
    page.get_by_role("group", name=f"{part}: how bad?").get_by_label(condition, exact=True).check()


def keep_mark(page: Page) -> None:
    tap(page, "Keep it, next place")
    page.get_by_role("button", name="Front left").first.wait_for()


def draw(page: Page, place: int) -> None:
    """Sign with a finger: two strokes."""
    field = page.locator("svg.signature").nth(place)
    field.scroll_into_view_if_needed()
    box = field.bounding_box()
    assert box is not None
    for start in (0.2, 0.5):
        page.mouse.move(box["x"] + box["width"] * start, box["y"] + box["height"] * 0.3)
        page.mouse.down()
        for step in range(1, 9):
            wave = 0.3 + 0.05 * step * (1 if step % 2 else -0.4)
            page.mouse.move(box["x"] + box["width"] * (start + 0.03 * step), box["y"] + box["height"] * wave)
        page.mouse.up()
    page.get_by_role("button", name="Wipe it away").nth(place).wait_for()


def signed(server: Server, car: str = "42") -> list[dict]:
    return server.entries(car, "handover.signed")


def paper(page: Page, size: str = "A4") -> PdfReader:
    """The usual size is made at once; the other one is asked for."""
    link = page.get_by_role("link", name=re.compile("^Save (hand-over|return)-car"))
    link.wait_for(timeout=60_000)
    if size != "A4":
        first = link.get_attribute("href")
        tap(page, f"Make the PDF, {size}")
        page.wait_for_function("old => (document.querySelector('a[download]')?.href ?? old) !== old", arg=first)
    made = save(page, link.click).data
    assert pdfua_finds(made) == []
    return PdfReader(io.BytesIO(made))


@pytest.mark.longer
@pytest.mark.keeps_app
def test_a_walk_with_no_network_is_kept_signed_on_paper_at_once_and_sent_later(
    server: Server, new_phone: Callable[[], Phone], shots: list[Path]
) -> None:
    vera = new_phone()
    page = vera.join(server, "p-vera", "42")
    before = {one["id"] for one in signed(server)}
    # What makes papers follows in the background once the app is ready.
    vera.show("me").get_by_text("Papers and workbooks work without signal, too").wait_for()
    vera.show("walk")
    vera.context.set_offline(True)
    page.reload()
    tap(page, "Hand the car over")

    take_all(page, shots[:VIEWS])
    step_to(page, "Marks")
    mark(page, "Left side", "Sill", "Marked")
    page.locator("input[type=file]").set_input_files(shots[0])
    page.get_by_role("button", name="Show photo 1 of 1").wait_for()
    keep_mark(page)

    page.reload()  # in the middle: nothing may be lost
    page.get_by_role("heading", name="Hand-over under way").wait_for()
    page.get_by_text("Left side: Sill marked").wait_for()
    page.get_by_role("button", name=f"Photos, {VIEWS} of {VIEWS}").wait_for()
    mark(page, "Front right corner", "Brake hose", "Marked")
    keep_mark(page)
    tap(page, "Remove: Front right corner: Brake hose marked")
    page.get_by_text("Front right corner: Brake hose marked").wait_for(state="detached")
    tap(page, "Undo: remove Front right corner")
    page.get_by_text("Front right corner: Brake hose marked").wait_for()

    step_to(page, "Figures")
    page.get_by_label("Odometer, km").press_sequentially("18 342")  # as typed, it is kept when it is left
    page.get_by_label("3/4", exact=True).check()
    page.get_by_role("button", name="Tyre tread, mm, Front left: +0.5", exact=True).click()
    page.get_by_role("button", name="Brake pads, mm, Rear right: −0.5", exact=True).click(click_count=2)
    page.get_by_role("group", name="Brake fluid").get_by_label("Full", exact=True).check()
    step_to(page, "Kit")
    page.get_by_role("group", name="Tow rope").get_by_label("Missing").check()
    page.get_by_label("Something else").fill("Spare gloves, größe L")
    tap(page, "Add it")
    tap(page, "All the rest is aboard")
    step_to(page, "Sign")
    page.get_by_role("region", name="For the customer").get_by_role("textbox", name="Name").fill("Zoë Ångström")
    draw(page, 0)
    draw(page, 1)
    tap(page, "Sign")
    page.get_by_role("button", name="Sign", exact=True).last.click()
    page.get_by_role("heading", name="Signed").wait_for()
    assert signed(server) == [one for one in signed(server) if one["id"] in before], "no network, so nothing was sent"

    read = paper(page)
    is_the_paper_of_the_walk(read, A4_PT)
    is_the_paper_of_the_walk(paper(page, "Letter"), LETTER_PT)

    vera.context.set_offline(False)
    wait_until(page, lambda: len(signed(server)) == len(before) + 1)
    [walk] = [one["data"] for one in signed(server) if one["id"] not in before]
    assert walk["walk"] == "out"
    assert len([one for one in walk["photos"] if one.get("photo")]) == VIEWS
    assert len({one["photo"] for one in walk["photos"]}) == VIEWS
    assert walk["odometer_km"] == 18342
    assert walk["fuel_percent"] == 75
    assert {"item": "Tow rope", "aboard": False} in walk["kit"]
    assert [(one["side"], one["name"], one["how"]) for one in walk["signed"]] == [
        ("team", "Vera", "on-screen"),
        ("customer", "Zoë Ångström", "on-screen"),
    ]
    marks = {one["id"]: one["data"] for one in server.entries("42", "report.filed") if one["id"] in walk["marks"]}
    assert sorted((one["zone"], one["where"]) for one in marks.values()) == [
        ("front-right", "hand-over"),
        ("left-side", "hand-over"),
    ]
    photos = [one["photo"] for one in walk["photos"] + walk["signed"]] + marks[walk["marks"][0]]["photos"]
    token = server.token("p-bodo")
    for photo in photos:
        wait_until(page, lambda photo=photo: photo_on(server, photo, token) is not None)
    jobs = {job["job"]: job for job in server.queue("42")["jobs"]}
    assert "left-side/sill" not in jobs or walk["marks"][0] not in jobs["left-side/sill"]["findings"]
    hose = [one for one in walk["marks"] if marks[one]["zone"] == "front-right"]
    assert hose[0] in jobs["front-right/brake-hose"]["findings"], "a safety finding holds, however old"


def is_the_paper_of_the_walk(read: PdfReader, size: tuple[float, float]) -> None:
    for number, page in enumerate(read.pages, start=1):
        assert (round(page.mediabox.width, 1), round(page.mediabox.height, 1)) == pytest.approx(size, abs=0.2)
        assert f"Page {number} of {len(read.pages)}" in page.extract_text()
    text = " ".join(" ".join(page.extract_text() for page in read.pages).split())
    for said in (
        "Hand-over of a car",
        "The agreement comes first where the two differ",
        "Left side",
        "Sill: marked",
        "Brake hose: marked",
        "18,342 km",
        "75 %",
        "Tow rope",
        "Spare gloves, größe L",
        "For the customer: Zoë Ångström. Signed on the screen",
        "1. Front",
        "18. Boot and what lies in it",
    ):
        assert said in text, said
    catalog: Any = read.trailer["/Root"]
    assert catalog["/MarkInfo"]["/Marked"]
    assert catalog["/Lang"] == "en"
    assert catalog["/StructTreeRoot"]["/K"]
    assert all(embedded(font) for font in fonts(read)), "every font is in the file"
    assert sum(len(page.images) for page in read.pages) == VIEWS + 2 + 1


def fonts(read: PdfReader) -> list[dict]:
    resources: list[Any] = [page["/Resources"] for page in read.pages]
    found = [one.get("/Font", {}) for one in resources]
    each = [one.get_object() for page in found for one in page.get_object().values()]
    assert each
    return each


def embedded(font: dict) -> bool:
    inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
    return "/FontFile2" in inner["/FontDescriptor"].get_object()


@pytest.mark.longer
@pytest.mark.keeps_app
def test_a_return_shows_pairs_and_new_marks_are_damage_even_where_nobody_of_the_customer_is_there(
    server: Server, new_phone: Callable[[], Phone], shots: list[Path]
) -> None:
    vera = new_phone()
    page = vera.join(server, "p-vera", "42")
    vera.show("walk")
    tap(page, "Hand the car over")
    take_all(page, shots[:VIEWS])
    step_to(page, "Marks")
    mark(page, "Left side", "Sill", "Marked")
    keep_mark(page)
    step_to(page, "Sign")
    page.get_by_role("region", name="For the customer").get_by_role("textbox", name="Name").fill("Kiri Oda")
    page.get_by_role("button", name="Sign", exact=True).last.click()
    page.get_by_role("heading", name="Signed").wait_for()
    walks = len(signed(server))
    wait_until(page, lambda: len(signed(server)) > 0)
    wait_until(page, lambda: photo_on(server, shown_photo(server), server.manager) is not None)

    other = new_phone()
    page = other.join(server, "p-bodo", "42")
    other.show("walk")
    page.get_by_text("Handed over").wait_for()
    tap(page, "Take the car back")
    page.get_by_role("heading", name="Return under way").wait_for()
    page.locator("img[alt='Front: At the hand-over']").wait_for()
    wait_until(page, lambda: len(stored(page, "photos")) >= VIEWS)
    other.context.set_offline(True)
    page.reload()  # in a yard with no signal, on a phone that did not take them
    page.locator("img[alt='Front: At the hand-over']").wait_for()
    other.context.set_offline(False)
    page.locator(".walk-take input").set_input_files(shots[VIEWS])
    page.get_by_role("heading", name="Front right, from the corner").wait_for()
    page.get_by_text("All views").click()
    tap(page, "1. Front")
    page.locator("img[alt='Front: Now']").wait_for()
    expect(page.locator(".walk-pair img")).to_have_count(2)
    step_to(page, "Marks")
    page.get_by_role("heading", name="Was there at the hand-over").wait_for()
    page.get_by_text("Left side: Sill marked").wait_for()
    mark(page, "Front left corner", "Wheel rim", "Bent")
    keep_mark(page)
    step_to(page, "Sign")
    page.get_by_text("Damage hidden under dirt").wait_for()
    page.get_by_role("region", name="17 photos are missing: why?").get_by_role("button", name="No time").click()
    page.get_by_role("region", name="For the customer").get_by_role("textbox", name="Name").fill("Kiri Oda")
    page.get_by_label("Is not present").check()
    page.get_by_role("button", name="Sign", exact=True).last.click(force=True)
    page.get_by_text("The second name for the team is missing.").wait_for()
    page.get_by_role("region", name="Second of the team").get_by_role("textbox", name="Name").fill("Anni")
    page.get_by_role("button", name="Sign", exact=True).last.click()
    page.get_by_role("heading", name="Signed").wait_for()
    text = " ".join(" ".join(one.extract_text() for one in paper(page).pages).split())
    assert "Return of a car" in text
    assert "Marks that were there at the hand-over" in text
    assert "1. Front: At the hand-over" in text
    assert "1. Front: Now" in text
    assert "is reserved" in text

    wait_until(page, lambda: len(signed(server)) > walks)
    walk = signed(server)[-1]["data"]
    assert walk["walk"] == "return"
    assert [(one["side"], one["how"]) for one in walk["signed"]] == [
        ("team", "on-screen"),
        ("customer", "not-present"),
        ("team", "on-screen"),
    ]
    [new] = [one for one in server.entries("42", "report.filed") if one["id"] in walk["marks"]]
    assert new["data"]["where"] == "workshop"
    assert new["id"] in server.job("42", "front-left/wheel")["findings"]


def shown_photo(server: Server) -> str:
    return signed(server)[-1]["data"]["photos"][-1]["photo"]


@pytest.mark.longer
def test_every_step_of_the_walk_is_as_screens_should_be(server: Server, new_phone: Callable[[], Phone]) -> None:
    vera = new_phone()
    page = vera.join(server, "p-vera", "42")
    page.set_viewport_size(NARROW)
    page.emulate_media(reduced_motion="reduce")
    vera.show("walk")
    looks_right(page)
    tap(page, "Hand the car over")
    page.get_by_text("All views").click()
    tap(page, "Leave it out")
    looks_right(page)
    step_to(page, "Marks")
    looks_right(page)
    mark(page, "Rear left corner", "Tyre", "Marked")
    looks_right(page)
    keep_mark(page)
    looks_right(page)
    for name in ("Figures", "Kit", "Sign"):
        step_to(page, name)
        looks_right(page)
    page.get_by_label("Will not sign").check()
    page.get_by_role("heading", name="Second of the team").wait_for()
    looks_right(page)
    assert vera.complaints == []


def looks_right(page: Page) -> None:
    assert axe_finds(page) == []
    assert small_targets(page) == []
    assert too_wide(page) == []
    assert promises(page) == []


@pytest.mark.longer
def test_a_walk_can_be_gone_and_signed_by_keyboard_alone(server: Server, new_phone: Callable[[], Phone]) -> None:
    """Tab, Space, Enter and letters; the camera's own button apart, each view is left out for a reason."""
    vera = new_phone()
    page = vera.join(server, "p-vera", "41")
    before = len(signed(server, "41"))
    vera.show("walk")
    page.get_by_role("button", name="Hand the car over").focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Hand-over under way").wait_for()
    has_focus(page, "Photos")
    reach(page, "Marks, 0", back=True)
    page.keyboard.press("Enter")
    has_focus(page, "Existing marks")
    reach(page, "Rear left")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Rear left corner: what is marked?").wait_for()
    reach(page, "Keep it, next place")
    page.keyboard.press("Space")
    page.get_by_role("button", name="Remove: Rear left corner").wait_for()
    has_focus(page, "Tap each place with a mark.")
    reach(page, "Sign", back=True)
    page.keyboard.press("Space")
    page.get_by_role("region", name="18 photos are missing: why?").wait_for()
    reach(page, "No time")
    page.keyboard.press("Space")
    page.get_by_role("region", name="18 photos are missing").wait_for(state="detached")
    page.get_by_role("region", name="For the customer").get_by_role("textbox", name="Name").focus()
    page.keyboard.type("Kiri Oda")
    page.keyboard.press("Tab")
    page.get_by_role("button", name="Sign", exact=True).last.focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Signed").wait_for()
    wait_until(page, lambda: len(signed(server, "41")) == before + 1)
    walk = signed(server, "41")[-1]["data"]
    assert [one["why_none"] for one in walk["photos"]] == ["No time"] * VIEWS
    assert all(one.get("photo") is None for one in walk["signed"]), json.dumps(walk["signed"])


def has_focus(page: Page, text: str) -> None:
    """Wait until what begins so has the focus: what was pressed is gone, and a person must not start from the top."""
    page.wait_for_function("text => document.activeElement.textContent.startsWith(text)", arg=text)


def reach(page: Page, name: str, *, back: bool = False) -> None:
    """Press Tab, or Shift and Tab, until a button of that name has the focus.

    Not past the page's end: there Firefox goes on to its own bars, where keys are no longer the page's.
    """
    for _ in range(160):
        page.keyboard.press("Shift+Tab" if back else "Tab")
        assert page.evaluate("document.hasFocus()"), f"the page ends before {name!r}"
        at = page.evaluate("document.activeElement.ariaLabel ?? document.activeElement.textContent")
        if at.startswith(name):
            return
    raise AssertionError(f"Tab does not lead to {name!r}")


@pytest.mark.longer
def test_the_event_of_a_walk_can_be_handed_over_as_a_file_with_its_photos(
    server: Server, new_phone: Callable[[], Phone], shots: list[Path]
) -> None:
    """A bundle of the server's own command holds what a walk names."""
    vera = new_phone()
    page = vera.join(server, "p-vera", "42")
    vera.show("walk")
    tap(page, "Hand the car over")
    page.locator(".walk-take input").set_input_files(shots[3])
    page.get_by_role("heading", name="Front right, from the corner").wait_for()
    step_to(page, "Sign")
    page.get_by_role("region", name="17 photos are missing: why?").get_by_role("button", name="No time").click()
    page.get_by_role("region", name="For the customer").get_by_role("textbox", name="Name").fill("Kiri Oda")
    draw(page, 0)
    page.get_by_role("button", name="Sign", exact=True).last.click()
    page.get_by_role("heading", name="Signed").wait_for()
    wait_until(page, lambda: len(signed(server)) > 0)
    walk = signed(server)[-1]["data"]
    photos = [one["photo"] for one in walk["photos"] + walk["signed"] if one.get("photo")]
    assert len(photos) == 2
    for photo in photos:
        wait_until(page, lambda photo=photo: photo_on(server, photo, server.manager) is not None)
    file = server.data.parent / "walk.zip"
    export_bundle(Store(server.data), file, EVENT, now())
    assert {f"photos/{photo}" for photo in photos} <= set(zipfile.ZipFile(file).namelist())

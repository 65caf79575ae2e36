"""A service as it is worked off: the plan, its tasks, a late report, the sheet on paper, the briefing."""

import re
import zlib
from io import BytesIO
from itertools import pairwise

import pytest
from crew import Crew, Member
from looking import axe_finds, promises, small_targets, too_wide
from phones import SIZE, wait_until
from PIL import Image, ImageChops
from playwright.sync_api import Locator, Page, expect
from server import EVENT
from test_first_screenful import in_sight

SAID = re.compile(r"^\d\d:\d\d(–\d\d:\d\d)? .+, .+, (planned|under way|done)$")
LEFT_TO = {True: ("next-service", "Leave it for the next service"), False: ("road", "Leave it to the crew on the road")}
"""What is left to whom, and the button that does it, by whether its part is short."""
A4_PT = (595.28, 841.89)
"""ISO 216: 210 by 297 mm, at 72 to the inch."""


def comes_in(member: Member) -> None:
    """Tap that the car is in the first service, on the phone's own clock."""
    member.at("service")
    member.tap("We are in")
    member.sees("Due out")


def plans(member: Member) -> Page:
    """Have the service planned, and wait until nothing of it is being worked out any more."""
    page = member.at("plan")
    ask = page.get_by_role("button", name="Plan service A")
    lanes = page.get_by_role("heading", name="Everybody")
    ask.or_(lanes).first.wait_for()
    if not lanes.count():
        ask.click()
    lanes.wait_for()
    improving(page).first.wait_for(state="detached", timeout=90_000)
    return page


def improving(page: Page) -> Locator:
    """What says that the plan, or what minutes and hands buy, is not all there yet."""
    return page.get_by_text("Improving …").or_(page.get_by_text("still being calculated"))


def is_as_it_should_be(page: Page) -> None:
    """What holds of every screen, here while a service is on; see test_screens.py."""
    page.emulate_media(reduced_motion="reduce")
    assert promises(page) == []
    assert axe_finds(page) == []
    size = page.viewport_size
    page.set_viewport_size({"width": 320, "height": 640})
    assert too_wide(page) + small_targets(page) == []
    page.set_viewport_size(size or SIZE)


@pytest.mark.longer
def test_a_plan_is_asked_for_and_shown_on_a_clock_for_each_person(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Front left", "Tyre", "Flat")
    toma.logs("Left side", "Mirror", "Broken")
    comes_in(bodo)
    bodo.opens("left-side/mirror")
    page = plans(bodo)
    bodo.sees("Due out")
    bodo.sees("Your next task")
    names = page.locator(".task-lists h2").all_inner_texts()
    assert names[0] == "Bodo (you)", "who uses the phone is first"
    assert set(names) >= {"Anni", "Kasp", "Odil"}
    lanes = page.locator(".lanes .lane")
    assert [one.split("\n")[0] for one in lanes.all_inner_texts()] == [name.split(" ")[0] for name in names]
    board = page.locator(".lanes").bounding_box()
    assert board is not None
    assert board["height"] < SIZE["height"] / 2, "all lanes are in sight at once"
    expect(page.locator(".lanes-over .lanes-moving"), "the car is lifted, and lowered").to_have_count(2)
    said = [link.get_attribute("aria-label") or "" for link in page.locator(".lane-task").all()]
    assert [one for one in said if not SAID.match(one)] == []
    assert any("Replace mirror, left side" in one and "planned" in one for one in said)
    expect(page.locator(".lanes-now"), "one clock for all").to_have_count(1)
    is_as_it_should_be(page)
    lanes.filter(has_text="Odil").click()
    page.locator("#tasks-p-odil:focus").wait_for()
    for lane in lanes.all():
        boxes = [bar.bounding_box() for bar in lane.locator(".lane-bar").all()]
        edges = [(box["x"], box["x"] + box["width"]) for box in boxes if box]
        assert all(end <= start + 1 for (_, end), (start, _) in pairwise(edges)), "nobody is in two places"
    service_and_queue_tell_of_it(bodo, len(names))


def service_and_queue_tell_of_it(member: Member, people: int) -> None:
    """Go where the day is worked by: minutes, the next task and every lane at a glance; who has which job."""
    page = member.at("service")
    in_sight(page, ".service-left", 1)
    in_sight(page, ".ui-card-title", 1)
    in_sight(page, ".everybody-lane", people)
    page = member.at("queue")
    row = page.get_by_role("link", name="Open job: Left side: Mirror")
    expect(row.locator(".ui-row-under")).to_have_text(re.compile("Bodo|Anni|Kasp"))
    expect(page.locator(".queue-fit li").first).to_contain_text(re.compile("must|fit"))
    row.click()
    expect(page.locator(".job-tags")).to_contain_text("planned for")


@pytest.mark.longer
def test_a_task_is_begun_and_ended_by_keyboard_and_the_rest_is_planned_anew(crew: Crew) -> None:
    bodo = crew("p-bodo")
    comes_in(bodo)
    page = plans(bodo)
    page.locator(".lane-task", has_text="Tyres and pressures").first.focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Tyres and pressures", level=1).wait_for()
    start = page.get_by_role("button", name="Start", exact=True)
    start.focus()
    page.keyboard.press("Enter")
    bodo.sees("Bodo started at")
    [started] = bodo.wrote("task.started")
    assert (started["subject"], started["data"]) == ("routine tyres-and-pressures", {"service": "A"})
    done = page.get_by_role("button", name="Done", exact=True)
    done.focus()
    page.keyboard.press("Enter")
    bodo.sees("Saved: done.")
    page.get_by_role("heading", name="Everybody").wait_for()
    [finished] = bodo.wrote("task.finished")
    assert (finished["subject"], finished["data"]) == ("routine tyres-and-pressures", {"service": "A"})
    bodo.at("plan")
    page.get_by_text("Done in this service (1)").click()
    bodo.sees("Tyres and pressures · Bodo")
    planned = page.locator(".lane-task:not(.done)", has_text="Tyres and pressures")
    planned.first.wait_for(state="detached")
    bodo.tap("Undo")
    planned.first.wait_for()


@pytest.mark.longer
def test_work_and_looks_lead_to_the_job_where_they_are_signed(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Left side", "Mirror", "Broken")
    toma.logs("Front left", "Wheel rim", "Bent")
    comes_in(bodo)
    bodo.opens("left-side/mirror")
    page = plans(bodo)
    page.locator(".lane-task", has_text="Replace mirror").first.click()
    # The plan's own page offers a start, too: of his next task.
    page.get_by_role("heading", name="Replace mirror", level=1).wait_for()
    bodo.tap("Start", exact=True)
    bodo.sees("started at")
    assert bodo.wrote("job.started")[0]["subject"] == "left-side/mirror"
    page.get_by_role("link", name="Finish it on the job's page").click()
    bodo.tap("Finish …")
    bodo.tap("Finish", exact=True)
    bodo.sees("Saved: finished.")
    assert bodo.wrote("job.finished")[0]["data"]["service"] == "A"
    bodo.at("plan")
    page.locator(".lane-task:not(.done)", has_text="Replace mirror").first.wait_for(state="detached")
    improving(page).first.wait_for(state="detached", timeout=90_000)
    look = page.locator(".lane-task", has_text="Inspect").first
    said = look.get_attribute("href") or ""
    look.click()
    page.get_by_role("link", name="Inspect it on the job's page").wait_for()
    expect(page.get_by_role("button", name="Done", exact=True), "a look has no tap of its own").to_have_count(0)
    page.get_by_role("link", name="Back to the plan").click()
    page.locator(f'.lane-task[href="{said}"]:focus').wait_for()


@pytest.mark.longer
def test_a_late_report_makes_the_plan_old_until_it_is_made_again(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    comes_in(bodo)
    page = plans(bodo)
    stale = page.get_by_text("The queue has changed since: plan again.")
    expect(stale).to_have_count(0)
    toma.logs("Right side", "Mirror", "Broken")
    toma.wrote("report.filed")
    stale.wait_for()
    is_as_it_should_be(page)
    expect(page.locator(".lane-task", has_text="Replace mirror"), "nobody's list jumps by itself").to_have_count(0)
    page.get_by_role("button", name="Plan again").click()
    page.locator(".lane-task", has_text="Replace mirror").first.wait_for()
    stale.wait_for(state="detached")


@pytest.mark.longer
@pytest.mark.keeps_app
def test_the_last_plan_is_there_without_the_server(crew: Crew) -> None:
    bodo = crew("p-bodo")
    comes_in(bodo)
    page = plans(bodo)
    bodo.phone.context.set_offline(True)
    page.reload()
    bodo.sees("Made at")
    page.locator(".lane-task").first.wait_for()
    page.get_by_role("button", name="Plan the rest from now").or_(page.get_by_role("button", name="Plan again")).click()
    bodo.sees("The server did not answer, and only it can plan.")
    bodo.phone.context.set_offline(False)


@pytest.mark.longer
def test_what_does_not_fit_is_left_with_one_tap(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Left side", "Mirror", "Broken")
    comes_in(bodo)
    bodo.opens("left-side/mirror")
    page = bodo.at("plan")
    for step in ["−5", "−5", "−5", "−5", "−1", "−1"]:
        bodo.tap(f"Minutes, control to control: {step}")
    bodo.tap("Mechanics: −1")
    bodo.sees("Working: Bodo and Anni.")
    plans(bodo)
    card = page.locator(".job-card", has_text="Mirror")
    # With a mirror aboard the crew can do it; whether the van has one left, the cars of the other stories decide.
    [mirror] = bodo.server.job(bodo.car, "left-side/mirror")["estimate"]["parts"]
    to, name = LEFT_TO[mirror["short"]]
    card.get_by_role("button", name=name).click()
    bodo.sees("Saved: left for later.")
    [deferred] = bodo.wrote("job.deferred")
    assert (deferred["subject"], deferred["data"]["to"]) == ("left-side/mirror", to)
    wait_until(page, lambda: bodo.server.job(bodo.car, "left-side/mirror")["state"] == "deferred")
    card.get_by_text("Left, the log says so").wait_for()
    expect(card.get_by_role("button")).to_have_count(0)


@pytest.mark.longer
@pytest.mark.only_in("chromium", "Playwright can't show a page as printed, in the dark or in forced colours in Firefox")
def test_the_sheet_is_one_or_two_pages_of_a4_in_black(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Front left", "Wheel rim", "Bent")
    toma.logs("Left side", "Mirror", "Broken")
    comes_in(bodo)
    bodo.opens("left-side/mirror")
    page = plans(bodo)
    bodo.sees("Job sheet")
    page.get_by_role("link", name="Job sheet").click()
    page.get_by_role("button", name="Print this sheet").wait_for()
    planned = [row["task"] for row in bodo.server.plan(bodo.car, "A")["tasks"]]
    pdf = page.pdf(prefer_css_page_size=True)
    sizes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", pdf)
    assert 1 <= len(sizes) <= 2
    for size in sizes:
        assert tuple(map(float, size)) == pytest.approx(A4_PT, abs=1)
    assert colours(pdf) == set()
    page.emulate_media(media="print", color_scheme="dark")
    page.set_viewport_size({"width": 794, "height": 1123})
    text = page.locator("body").inner_text()
    assert is_grey(page.screenshot(full_page=True))
    for said in (
        "irror",
        "checked by (team)",
        "never on a jack alone",
        "Bodo",
        "Anni",
        "Kasp",
        "Odil",
    ):
        assert said in text
    assert text.strip().splitlines()[-1].strip() == "Tools counted, nothing left on the car"
    assert page.locator(".paper tr:has(.paper-tick)").count() >= len(planned), "a box for each task and person"
    times = page.locator(".paper tr:has(.paper-by) .paper-time").all_inner_texts()
    assert len(times) > 1
    assert all(times), "each of several inspections at one place has its time and its inspector"
    expect(page.get_by_role("navigation").filter(visible=True)).to_have_count(0)
    assert promises(page) == []


def colours(pdf: bytes) -> set[tuple[bytes, ...]]:
    """Return the colours that are no grey among those that a PDF's page contents set (ISO 32000-1, 8.6.8: rg, RG)."""
    found = set()
    for stream in re.findall(rb"stream\r?\n(.*?)endstream", pdf, re.DOTALL):
        try:
            content = zlib.decompress(stream)
        except zlib.error:
            continue
        found |= set(re.findall(rb"(?<![\d.])([\d.]+) ([\d.]+) ([\d.]+) (?:rg|RG)\b", content))
    assert found, "the PDF's contents could not be read"
    return {one for one in found if len(set(one)) > 1}


def is_grey(png: bytes) -> bool:
    red, green, blue = Image.open(BytesIO(png)).convert("RGB").split()
    spread = [ImageChops.difference(red, green).getextrema(), ImageChops.difference(green, blue).getextrema()]
    return max(most for _, most in spread) <= 2


@pytest.mark.longer
def test_driver_and_co_driver_are_told_with_a_tap_each_and_keep_what_they_were_told(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Front end", "Front bumper", "Loose")
    toma.logs("Left side", "Mirror", "Broken")
    toma.logs("Right side", "Mirror", "Broken")
    comes_in(bodo)
    bodo.page.get_by_label("Ilka").click()
    bodo.sees("Driving now: Ilka")
    page = bodo.opens("front-end/front-bumper")
    bodo.tap("Finish …")
    page.get_by_label("For now: it comes back").check()
    bodo.tap("Finish", exact=True)
    bodo.sees("Saved: a temporary repair.")
    bodo.finishes("left-side/mirror")
    page = bodo.opens("right-side/mirror")
    bodo.tap("Leave it …")
    page.get_by_label("The crew, on the road").check()
    bodo.tap("Leave it", exact=True)
    bodo.sees("Deferred")
    page = bodo.at("briefing")
    bodo.sees("Driver: not told yet.")
    bodo.sees("Ilka taps on their own phone")
    # Driver and co-driver share the car's phone.
    toma.page.goto(bodo.server.link("p-ilka"))
    toma.page.get_by_role("button", name="Ilka uses this phone now").wait_for()
    toma.page.wait_for_url(lambda url: "join" not in url)  # where joining leads, it leads once
    page = toma.at("briefing")
    toma.sees("patched for now: check it after each stage")
    toma.sees("left to you, on the road")
    done = page.locator("section", has=page.get_by_role("heading", name="Done", exact=True))
    expect(done).to_contain_text("Left side: Mirror")
    is_as_it_should_be(page)
    toma.tap("Ilka was told")
    toma.sees("Driver: Ilka was told at")
    toma.tap("Toma was told")
    toma.sees("Co-driver: Toma was told at")
    wait_until(page, lambda: len(bodo.server.entries(bodo.car, "briefing.acknowledged")) == 2)
    told = bodo.server.entries(bodo.car, "briefing.acknowledged")
    assert {one["person"] for one in told} == {"p-ilka", "p-toma"}
    assert {(one["subject"], one["data"]["service"]) for one in told} == {("A", "A")}
    assert all(re.fullmatch("[0-9a-f]{64}", one["data"]["queue"]) for one in told)
    bodo.sees("Driver: Ilka was told at")
    bodo.sees("Co-driver: Toma was told at")
    again = page.get_by_text("the log has changed since. Tell it again.")
    expect(again).to_have_count(0)
    bodo.finishes("right-side/mirror")
    again.first.wait_for()
    toma.sees("Right side: Mirror: replace")
    bodo.at("service")
    bodo.tap("We are out")
    bodo.sees("Left service A.")
    toma.sees("As it was in service at")
    toma.sees("patched for now: check it after each stage")
    is_as_it_should_be(page)


@pytest.mark.longer
def test_on_the_road_the_crew_sees_no_plan_and_nothing_newer_than_it_was_told(crew: Crew) -> None:
    toma, bodo = crew("p-toma"), crew("p-bodo")
    toma.logs("Left side", "Mirror", "Broken")
    toma.at("plan")
    toma.sees("On the road")
    comes_in(bodo)
    toma.sees("The plan is for those who work on the car")
    page = toma.at("briefing")
    toma.sees("Left side: Mirror")
    bodo.at("service")
    bodo.tap("We are out")
    bodo.sees("Left service A.")
    toma.sees("As it was in service at")
    bodo.finishes("left-side/mirror")
    bodo.wrote("job.finished")
    wait_until(page, lambda: bodo.server.job(bodo.car, "left-side/mirror")["state"] == "finished")
    page.reload()
    toma.sees("As it was in service at")
    expect(page.locator("section", has_text="Not done")).to_contain_text("Left side: Mirror")
    expect(page.get_by_text("Nothing was recorded as finished in this service.")).to_have_count(1)


@pytest.mark.longer
def test_the_plan_that_is_shown_is_the_servers(crew: Crew) -> None:
    bodo = crew("p-bodo")
    comes_in(bodo)
    page = plans(bodo)
    answer = bodo.server.plan(bodo.car, "A")
    assert answer["event"] == EVENT
    shown = page.locator(".lanes .lane").count()
    assert shown == len(answer["people"])

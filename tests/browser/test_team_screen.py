"""Two cars in the bay with one crew: planned together, under one clock, with who is away, and kept without a server."""

import re
from collections.abc import Callable
from itertools import pairwise

import pytest
from crew import Crew, Member
from cutting import resize
from looking import LAPTOP, is_as_it_should_be
from phones import SIZE, Phone
from playwright.sync_api import Page, expect
from server import Server

CHANCE = re.compile(r"times in 10|once in 10")


def comes_in(member: Member, car: str) -> None:
    """Say from one phone that a car is in the first service."""
    member.phone.take_car(car)
    member.at("service")
    member.tap("We are in")
    member.sees("Due out")


def solved(page: Page) -> None:
    """Wait until nothing better is being made."""
    page.locator(".lanes").wait_for()
    expect(page.get_by_text("Quick plan")).to_have_count(0, timeout=180_000)


def in_two_places(page: Page) -> list[str]:
    """Return whose blocks lie one over the other, of whichever car."""
    found = []
    for lane in page.locator("button.lane").all():
        boxes = [bar.bounding_box() for bar in lane.locator(".lane-bar").all()]
        edges = sorted((box["x"], box["x"] + box["width"]) for box in boxes if box)
        found += [lane.inner_text() for (_, end), (start, _) in pairwise(edges) if start < end - 1]
    return found


@pytest.mark.longer
def test_two_cars_are_planned_together_under_one_clock(crew: Crew) -> None:
    bodo = crew("p-bodo")
    bodo.logs("Left side", "Mirror", "Broken")
    comes_in(bodo, "41")
    comes_in(bodo, "42")
    page = bodo.page
    page.get_by_role("link", name="Team plan: all cars").click()
    bodo.sees("No plan of all cars is on this phone yet")
    for car in ("Car 41", "Car 42"):
        expect(page.get_by_role("checkbox", name=car)).to_be_checked()
    page.get_by_role("checkbox", name="Kasp").check()
    is_as_it_should_be(bodo.phone, "team plan, asked for")
    bodo.tap("Plan service A, cars 41, 42")
    solved(page)

    expect(page.locator(".lane-car-row")).to_have_count(2)
    bars = page.locator("button.lane .lane-bar")
    assert {one[:2] for one in bars.all_text_contents()} == {"41", "42"}
    in_sight = {one[:2] for one in bars.all_inner_texts() if one}
    assert in_sight == {"41", "42"}, "but in blocks too short to have room for it"
    assert in_two_places(page) == []
    moves = page.locator(".lanes-over .lanes-moving").all()
    drawn = page.locator(".lane-car-row .is-moves").all()
    patterns = [re.findall(r"of-\d", one.get_attribute("class") or "") for one in moves]
    assert patterns == [re.findall(r"of-\d", one.get_attribute("class") or "") for one in drawn] != []
    expect(page.locator(".team-car").first).to_contain_text("leave the bay by")
    expect(page.locator(".team-away")).to_contain_text(re.compile(r"Kasp, until \d\d:\d\d"))
    expect(page.locator(".lane", has_text="Kasp")).to_contain_text("there from")
    expect(page.locator("main"), "how likely it is kept is for who leads").not_to_contain_text(CHANCE)
    is_as_it_should_be(bodo.phone, "team plan")

    # Under the names, which stay, the lanes scroll; the page itself never does.
    resize(page, SIZE)
    name = page.locator("button.lane .lane-name").first
    before = name.bounding_box()
    page.locator(".lanes-scroll").evaluate("one => { one.scrollLeft = 200; }")
    assert page.locator(".lanes-scroll").evaluate("one => one.scrollLeft") > 0
    assert name.bounding_box() == before

    page.locator("button.lane", has_text="Odil").click()
    page.locator("#tasks-p-odil:focus").wait_for()

    bodo.phone.take_car("41")
    bodo.logs("Front left", "Tyre", "Flat")
    bodo.at("team")
    bodo.sees("A report or a change came in since")
    page.get_by_role("button", name="Plan the rest from now").first.click()
    expect(page.get_by_text("A report or a change came in since")).to_have_count(0)

    bodo.phone.context.set_offline(True)
    bodo.logs("Front right", "Tyre", "Flat")
    bodo.at("team")
    page.get_by_role("button", name="Plan the rest from now").first.click()
    bodo.sees("only it can plan")
    bodo.sees("Below is the last plan that this phone has, made at")
    expect(page.locator(".lane-car-row")).to_have_count(2)


@pytest.mark.longer
def test_a_car_that_has_to_be_late_says_by_how_much_and_the_other_plan_that_it_is_on_hold(
    server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(server, "p-odil")
    page.set_viewport_size(LAPTOP)
    phone.show("team")
    page.get_by_role("combobox", name="Which service").select_option("A")
    page.get_by_role("button", name="Plan service A, cars 41, 42").click()
    solved(page)
    late = page.locator(".team-car", has_text="42")
    expect(late).to_contain_text(re.compile(r"[1-9]\d* min late \d+0 s penalty"))
    expect(late, "who leads is told how likely it is").to_contain_text(CHANCE)
    fits = page.locator(".lanes-scroll").evaluate("one => one.scrollWidth <= one.clientWidth")
    assert fits, "on a laptop all of it is in view"
    page.get_by_role("radio", name="In time, on hold").check(force=True)
    expect(late).to_contain_text("Leaves on hold")
    expect(page.locator(".team-car", has_text="41")).not_to_contain_text("Leaves on hold")
    is_as_it_should_be(phone, "team plan, on hold")

"""The wall board: its letters on a 32-inch screen of 1080 lines, and how a new report comes to it."""

from collections.abc import Callable

import pytest
from crew import Member
from looking import at_rest, axe_finds, promises
from phones import Phone
from playwright.sync_api import Page, expect
from server import Server

CAPITAL_PX = 78.8
"""20 minutes of arc (ISO 9241-303) from 5 m on a 32-inch screen of 1080 lines, worked in pwa/tests/board.test.ts."""
# What a capital H measures in the very font of each line, on a canvas: the CSS alone would not know the font.
CAPITALS = """() => {
  const pen = document.createElement('canvas').getContext('2d');
  const lines = document.querySelectorAll(
    '.board-car, .board-word, .board-out, .board-due span, .board-label, .board-text');
  return [...lines].filter((one) => one.textContent).map((one) => {
    const { fontWeight, fontSize, fontFamily } = getComputedStyle(one);
    pen.font = `${fontWeight} ${fontSize} ${fontFamily}`;
    return [one.textContent, pen.measureText('H').actualBoundingBoxAscent];
  });
}"""
CUT = """() => [...document.querySelectorAll('.board-row, .board-status p')]
  .filter((one) => {
    const box = one.getBoundingClientRect();
    return box.right > innerWidth + 1 || box.bottom > innerHeight || one.scrollWidth > one.clientWidth + 1;
  })
  .map((one) => one.textContent)"""


def is_cut(page: Page) -> list[str]:
    """Return what is cut off, once the rows have made room for themselves, which takes frames."""
    return at_rest(page, lambda: page.evaluate(CUT))


@pytest.mark.longer
def test_it_is_read_from_five_metres_and_a_new_report_comes_by_itself(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    wall, hand = new_phone(), new_phone()
    page = wall.join(empty_server, "p-bodo")
    hand.join(empty_server, "p-toma")
    toma = Member(empty_server, hand, "p-toma", "41")
    toma.logs("Left side", "Mirror", "Broken")
    toma.wrote("report.filed")
    wall.show("reports").get_by_text("Mirror broken").first.wait_for(state="attached")
    wall.show("board")
    page.set_viewport_size({"width": 1920, "height": 1080})
    page.locator(".board-text", has_text="Left side: Mirror broken").wait_for()
    page.get_by_role("combobox", name="Read from").select_option("5")
    expect(page.get_by_text("New", exact=True)).to_have_count(0)
    toma.logs("Front left", "Wheel rim", "Bent")
    toma.wrote("report.filed", 2)
    page.locator(".board-row.new", has_text="FL: Wheel rim bent").wait_for()
    capitals = page.evaluate(CAPITALS)
    assert len(capitals) > 6
    assert [line for line in capitals if line[1] < CAPITAL_PX - 1] == []
    assert is_cut(page) == []
    assert promises(page) == []
    assert axe_finds(page) == []
    page.get_by_role("button", name="1 new: seen").click()
    page.get_by_text("New", exact=True).wait_for(state="detached")
    assert wall.complaints == []


@pytest.mark.longer
def test_what_does_not_fit_comes_by_page_by_page_until_somebody_stops_it(
    server: Server, new_phone: Callable[[], Phone]
) -> None:
    wall = new_phone()
    page = wall.join(server, "p-bodo")
    wall.show("board")
    page.set_viewport_size({"width": 1920, "height": 1080})
    expect(page.get_by_role("combobox", name="Read from")).to_have_value("3")
    capitals = page.evaluate(CAPITALS)
    assert [line for line in capitals if line[1] < CAPITAL_PX * 3 / 5 - 1] == []
    page.get_by_text("Page 1 of").wait_for()
    assert is_cut(page) == []
    first = page.locator(".board-rows .board-text").all_inner_texts()
    page.get_by_text("Page 2 of").wait_for()  # by itself
    page.get_by_role("button", name="Pause").click()
    second = page.locator(".board-rows .board-text").all_inner_texts()
    assert set(first).isdisjoint(second)
    said = page.locator(".board").inner_text()
    assert "%" not in said
    assert " in 10" not in said, "no chances on the wall"
    page.get_by_role("button", name="Go on").click()
    page.get_by_text("Page 1 of").wait_for()
    assert axe_finds(page) == []


@pytest.mark.longer
def test_the_team_s_cars_stand_side_by_side(server: Server, new_phone: Callable[[], Phone]) -> None:
    wall = new_phone()
    page = wall.join(server, "p-bodo")
    wall.show("board")
    page.set_viewport_size({"width": 1920, "height": 1080})
    page.get_by_role("button", name="Car 42 beside").click()
    boards = page.locator(".board")
    own, other = boards.nth(0), boards.nth(1)
    other.locator(".board-car", has_text="42").wait_for()
    # The other car's queue was never open on this device: it is asked for.
    other.get_by_text("1 failed").wait_for()
    expect(own.locator(".board-car")).to_have_text("Car 41")
    left, right = own.bounding_box(), other.bounding_box()
    assert left and right
    assert left["x"] + left["width"] <= right["x"]
    assert is_cut(page) == []
    capitals = page.evaluate(CAPITALS)
    assert [line for line in capitals if line[1] < CAPITAL_PX * 3 / 5 - 1] == []
    assert axe_finds(page) == []
    page.reload()  # the address holds it
    boards.nth(1).wait_for()
    page.get_by_role("button", name="Car 42 beside").click()
    other.wait_for(state="detached")

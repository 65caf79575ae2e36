"""On a laptop a paper is seen before it is fetched: its pages as pictures, a table by its first rows, else in words."""

from collections.abc import Callable

import pytest
from looking import LAPTOP
from phones import SIZE, Phone
from playwright.sync_api import Locator, Page, expect
from screens import saved
from server import Server


@pytest.fixture
def manager(server: Server, new_phone: Callable[[], Phone]) -> Phone:
    """The manager's laptop."""
    phone = new_phone()
    phone.page.set_viewport_size(LAPTOP)
    phone.join(server, "p-vera")
    return phone


def picture(page: Page, name: str, number: int, of: int) -> Locator:
    """Return the picture of a page of a paper, once it is painted."""
    found = page.get_by_role("img", name=f"{name}, page {number} of {of}, as it would be printed")
    found.wait_for()
    assert found.evaluate("one => one.decode().then(() => one.naturalWidth)") > 900
    return found


@pytest.mark.longer
def test_the_chosen_paper_stands_beside_the_list_and_its_pages_are_turned(manager: Phone, server: Server) -> None:
    page = manager.fresh(server, "documents", "42")
    first = picture(page, "Job sheet", 1, 1)
    row = page.get_by_role("link", name="Job sheet")
    expect(row).to_have_attribute("aria-current", "true")
    left, right = row.bounding_box(), first.bounding_box()
    assert left and right
    assert left["x"] + left["width"] <= right["x"]
    assert right["y"] < LAPTOP["height"] / 2, "most of the height is the paper's"
    page.get_by_role("link", name="Damage and inspection record").click()
    picture(page, "Damage and inspection record", 1, 4)
    back = page.get_by_role("button", name="Page before")
    expect(back).to_have_attribute("aria-disabled", "true")
    page.get_by_role("button", name="Next page").click()
    picture(page, "Damage and inspection record", 2, 4)
    expect(back).not_to_have_attribute("aria-disabled", "true")
    # What is chosen for all papers is what is seen.
    before = page.locator(".preview-page img").get_attribute("src")
    page.get_by_role("combobox", name="Language").select_option("fr")
    expect(page.locator(".preview-page img")).not_to_have_attribute("src", before or "")
    picture(page, "Damage and inspection record", 1, 4)


@pytest.mark.longer
def test_a_table_is_seen_by_its_first_rows_and_a_workbook_in_words(manager: Phone, server: Server) -> None:
    page = manager.fresh(server, "documents/costs", "42")
    picture(page, "Costs of the event", 1, 4)
    page.get_by_label("Table (CSV)").check()
    table = page.get_by_role("table", name="Costs of the event: the first 25 of 69 rows")
    expect(table.get_by_role("columnheader").first).to_have_text("kind")
    expect(table.get_by_role("row")).to_have_count(26)
    page.get_by_label("Workbook (XLSX)").check()
    page.get_by_role("heading", name="What is in it").wait_for()
    expect(page.get_by_role("button", name="Get the workbook (XLSX)")).to_be_visible()


@pytest.mark.longer
def test_what_there_is_nothing_for_says_what_to_do(manager: Phone, server: Server) -> None:
    page = manager.fresh(server, "documents/hand-over", "42")
    page.get_by_text("walk round it in the app first").wait_for()


@pytest.mark.longer
@pytest.mark.keeps_app
def test_without_signal_it_says_so_and_comes_by_itself_once_the_server_answers(manager: Phone, server: Server) -> None:
    page = manager.fresh(server, "documents", "42")
    picture(page, "Job sheet", 1, 1)
    page.context.set_offline(True)
    page.get_by_role("link", name="Restart sheet").click()
    page.get_by_text("No answer from the server").wait_for()
    page.context.set_offline(False)
    picture(page, "Restart sheet", 1, 1)


@pytest.mark.longer
def test_a_picture_says_when_more_was_logged_since(
    manager: Phone, server: Server, new_phone: Callable[[], Phone]
) -> None:
    page = manager.fresh(server, "documents", "42")
    before = picture(page, "Job sheet", 1, 1).get_attribute("src")
    crew = new_phone()
    crew.join(server, "p-toma")
    saved(crew.fresh(server, "log", "42"))
    page.get_by_text("More was logged since.").wait_for()
    page.get_by_role("button", name="Show it as it is now").click()
    expect(page.locator(".preview-page img")).not_to_have_attribute("src", before or "")
    expect(page.get_by_text("More was logged since.")).to_have_count(0)


@pytest.mark.longer
def test_a_phone_asks_for_no_picture(manager: Phone, server: Server) -> None:
    asked: list[str] = []
    page = manager.page
    page.on("request", lambda one: asked.append(one.url) if ".png?" in one.url else None)
    page.set_viewport_size(SIZE)
    manager.fresh(server, "documents", "42")
    page.get_by_role("region", name="Job sheet").wait_for()
    page.set_viewport_size(LAPTOP)
    picture(page, "Job sheet", 1, 1)
    assert len(asked) == 1

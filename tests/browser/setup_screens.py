"""What a manager does on the screens of the set-up, which are alike in today's app and in that of 0.1.0."""

from phones import SLOW_MS
from playwright.sync_api import Locator, Page, expect
from server import EVENT


def adds_a_mechanic(page: Page, person: str, name: str) -> None:
    """Add somebody to the event's people and put the draft in force; what comes of it is on the screen then."""
    opens_section(page, "people", "People")
    rows = page.get_by_role("textbox", name="person, row").or_(page.get_by_role("combobox", name="person, row"))
    rows.first.wait_for()
    number = rows.count() + 1
    page.get_by_role("button", name="Add a row").click()
    for column, text in (("person", person), ("name", name), ("roles", "mechanic")):
        cell = page.get_by_label(f"{column}, row {number}", exact=True)
        types_over(cell, text)
        expect(cell).to_have_value(text)
        page.get_by_text("Kept on this phone at").first.wait_for()
    opens_section(page, "changes", "What changes")
    button = page.get_by_role("button", name="Put in force")
    expect(button).to_be_enabled(timeout=SLOW_MS)
    button.click()


def types_over(cell: Locator, text: str) -> None:
    """Type a text in the place of a cell's own, and leave the cell."""
    cell.fill("")
    # Key by key, as a hand types: `fill` writes by a script in Firefox, which tells of no change then when the cell is
    # left, and that is when the page takes what was typed.
    cell.press_sequentially(text)
    cell.press("Tab")


def opens_section(page: Page, section: str, title: str) -> None:
    """Open a section of the event's set-up by its heading."""
    page.evaluate("address => { location.hash = address; }", f"#/setup/{EVENT}/{section}")
    page.get_by_role("heading", level=1, name=title).wait_for(timeout=SLOW_MS)

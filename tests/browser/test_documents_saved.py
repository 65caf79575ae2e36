"""Documents fetched in the real app: the file that is saved is the server's, a bar shows where it takes long."""

import io
from collections.abc import Callable

import pytest
from downloads import save
from openpyxl import load_workbook
from phones import Phone
from playwright.sync_api import Page, Route
from server import Server

from reading_pdf import Pdf


def saved(page: Page, button: str, region: str) -> bytes:
    """Tap a document's button, then the link that saves it; return the file."""
    place = page.get_by_role("region", name=region)
    place.get_by_role("button", name=button).click()
    link = place.get_by_role("link", name="Save ")
    link.wait_for()
    return save(page, link.click).data


@pytest.fixture
def manager(server: Server, new_phone: Callable[[], Phone]) -> Page:
    """The manager's phone on the documents of car 42."""
    phone = new_phone()
    phone.join(server, "p-vera")
    phone.fresh(server, "documents", "42")
    phone.page.get_by_role("heading", name="Documents", exact=True).wait_for()
    return phone.page


def test_a_sheet_is_saved_on_the_paper_that_was_chosen(manager: Page) -> None:
    manager.get_by_role("combobox", name="Paper").select_option("letter")
    read = Pdf(saved(manager, "To print (PDF)", "Restart sheet"))
    assert read.papers() == {"letter"}
    assert read.text.startswith("Restart sheet Car 42")


@pytest.mark.longer
def test_a_job_sheet_is_for_the_service_that_was_chosen(manager: Page) -> None:
    manager.get_by_role("combobox", name="For which service").select_option("E")
    assert "Job sheet, service E" in Pdf(saved(manager, "To print (PDF)", "Job sheet")).text


@pytest.mark.longer
def test_the_workbook_opens(manager: Page) -> None:
    book = load_workbook(io.BytesIO(saved(manager, "Workbook (XLSX)", "Costs of the event")))
    assert book.sheetnames[0] == "Lines"


@pytest.mark.longer
def test_a_bar_shows_where_a_document_takes_over_a_second(manager: Page) -> None:
    asked: list[Route] = []
    manager.route("**/documents/record.pdf*", lambda route: asked.append(route))
    place = manager.get_by_role("region", name="Damage and inspection record")
    place.get_by_role("button", name="To print (PDF)").click()
    place.get_by_role("progressbar").wait_for()
    asked[0].continue_()
    place.get_by_role("link", name="Save ").wait_for()
    assert place.get_by_role("progressbar").count() == 0


@pytest.mark.longer
@pytest.mark.keeps_app
def test_without_the_server_a_person_is_told_what_to_do(manager: Page) -> None:
    manager.context.set_offline(True)
    place = manager.get_by_role("region", name="Parts order")
    place.get_by_role("button", name="To print (PDF)").click()
    place.get_by_text("Come into its reach").wait_for()
    manager.context.set_offline(False)

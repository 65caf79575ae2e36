"""Documents fetched in the real app: the file that is saved is the server's, a bar shows where it takes long."""

import io
import zipfile
from collections.abc import Callable
from urllib.parse import parse_qsl

import pytest
from downloads import save
from openpyxl import load_workbook
from phones import Phone, wait_until
from playwright.sync_api import Page, Route, expect
from server import EVENT, Server

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
def test_a_paper_speaks_the_language_that_was_chosen(manager: Page) -> None:
    manager.get_by_role("combobox", name="Language").select_option("fr")
    read = Pdf(saved(manager, "To print (PDF)", "Restart sheet"))
    assert read.root["/Lang"] == "fr"
    assert "Feuille de nouveau départ Voiture" in read.text


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
    expect(place.get_by_role("progressbar")).to_have_count(0)


@pytest.mark.longer
@pytest.mark.keeps_app
def test_without_the_server_a_person_is_told_what_to_do(manager: Page) -> None:
    manager.context.set_offline(True)
    place = manager.get_by_role("region", name="Parts order")
    place.get_by_role("button", name="To print (PDF)").click()
    place.get_by_text("Come into its reach").wait_for()
    manager.context.set_offline(False)


@pytest.mark.longer
def test_a_paper_is_sent_by_the_phones_sheet_or_a_draft_with_the_file_saved_beside(manager: Page) -> None:
    manager.evaluate(
        """() => {
          navigator.canShare = () => true;
          navigator.share = async (data) => { window.shared = data.files.map((one) => one.name); };
        }"""
    )
    place = manager.get_by_role("region", name="Damage and inspection record")
    place.get_by_role("button", name="To print (PDF)").click()
    place.get_by_role("button", name="Share it").click()
    name = f"{EVENT}-42-record.pdf"
    wait_until(manager, lambda: manager.evaluate("window.shared ?? []") == [name])
    draft = place.get_by_role("link", name="E-mail draft")
    scheme, _, asked = (draft.get_attribute("href") or "").partition("?")
    said = dict(parse_qsl(asked))
    assert scheme == "mailto:"
    assert said["subject"] == "Damage and inspection record, car 42, Thornquell Gravel Days"
    assert f"Attached: {name}\r\n" in said["body"]
    # No mail program is here: the way to it is taken out, and the file is saved all the same.
    draft.evaluate("one => one.addEventListener('click', event => event.preventDefault())")
    file = save(manager, draft.click)
    assert file.name == name
    assert Pdf(file.data).text.startswith("Damage and inspection record Car 42")


@pytest.mark.longer
def test_all_papers_of_the_car_are_one_file(manager: Page) -> None:
    packed = zipfile.ZipFile(io.BytesIO(saved(manager, "All papers (zip)", "All papers of this car")))
    assert {f"{EVENT}-42-record.pdf", f"{EVENT}-42-costs.xlsx", "contents.txt"} < set(packed.namelist())

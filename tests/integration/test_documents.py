"""Documents over HTTP and by command: who gets which, what is refused and how, and the same cents everywhere."""

import io
import zipfile
from decimal import Decimal

import pytest
from command import run
from openpyxl import load_workbook

from longer import in_turn
from phone import EVENT
from reading_pdf import Pdf
from shuntbook.document.catalogue import DOCUMENTS, PAPERS

CAR = f"/events/{EVENT}/cars/42"
NOT_YET = {"hand-over"}
"""What the sample event has none of: nobody signed a walk."""
HANDED = sorted(DOCUMENTS.keys() - NOT_YET)


@pytest.mark.parametrize(("name", "paper"), in_turn(HANDED, PAPERS))
def test_each_document_is_a_pdf_on_the_paper_asked_for(phone, name, paper):
    response = phone("manager").get(f"{CAR}/documents/{name}.pdf?paper={paper}")
    assert (response.status_code, response.content_type) == (200, "application/pdf")
    assert response.headers["Content-Disposition"] == f'attachment; filename="{EVENT}-42-{name}.pdf"'
    assert response.headers["Cache-Control"] == "private, no-store"
    read = Pdf(response.data)
    assert read.papers() == {paper}
    assert read.faults() == []
    assert f"{DOCUMENTS[name].title} Car 42" in read.text


@pytest.mark.parametrize(
    ("car", "name", "says"), [("42", "hand-over", "walk round it"), ("41", "statement", "event.toml")]
)
def test_a_document_that_the_log_has_nothing_for_says_what_to_do(phone, car, name, says):
    response = phone("manager").get(f"/events/{EVENT}/cars/{car}/documents/{name}.pdf")
    assert (response.status_code, response.content_type) == (404, "application/problem+json")
    assert says in response.get_json()["detail"]


@pytest.mark.parametrize(
    ("path", "says"),
    [
        (f"{CAR}/documents/poster.pdf", "job-sheet, restart-sheet"),
        (f"{CAR}/documents/job-sheet.pdf?paper=a5", "a4 and letter"),
        (f"{CAR}/documents/job-sheet.pdf?service=Z", "A, B, C, D, E"),
        (f"{CAR}/documents/statement.pdf?number=x", "numbered 1, 2, 3"),
        (f"/events/{EVENT}/cars/77/documents/record.pdf", "41, 42"),
        ("/events/nowhere/cars/42/documents/record.pdf", EVENT),
        (f"/events/{EVENT}/costs.pdf?paper=a5", "a4 and letter"),
        (f"/events/{EVENT}/costs.xlsx?car=77", "41, 42"),
    ],
)
def test_what_is_not_there_is_refused_with_what_there_is(phone, path, says):
    response = phone("manager").get(path)
    assert (response.status_code, response.content_type) == (404, "application/problem+json")
    assert says in response.get_json()["detail"]


FOR_ALL = {"declaration", "hand-over"}


@pytest.mark.parametrize("name", DOCUMENTS)
@pytest.mark.parametrize("role", ["driver", "co-driver", "mechanic", "inspector", "manager"])
def test_who_gets_which_document(phone, role, name):
    status = phone(role).get(f"{CAR}/documents/{name}.pdf").status_code
    service = role not in ("driver", "co-driver")
    allowed = role == "manager" if name == "statement" else service or name in FOR_ALL
    assert status == (403 if not allowed else 404 if name in NOT_YET else 200)


def test_costs_are_in_a_record_and_an_order_for_a_manager_alone(phone):
    shown, hidden = (Pdf(phone(role).get(f"{CAR}/documents/record.pdf").data).text for role in ("manager", "mechanic"))
    total = phone("manager").get(f"/events/{EVENT}/costs?car=42").get_json()["totals"]["total"]
    assert f"Total {total}" in shown
    assert total not in hidden
    tables = [phone(role).get(f"{CAR}/documents/parts-order.csv") for role in ("manager", "mechanic")]
    assert [b"unit_cost" in table.data for table in tables] == [True, False]
    assert {table.content_type for table in tables} == {"text/csv; charset=utf-8"}


@pytest.mark.parametrize("query", ["", "?car=42"])
def test_json_workbook_and_paper_say_the_same_cents(phone, query):
    manager = phone("manager")
    totals = manager.get(f"/events/{EVENT}/costs{query}").get_json()["totals"]
    book = load_workbook(io.BytesIO(manager.get(f"/events/{EVENT}/costs.xlsx{query}").data), data_only=True)
    sums = {str(row[0].value): row[1].value for row in book["Sums"].iter_rows(min_row=2, max_row=7)}
    assert {k.replace(" ", "_"): Decimal(str(v)) for k, v in sums.items()} == {
        name: Decimal(totals[name]) for name in ("estimate", "actual", "adjustments", "before_tax", "tax", "total")
    }
    words = Pdf(manager.get(f"/events/{EVENT}/costs.pdf{query}").data).text
    for says, name in (("Estimate", "estimate"), ("Before tax", "before_tax"), ("Tax", "tax"), ("Total", "total")):
        assert f"{says} {Decimal(totals[name]):,}" in words


def test_the_photos_of_a_record_are_small_ones(phone, sample_store):
    read = Pdf(phone("manager").get(f"{CAR}/documents/record.pdf").data)
    pictures = [image.image for page in read.reader.pages for image in page.images]
    assert len(pictures) == 3
    assert all(picture.width <= 640 for picture in pictures)


@pytest.mark.parametrize("name", HANDED)
def test_a_command_writes_the_very_bytes_that_the_api_answers(phone, data_folder, tmp_path, name):
    out = tmp_path / "sheet.pdf"
    done = run("document", name, "--event", EVENT, "--car", "42", "--paper", "letter", "--out", out, data=data_folder)
    assert (done.returncode, done.stderr) == (0, "")
    assert out.read_bytes() == phone("manager").get(f"{CAR}/documents/{name}.pdf?paper=letter").data


@pytest.mark.parametrize("ending", ["", ".json", ".csv", ".xlsx", ".pdf"])
def test_a_query_that_names_no_car_and_no_table_means_all_in_each_format(phone, ending):
    manager = phone("manager")
    every = manager.get(f"/events/{EVENT}/costs{ending}")
    said = manager.get(f"/events/{EVENT}/costs{ending}?car=&rates=")
    assert (every.status_code, said.status_code) == (200, 200)
    if ending not in (".xlsx", ".pdf"):  # which say when they were made
        assert said.data == every.data


@pytest.mark.parametrize("ending", ["csv", "xlsx", "pdf"])
def test_costs_are_written_by_the_ending_of_the_file(phone, data_folder, tmp_path, ending):
    out = tmp_path / f"costs.{ending}"
    done = run("costs", "--event", EVENT, "--out", out, data=data_folder)
    assert (done.returncode, done.stderr) == (0, "")
    assert out.read_bytes() == phone("manager").get(f"/events/{EVENT}/costs.{ending}").data


def test_a_command_for_a_file_that_there_is_no_way_to_write_says_so(data_folder, tmp_path):
    asked = ("--event", EVENT, "--car", "42")
    done = run("document", "record", *asked, "--out", tmp_path / "r.doc", data=data_folder)
    assert (done.returncode, ".pdf" in done.stderr) == (2, True)
    done = run("document", "record", *asked, "--out", tmp_path / "none" / "r.pdf", data=data_folder)
    assert (done.returncode, "could not be written" in done.stderr) == (1, True)
    done = run("costs", "--event", EVENT, "--out", tmp_path / "c.txt", data=data_folder)
    assert (done.returncode, ".xlsx" in done.stderr) == (2, True)
    done = run("document", "hand-over", *asked, "--out", tmp_path / "r.pdf", data=data_folder)
    assert (done.returncode, "walk round it" in done.stderr) == (1, True)


def test_a_parts_order_is_written_as_a_table_too(data_folder, tmp_path):
    out = tmp_path / "order.csv"
    done = run("document", "parts-order", "--event", EVENT, "--car", "41", "--out", out, data=data_folder)
    assert done.returncode == 0
    assert out.read_bytes().startswith(b"part,description,supplier,qty_needed")


def zipped(response) -> zipfile.ZipFile:
    assert (response.status_code, response.content_type) == (200, "application/zip")
    return zipfile.ZipFile(io.BytesIO(response.data))


def test_all_papers_of_a_car_come_as_one_file_that_says_what_is_not_in_it(phone):
    manager = phone("manager")
    packed = zipped(manager.get(f"{CAR}/documents.zip?paper=letter"))
    names = packed.namelist()
    inside = {f"{EVENT}-42-{name}.pdf" for name in HANDED if name != "statement"}
    assert inside | {f"{EVENT}-42-costs.pdf", f"{EVENT}-42-costs.xlsx", f"{EVENT}-42-parts-order.csv"} < set(names)
    assert [name for name in names if "statement" in name] == [f"{EVENT}-42-statement.pdf"]  # none is issued yet
    assert len(names) == len(set(names))
    contents = packed.read("contents.txt").decode()
    assert "Hand-over of the car: " in contents.split("Not inside:")[1]
    assert all(name in contents for name in names if name != "contents.txt")
    alone = manager.get(f"{CAR}/documents/declaration.pdf?paper=letter").data
    assert packed.read(f"{EVENT}-42-declaration.pdf") == alone
    assert Pdf(packed.read(f"{EVENT}-42-record.pdf")).papers() == {"letter"}


@pytest.mark.parametrize(("role", "has"), [("mechanic", "record"), ("driver", "declaration")])
def test_a_zip_has_no_paper_that_its_reader_may_not_have(phone, role, has):
    packed = zipped(phone(role).get(f"{CAR}/documents.zip"))
    names = packed.namelist()
    assert f"{EVENT}-42-{has}.pdf" in names
    assert not [name for name in names if "statement" in name or "costs" in name]
    assert (f"{EVENT}-42-record.pdf" in names) == (role == "mechanic")


def test_a_zip_of_what_is_not_there_is_refused(phone):
    assert phone("manager").get(f"/events/{EVENT}/cars/77/documents.zip").status_code == 404
    assert phone("manager").get(f"{CAR}/documents.zip?paper=a5").status_code == 404

"""Pages of documents as pictures: the same pages for the same people as the file, and not made twice."""

import hashlib
import io

import pytest
from PIL import Image

from longer import in_turn
from making import Pen
from phone import EVENT
from reading_pdf import Pdf
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.flow import papers

CAR = f"/events/{EVENT}/cars/42"
COSTS = f"/events/{EVENT}/costs"
SEEN = [f"{CAR}/documents/{name}" for name in ("record", "job-sheet", "statement")]
INCHES = {"a4": (8.27, 11.69), "letter": (8.5, 11)}
ROLES = ["driver", "co-driver", "mechanic", "inspector", "manager"]


@pytest.mark.parametrize(("stem", "paper"), in_turn([*SEEN, COSTS], INCHES))
def test_each_page_of_the_file_is_a_picture_of_the_paper(phone, stem, paper):
    manager = phone("manager")
    count = Pdf(manager.get(f"{stem}.pdf?paper={paper}").data).pages
    seen = set()
    for number in range(1, count + 1):
        page = manager.get(f"{stem}.png?paper={paper}&page={number}")
        assert (page.status_code, page.content_type, page.headers["Page-Count"]) == (200, "image/png", str(count))
        assert page.headers["Cache-Control"] == "no-store"
        size = Image.open(io.BytesIO(page.data)).size
        assert size == pytest.approx([inches * papers.PREVIEW_PPI for inches in INCHES[paper]], abs=2)
        seen.add(page.data)
    assert len(seen) == count, "each page is another one"


@pytest.mark.parametrize("number", ["0", "2", "x", "-1", "999999"])
def test_a_page_that_there_is_not_is_refused_with_how_many_there_are(phone, number):
    response = phone("manager").get(f"{CAR}/documents/job-sheet.png?page={number}")
    assert (response.status_code, "the document has 1" in response.get_json()["detail"]) == (404, True)


@pytest.mark.parametrize("query", ["paper=a5", "language=de", "service=Z"])
def test_what_the_file_is_refused_for_the_picture_is_too(phone, query):
    manager = phone("manager")
    answers = [manager.get(f"{CAR}/documents/job-sheet.{kind}?{query}") for kind in ("pdf", "png")]
    assert answers[0].status_code == answers[1].status_code == 404
    assert answers[0].get_json()["detail"] == answers[1].get_json()["detail"]


@pytest.mark.parametrize("role", ROLES)
def test_who_may_have_the_file_sees_it_and_nobody_else(phone, role):
    reader = phone(role)
    stems = [f"/events/{EVENT}/cars/{car}/documents/{name}" for car in ("42", "77") for name in (*DOCUMENTS, "poster")]
    for stem in [*stems, COSTS]:
        statuses = {reader.get(f"{stem}.{kind}").status_code for kind in ("pdf", "png")}
        assert len(statuses) == 1, (stem, statuses)


def test_money_in_a_record_is_seen_by_a_manager_alone_whoever_looked_first(phone):
    manager, mechanic = phone("manager"), phone("mechanic")
    last = f"{CAR}/documents/record.png?page=" + manager.get(f"{CAR}/documents/record.png").headers["Page-Count"]
    with_costs = manager.get(last)
    without = mechanic.get(last)
    assert with_costs.data != without.data
    assert with_costs.headers["ETag"] != without.headers["ETag"]


@pytest.fixture
def made(monkeypatch):
    """What was set, in turn."""
    asked: list[str] = []
    real = papers.car_document_pages

    def making(store, event, car, one):
        asked.append(one.name)
        return real(store, event, car, one)

    monkeypatch.setattr(papers, "car_document_pages", making)
    return asked


def test_pages_are_turned_and_seen_again_without_being_set_again(phone, made):
    reader = phone("mechanic")
    pages = [reader.get(f"{CAR}/documents/record.png?page={number}") for number in (1, 2)]
    assert made == ["record"]
    tags = [page.headers["ETag"] for page in pages]
    assert tags[0] != tags[1]
    again = reader.get(f"{CAR}/documents/record.png?page=2", headers={"If-None-Match": tags[1]})
    assert (again.status_code, again.data, made) == (304, b"", ["record"])


def test_a_page_is_set_again_once_something_was_said(phone, pen: Pen, made):
    reader = phone("mechanic")
    first = reader.get(f"{CAR}/documents/job-sheet.png")
    reader.sync({**pen.filed("front-end/grille missing"), "car": "42"})
    second = reader.get(f"{CAR}/documents/job-sheet.png", headers={"If-None-Match": first.headers["ETag"]})
    assert (second.status_code, made) == (200, ["job-sheet", "job-sheet"])
    assert second.data != first.data


def test_a_page_is_set_again_once_its_photo_came(phone, pen: Pen, made):
    reader, photo = phone("mechanic"), io.BytesIO()
    Image.new("RGB", (400, 300), "red").save(photo, "JPEG")
    name = hashlib.sha256(photo.getvalue()).hexdigest()
    reader.sync(pen.filed("front-end/grille missing", car="42", photos=[name]))
    record = f"{CAR}/documents/record.png"
    pages = range(1, int(reader.get(record).headers["Page-Count"]) + 1)
    before = [reader.get(f"{record}?page={number}") for number in pages]
    kept = reader.client.put(f"/api/v1/photos/{name}", data=photo.getvalue(), headers=reader.headers)
    assert kept.status_code == 201
    known = [{"If-None-Match": page.headers["ETag"]} for page in before]
    after = [reader.get(f"{record}?page={number}", headers=held) for number, held in zip(pages, known, strict=True)]
    assert {page.status_code for page in after} == {200}
    assert [page.data for page in after] != [page.data for page in before]

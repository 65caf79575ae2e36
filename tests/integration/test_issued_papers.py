"""The paper of an issued statement is one file, printed again byte for byte: later, on a copy, after a bundle."""

import io
import zipfile
from pathlib import Path
from typing import Any

import pytest
from command import printed, run

from making import Json, Pen
from phone import EVENT, NOW
from reading_pdf import Pdf
from shuntbook.flow import backups, diagnostics
from shuntbook.flow.bundle_export import export_bundle
from shuntbook.flow.bundle_import import Choice, import_bundle
from shuntbook.store import photos
from shuntbook.store.database import Store
from shuntbook.store.printed import all_of

CAR = f"/events/{EVENT}/cars/42"
PAPER = f"{CAR}/documents/statement.pdf?number=1"
BEHIND = ("entries", "photos", "photos_before", "tag", "standing")


def issued(pen: Pen, draft: Json) -> Json:
    content = {name: draft[name] for name in ("customer", "currency", "rates", "steps", "totals", "letter")}
    content["incidents"] = [
        {**one, "lines": [{k: v for k, v in line.items() if k not in BEHIND} for line in one["lines"]]}
        for one in draft["incidents"]
    ]
    content["not_charged"] = [{k: v for k, v in one.items() if k not in BEHIND} for one in draft["not_charged"]]
    more: Json = {"number": draft["number"], "agreement": draft["agreement"], "content": content}
    return pen.entry("statement.issued", person="p-vera", car="42", **more)


@pytest.fixture
def vera(phone: Any) -> Any:
    return phone("manager")


@pytest.fixture
def sent(vera: Any, pen: Pen) -> Json:
    draft = vera.get(f"{CAR}/statements").get_json()["draft"]
    entry = issued(pen, draft)
    assert vera.sync(entry)["rejected"] == []
    return entry


def settled(pen: Pen, sent: Json, standing: str, **more: Any) -> Json:
    line = sent["data"]["content"]["incidents"][0]["lines"][0]["line"]
    return pen.entry(
        "statement.line_settled", sent["id"], person="p-vera", car="42", line=line, standing=standing, **more
    )


def test_the_papers_of_a_car_have_each_issued_statement_as_it_went_out_and_what_became_of_it(
    vera: Any, pen: Pen, sent: Json
) -> None:
    first = vera.get(PAPER).data
    assert vera.sync(settled(pen, sent, "disputed", reason="was there"))["rejected"] == []
    packed = zipfile.ZipFile(io.BytesIO(vera.get(f"{CAR}/documents.zip").data))
    names = [name for name in packed.namelist() if "statement" in name]
    assert names == [f"{EVENT}-42-statement-1.pdf", f"{EVENT}-42-statement-answers-1.pdf"]
    assert packed.read(names[0]) == first
    assert "was there" in Pdf(packed.read(names[1])).text


def test_a_reprint_is_the_bytes_that_went_out_whatever_came_after(vera: Any, pen: Pen, sent: Json) -> None:
    first = vera.get(PAPER).data
    assert "Statement Car 42, no. 1" in Pdf(first).text
    later = [settled(pen, sent, "disputed", reason="was there"), pen.filed("front-end/bumper bent", stage="SS8")]
    assert vera.sync(*later)["rejected"] == []
    assert vera.get(PAPER).data == first
    letter = vera.get(f"{PAPER}&paper=letter").data
    assert (letter != first, Pdf(letter).papers()) == (True, {"letter"})
    assert vera.get(PAPER).data == first
    assert vera.get(f"{CAR}/documents/statement.pdf?number=2").data[:5] == b"%PDF-"


def test_a_draft_is_made_anew_each_time_and_not_kept(vera: Any, pen: Pen, sample_store: Store) -> None:
    vera.get(f"{CAR}/documents/statement.pdf")
    assert all_of(sample_store.db) == []


def test_a_paper_whose_photos_are_still_on_a_phone_is_not_kept_yet(
    vera: Any, sent: Json, sample_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as some:
        some.setattr("shuntbook.store.photos.all_held", lambda db: [])
        assert "Photo not on the server yet" in Pdf(vera.get(PAPER).data).text
    assert all_of(sample_store.db) == []
    assert "Photo not on the server yet" not in Pdf(vera.get(PAPER).data).text
    assert [(entry, paper) for entry, paper, _ in all_of(sample_store.db)] == [(sent["id"], "a4")]


def test_the_annex_says_what_became_of_each_line_and_the_sums_apart(vera: Any, pen: Pen, sent: Json) -> None:
    vera.sync(settled(pen, sent, "disputed", reason="was there before"))
    answer = vera.get(f"{PAPER}&part=answers")
    assert answer.headers["Content-Disposition"] == f'attachment; filename="{EVENT}-42-statement-answers.pdf"'
    words, first = Pdf(answer.data).text, sent["data"]["content"]["incidents"][0]["lines"][0]
    assert "Answers to statement 42-1" in words
    assert f"{first['says']} disputed, " in words
    assert ": was there before disputed " in words
    assert f"disputed {first['amount']}" in words
    assert "not answered" in words
    assert Pdf(answer.data).faults() == []
    assert "was there before" not in Pdf(vera.get(PAPER).data).text


def test_a_draft_has_no_annex(vera: Any) -> None:
    answer = vera.get(f"{CAR}/documents/statement.pdf?part=answers")
    assert (answer.status_code, "is a draft" in answer.get_json()["detail"]) == (404, True)


def test_the_paper_comes_back_with_a_copy_and_check_looks_at_it(
    vera: Any, sent: Json, sample_store: Store, tmp_path: Path
) -> None:
    first = vera.get(PAPER).data
    backups.backup(sample_store, tmp_path / "copy.zip")
    assert run("restore", tmp_path / "copy.zip", data=tmp_path / "new").returncode == 0
    out = tmp_path / "again.pdf"
    command = ("document", "statement", "--event", EVENT, "--car", "42", "--number", "1", "--out", out)
    assert run(*command, data=tmp_path / "new").returncode == 0
    assert out.read_bytes() == first
    assert printed("check", data=tmp_path / "new")["problems"] == []
    new = Store(tmp_path / "new")
    [(_, _, digest)] = all_of(new.db)
    photos.path_of(new, digest).write_bytes(b"damaged")
    assert any(digest in problem for problem in diagnostics.check(new))


def test_the_paper_goes_with_a_bundle_and_is_believed_where_its_devices_are(
    vera: Any, sent: Json, sample_store: Store, tmp_path: Path
) -> None:
    first = vera.get(PAPER).data
    export_bundle(sample_store, tmp_path / "b.zip", EVENT, NOW)
    there = Store(tmp_path / "there")
    import_bundle(there, tmp_path / "b.zip", Choice(), NOW)
    out = tmp_path / "again.pdf"
    command = ("document", "statement", "--event", EVENT, "--car", "42", "--number", "1", "--out", out)
    assert run(*command, data=tmp_path / "there").returncode == 0
    assert out.read_bytes() == first
    [(entry, paper, digest)] = all_of(sample_store.db)
    sample_store.db.conn.execute("DELETE FROM printed")
    sample_store.db.conn.commit()
    import_bundle(sample_store, tmp_path / "b.zip", Choice(), NOW)
    assert all_of(sample_store.db) == [], "a stranger's bundle does not say what the team's paper was"
    import_bundle(sample_store, tmp_path / "b.zip", Choice(trust=True), NOW)
    assert all_of(sample_store.db) == [(entry, paper, digest)]


def test_nobody_but_a_manager_gets_it_by_its_hash_either(
    vera: Any, phone: Any, sent: Json, sample_store: Store
) -> None:
    vera.get(PAPER)
    [(_, _, digest)] = all_of(sample_store.db)
    assert phone("mechanic").get(f"/photos/{digest}").status_code == 404
    assert phone("mechanic").get(PAPER).status_code == 403

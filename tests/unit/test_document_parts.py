"""The parts order: what the open jobs need, less what is left in the van. The small van: 2 rims, 3 hoses, 1 lamp."""

import csv
import io

from document_cases import car_file
from making import Json, Pen
from reading_pdf import Pdf
from shuntbook.document.parts_order import order_csv, order_rows, parts_order
from shuntbook.document.pdf import pdf
from shuntbook.setup.folder import Setup
from small_event import FILES, small_setup


def none(_: str) -> None:
    """Hold no photo."""


def story(pen: Pen) -> list[Json]:
    """Two hoses are needed on each side, one is used already; a lamp is put in; a grille is in no van."""
    left = pen.filed("front-left/brake-hose leaking")
    right = pen.filed("front-right/brake-hose leaking")
    grille = pen.filed("front-end/grille missing")
    lamp = pen.filed("front-end/lamp broken")
    fitted = pen.finished("front-end/lamp", lamp, parts=[{"part": "lamp", "qty": 1}])
    other = pen.filed("front-left/wheel bent")
    swapped = pen.finished("front-left/wheel", other, parts=[{"part": "hose", "qty": 1}])
    return [left, right, grille, lamp, fitted, other, swapped]


def test_what_to_order_is_what_is_needed_less_what_is_left(pen: Pen, setup: Setup) -> None:
    rows = {row["part"]: row for row in order_rows(car_file(story(pen), setup))}
    # Hoses: 2 + 2 needed, 3 loaded − 1 used = 2 left → 2 to order at 35.55 = 71.10.
    hose = rows["hose"]
    assert [hose[k] for k in ("qty_needed", "in_van", "qty_to_order", "used_of_van")] == ["4", "2", "2", "1"]
    assert (hose["unit_cost"], hose["cost"]) == ("35.55", "71.10")
    assert [rows["grille"][k] for k in ("qty_needed", "in_van", "qty_to_order", "used_of_van")] == ["1", "0", "1", "0"]
    # Nothing needs the lamp any more; it is on the list because the van lacks it now.
    assert [rows["lamp"][k] for k in ("qty_needed", "in_van", "qty_to_order", "used_of_van")] == ["0", "0", "0", "1"]
    assert "rim" not in rows


def test_the_paper_adds_up_to_the_cent_and_shows_money_only_where_asked(pen: Pen, setup: Setup) -> None:
    file = car_file(story(pen), setup)
    shown = Pdf(pdf(parts_order(file, "letter", True), none, file.newest)).text
    assert "Cost of what is to be ordered: 83.10 EUR, before tax" in shown  # 71.10 + 12.00
    hidden = Pdf(pdf(parts_order(file, "letter", False), none, file.newest)).text
    assert "hose Hose 4 2 2 1" in hidden
    assert "35.55" not in hidden
    assert "EUR" not in hidden


def test_the_table_has_the_same_rows_and_is_defused(pen: Pen) -> None:
    evil = FILES["rates/parts.csv"].replace(b"hose,Hose,35.55", b"hose,=HYPERLINK(1),35.55")
    file = car_file(story(pen), small_setup(parts=evil))
    table = order_csv(file, True)
    assert table.count(b"\r\n") == 1 + len(order_rows(file))
    rows = {row["part"]: row for row in csv.DictReader(io.StringIO(table.decode(), newline=""))}
    assert rows["hose"]["description"] == "'=HYPERLINK(1)"
    assert (rows["hose"]["qty_to_order"], rows["hose"]["cost"], rows["hose"]["currency"]) == ("2", "71.10", "EUR")
    assert "unit_cost" not in order_csv(file, False).decode()

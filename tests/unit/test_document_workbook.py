"""The workbook read back with openpyxl: real numbers, sums that come to the answer's cents, text never a formula."""

import csv
import io
import re
from datetime import UTC, datetime
from decimal import Decimal

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from making import Json, Pen, parsed
from shuntbook.cost.answer import Costs
from shuntbook.cost.sheet import cost_sheet
from shuntbook.cost.table import costs_csv
from shuntbook.document.workbook import GROUPS, costs_xlsx
from shuntbook.setup.folder import Setup
from small_event import FILES, small_setup

AT = datetime(2026, 6, 14, 12, 0, tzinfo=UTC)
EVIL = ["=cmd|' /C calc'!A0", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "=1+1", "#N/A", "#REF!", "{=1}", "\x07=1"]
"""OWASP, CSV Injection: =, +, -, @, tab and return at the start; and names of errors, which openpyxl types as such."""


def entries(pen: Pen) -> list[Json]:
    """Return hits of two days and cars, repaired and not, with corrections that count and one that does not."""
    wheel = pen.filed("front-left/wheel bent", stage="SS1", km=3)
    lamp = pen.filed("front-end/lamp broken", stage="SS2")
    before = pen.filed("front-left/brake-hose leaking", where="hand-over")
    badge = pen.filed("front-end/badge bent", car=None)
    done = pen.finished(
        "front-left/wheel", wheel, service="A", minutes="7.3", mechanics=2, parts=[{"part": "rim", "qty": 1}]
    )
    other = {**pen.filed("front-end/grille missing", stage="SS3"), "car": "42"}
    drives = pen.entry("driver.changed", driver="p-toma")
    good = pen.entry("cost.adjusted", person="p-vera", line="front-left/wheel", amount="-12.34", reason="goodwill")
    bad = pen.entry("cost.adjusted", person="p-bodo", line="front-left/wheel", amount="-99.00", reason="mine")
    return [drives, wheel, lamp, before, badge, done, other, good, bad]


def costs_of(some: list[Json], setup: Setup) -> Costs:
    cars = {car: parsed(e for e in some if e["car"] == car) for car in ("41", "42")}
    return cost_sheet(cars, setup, None)


def opened(costs: Costs, results: bool = False) -> Workbook:
    return load_workbook(io.BytesIO(costs_xlsx(costs, AT)), data_only=results)


@pytest.fixture
def costs(pen: Pen, setup: Setup) -> Costs:
    """The cost sheet of both cars."""
    return costs_of(entries(pen), setup)


class Reckoner:
    """Works out the few kinds of formulas that the workbook has, from its cells alone."""

    def __init__(self, book: Workbook) -> None:
        self.book = book

    def value(self, sheet: Worksheet, place: str) -> Decimal:
        held = sheet[place].value
        if not isinstance(held, str):
            return Decimal(str(held or 0))
        assert sheet[place].data_type == "f", f"{sheet.title}!{place} holds text: {held!r}"
        return self.formula(sheet, held[1:])

    def formula(self, sheet: Worksheet, formula: str) -> Decimal:
        if found := re.fullmatch(r"SUM\(([A-Z]+\d+):([A-Z]+\d+)\)", formula):
            cells = [cell.coordinate for row in sheet[f"{found[1]}:{found[2]}"] for cell in row]
            return sum((self.value(sheet, place) for place in cells), Decimal(0))
        if found := re.fullmatch(r"ROUND\(([A-Z]\d+)\*([A-Z]\d+)/100,(\d)\)", formula):
            exact = self.value(sheet, found[1]) * self.value(sheet, found[2]) / 100
            return exact.quantize(Decimal(1).scaleb(-int(found[3])), "ROUND_HALF_UP")
        if found := re.fullmatch(r"([A-Z]\d+)\+([A-Z]\d+)", formula):
            return self.value(sheet, found[1]) + self.value(sheet, found[2])
        if found := re.fullmatch(r"(\w+)!([A-Z]+\d+)", formula):
            return self.value(self.book[found[1]], found[2])
        return Decimal(formula)


def formulas(book: Workbook) -> list[tuple[str, str]]:
    return [(s.title, c.coordinate) for s in book for row in s.iter_rows() for c in row if c.data_type == "f"]


def named(book: Workbook) -> dict[str, str]:
    """Return what the sheet of sums names → its cell."""
    return {row[0].value: row[1].coordinate for row in book["Sums"].iter_rows(min_row=2)}


def test_the_sums_come_to_the_totals_of_the_answer(costs: Costs) -> None:
    book = opened(costs)
    reckoner = Reckoner(book)
    places = named(book)
    for name in ("estimate", "actual", "adjustments", "before_tax", "tax", "total"):
        worked_out = reckoner.value(book["Sums"], places[name.replace("_", " ")])
        assert worked_out == Decimal(getattr(costs.totals, name)), name
    assert costs.totals.adjustments == "-12.34"
    assert Decimal(costs.totals.actual) > 210


@pytest.mark.parametrize(("name", "title"), GROUPS.items())
def test_each_sheet_of_sums_comes_to_the_same_total(name: str, title: str, costs: Costs) -> None:
    book = opened(costs)
    sheet = book[title]
    rows = getattr(costs, name)
    values = [[Reckoner(book).value(sheet, f"{c}{n}") for c in "BCDE"] for n in range(2, len(rows) + 3)]
    wanted = [[Decimal(getattr(row, k)) for k in ("estimate", "actual", "adjustments", "before_tax")] for row in rows]
    assert values[:-1] == wanted
    assert values[-1] == [
        Decimal(getattr(costs.totals, k)) for k in ("estimate", "actual", "adjustments", "before_tax")
    ]


def test_what_a_formula_comes_to_is_in_the_file_for_readers_that_do_not_reckon(costs: Costs) -> None:
    book, shown = opened(costs), opened(costs, results=True)
    places = formulas(book)
    assert len(places) > 30
    for title, place in places:
        assert Decimal(str(shown[title][place].value)) == Reckoner(book).value(book[title], place), (title, place)


def test_every_amount_is_a_number_in_the_currencys_format(costs: Costs) -> None:
    book = opened(costs)
    for title, columns in (("Lines", "PQRSTUVW"), ("By zone", "BCDE"), ("Adjustments", "EF")):
        cells = [cell for row in book[title].iter_rows(min_row=2) for cell in row if cell.column_letter in columns]
        amounts = [cell for cell in cells if cell.value is not None]
        assert amounts
        assert {cell.data_type for cell in amounts} <= {"n", "f"}
        assert {cell.number_format for cell in amounts} == {'#,##0.00 "EUR"'}


@pytest.mark.parametrize(("currency", "form"), [("JPY", '#,##0 "JPY"'), ("KWD", '#,##0.000 "KWD"')])
def test_the_decimals_are_those_of_the_currency(currency: str, form: str, pen: Pen) -> None:
    # ISO 4217: the yen has no minor unit, the Kuwaiti dinar thousandths.
    rates = FILES["rates/rates.toml"].replace(b"EUR", currency.encode())
    parts = re.sub(rb"\.\d\d\b", b"", FILES["rates/parts.csv"])
    costs = costs_of([e for e in entries(pen) if e["kind"] != "cost.adjusted"], small_setup(rates=rates, parts=parts))
    book = opened(costs)
    cell = book["Sums"][named(book)["total"]]
    assert cell.number_format == form
    assert Reckoner(book).value(book["Sums"], cell.coordinate) == Decimal(costs.totals.total)


def test_headers_stay_in_sight_and_lines_can_be_filtered(costs: Costs) -> None:
    book = opened(costs)
    assert {sheet.freeze_panes for sheet in book} == {"A2"}
    counted = sum(not line.baseline for line in costs.lines)
    assert book["Lines"].auto_filter.ref == f"A1:W{counted + 1}"
    assert all(dimension.width >= 12 for dimension in book["Lines"].column_dimensions.values())


def test_what_was_there_before_is_on_a_sheet_of_its_own_and_in_no_sum(costs: Costs) -> None:
    before = [line for line in costs.lines if line.baseline]
    assert before, "the case has such a line"
    book = opened(costs)
    column = {cell.value: cell.column for cell in book["There before"][1]}
    jobs = [row[column["job"] - 1].value for row in book["There before"].iter_rows(min_row=2)]
    assert [job for job in jobs if job] == [line.job for line in before if line.job]


@pytest.mark.parametrize("evil", EVIL)
def test_what_people_wrote_is_text_and_never_a_formula(evil: str, pen: Pen, setup: Setup) -> None:
    hit = pen.filed("front-end/badge bent", stage=evil)
    done = pen.finished("front-end/badge", hit, action=evil, service=evil)
    adjusted = pen.entry("cost.adjusted", person="p-vera", line=evil, amount="1.00", reason=evil)
    costs = costs_of([hit, done, adjusted], setup)
    kept = evil.replace("\x07", " ")
    book = opened(costs)
    found = [
        cell
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.value in (kept, kept.replace("\r", "\n"))
    ]
    assert len(found) >= 4
    assert {cell.data_type for cell in found} == {"s"}
    starts = ("=", "+", "-", "@", "\t", "\r")
    assert {bool(cell.quotePrefix) for cell in found} == {kept.startswith(starts)}
    assert not any(kept in str(book[title][place].value) for title, place in formulas(book))


def test_the_same_sheet_gives_the_same_bytes(costs: Costs) -> None:
    assert costs_xlsx(costs, AT) == costs_xlsx(costs, AT)
    assert costs_xlsx(costs, AT) != costs_xlsx(costs, AT.replace(day=15))


def test_a_sheet_without_lines_opens_too(setup: Setup) -> None:
    costs = costs_of([], setup)
    book = opened(costs)
    assert Reckoner(book).value(book["Sums"], named(book)["total"]) == 0


def test_the_csv_says_the_same_as_the_workbook(costs: Costs) -> None:
    rows = list(csv.DictReader(io.StringIO(costs_csv(costs).decode(), newline="")))
    assert sum(Decimal(r["actual_total"] or 0) for r in rows if not r["baseline"]) == Decimal(costs.totals.actual)
    assert sum(Decimal(r["estimate_total"]) for r in rows if not r["baseline"]) == Decimal(costs.totals.estimate)
    kinds = ("labour", "parts", "consumables")
    for row in rows:
        assert sum(Decimal(row[f"estimate_{kind}"]) for kind in kinds) == Decimal(row["estimate_total"])
    shares = sum(Decimal(row["access_share_actual"]) for row in rows)
    access = sum(Decimal(row["actual_total"] or 0) for row in rows if row["kind"] == "access")
    assert shares == access > 0

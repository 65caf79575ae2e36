"""A cost sheet as a workbook (XLSX, ISO/IEC 29500): real numbers, sums as formulas, text that is never a formula."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import cast

from msgspec.structs import asdict
from openpyxl import Workbook
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE, Cell
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from shuntbook.cost.adjusted import Adjustment
from shuntbook.cost.answer import CostLine, Costs, Sums
from shuntbook.cost.table import FLAGS, MONEY, WORDS, amounts, defused
from shuntbook.document.workbook_bytes import Known, workbook_bytes
from shuntbook.kit.money import Currency, currency
from shuntbook.kit.times import day_or_none

GROUPS = {
    "by_car": "By car",
    "by_day": "By day",
    "by_stage": "By stage",
    "by_zone": "By zone",
    "by_component": "By component",
    "by_driver": "By driver",
}
BOLD = Font(bold=True)
WIDEST = 44


@dataclass
class _Book:
    """A workbook in the making; `known`: what each formula comes to, for readers that do not calculate."""

    coin: Currency
    book: Workbook = field(default_factory=Workbook)
    known: Known = field(default_factory=dict)

    @property
    def money_format(self) -> str:
        """The currency's number format, with as many decimals as ISO 4217 gives it."""
        return f'#,##0{"." + "0" * self.coin.decimals if self.coin.decimals else ""} "{self.coin.code}"'

    def sheet(self, title: str, header: Sequence[str]) -> Worksheet:
        """Add a sheet with a header that stays in sight."""
        sheet: Worksheet = self.book.create_sheet(title)
        for column, name in enumerate(header, 1):
            _text(_cell(sheet, 1, column), name)
            _cell(sheet, 1, column).font = BOLD
        sheet.freeze_panes = "A2"
        sheet.print_title_rows = "1:1"
        sheet.page_setup.orientation = "landscape"
        sheet.page_setup.fitToHeight = 0
        sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
        return sheet

    def money(self, cell: Cell, amount: str) -> None:
        """Put an amount in as a real number."""
        cell.value = Decimal(amount)
        cell.number_format = self.money_format

    def formula(self, cell: Cell, formula: str, amount: Decimal) -> None:
        """Put a formula in that comes to `amount`."""
        cell.value = f"={formula}"
        cell.number_format = self.money_format
        self.known[cell.parent.title, cell.coordinate] = amount

    def sums(self, sheet: Worksheet, first: int, rows: Sequence[Sequence[str]], says: str) -> None:
        """Put a row of sums below `rows`, whose money stands in the columns from `first` on."""
        last, below = len(rows) + 1, len(rows) + 2
        _text(_cell(sheet, below, 1), says)
        _cell(sheet, below, 1).font = BOLD
        for place in range(len(rows[0]) if rows else 0):
            letter = get_column_letter(first + place)
            amount = sum((Decimal(row[place]) for row in rows if row[place]), Decimal(0))
            self.formula(_cell(sheet, below, first + place), f"SUM({letter}2:{letter}{last})", amount)
            _cell(sheet, below, first + place).font = BOLD


def costs_xlsx(costs: Costs, at: datetime) -> bytes:
    """Return the cost sheet as XLSX; `at` is the file's date, so that equal sheets are equal bytes."""
    made = _Book(currency(costs.currency))
    made.book.remove(made.book.worksheets[0])
    lines = [line for line in costs.lines if not line.baseline]
    _lines(made, "Lines", lines)
    for name, title in GROUPS.items():
        _group(made, title, name.removeprefix("by_"), getattr(costs, name))
    _adjustments(made, costs.adjustments)
    _totals(made, costs, len(lines))
    before = [line for line in costs.lines if line.baseline]
    if before:
        _lines(made, "There before", before)
    for sheet in made.book.worksheets:
        _fit(sheet)
    return workbook_bytes(made.book, made.known, at)


def _lines(made: _Book, title: str, lines: list[CostLine]) -> None:
    kinds = [f"{when} {name.removesuffix('_cost')}" for when in ("estimate", "actual") for name in MONEY]
    sheet = made.sheet(title, [*WORDS, *FLAGS, *kinds])
    first = len(WORDS) + len(FLAGS) + 1
    rows = []
    for number, line in enumerate(lines, 2):
        words = [str(getattr(line, word) or "") for word in WORDS] + [
            "yes" if getattr(line, flag) else "" for flag in FLAGS
        ]
        for column, (name, word) in enumerate(zip((*WORDS, *FLAGS), words, strict=True), 1):
            _said(_cell(sheet, number, column), name, word)
        found = [*amounts(line.estimate), *amounts(line.actual)]
        rows.append(found)
        for column, amount in enumerate(found, first):
            if amount:
                made.money(_cell(sheet, number, column), amount)
    if lines:
        sheet.auto_filter.ref = f"A1:{get_column_letter(first + len(kinds) - 1)}{len(lines) + 1}"
    made.sums(sheet, first, rows, "Sum")


def _group(made: _Book, title: str, name: str, rows: Sequence[Sums]) -> None:
    sheet = made.sheet(title, [name, "estimate", "actual", "adjustments", "before tax"])
    amounts = []
    for number, row in enumerate(rows, 2):
        _said(_cell(sheet, number, 1), name, getattr(row, name) or "none")
        for column, key in enumerate(("estimate", "actual", "adjustments"), 2):
            made.money(_cell(sheet, number, column), getattr(row, key))
        made.formula(_cell(sheet, number, 5), f"C{number}+D{number}", Decimal(row.before_tax))
        amounts.append([getattr(row, key) for key in ("estimate", "actual", "adjustments", "before_tax")])
    if rows:
        sheet.auto_filter.ref = f"A1:E{len(rows) + 1}"
    made.sums(sheet, 2, amounts, "Sum")


def _adjustments(made: _Book, adjustments: list[Adjustment]) -> None:
    sheet = made.sheet("Adjustments", ["car", "line", "reason", "person", "amount", "does not count"])
    rows = []
    for number, one in enumerate(adjustments, 2):
        for column, key in enumerate(("car", "line", "reason", "person"), 1):
            _text(_cell(sheet, number, column), getattr(one, key))
        made.money(_cell(sheet, number, 5 if one.counts else 6), one.amount)
        rows.append([one.amount if one.counts else ""])
    made.sums(sheet, 5, rows, "Sum")


def _totals(made: _Book, costs: Costs, lines: int) -> None:
    totals = {name: Decimal(amount) for name, amount in asdict(costs.totals).items()}
    first = len(WORDS) + len(FLAGS) + 1
    estimate, actual = (f"Lines!{get_column_letter(first + place)}{lines + 2}" for place in (3, 7))
    adjusted = f"Adjustments!E{len(costs.adjustments) + 2}" if costs.adjustments else "0"
    sheet = made.sheet("Sums", ["what", "amount"])
    formulas = {
        "estimate": estimate if lines else "0",
        "actual": actual if lines else "0",
        "adjustments": adjusted,
        "before_tax": "B3+B4",
        "tax": f"ROUND(B5*B8/100,{made.coin.decimals})",
        "total": "B5+B6",
    }
    for number, (name, formula) in enumerate(formulas.items(), 2):
        _text(_cell(sheet, number, 1), name.replace("_", " "))
        made.formula(_cell(sheet, number, 2), formula, totals[name])
    for number, (name, value) in enumerate(
        [("tax percent", costs.tax_percent), ("rate table", costs.rates), ("event", costs.event)], 8
    ):
        _text(_cell(sheet, number, 1), name)
        if isinstance(value, str):
            _text(_cell(sheet, number, 2), value)
        else:
            _cell(sheet, number, 2).value = Decimal(str(value))


def _cell(sheet: Worksheet, row: int, column: int) -> Cell:
    # No cells are merged here, so each is one that takes a value.
    return cast(Cell, sheet.cell(row, column))


def _text(cell: Cell, text: str) -> None:
    """Put text in as text, whatever it begins with."""
    cell.value = ILLEGAL_CHARACTERS_RE.sub(" ", text)
    if text:
        cell.data_type = "s"  # openpyxl would take "=1+1" for a formula and "#N/A" for an error
        cell.quotePrefix = defused(text) != text


def _said(cell: Cell, name: str, text: str) -> None:
    """Put a day in as a date that sorts and filters as one, all else as text."""
    day = day_or_none(text) if name == "day" else None
    if day is None:
        _text(cell, text)
    else:
        cell.value = day
        cell.number_format = "yyyy-mm-dd"


def _fit(sheet: Worksheet) -> None:
    for number, column in enumerate(sheet.iter_cols(values_only=True), 1):
        longest = max((len(str(value)) for value in column if value is not None), default=0)
        sheet.column_dimensions[get_column_letter(number)].width = min(WIDEST, max(12, longest + 2))

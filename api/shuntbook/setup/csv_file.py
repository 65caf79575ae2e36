"""Reads a CSV file (RFC 4180, UTF-8, with or without a BOM or CRLF) into rows of checked cells."""

import csv
import io
from collections.abc import Iterator
from decimal import Decimal, InvalidOperation
from fractions import Fraction

from shuntbook.kit.money import Currency
from shuntbook.setup.faults import Faults

TRUE, FALSE = {"true", "yes", "1"}, {"false", "no", "0", ""}


class Row:
    """One data row: takes typed values out of its cells, noting a fault for each that does not fit."""

    def __init__(self, file: str, row: int, cells: dict[str, str], faults: Faults) -> None:
        self.file = file
        self.row = row
        self.cells = cells
        self.faults = faults

    def fault(self, column: str, what: str) -> None:
        """Note a fault in this row at `column`."""
        self.faults.add(self.file, self.row, column, what)

    def text(self, column: str) -> str:
        """Return the cell as it stands, "" where it is empty or the column is absent."""
        return self.cells.get(column, "")

    def name(self, column: str) -> str:
        """Return a cell that must be filled."""
        value = self.text(column)
        if not value:
            self.fault(column, "is empty; it must be filled")
        return value

    def choice(self, column: str, among: tuple[str, ...]) -> str:
        """Return a cell that must hold one of the words in `among`."""
        value = self.text(column)
        if value not in among:
            self.fault(column, f"{value!r} is not one of {', '.join(among)}")
        return value

    def number(self, column: str, default: Decimal | None = None) -> Decimal:
        """Return a number of at least 0; an empty cell is a fault unless there is a default."""
        value = self.text(column)
        if not value and default is not None:
            return default
        try:
            number = Decimal(value)
        except InvalidOperation:
            self.fault(column, f"{value!r} is not a number")
            return Decimal(0)
        if not number.is_finite() or abs(number) > 10**12:
            self.fault(column, f"{value!r} is not a number that can be reckoned with")
            return Decimal(0)
        if number < 0:
            self.fault(column, f"{value} is negative; write 0 or more")
            return Decimal(0)
        return number

    def whole(self, column: str, least: int) -> int:
        """Return a whole number of at least `least`."""
        before = len(self.faults.found)
        value = self.number(column)
        if len(self.faults.found) == before and (value != int(value) or value < least):
            self.fault(column, f"{self.text(column)} is not a whole number of {least} or more")
        return int(value)

    def flag(self, column: str) -> bool:
        """Return true or false; an empty cell is false."""
        value = self.text(column).lower()
        if value not in TRUE | FALSE:
            self.fault(column, f"{self.text(column)!r} is neither true nor false")
        return value in TRUE

    def money(self, column: str, currency: Currency) -> Decimal:
        """Return an amount with no more decimals than the currency has."""
        amount = self.number(column)
        if not currency.fits(amount):
            self.fault(
                column,
                f"{amount} has more decimals than {currency.code} ({currency.decimals})",
            )
        return amount

    def names(self, column: str) -> tuple[str, ...]:
        """Return the names of a cell that separates them by semicolons, in order."""
        return tuple(part.strip() for part in self.text(column).split(";") if part.strip())

    def quantities(self, column: str) -> dict[str, Decimal]:
        """Return `part*qty;part` as quantities by part: alone counts 1, equal parts add up."""
        found: dict[str, Decimal] = {}
        for item in self.names(column):
            part, star, count = (text.strip() for text in item.partition("*"))
            qty = self._quantity(column, item, count) if star else Decimal(1)
            found[part] = found.get(part, Decimal(0)) + qty
        return found

    def _quantity(self, column: str, item: str, count: str) -> Decimal:
        try:
            qty = Decimal(count)
        except InvalidOperation:
            qty = Decimal(0)
        if not qty.is_finite() or not 0 < qty <= 10**6:
            self.fault(column, f"{item!r} is not part*quantity with a quantity above 0")
            return Decimal(1)
        return qty

    def three_points(self) -> tuple[Fraction, Fraction, Fraction]:
        """Return (best, likely, worst) minutes, in order and above 0."""
        columns = ("minutes_best", "minutes_likely", "minutes_worst")
        before = len(self.faults.found)
        best, likely, worst = (self.number(column) for column in columns)
        if len(self.faults.found) == before:
            if best <= 0:
                self.fault("minutes_best", f"{best} is not above 0")
            if best > likely:
                self.fault("minutes_likely", f"likely {likely} is below best {best}")
            if likely > worst:
                self.fault("minutes_worst", f"worst {worst} is below likely {likely}")
        return Fraction(best), Fraction(likely), Fraction(worst)


def read_csv(
    file: str,
    data: bytes,
    required: tuple[str, ...],
    optional: tuple[str, ...],
    faults: Faults,
) -> Iterator[Row]:
    """Yield the rows of a CSV file; blank lines are passed over.

    A wrong header is one fault per column, and rows are read no further where a required column lacks.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        faults.add(
            file,
            0,
            "",
            f"not UTF-8 text ({error.reason} at byte {error.start}); save it as UTF-8",
        )
        return
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        header = [cell.strip() for cell in next(reader, [])]
        if not _header_fits(file, header, required, optional, faults):
            return
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield _row(file, reader.line_num, header, cells, faults)
    except csv.Error as error:
        faults.add(file, reader.line_num, "", f"not valid CSV: {error}")


def _header_fits(
    file: str,
    header: list[str],
    required: tuple[str, ...],
    optional: tuple[str, ...],
    faults: Faults,
) -> bool:
    for column in header:
        if column not in required + optional:
            known = ", ".join(required + optional)
            faults.add(file, 1, column, f"unknown column; the columns are {known}")
        if header.count(column) > 1:
            faults.add(file, 1, column, "this column stands twice")
    missing = [column for column in required if column not in header]
    for column in missing:
        faults.add(file, 1, column, "this column is missing; add it")
    return not missing


def _row(file: str, number: int, header: list[str], cells: list[str], faults: Faults) -> Row:
    if len(cells) > len(header) and any(cell.strip() for cell in cells[len(header) :]):
        faults.add(
            file,
            number,
            "",
            f"has {len(cells)} cells, the header {len(header)}; a comma too many?",
        )
    pairs = zip(header, cells, strict=False)
    return Row(file, number, {column: cell.strip() for column, cell in pairs}, faults)

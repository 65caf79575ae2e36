"""The parts order: what the open jobs need, less what is left in the van."""

import csv
import io
from decimal import Decimal

from shuntbook.cost.table import defused
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.kit.money import total
from shuntbook.setup.folder import Setup

COLUMNS = ("part", "description", "supplier", "qty_needed", "in_van", "qty_to_order", "used_of_van")
MONEY = ("unit_cost", "cost", "currency")


def parts_order(file: CarFile, paper: str, money: bool) -> Json:
    """Return the data of the order; `money` puts costs in. Errors: NotFound for a paper that there is none of."""
    coin = file.setup.rates.currency
    rows = order_rows(file)
    known = [Decimal(row["cost"]) for row in rows if row["cost"]]
    return {
        **heading(file, DOCUMENTS["parts-order"], paper),
        "money": money,
        "currency": coin.code,
        "rows": [row if money else {**row, **dict.fromkeys(MONEY, "")} for row in rows],
        "sum": coin.text(total(known)) if money else "",
    }


def order_rows(file: CarFile) -> list[Json]:
    """Return a row for each part that open jobs need or that was used out of the van, by supplier, then part.

    qty_to_order = what is needed less what is left in the van; used_of_van: what fills the van up again.
    """
    needed = _needed(file)
    parts = needed.keys() | {part for part in file.used if part in file.setup.van}
    rows = [_row(file, part, needed.get(part, Decimal(0))) for part in parts]
    return sorted(rows, key=lambda row: (row["supplier"], row["part"]))


def order_csv(file: CarFile, money: bool) -> bytes:
    """Return the same as UTF-8 CSV (RFC 4180), cells that a spreadsheet would run defused."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    columns = (*COLUMNS, *(MONEY if money else ()))
    writer.writerow(columns)
    for row in order_rows(file):
        writer.writerow([defused(row[column]) for column in columns])
    return out.getvalue().encode()


def _needed(file: CarFile) -> dict[str, Decimal]:
    needed: dict[str, Decimal] = {}
    for job in file.queue.jobs:
        for part in job.estimate.parts if not job.over else ():
            needed[part.part] = needed.get(part.part, Decimal(0)) + Decimal(str(part.qty))
    return needed


def _row(file: CarFile, part: str, needed: Decimal) -> Json:
    setup: Setup = file.setup
    known, coin = setup.rates.parts.get(part), setup.rates.currency
    used = file.used.get(part, Decimal(0))
    left = max(Decimal(0), setup.van.get(part, Decimal(0)) - used)
    order = max(Decimal(0), needed - left)
    return {
        "part": part,
        "description": known.description if known else "",
        "supplier": known.supplier if known else "",
        "qty_needed": f"{needed.normalize():f}",
        "in_van": f"{left.normalize():f}",
        "qty_to_order": f"{order.normalize():f}",
        "used_of_van": f"{used.normalize():f}" if part in setup.van else "0",
        "unit_cost": coin.text(known.unit_cost) if known else "",
        "cost": coin.text(coin.round(order * known.unit_cost)) if known else "",
        "currency": coin.code,
    }

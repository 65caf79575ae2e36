"""A cost sheet as CSV (RFC 4180), with cells that a spreadsheet would run as formulas defused."""

import csv
import io

from shuntbook.queue.release import Json

COLUMNS = (
    (
        "kind",
        "car",
        "job",
        "step",
        "zone",
        "component",
        "stage",
        "service",
        "action",
        "condition",
    ),
    (
        "estimate_labour",
        "estimate_parts",
        "estimate_total",
        "actual_labour",
        "actual_parts",
        "actual_total",
    ),
)


def costs_csv(costs: Json) -> bytes:
    """Return the lines of a cost sheet as UTF-8 CSV with CRLF; money with the currency's decimals."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([*COLUMNS[0], *COLUMNS[1], "currency"])
    for line in costs["lines"]:
        words = [defused(str(line[column] or "")) for column in COLUMNS[0]]
        writer.writerow(
            [
                *words,
                *_money(line["estimate"]),
                *_money(line["actual"]),
                costs["currency"],
            ]
        )
    return out.getvalue().encode()


def defused(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula: an apostrophe before = + - @, tab and CR."""
    return f"'{cell}" if cell[:1] in ("=", "+", "-", "@", "\t", "\r") else cell


def _money(money: Json | None) -> list[object]:
    return [money["labour"], money["parts_cost"], money["total"]] if money else ["", "", ""]

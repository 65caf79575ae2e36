"""A cost sheet as CSV (RFC 4180), with cells that a spreadsheet would run as formulas defused."""

import csv
import io

from shuntbook.cost.answer import Costs, LineMoney

WORDS = (
    "kind",
    "car",
    "day",
    "driver",
    "incident",
    "job",
    "step",
    "zone",
    "component",
    "stage",
    "service",
    "action",
    "condition",
)
FLAGS = ("temporary", "baseline")
"""What is so or not of a line, `yes` or empty; a baseline line counts in no sum."""
MONEY = ("labour", "parts_cost", "consumables", "total")
COLUMNS = (
    *WORDS,
    *FLAGS,
    *(f"estimate_{name.removesuffix('_cost')}" for name in MONEY),
    *(f"actual_{name.removesuffix('_cost')}" for name in MONEY),
    "access_share_estimate",
    "access_share_actual",
    "currency",
    "rates",
)


def costs_csv(costs: Costs) -> bytes:
    """Return the lines of a cost sheet as UTF-8 CSV with CRLF; money with the currency's decimals.

    Each line names the version of the rate table that it was calculated by.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    for line in costs.lines:
        writer.writerow(
            [
                *(defused(str(getattr(line, column) or "")) for column in WORDS),
                *("yes" if getattr(line, flag) else "" for flag in FLAGS),
                *amounts(line.estimate),
                *amounts(line.actual),
                line.access_share.estimate,
                line.access_share.actual,
                costs.currency,
                costs.rates,
            ]
        )
    return out.getvalue().encode()


def defused(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula: an apostrophe before = + - @, tab and CR."""
    return f"'{cell}" if cell[:1] in ("=", "+", "-", "@", "\t", "\r") else cell


def amounts(money: LineMoney | None) -> list[str]:
    """Return the amounts of a line's estimate or actual, empty where there is none."""
    return [str(getattr(money, name)) if money else "" for name in MONEY]

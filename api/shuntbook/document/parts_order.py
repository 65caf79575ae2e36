"""The parts order: what the open jobs and the parts due by their life need, less what is left in the van."""

import csv
import io
from decimal import Decimal

from shuntbook.cost.table import defused
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.wording import Wording
from shuntbook.kit.money import total
from shuntbook.lives.answer import Life
from shuntbook.lives.words import STATE_SAYS, began_says, used_says
from shuntbook.setup.folder import Setup

COLUMNS = ("part", "description", "supplier", "qty_needed", "in_van", "qty_to_order", "used_of_van")
MONEY = ("unit_cost", "cost", "currency")


def parts_order(file: CarFile, paper: str, money: bool) -> Json:
    """Return the data of the order; `money` puts costs in. Errors: NotFound for a paper that there is none of."""
    coin, wording = file.setup.rates.currency, Wording(file.setup)
    rows = order_rows(file)
    known = [Decimal(row["cost"]) for row in rows if row["cost"]]
    return {
        **heading(file, DOCUMENTS["parts-order"], paper),
        "money": money,
        "currency": coin.code,
        "lives": [_life(life, wording) for life in file.lives if life.state != "within"],
        "rows": [_shown(row, wording) | ({} if money else dict.fromkeys(MONEY, "")) for row in rows],
        "sum": wording.say.amount(coin.text(total(known))) if money else "",
    }


def order_rows(file: CarFile) -> list[Json]:
    """Return a row for each part that open jobs need, that is due or was used out of the van, by supplier, then part.

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
    to_do = {job.job: job for job in file.queue.jobs if not job.over}
    for job in to_do.values():
        for part in job.estimate.parts:
            needed[part.part] = needed.get(part.part, Decimal(0)) + Decimal(str(part.qty))
    for life in file.lives:
        # What an open job puts in anyway is not ordered twice.
        if life.state == "due" and not (life.job in to_do and to_do[life.job].action == life.action):
            for one in life.parts:
                needed[one.part] = needed.get(one.part, Decimal(0)) + Decimal(str(one.qty))
    return needed


def _shown(row: Json, wording: Wording) -> Json:
    """Return a row with its numbers and amounts as the paper's language writes them."""
    say = wording.say
    counts = {name: say.number(row[name]) for name in ("qty_needed", "in_van", "qty_to_order", "used_of_van")}
    amounts = {name: say.amount(row[name]) if row[name] else "" for name in ("unit_cost", "cost")}
    return {**row, **counts, **amounts}


def _life(life: Life, wording: Wording) -> Json:
    parts = ", ".join(f"{wording.number(one.qty)} × {wording.part(one.part)}" for one in life.parts)
    return {
        "name": wording.at(wording.zone(life.zone), wording.say.label(life.label)),
        "state": wording.say(STATE_SAYS[life.state]) + (wording.say(", must-do") if life.must_do else ""),
        "used": used_says(life, wording.say),
        "began": began_says(life, wording.say),
        "parts": parts or wording.say("none by the rate table"),
    }


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

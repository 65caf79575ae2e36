"""Draws a random rate table, in a currency of no, two or three decimals."""

from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

from .carmap import CONDITIONS
from .texts import csv_text, toml_table, write_text

STEPS = {"car-on-stands": ("car", ""), "arch-off": ("zone", "car-on-stands"), "tray-off": ("car", "car-on-stands")}
PARTS = ["arm", "bolt-m10", "hose", "fluid", "oil", "tape"]
BY_THE_LITRE = ["fluid", "oil"]
DECIMALS = {"JPY": 0, "EUR": 2, "KWD": 3}


def decimal(chance: Random, low: int, high: int, places: int) -> Decimal:
    """A random decimal of so many places."""
    return Decimal(chance.randint(low * 10**places, high * 10**places)).scaleb(-places)


def three_points(chance: Random) -> list[Any]:
    """Best, likely and worst minutes, more than nothing and in order."""
    places = chance.choice([0, 0, 1, 2, 3])
    return sorted(decimal(chance, 1, 40, places) for _ in range(3))


def draw_operations(chance: Random, car_map: dict[str, Any]) -> list[Any]:
    """Rows for most components and conditions, some for one zone only, one for a component that no map has."""
    rows = []
    for component in [*car_map["components"], "tow-eye"]:
        for condition in CONDITIONS[1:]:
            if chance.random() < 0.55:
                rows.append(draw_operation(chance, component, condition, ""))
            for zone in car_map["zones"]:
                if chance.random() < 0.12:
                    rows.append(draw_operation(chance, component, condition, zone))
    if chance.random() < 0.3:
        tie(chance, rows)
    chance.shuffle(rows)
    return rows


def tie(chance: Random, rows: list[Any]) -> None:
    """Make all rows worth the same by the minute: only exact fractions see that they tie."""
    minutes = three_points(chance)
    for row in rows:
        times = chance.choice([1, 2, 3, 6, 7])
        row |= dict(
            zip(("minutes_best", "minutes_likely", "minutes_worst"), (one * times for one in minutes), strict=True)
        )
        row |= {"mechanics": chance.randint(1, 3)}
        row |= {"value": 5 * times * row["mechanics"], "must_do": "false"}


def draw_operation(chance: Random, component: str, condition: str, zone: str) -> dict[str, Any]:
    """One row of the rate table."""
    best, likely, worst = three_points(chance)
    return {
        "component": component,
        "condition": condition,
        "action": chance.choice(["replace", "straighten", "repair", "tape"]),
        "minutes_best": best,
        "minutes_likely": likely,
        "minutes_worst": worst,
        "mechanics": chance.randint(1, 3),
        "access": ";".join(chance.sample(sorted(STEPS), chance.choice([0, 1, 1, 2, 3]))),
        "parts": ";".join(part_cell(chance) for _ in range(chance.choice([0, 1, 1, 2, 3]))),
        "must_do": chance.choice(["true", "false", "false"]),
        "value": chance.choice([0, 1, 2, 5, 5, 10, 40]),
        "zone": zone,
    }


def part_cell(chance: Random) -> str:
    """A part alone, or so many of it; a fluid by the part litre."""
    part = chance.choice(PARTS)
    if part in BY_THE_LITRE:
        return f"{part}*{chance.choice(['0.5', '0.25', '0.75', '1.5'])}"
    return chance.choice([part, f"{part}*1", f"{part}*2", f"{part}*3"])


def write_rates(chance: Random, rates: Path, operations: list[Any], kinds: list[Any]) -> None:
    """Write the rate table in a currency of no, two or three decimals; some files begin with a byte order mark."""
    currency = chance.choice(sorted(DECIMALS))
    places = DECIMALS[currency]
    rates.mkdir()
    mark = chance.choice(["", "", "\ufeff"])
    write_text(rates / "operations.csv", mark + csv_text(operations))
    access = [
        {"step": step, "per": per, "minutes_open": decimal(chance, 0, 6, 1), "minutes_close": decimal(chance, 1, 6, 2),
         "mechanics": chance.randint(1, 2), "needs": needs}
        for step, (per, needs) in STEPS.items()
    ]  # fmt: skip
    write_text(rates / "access.csv", csv_text(access))
    parts = [
        {"part": one, "description": f"{one}, new", "unit_cost": decimal(chance, 1, 300, chance.randint(0, places))}
        for one in PARTS
    ]
    write_text(rates / "parts.csv", mark + csv_text(parts))
    write_text(rates / "rates.toml", rates_toml(chance, currency, places, kinds))
    if chance.random() < 0.3:
        write_text(rates / "remarks.txt", "no part of the table\n")


def rates_toml(chance: Random, currency: str, places: int, kinds: list[Any]) -> str:
    """The rate table's TOML."""
    lines = [
        f'currency = "{currency}"',
        f"labour_per_hour = {decimal(chance, 20, 90, places)}",
        f"tax_percent = {chance.choice(['0', '19', '8.5'])}",
        f"inspect_minutes = [{', '.join(map(str, three_points(chance)))}]",
        f"assess_minutes = [{', '.join(map(str, three_points(chance)))}]",
    ]
    if chance.random() < 0.5:
        lines.append(f"inspect_next_minutes = [{', '.join(map(str, three_points(chance)))}]")
    groups = chance.sample(["cage", "brake", "steering", "body"], chance.randint(0, 3))
    if groups:
        lines.append("[inspect_minutes_by_group]")
    lines += [f"{group} = [{', '.join(map(str, three_points(chance)))}]" for group in groups]
    if chance.random() < 0.5:
        opened = {kind: chance.sample(sorted(STEPS), chance.randint(0, 2)) for kind in kinds if chance.random() < 0.6}
        lines.append(toml_table("[inspect_access]", opened))
    return "\n".join(lines) + "\n"

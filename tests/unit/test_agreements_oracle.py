"""Statements against a second, independent reading of who pays, on random agreements and logs, to the cent."""

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from msgspec import to_builtins

from longer import some
from making import parsed
from oracle.agreements import COMPONENTS, DRIVERS, MANAGERS, SERVICES, STAGES, ZONES, draw
from oracle.charges import statement
from shuntbook.cost.statements import statements_of_car
from shuntbook.queue.car import car_log
from shuntbook.setup.folder import Setup, read_setup

SEEDS = 600


def toml(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return "[" + ", ".join(f'"{one}"' for one in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{name} = {count}" for name, count in value.items()) + "}"
    return f'"{value}"' if str(value).isalpha() else str(value)


def event_toml(drawn: dict[str, Any]) -> str:
    text = 'event = "hire-2026"\n[[cars]]\ncar = "41"\n'
    roles = {**dict.fromkeys(MANAGERS, "manager"), **dict.fromkeys(DRIVERS, "driver"), "p-bodo": "mechanic"}
    for person, role in roles.items():
        text += f'[[people]]\nperson = "{person}"\nroles = ["{role}"]\n'
    text += "".join(f'[[stages]]\nstage = "{one}"\nkm = 10\n' for one in STAGES)
    text += "".join(
        f'[[services]]\nservice = "{one}"\nafter = "SS{n}"\nminutes = 30\n' for n, one in enumerate(SERVICES, 1)
    )
    terms = {"agreement": "hire", "car": "41", "customer": "Lena"}
    lines = [f'{name} = "{value}"' for name, value in terms.items()]
    lines += [f"{name} = {toml(value)}" for name, value in drawn["agreement"].items()]
    return text + "[[agreements]]\n" + "\n".join(lines) + "\n"


def setup_of(drawn: dict[str, Any]) -> Setup:
    zones = "".join(
        f'[zones.{zone}]\nlabel = "{zone}"\nkind = "corner"\ncomponents = {toml(COMPONENTS)}\n' for zone in ZONES
    )
    orders = "".join(
        f'[components.{one}]\nlabel = "{one}"\nconditions = {toml(drawn["conditions"])}\n' for one in COMPONENTS
    )
    head = "component,condition,action,minutes_best,minutes_likely,minutes_worst,mechanics,access,parts,must_do,value\n"
    rows = "".join(
        f"{component},{condition},replace,{row['minutes']},{row['minutes']},{row['minutes']},{row['mechanics']},"
        f"{';'.join(row['access'])},{';'.join(f'{part}*{qty}' for part, qty in row['parts'].items())},true,1\n"
        for (component, condition), row in drawn["rows"].items()
    )
    access = "".join(f"{step},{per},{minutes},0,1\n" for step, (per, minutes) in drawn["access"].items())
    parts = "".join(f"{part},{part},{price}\n" for part, price in drawn["parts"].items())
    rates = (
        f'currency = "{drawn["currency"]}"\nlabour_per_hour = {drawn["labour_per_hour"]}\ntax_percent = 20\n'
        f"consumables_percent = {drawn['consumables_percent']}\ninspect_minutes = [1, 2, 3]\n"
        "assess_minutes = [6, 6, 6]\n"
    )
    texts = {
        "event.toml": event_toml(drawn),
        "car_map.toml": zones + orders,
        "rates/rates.toml": rates,
        "rates/operations.csv": head + rows,
        "rates/access.csv": "step,per,minutes_open,minutes_close,mechanics\n" + access,
        "rates/parts.csv": "part,description,unit_cost\n" + parts,
    }
    return read_setup({name: text.encode() for name, text in texts.items()})


def by_product(drawn: dict[str, Any]) -> dict[str, Any]:
    draft = to_builtins(statements_of_car("41", car_log(parsed(drawn["entries"]), setup := setup_of(drawn)), setup))[
        "draft"
    ]
    hits = draft["incidents"]
    return {
        "lines": {line["line"]: Fraction(Decimal(line["amount"])) for hit in hits for line in hit["lines"]},
        "hits": {hit["incident"]: Fraction(Decimal(hit["to_pay"])) for hit in hits},
        **{name: Fraction(Decimal(draft["totals"][name])) for name in ("damage", "to_pay", "tax", "rest")},
    }


@pytest.mark.parametrize("seed", some(range(SEEDS), 3))
def test_a_statement_is_what_the_rules_say_to_the_cent(seed: int) -> None:
    drawn = draw(seed)
    assert by_product(drawn) == statement(drawn)


def test_every_term_comes_up_and_makes_a_difference() -> None:
    """A generator that never lets a term matter proves nothing about it."""
    seen: Counter[str] = Counter()
    for seed in range(200):
        drawn = draw(seed)
        whole = statement(drawn)
        for name in drawn["agreement"]:
            less = {**drawn, "agreement": {key: value for key, value in drawn["agreement"].items() if key != name}}
            seen[name] += statement(less) != whole
    least = {name: count for name, count in seen.items() if count < 5}
    assert (least, len(seen)) == ({}, 16)

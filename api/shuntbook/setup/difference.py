"""What changes between two set-ups, in terms of what they mean: rows that came, went or read otherwise."""

from collections.abc import Mapping
from dataclasses import fields
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from shuntbook.setup.car_map import CarMap
from shuntbook.setup.event import Event
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Rates, ThreePoint

Cells = Mapping[str, str]
Rows = Mapping[str, Cells]
Json = dict[str, Any]

ORDERED = ("people", "stages", "services", "zones")
"""Tables whose order means something: who comes first, the itinerary, the zones on screen."""


def difference(before: Setup | None, after: Setup) -> list[Json]:
    """Return the changes, table by table, as {table, key, change, cells: [{field, before, after}]}.

    change: `added` and `removed` name each cell that is filled, `changed` the cells that differ, `moved` a table whose
    rows stand in another order. Quantities are compared as numbers: 5 and 5.0 are the same.
    """
    old: Mapping[str, Rows] = tables_of(before) if before else {}
    return [change for table, rows in tables_of(after).items() for change in _changes(table, old.get(table, {}), rows)]


def tables_of(setup: Setup) -> dict[str, Rows]:
    """Return a set-up as tables of text: table → key of the row → field → cell."""
    return {
        **_event_tables(setup.event),
        **_map_tables(setup.car_map),
        **_rate_tables(setup.rates),
        "van": {part: {"loaded": said(loaded)} for part, loaded in setup.van.items()},
    }


def said(value: Any) -> str:
    """Return a value as its cell reads: lists by semicolons, quantities as part*qty, "" for what is not said."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, ThreePoint):
        return said((value.best, value.likely, value.worst))
    if isinstance(value, Decimal | Fraction):
        return _number(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return ";".join(f"{name}*{said(count)}" for name, count in value.items())
    if isinstance(value, frozenset):
        return ";".join(sorted(value))
    return ";".join(said(one) for one in value) if isinstance(value, tuple) else str(value)


def _number(value: Decimal | Fraction) -> str:
    # Whatever stands in a file has finitely many decimals, so the division is exact in all but absurd lengths.
    exact = value if isinstance(value, Decimal) else Decimal(value.numerator) / Decimal(value.denominator)
    text = f"{exact:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _cells(value: Any, *without: str) -> Cells:
    return {one.name: said(getattr(value, one.name)) for one in fields(value) if one.name not in without}


def _event_tables(event: Event) -> dict[str, Rows]:
    return {
        "event": {
            "": {
                "event": event.event,
                "name": event.name,
                "timezone": event.timezone,
                "kind": event.kind,
                "emergency": event.emergency,
            }
        },
        "trust": {"": {"signatures": "on" if event.signatures_demanded else "off"}},
        "cars": {car: {"label": event.car_labels.get(car, "")} for car in event.cars},
        "people": {one.person: _cells(one, "person") for one in event.people},
        "stages": {one.stage: _cells(one, "stage") for one in event.stages},
        "places": _numbered([(f"{one.stage} {said(one.km)}", _cells(one)) for one in event.places]),
        "services": {one.service: _cells(one, "service") for one in event.services},
        "regulations": {"": _cells(event.regulations)},
        "routine": _numbered([(one.task, _cells(one, "task")) for one in event.routine]),
        "resources": {one.resource: _cells(one, "resource") for one in event.resources},
        "tools": {action: {"tools": said(tools)} for action, tools in event.tools.items()},
        "looks": _numbered([(group, {"check": one}) for group, checks in event.looks.items() for one in checks]),
        "agreements": {one.agreement: _cells(one, "agreement") for one in event.agreements},
        "dated": _numbered([(f"{one.car} {one.item} {one.place}".strip(), _cells(one)) for one in event.dated]),
    }


def _numbered(rows: list[tuple[str, Cells]]) -> Rows:
    """Return rows by key where a key may stand several times: the second is `key (2)`."""
    found: dict[str, Cells] = {}
    for key, cells in rows:
        same = sum(1 for name, _ in rows[: len(found)] if name == key)
        found[f"{key} ({same + 1})" if same else key] = cells
    return found


def _map_tables(car_map: CarMap) -> dict[str, Rows]:
    rules = [(one.component, _cells(one, "component")) for one in car_map.knock_on]
    return {
        "car_map": {"": {"safety_groups": said(car_map.safety_groups)}},
        "zones": {one.zone: _cells(one, "zone") for one in car_map.zones.values()},
        "components": {one.component: _cells(one, "component") for one in car_map.components.values()},
        "symptoms": {one.symptom: _cells(one, "symptom") for one in car_map.symptoms.values()},
        "knock_on": _numbered(rules),
    }


def _rate_tables(rates: Rates) -> dict[str, Rows]:
    money = ("labour_per_hour", "tax_percent", "consumables_percent", "inspect_minutes", "assess_minutes")
    return {
        "rates": {"": {"currency": rates.currency.code} | {name: said(getattr(rates, name)) for name in money}},
        "inspect_minutes_by_group": {
            group: {"minutes": said(minutes)} for group, minutes in rates.inspect_minutes_by_group.items()
        },
        "operations": {" ".join(filter(None, key)): _operation(one) for key, one in rates.operations.items()},
        "access": {one.step: _cells(one, "step") for one in rates.access.values()},
        "parts": {one.part: _cells(one, "part") for one in rates.parts.values()},
        "checks": {one.check: _three(_cells(one, "check", "minutes"), one.minutes) for one in rates.checks.values()},
    }


def _operation(one: Any) -> Cells:
    return _three(_cells(one, "component", "condition", "zone", "minutes"), one.minutes)


def _three(cells: Cells, minutes: ThreePoint) -> Cells:
    points = {"best": minutes.best, "likely": minutes.likely, "worst": minutes.worst}
    return {f"minutes_{name}": said(value) for name, value in points.items()} | dict(cells)


def _changes(table: str, before: Rows, after: Rows) -> list[Json]:
    gone = [_row(table, key, "removed", cells, {}) for key, cells in before.items() if key not in after]
    new = [_row(table, key, "added", {}, cells) for key, cells in after.items() if key not in before]
    common = [key for key in after if key in before]
    other = [_row(table, key, "changed", before[key], after[key]) for key in common if before[key] != after[key]]
    moved = table in ORDERED and common != [key for key in before if key in after]
    return gone + new + other + ([_row(table, "", "moved", {}, {})] if moved else [])


def _row(table: str, key: str, change: str, before: Cells, after: Cells) -> Json:
    names = dict.fromkeys([*before, *after])
    cells = [{"field": name, "before": before.get(name, ""), "after": after.get(name, "")} for name in names]
    return {"table": table, "key": key, "change": change, "cells": [c for c in cells if c["before"] != c["after"]]}

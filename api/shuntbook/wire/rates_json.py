"""What of a rate table and a van a phone needs to reckon the queue itself: exact numbers as decimal text."""

from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any

from shuntbook.kit.money import exact_text
from shuntbook.setup.rates import Access, Operation, Rates, ThreePoint

Json = dict[str, Any]


@lru_cache(maxsize=16)
def rate_table_json(rates: Rates) -> Json:
    """Return a rate table; money and minutes are decimal text, so that nothing is rounded on the way."""
    return {
        "version": rates.version,
        "currency": rates.currency.code,
        "decimals": rates.currency.decimals,
        "labour_per_hour": exact_text(rates.labour_per_hour),
        "inspect_minutes": _points(rates.inspect_minutes),
        "assess_minutes": _points(rates.assess_minutes),
        "inspect_minutes_by_group": {group: _points(m) for group, m in rates.inspect_minutes_by_group.items()},
        "operations": [_operation(row) for row in rates.operations.values()],
        "access": [_access(step) for step in rates.access.values()],
        "parts": [
            {"part": p.part, "description": p.description, "unit_cost": rates.currency.text(p.unit_cost)}
            for p in rates.parts.values()
        ],
    }


def van_json(van: Mapping[str, Decimal]) -> dict[str, str]:
    """Return what the van was loaded with, by part."""
    return {part: exact_text(loaded) for part, loaded in van.items()}


def _points(minutes: ThreePoint) -> list[str]:
    return [exact_text(minutes.best), exact_text(minutes.likely), exact_text(minutes.worst)]


def _operation(row: Operation) -> Json:
    best, likely, worst = _points(row.minutes)
    return {
        "component": row.component,
        "condition": row.condition,
        "zone": row.zone,
        "action": row.action,
        "minutes_best": best,
        "minutes_likely": likely,
        "minutes_worst": worst,
        "mechanics": row.mechanics,
        "access": list(row.access),
        "parts": [{"part": part, "qty": exact_text(qty)} for part, qty in row.parts.items()],
        "must_do": row.must_do,
        "value": exact_text(row.value),
    }


def _access(step: Access) -> Json:
    return {
        "step": step.step,
        "per": step.per,
        "minutes_open": exact_text(step.minutes_open),
        "minutes_close": exact_text(step.minutes_close),
        "mechanics": step.mechanics,
    }

"""What of a rate table and a van a phone needs to calculate the queue itself: exact numbers as decimal text."""

from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any

from shuntbook.kit.money import exact_text
from shuntbook.setup import rate_keys
from shuntbook.setup.rates import Rates, ThreePoint
from shuntbook.wire.setup_fields import row_json, rows_json

Json = dict[str, Any]


@lru_cache(maxsize=16)
def rate_table_json(rates: Rates) -> Json:
    """Return a rate table; money and minutes are decimal text, so that nothing is rounded on the way."""
    rows, coin = rates.rows, rates.currency
    parts = rows_json(rate_keys.PARTS, rows["parts"])
    costs = {part.part: coin.text(part.unit_cost) for part in rates.parts.values()}
    return {
        "version": rates.version,
        "currency": coin.code,
        "decimals": coin.decimals,
        **row_json(rate_keys.RATES, rows["rates"][0]),
        "inspect_minutes_by_group": {group: _points(m) for group, m in rates.inspect_minutes_by_group.items()},
        "inspect_access": {kind: list(steps) for kind, steps in rates.inspect_access.items()},
        "operations": rows_json(rate_keys.OPERATIONS, rows["operations"]),
        "access": rows_json(rate_keys.ACCESS, rows["access"]),
        "parts": [{**part, "unit_cost": costs[part["part"]]} for part in parts],
    }


def van_json(van: Mapping[str, Decimal]) -> dict[str, str]:
    """Return what the van was loaded with, by part."""
    return {part: exact_text(loaded) for part, loaded in van.items()}


def _points(minutes: ThreePoint) -> list[str]:
    return [exact_text(minutes.best), exact_text(minutes.likely), exact_text(minutes.worst)]

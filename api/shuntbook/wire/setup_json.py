"""An event's set-up as phones read it."""

from typing import Any

from shuntbook.setup import event_keys, map_keys
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.folder import Setup
from shuntbook.setup.keys import Table
from shuntbook.setup.lines import Values
from shuntbook.setup.looks import looks_in_force
from shuntbook.setup.values import usual
from shuntbook.wire.rates_json import rate_table_json, van_json
from shuntbook.wire.setup_fields import row_json, rows_json

Json = dict[str, Any]

SHAPE = "8"
"""Changes whenever set-ups are written in another way: a phone that holds one of an older shape fetches it again."""


def setup_json(setup: Setup) -> Json:
    """Return one event's set-up: everything that a phone needs to log and read offline."""
    rows, rates, lists = setup.rows, setup.rates, looks_in_force(setup.event.looks)

    def listed(*tables: Table) -> Json:
        return {table.table: rows_json(table, rows[table.table]) for table in tables}

    return {
        **row_json(event_keys.EVENT, rows["event"][0]),
        "currency": rates.currency.code,
        **listed(event_keys.CARS, event_keys.PEOPLE_OF, event_keys.STAGES, event_keys.PLACES, event_keys.SERVICES),
        "regulations": row_json(event_keys.REGULATIONS, rows["regulations"][0]),
        **listed(event_keys.ROUTINE),
        "looks": {group: [row.check for row in rows] for group, rows in lists.items()},
        "check_lists": [
            {"group": group, "check": row.check, "must": row.must, "at": row.at or None}
            for group, rows in lists.items()
            for row in rows
        ],
        "car_map": _car_map(setup.car_map),
        "rates": rates.version,
        "trust": row_json(event_keys.TRUST, rows["trust"][0]),
        "parts": [{"part": part.part, "description": part.description} for part in rates.parts.values()],
        "rate_table": rate_table_json(rates),
        "van": van_json(setup.van),
        **listed(event_keys.AGREEMENTS, event_keys.DATED, event_keys.LIVES),
    }


def _car_map(car_map: CarMap) -> Json:
    rows = car_map.rows
    components = {one["component"]: one for one in rows["components"]}
    return {
        "zones": _named(map_keys.ZONES, rows["zones"]),
        "components": {name: _component(name, components.get(name), car_map) for name in sorted(_listed(car_map))},
        "symptoms": _named(map_keys.SYMPTOMS, rows["symptoms"]),
        "knock_on": rows_json(map_keys.KNOCK_ON, rows["knock_on"]),
        **row_json(map_keys.CAR_MAP, rows["car_map"][0]),
        "fixed": dict(sorted(car_map.fixed.items())),
    }


def _named(table: Table, rows: tuple[Values, ...]) -> Json:
    return {row[table.keys[0]]: row_json(table, row) for row in rows}


def _listed(car_map: CarMap) -> set[str]:
    return {name for zone in car_map.zones.values() for name in zone.components} | set(car_map.components)


def _component(name: str, row: Values | None, car_map: CarMap) -> Json:
    """Return a component, also one that only a zone names, with the group in force."""
    table = map_keys.COMPONENTS
    values = row or {**{key.key: usual(key) for key in table.columns}, "label": name}
    return {**row_json(table, values), "group": car_map.group_of(name)}

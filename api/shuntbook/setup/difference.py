"""What changes between two set-ups, in terms of what they mean: rows that came, went or read otherwise."""

from collections.abc import Mapping
from typing import Any

from shuntbook.setup.folder import Setup
from shuntbook.setup.keys import Table
from shuntbook.setup.lines import Values, row_key
from shuntbook.setup.tables import TABLES
from shuntbook.setup.values import said

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
    rows = setup.rows
    return {table.table: _keyed(table, rows.get(table.table, ())) for table in TABLES}


def _keyed(table: Table, rows: tuple[Values, ...]) -> Rows:
    """Return rows by what tells them apart; where that stands several times, the second is `key (2)`."""
    found: dict[str, Cells] = {}
    counts: dict[str, int] = {}
    for row in rows:
        key = row_key(table, row)
        counts[key] = counts.get(key, 0) + 1
        name = f"{key} ({counts[key]})" if counts[key] > 1 else key
        found[name] = {one.key: said(row[one.key]) for one in table.columns if one.key not in table.keys}
    return found


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

"""The keys of a set-up in JSON: each value as phones read it, and the field that describes it."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from marshmallow import Schema, fields, validate

from shuntbook.kit.money import exact_text, two_decimals
from shuntbook.setup.keys import Key, Table
from shuntbook.setup.lines import Values
from shuntbook.wire.fields import count, flag, ids, many, maybe, number, one_of, text

Json = dict[str, Any]
DECIMAL = r"^\d+(\.\d+)?$"


def decimal() -> fields.String:
    """Return a field of a number of 0 or more as decimal text, exact."""
    return fields.String(required=True, validate=validate.Regexp(DECIMAL))


class OperationPartSchema(Schema):
    """How many of a part an operation takes."""

    part = text()
    qty = decimal()


def told(table: Table) -> list[Key]:
    """Return the keys of a row that every phone is told, those first that tell rows apart; not what names the row."""
    named = table.columns[:1] if table.shape == "named" else ()
    keys = [one for one in table.columns if one.seen == "all" and one not in named]
    return sorted(keys, key=lambda one: table.keys.index(one.key) if one.key in table.keys else len(table.keys))


def row_json(table: Table, row: Values) -> Json:
    """Return what every phone is told of a row. Numbers of the rate table are exact decimal text."""
    exact = _is_exact(table)
    return {key.key: _value(key, row[key.key], exact) for key in told(table)}


def rows_json(table: Table, rows: Iterable[Values]) -> list[Json]:
    """Return what every phone is told of rows."""
    return [row_json(table, row) for row in rows]


def schema_of(table: Table, name: str, without: tuple[str, ...] = ()) -> type[Schema]:
    """Return the schema of what `row_json` returns. name: the schema's own."""
    exact = _is_exact(table)
    described: dict[str, Any] = {one.key: _field(one, exact) for one in told(table) if one.key not in without}
    return Schema.from_dict(described, name=name)


def _is_exact(table: Table) -> bool:
    """Whether its numbers are what the queue is calculated from, and so nothing of them is rounded on the way."""
    return table.file.endswith(".csv") or table.file.startswith("rates/")


def _value(key: Key, value: Any, exact: bool) -> Any:
    if value is None:
        return None
    if key.kind in ("number", "money"):
        return exact_text(value) if exact else float(value) if key.exact else two_decimals(value)
    if key.kind == "points":
        return [exact_text(one) if exact else two_decimals(one) for one in value]
    return _PLAIN.get(key.kind, _same)(value)


def _same(value: Any) -> Any:
    return value


def _parts(value: Mapping[str, Any]) -> list[Json]:
    return [{"part": part, "qty": exact_text(qty)} for part, qty in value.items()]


_PLAIN: Mapping[str, Callable[[Any], Any]] = {
    "list": list,
    "quantities": _parts,
    "day": lambda value: value.isoformat(),
    "time": lambda value: value.isoformat(),
}


def _field(key: Key, exact: bool) -> Any:
    field = _words(key) if key.kind == "text" else _valued(key, exact)
    # A phone may still hold a set-up that an older server gave.
    field.required = not key.added
    return field


def _valued(key: Key, exact: bool) -> Any:
    made: dict[str, Callable[[], Any]] = {
        "list": lambda: fields.List(one_of(key.among), required=True) if key.among else ids(),
        "number": decimal if exact else number,
        "money": decimal if exact else number,
        "whole": count,
        "flag": flag,
        "points": three_points if exact else _three_numbers,
        "quantities": lambda: many(OperationPartSchema),
        "day": maybe,
        "time": maybe,
    }
    field = made[key.kind]()
    field.allow_none = field.allow_none or (key.default is None and not key.required and key.kind != "quantities")
    return field


def _words(key: Key) -> fields.String:
    if key.among:
        return one_of(key.among)
    return maybe() if key.default is None and not key.required and not key.same else text()


def three_points() -> fields.List[Any]:
    """Return a field of best, likely and worst minutes."""
    return fields.List(decimal(), required=True, validate=validate.Length(equal=3))


def _three_numbers() -> fields.List[Any]:
    return fields.List(fields.Float(), required=True)

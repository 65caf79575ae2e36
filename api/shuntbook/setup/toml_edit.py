"""Edits the text of a TOML file until it says what it is to say; what need not change keeps its words and comments."""

import tomllib
from collections.abc import MutableMapping
from datetime import datetime
from decimal import Decimal
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, InlineTable

Raw = dict[str, Any]
Container = MutableMapping[str, Any]


class Listed(list[Any]):
    """Rows of an array of tables. origins: which of the rows before each was, None for one that is new."""

    def __init__(self, rows: list[Any], origins: list[int | None]) -> None:
        super().__init__(rows)
        self.origins = origins


def edited(text: str, before: Raw, after: Raw) -> str:
    """Return TOML that says `after`. text: what is edited; before: what it says."""
    try:
        document = tomlkit.parse(text)
        _edit(document, before, after)
        made = tomlkit.dumps(document)
        if _same(tomllib.loads(made, parse_float=Decimal), after):
            return made
    except (TOMLKitError, tomllib.TOMLDecodeError, ValueError, RecursionError):
        # An edit is a courtesy to comments. Where the text is too odd for it, what it says still counts.
        pass
    return _fresh(after)


def _fresh(after: Raw) -> str:
    document = tomlkit.document()
    for is_table in (False, True):
        for key, value in after.items():
            if isinstance(value, dict | Listed) == is_table:
                document[key] = _item(value)
    return tomlkit.dumps(document)


def _edit(container: Container, before: Raw, after: Raw) -> None:
    for key in [key for key in before if key not in after]:
        del container[key]
    for key, value in after.items():
        old = before.get(key)
        if key in before and _same(old, value) and not _is_moved(value):
            continue
        if isinstance(old, dict) and isinstance(value, dict) and isinstance(container[key], MutableMapping):
            _edit(container[key], old, value)
        elif isinstance(value, Listed) and isinstance(container.get(key), AoT) and isinstance(old, list):
            _edit_rows(container, key, old, value)
        else:
            container[key] = _item(value, inside=not isinstance(container, tomlkit.TOMLDocument))


def _is_moved(value: Any) -> bool:
    return isinstance(value, Listed) and value.origins != list(range(len(value)))


def _edit_rows(container: Container, key: str, before: list[Any], rows: Listed) -> None:
    array: AoT = container[key]
    for at, row in zip(rows.origins, rows, strict=True):
        if at is not None:
            _edit(array[at], before[at], row)
    kept = [at for at in rows.origins if at is not None]
    new = rows[len(kept) :]
    if rows.origins == kept + [None] * len(new) and kept == sorted(kept):
        for at in reversed([at for at in range(len(before)) if at not in set(kept)]):
            del array[at]
        for row in new:
            array.append(_item(row))
        return
    made = tomlkit.aot()
    for at, row in zip(rows.origins, rows, strict=True):
        made.append(_item(row) if at is None else array[at])
    container[key] = made


def _item(value: Any, inside: bool = False) -> Any:
    """Return what tomlkit writes of a value. inside: within a row, where a table is written in one line."""
    if isinstance(value, Listed):
        array = tomlkit.aot()
        for row in value:
            array.append(_item(row))
        return array
    if isinstance(value, dict):
        table: Any = tomlkit.inline_table() if inside and _is_flat(value) else tomlkit.table()
        for key, one in value.items():
            table[key] = _item(one, inside=isinstance(table, InlineTable) or not isinstance(one, dict) or _is_flat(one))
        return table
    if isinstance(value, list):
        return tomlkit.item([_item(one, inside=True) for one in value])
    if isinstance(value, datetime):
        return tomlkit.value(value.isoformat().replace("+00:00", "Z"))
    return _number(value) if isinstance(value, Decimal) else tomlkit.item(value)


def _is_flat(value: Raw) -> bool:
    return not any(isinstance(one, dict) for one in value.values())


def _number(value: Decimal) -> Any:
    text = str(value)
    return tomlkit.value(text if set(text) & set(".E") else f"{text}.0")


def _same(left: Any, right: Any) -> bool:
    """Return whether two values read the same: 5 and 5.0 do, 1 and true do not."""
    if isinstance(left, dict) and isinstance(right, dict):
        return left.keys() == right.keys() and all(_same(left[key], right[key]) for key in left)
    if isinstance(left, list) and isinstance(right, list):
        return len(left) == len(right) and all(map(_same, left, right))
    if isinstance(left, bool) or isinstance(right, bool):
        return left is right
    if isinstance(left, datetime) and isinstance(right, datetime):
        return left == right and left.utcoffset() == right.utcoffset()
    return bool(left == right)

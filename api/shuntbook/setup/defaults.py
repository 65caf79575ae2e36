"""Which of the package's car maps and check lists an event keeps: the one of the release that it began with."""

import tomllib
from collections.abc import Iterable, Mapping
from decimal import Decimal
from functools import cache
from importlib.resources import files as resources
from typing import Any

from shuntbook.kit.errors import BadSetup
from shuntbook.setup import car_map, event, looks
from shuntbook.setup.event_keys import LOOKS
from shuntbook.setup.faults import Faults
from shuntbook.setup.looks import ListedCheck, Looks, lists_of
from shuntbook.setup.toml_edit import Listed, edited
from shuntbook.setup.toml_file import TomlFile

Files = Mapping[str, bytes]
Row = dict[str, Any]

RELEASE = "0.2"
"""The release whose car map and check lists the package brings now."""
FIRST = "v0.1"


@cache
def first_map() -> bytes:
    """Return car_map.toml as release 0.1 brought it."""
    return _first(car_map.FILE)


@cache
def first_looks() -> Looks:
    """Return the check lists of release 0.1, with what has been a must since passes are judged by their checks."""
    faults = Faults()
    found = lists_of(line.values for line in TomlFile(looks.FILE, _first(looks.FILE), faults).lines(LOOKS))
    faults.raise_if_any()
    return found


def _first(name: str) -> bytes:
    return resources("shuntbook").joinpath("defaults", FIRST, name).read_bytes()


def with_first(files: Files) -> dict[str, bytes]:
    """Return set-up files that say of themselves what release 0.1 would have added: its map, and each list they lack.

    Errors: BadSetup where event.toml can't be read.
    """
    rows = _rows(files)
    missing = [group for group in first_looks() if group not in {row.get("group") for row in rows}]
    return _with_map(_with_lists(files, rows, missing))


def keeping(before: Files, files: Files) -> dict[str, bytes]:
    """Return files that are to follow `before`, with what these held of release 0.1 where the new ones bring none.

    A folder is loaded again in the middle of an event: that alone changes neither map nor lists.
    """
    if event.FILE not in before or event.FILE not in files:
        return dict(files)
    try:
        rows = _rows(files)
    except BadSetup:
        # What is wrong with them is told by whoever reads them next.
        return dict(files)
    there = {row.get("group") for row in rows}
    made = _with_lists(files, rows, [group for group in _first_lists(before) if group not in there])
    return _with_map(made) if before.get(car_map.FILE) == first_map() else made


def without_first(files: Files) -> dict[str, bytes]:
    """Return the files without the map and the lists of release 0.1, so that the package's own of today hold.

    Errors: BadSetup where event.toml can't be read.
    """
    made = {name: data for name, data in files.items() if name != car_map.FILE or data != first_map()}
    old, rows = _first_lists(files), _rows(files)
    kept = [at for at, row in enumerate(rows) if row.get("group") not in old]
    if len(kept) == len(rows):
        return made
    return {**made, event.FILE: _edited(files, Listed([rows[at] for at in kept], list(kept)))}


def of_first(files: Files) -> tuple[bool, list[str]]:
    """Return whether set-up files hold the map of release 0.1, and the groups whose list is that release's.

    Errors: BadSetup where event.toml can't be read.
    """
    return files.get(car_map.FILE) == first_map(), _first_lists(files)


def _first_lists(files: Files) -> list[str]:
    """Return the groups whose list in event.toml is, row by row, that of release 0.1."""
    own = lists_of(_whole(row) for row in _rows(files))
    return [group for group, rows in own.items() if first_looks().get(group) == rows]


def _whole(row: Row) -> Row:
    return {"group": row.get("group", ""), "check": row.get("check", ""), **{"must": False, "at": ""}, **row}


def _with_map(files: Files) -> dict[str, bytes]:
    return {car_map.FILE: first_map(), **files}


def _with_lists(files: Files, rows: list[Row], groups: Iterable[str]) -> dict[str, bytes]:
    new = [_row(group, check) for group in groups for check in first_looks()[group]]
    if not new:
        return dict(files)
    origins: list[int | None] = [*range(len(rows)), *[None] * len(new)]
    return {**files, event.FILE: _edited(files, Listed([*rows, *new], origins))}


def _row(group: str, check: ListedCheck) -> Row:
    return {"group": group, "check": check.check} | ({"must": True} if check.must else {})


def _edited(files: Files, rows: Listed) -> bytes:
    text = files[event.FILE].decode("utf-8-sig")
    before = tomllib.loads(text, parse_float=Decimal)
    after = {name: value for name, value in before.items() if name != LOOKS.table}
    return edited(text, before, after | ({LOOKS.table: rows} if rows else {})).encode()


def _rows(files: Files) -> list[Row]:
    """Return the [[looks]] rows of event.toml. Errors: BadSetup where they are no rows."""
    faults = Faults(stored=True)
    file = TomlFile(event.FILE, files.get(event.FILE, b""), faults)
    file.lines(LOOKS)
    faults.raise_if_any()
    rows: list[Row] = file.root.get(LOOKS.table, [])
    return rows

"""Reads the files of a `rates/` folder into a rate table, naming every fault by file, row and column."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from shuntbook.kit.canonical import sha256
from shuntbook.kit.money import Currency, currency
from shuntbook.setup.csv_file import read_csv
from shuntbook.setup.faults import Faults
from shuntbook.setup.keys import Key, Table
from shuntbook.setup.lines import Line, Lines, Values, check_money, check_references, known_in, picked, rows_of
from shuntbook.setup.rate_keys import FOLDER, OPTIONAL, RATE_TABLES, RATES
from shuntbook.setup.rates import Access, Check, Operation, Part, Rates, ThreePoint
from shuntbook.setup.tables import of_file
from shuntbook.setup.toml_file import TomlFile
from shuntbook.setup.values import fractions

Files = Mapping[str, bytes]

TOML = RATES.file.removeprefix(FOLDER)
FILES = tuple(sorted({table.file.removeprefix(FOLDER) for table in RATE_TABLES}))


def version_of(files: Files) -> str:
    """Return the rate table's version: SHA-256 of the files' bytes in name order."""
    return sha256(b"".join(files[name] for name in sorted(files)))


def read_rates(files: Files, faults: Faults) -> Rates:
    """Read the files of a `rates/` folder (name → bytes).

    Every fault goes to `faults` with file, row and column; the value is only good where there is none.
    """
    _right_files(files, faults)
    lines = _toml_lines(files, faults) | _csv_lines(files, faults)
    coin = _currency(lines["rates"][0])
    check_money(lines, coin.code, coin.fits, coin.decimals)
    there = [one for one in RATE_TABLES if one.file not in OPTIONAL or one.file.removeprefix(FOLDER) in files]
    check_references(lines, known_in(lines, there))
    _needs_no_ring(lines["access"])
    return _rates(version_of(files), coin, lines)


def _rates(version: str, coin: Currency, lines: Lines) -> Rates:
    rows = rows_of(lines)
    top = rows["rates"][0]
    operations = [_operation(one) for one in rows["operations"]]
    says_what_moves = any(one["moves_car"] is not None for one in rows["access"])
    return Rates(
        version,
        coin,
        top["labour_per_hour"],
        top["tax_percent"],
        top["consumables_percent"],
        ThreePoint(*fractions(top["inspect_minutes"])),
        ThreePoint(*fractions(top["assess_minutes"])),
        {one["group"]: ThreePoint(*fractions(one["minutes"])) for one in rows["inspect_minutes_by_group"]},
        ThreePoint(*fractions(further)) if (further := top["inspect_next_minutes"]) else None,
        {one["kind"]: one["access"] for one in rows["inspect_access"]},
        {(one.component, one.condition, one.zone): one for one in operations},
        {one["step"]: _access(one, says_what_moves) for one in rows["access"]},
        {one["part"]: Part(**picked(Part, one)) for one in rows["parts"]},
        {one["check"]: Check(**picked(Check, one), minutes=_minutes(one)) for one in rows["checks"]},
        rows,
    )


def _right_files(files: Files, faults: Faults) -> None:
    for name in files:
        if name not in FILES:
            faults.add(name, 0, "", f"not a file of a rate table; those are {', '.join(FILES)}")
    for name in FILES:
        if name not in files and FOLDER + name not in OPTIONAL:
            faults.add(name, 0, "", "this file is missing; add it to rates/")


def _toml_lines(files: Files, faults: Faults) -> dict[str, list[Line]]:
    tables = of_file(RATES.file, RATE_TABLES)
    file = TomlFile(TOML, files.get(TOML, b""), faults)
    if TOML not in files or not file.readable:
        # One fault says what is wrong with the file; what is read in its place has none.
        file = TomlFile(TOML, _least(RATES), faults)
    file.warn_of_unknown(tables)
    return {table.table: file.lines(table) for table in tables}


def _csv_lines(files: Files, faults: Faults) -> dict[str, list[Line]]:
    found = {}
    for table in (one for one in RATE_TABLES if one.shape == "csv"):
        name = table.file.removeprefix(FOLDER)
        found[table.table] = read_csv(name, files[name], table, faults) if name in files else []
    return found


def _least(table: Table) -> bytes:
    """Return the least that a file of this table can say."""
    return "".join(f"{key.key} = {_written(key)}\n" for key in table.columns if key.required).encode()


def _written(key: Key) -> str:
    return f'"{key.first}"' if key.kind == "text" else key.first


def _currency(line: Line) -> Currency:
    try:
        return currency(line["currency"] or "EUR")
    except ValueError as error:
        line.fault("currency", str(error))
        return currency("EUR")


def _minutes(row: Values) -> ThreePoint:
    return ThreePoint(*fractions((row["minutes_best"], row["minutes_likely"], row["minutes_worst"])))


def _access(row: Values, says_what_moves: bool) -> Access:
    more: dict[str, Any] = {name: Fraction(row[name]) for name in ("minutes_open", "minutes_close")}
    # Where the column says of any step that it moves the car, an empty cell says that a step does not.
    more["moves_car"] = bool(row["moves_car"]) if says_what_moves else None
    return Access(**(picked(Access, row) | more))


def _operation(row: Values) -> Operation:
    more: dict[str, Any] = {"minutes": _minutes(row), "value": Fraction(row["value"])}
    return Operation(**(picked(Operation, row) | more))


def _needs_no_ring(lines: list[Line]) -> None:
    needs = {line["step"]: line["needs"] for line in lines}
    for line in lines:
        if _reaches(needs, line["step"]):
            line.fault("needs", f"{line['step']!r} needs itself, by way of its needs; take one of them out")


def _reaches(needs: Mapping[str, tuple[str, ...]], start: str) -> bool:
    todo, seen = list(needs[start]), set()
    while todo:
        step = todo.pop()
        if step == start:
            return True
        if step in needs and step not in seen:
            seen.add(step)
            todo.extend(needs[step])
    return False

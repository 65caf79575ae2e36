"""Reads the files of a `rates/` folder into a rate table, naming every fault by file, row and column."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from shuntbook.kit.canonical import sha256
from shuntbook.kit.money import Currency, currency
from shuntbook.setup.csv_file import Row, read_csv
from shuntbook.setup.faults import Faults
from shuntbook.setup.rates import Access, Check, Operation, Part, Rates, ThreePoint
from shuntbook.setup.toml_file import Place, Reader, TomlFile
from shuntbook.setup.words import CONDITIONS, UNKNOWN

Files = Mapping[str, bytes]
Columns = tuple[tuple[str, ...], tuple[str, ...]]

TOML = "rates.toml"
NO_TOML = b'currency = "EUR"\nlabour_per_hour = 0'
"""Read in place of a rates.toml that is missing, so that its absence is one fault and not several."""
FILES = ("access.csv", "checks.csv", "operations.csv", "parts.csv", TOML)
_MINUTES = ("minutes_best", "minutes_likely", "minutes_worst")
OPERATIONS: Columns = (
    (
        "component",
        "condition",
        "action",
        *_MINUTES,
        "mechanics",
        "access",
        "parts",
        "must_do",
        "value",
    ),
    ("zone", "skill", "after", "then", "ground", "fire_risk", "wear", "max_events"),
)
ACCESS: Columns = (
    ("step", "per", "minutes_open", "minutes_close", "mechanics"),
    ("needs",),
)
PARTS: Columns = (("part", "description", "unit_cost"), ("supplier",))
CHECKS: Columns = (("check", *_MINUTES, "mechanics", "when", "by"), ())


@dataclass(frozen=True)
class _Money:
    """What rates.toml says."""

    currency: Currency
    labour_per_hour: Decimal
    tax_percent: Decimal
    consumables_percent: Decimal
    inspect_minutes: ThreePoint
    assess_minutes: ThreePoint
    inspect_minutes_by_group: Mapping[str, ThreePoint]


def version_of(files: Files) -> str:
    """Return the rate table's version: SHA-256 of the files' bytes in name order."""
    return sha256(b"".join(files[name] for name in sorted(files)))


def read_rates(files: Files, faults: Faults) -> Rates:
    """Read the files of a `rates/` folder (name → bytes).

    Every fault goes to `faults` with file, row and column; the value is only good where there is none.
    """
    _right_files(files, faults)
    money = _money(files.get(TOML, NO_TOML), faults)
    parts = {row.text("part"): _part(row, money.currency) for row in _rows("parts.csv", PARTS, files, faults)}
    steps = _rows("access.csv", ACCESS, files, faults)
    access = {row.text("step"): _access(row) for row in steps}
    checks = {row.text("check"): _check(row) for row in _rows("checks.csv", CHECKS, files, faults)}
    _needs_are_steps(steps, access)
    rows = _rows(
        "operations.csv",
        OPERATIONS,
        files,
        faults,
        key=("component", "condition", "zone"),
    )
    operations = {}
    for row in rows:
        operation = _operation(row)
        _names_exist(row, operation, parts, access, checks if "checks.csv" in files else None)
        operations[operation.component, operation.condition, operation.zone] = operation
    return Rates(
        version_of(files),
        money.currency,
        money.labour_per_hour,
        money.tax_percent,
        money.consumables_percent,
        money.inspect_minutes,
        money.assess_minutes,
        money.inspect_minutes_by_group,
        operations,
        access,
        parts,
        checks,
    )


def _right_files(files: Files, faults: Faults) -> None:
    for name in files:
        if name not in FILES:
            faults.add(name, 0, "", f"not a file of a rate table; those are {', '.join(FILES)}")
    for name in FILES:
        if name not in files and name != "checks.csv":
            faults.add(name, 0, "", "this file is missing; add it to rates/")


def _rows(name: str, columns: Columns, files: Files, faults: Faults, key: tuple[str, ...] = ()) -> list[Row]:
    """Return the rows of one CSV file; a key (by default the first column) that stands twice is a fault."""
    if name not in files:
        return []
    rows = list(read_csv(name, files[name], *columns, faults))
    key = key or columns[0][:1]
    seen: dict[tuple[str, ...], int] = {}
    for row in rows:
        value = tuple(row.text(column) for column in key)
        row.name(key[0])
        if value in seen:
            row.fault(
                key[0],
                f"{' '.join(filter(None, value))} stands in row {seen[value]} already; keep one",
            )
        seen.setdefault(value, row.row)
    return rows


def _money(data: bytes, faults: Faults) -> _Money:
    file = TomlFile(TOML, data, faults)
    reader = Reader(file, Place(), file.root)
    coin = _currency(reader)
    labour = reader.number("labour_per_hour") if file.readable else Decimal(0)
    if not coin.fits(labour):
        reader.fault(
            "labour_per_hour",
            f"{labour} has more decimals than {coin.code} ({coin.decimals})",
        )
    groups = file.root.get("inspect_minutes_by_group", {})
    by_group = Reader(
        file,
        Place("inspect_minutes_by_group"),
        groups if isinstance(groups, dict) else {},
    )
    return _Money(
        coin,
        labour,
        reader.number("tax_percent", 0),
        reader.number("consumables_percent", 0),
        _points(reader, "inspect_minutes", (1, 2, 4)),
        _points(reader, "assess_minutes", (5, 10, 20)),
        {group: _points(by_group, group, (1, 2, 4)) for group in by_group.table},
    )


def _currency(reader: Reader) -> Currency:
    code = reader.text("currency") if reader.file.readable else "EUR"
    try:
        return currency(code or "EUR")
    except ValueError as error:
        reader.fault("currency", str(error))
        return currency("EUR")


def _points(reader: Reader, key: str, usual: tuple[int, int, int]) -> ThreePoint:
    if key not in reader.table:
        return ThreePoint(Fraction(usual[0]), Fraction(usual[1]), Fraction(usual[2]))
    best, likely, worst = reader.three_points(key)
    return ThreePoint(Fraction(best), Fraction(likely), Fraction(worst))


def _part(row: Row, coin: Currency) -> Part:
    return Part(
        row.text("part"),
        row.text("description"),
        row.money("unit_cost", coin),
        row.text("supplier"),
    )


def _access(row: Row) -> Access:
    return Access(
        row.text("step"),
        row.choice("per", ("car", "zone")),
        Fraction(row.number("minutes_open")),
        Fraction(row.number("minutes_close")),
        row.whole("mechanics", least=0),
        row.names("needs"),
    )


def _check(row: Row) -> Check:
    return Check(
        row.text("check"),
        ThreePoint(*row.three_points()),
        row.whole("mechanics", least=1),
        row.choice("when", ("before-close", "on-ground")),
        row.choice("by", ("anyone", "other", "inspector")),
    )


def _operation(row: Row) -> Operation:
    condition = row.choice("condition", CONDITIONS)
    if condition == UNKNOWN:
        row.fault(
            "condition",
            "a row for 'unknown' cannot be: what is unknown is inspected, at inspect_minutes",
        )
    return Operation(
        component=row.text("component"),
        condition=condition,
        zone=row.text("zone"),
        action=row.name("action"),
        minutes=ThreePoint(*row.three_points()),
        mechanics=row.whole("mechanics", least=1),
        access=row.names("access"),
        parts=row.quantities("parts"),
        must_do=row.flag("must_do"),
        value=Fraction(row.number("value", Decimal(0))),
        skill=row.text("skill"),
        after=row.names("after"),
        then=row.names("then"),
        ground=row.flag("ground"),
        fire_risk=row.flag("fire_risk"),
        wear=row.flag("wear"),
        max_events=row.whole("max_events", least=1) if row.text("max_events") else None,
    )


def _names_exist(
    row: Row,
    operation: Operation,
    parts: Mapping[str, Part],
    access: Mapping[str, Access],
    checks: Mapping[str, Check] | None,
) -> None:
    for part in operation.parts:
        if part not in parts:
            row.fault("parts", f"{part!r} is not in parts.csv; add it there or mend the name")
    for step in operation.access:
        if step not in access:
            row.fault(
                "access",
                f"{step!r} is not in access.csv; add it there or mend the name",
            )
    for check in operation.then if checks is not None else ():
        if check not in (checks or {}):
            row.fault("then", f"{check!r} is not in checks.csv; add it there or mend the name")


def _needs_are_steps(rows: list[Row], access: Mapping[str, Access]) -> None:
    for row in rows:
        for need in row.names("needs"):
            if need not in access:
                row.fault("needs", f"{need!r} is not a step of this file")
        step = row.text("step")
        if _reaches(access, step):
            row.fault("needs", f"{step!r} needs itself, by way of its needs")


def _reaches(access: Mapping[str, Access], start: str) -> bool:
    todo, seen = list(access[start].needs), set()
    while todo:
        step = todo.pop()
        if step == start:
            return True
        if step in access and step not in seen:
            seen.add(step)
            todo.extend(access[step].needs)
    return False

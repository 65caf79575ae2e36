"""Cost sheets and statements of random odd event folders: every sum adds up to the cent, whatever people put down."""

from decimal import Decimal
from pathlib import Path

import pytest
from msgspec import to_builtins

from longer import some
from oracle.folders import write_folder
from shuntbook.cost.sheet import cost_sheet, costs_of_car
from shuntbook.cost.statements import statements_of_car
from shuntbook.queue.car import car_log
from shuntbook.report.entry import Entry, parse_entry
from shuntbook.setup.folder import Setup, read_setup

DIMENSIONS = ("car", "day", "stage", "zone", "component", "driver")
AGREEMENT = '\n[[agreements]]\nagreement = "hire"\ncar = "41"\ncustomer = "Lena"\nexcess = 900\ndeposit = 100\n'


def read(root: Path, seed: int) -> tuple[dict[str, list[Entry]], Setup]:
    folder = write_folder(root, seed, 40 + seed * 17 % 160)
    # As `load` reads a folder: tables and TOML, nobody's remarks beside them.
    kept = [path for path in folder.rglob("*") if path.suffix in (".toml", ".csv", ".jsonl")]
    files = {str(path.relative_to(folder)): path.read_bytes() for path in kept}
    files["event.toml"] += AGREEMENT.encode()
    entries = {}
    for line in files["entries.jsonl"].splitlines():
        if line.strip():
            entry = parse_entry(line)
            entries[entry.id] = entry
    cars: dict[str, list[Entry]] = {}
    for entry in entries.values():
        cars.setdefault(entry.car, []).append(entry)
    return cars, read_setup(files)


def added(rows: list, *path: str) -> Decimal:
    amounts = []
    for row in rows:
        for name in path:
            row = row[name] if row else None
        amounts.append(Decimal(row or 0))
    return sum(amounts, Decimal(0))


@pytest.mark.parametrize("seed", some(range(60), 8))
def test_every_sum_of_a_sheet_adds_up(tmp_path: Path, seed: int) -> None:
    cars, setup = read(tmp_path, seed)
    sheet = to_builtins(cost_sheet(cars, setup, None))
    lines = sheet["lines"]
    assert len({line["line"] for line in lines}) == len(lines)
    counting = [line for line in lines if not line["baseline"]]
    totals = {name: Decimal(amount) for name, amount in sheet["totals"].items()}
    for world in ("estimate", "actual"):
        assert added(counting, world, "total") == totals[world]
        access = [line for line in counting if line["kind"] == "access"]
        assert added(counting, "access_share", world) == added(access, world, "total")
        left_out = [line for line in lines if line["baseline"]]
        assert added(left_out, world, "total") == Decimal(sheet["baseline"][world])
    for name in [field for field in sheet if field.startswith("by_")]:
        rows = sheet[name]
        for column in ("estimate", "actual", "adjustments", "before_tax"):
            assert added(rows, column) == totals[column], (name, column)
    assert totals["total"] == totals["before_tax"] + totals["tax"]
    assert to_builtins(cost_sheet({car: entries[::-1] for car, entries in cars.items()}, setup, None)) == sheet


@pytest.mark.parametrize("seed", some(range(60), 8))
def test_a_repairs_line_has_what_the_repair_covers_and_an_open_one_what_none_does(tmp_path: Path, seed: int) -> None:
    cars, setup = read(tmp_path, seed)
    for car, entries in cars.items():
        log = car_log(entries, setup)
        lines = costs_of_car(car, log, setup).lines
        for key in log.keys:
            acts = log.acts_on(key)
            found = sorted([*log.findings.get(key, []), *acts.findings], key=lambda finding: finding.entry)
            by = {repair.id: [f for f in found if repair.covers & {*f.covered_by}] for repair in acts.repairs}
            left = [finding for finding in found if not any(finding in covered for covered in by.values())]
            of_job = {line.repair: list(line.findings) for line in lines if line.job == key}
            assert of_job == by | ({"": left} if left else {})


@pytest.mark.parametrize("seed", some(range(60), 8))
def test_a_statement_charges_a_line_once_or_says_why_not(tmp_path: Path, seed: int) -> None:
    cars, setup = read(tmp_path, seed)
    draft = to_builtins(statements_of_car("41", car_log(cars.get("41", []), setup), setup).draft)
    charged = [line for hit in draft["incidents"] for line in hit["lines"]]
    left_out = [item for item in draft["not_charged"] if not item["line"].startswith("hand-over/")]
    sheet = to_builtins(cost_sheet({"41": cars.get("41", [])}, setup, "41"))
    jobs = {line["line"] for line in sheet["lines"] if line["kind"] != "access"}
    assert sorted(line["line"] for line in charged + left_out) == sorted(jobs)
    assert all(item["why"] for item in draft["not_charged"])
    totals = {name: Decimal(amount) for name, amount in draft["totals"].items()}
    assert added(charged, "amount") == totals["damage"]
    for hit in draft["incidents"]:
        together = next(Decimal(step["amount"]) for step in hit["steps"] if step["step"] == "together")
        assert added(hit["lines"], "amount") == together
        assert Decimal(hit["to_pay"]) == min(together, Decimal(900))
    assert totals["to_pay"] == added(draft["incidents"], "to_pay")
    assert totals["rest"] == totals["to_pay"] + totals["tax"] - totals["deposit"]

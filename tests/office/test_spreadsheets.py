"""Every workbook and table that we write, opened and calculated again by LibreOffice Calc, a program of others."""

import csv
import io
import json
import subprocess
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from node import PWA, find_node
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from making import Pen, raw
from phone import EVENT, NOW
from sample_event import event_files, event_folder
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.flow.load import load
from shuntbook.flow.papers import costs_table, costs_workbook, parts_order_csv
from shuntbook.store.database import Store

from .program import PATIENCE_S, seen, without_results

EVIL = "=1+1"
SCRIPTS = PWA / "scripts"


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Store:
    """The sample event, with a correction whose reason a spreadsheet would run."""
    folder = tmp_path_factory.mktemp("office")
    store = Store(folder / "data")
    load(store, event_folder(folder / "event", "off"), NOW)
    more = {"line": "front-right/tyre", "amount": "-1.00", "reason": EVIL}
    adjusted = Pen(EVENT, start=10_000).entry("cost.adjusted", "front-right/tyre", person="p-vera", **more)
    assert ingest(store, Batch([raw(adjusted)], 0, None, None, NOW, None)).rejected == []
    return store


def cells(sheet: Worksheet) -> list[list[Any]]:
    """Rows of values, without empty ends; midnight as a day."""
    rows = [[plain(value) for value in row] for row in sheet.iter_rows(values_only=True)]
    return [row[: max((n for n, value in enumerate(row, 1) if value is not None), default=0)] for row in rows]


def plain(value: Any) -> Any:
    if isinstance(value, bool):
        # A cell that reads true is a truth to it; it comes back as TRUE, which the phone takes.
        return str(value).lower()
    if isinstance(value, datetime):
        return value.date() if value.time() == time() else value
    return Decimal(str(round(value, 6))).normalize() if isinstance(value, int | float) else value or None


def same(ours: Workbook, theirs: Workbook) -> None:
    assert theirs.sheetnames == ours.sheetnames
    for name in ours.sheetnames:
        assert cells(theirs[name]) == cells(ours[name]), name


@pytest.mark.parametrize("car", [None, "41"])
def test_the_cost_sheets_formulas_come_to_what_stands_in_the_file(
    store: Store, car: str | None, tmp_path: Path
) -> None:
    made = costs_workbook(store, EVENT, car, None).data
    ours = load_workbook(io.BytesIO(made), data_only=True)
    theirs = seen(without_results(made), "costs.xlsx", tmp_path)
    same(ours, theirs)
    assert EVIL in [cell for row in cells(theirs["Adjustments"]) for cell in row]
    days = [row[0] for row in cells(ours["By day"])[1:-1]]
    assert days
    assert all(isinstance(day, date) for day in days)
    day = [row[2] for row in cells(ours["Lines"])[1:] if len(row) > 2 and row[2]]
    assert all(isinstance(one, date) for one in day)


def test_tables_are_read_as_numbers_days_and_text(store: Store, tmp_path: Path) -> None:
    tables_agree(costs_table(store, EVENT, None, None).data, "costs", tmp_path)
    tables_agree(parts_order_csv(store, EVENT, "41", True).data, "parts", tmp_path)


def tables_agree(data: bytes, name: str, folder: Path) -> None:
    written = list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))
    sheet = seen(data, f"{name}.csv", folder).worksheets[0]
    read = [["" if value is None else value for value in row] for row in sheet.iter_rows(values_only=True)]
    assert len(read) == len(written) > 1
    for wanted, found in zip(written, read, strict=True):
        assert [said(value) for value in found] == [said(typed(cell)) for cell in wanted]


def typed(cell: str) -> Any:
    """What a person expects a cell of a table to be."""
    for kind in (Decimal, date.fromisoformat, datetime.fromisoformat):
        try:
            return kind(cell)
        except (ArithmeticError, ValueError):
            continue
    return cell


def said(value: Any) -> Any:
    found = plain(value) if not isinstance(value, Decimal) else value.normalize()
    return "" if found is None else found


@pytest.fixture(scope="module")
def taken_away(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What a manager's phone makes of the sample event's set-up: a workbook of all tables, and a CSV of each."""
    folder = tmp_path_factory.mktemp("phone")
    texts = {name: data.decode() for name, data in event_files("on").items()}
    (folder / "files.json").write_text(json.dumps(texts))
    command = [find_node(), str(SCRIPTS / "set-up-files.mjs"), str(folder / "files.json"), str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE_S, check=False)
    assert done.returncode == 0, done.stderr
    return folder


def test_the_phones_workbook_of_a_set_up_opens_with_its_days_and_numbers(taken_away: Path, tmp_path: Path) -> None:
    made = (taken_away / "all.xlsx").read_bytes()
    theirs = seen(made, "all.xlsx", tmp_path)
    same(load_workbook(io.BytesIO(made), data_only=True), theirs)
    head, *dated = cells(theirs["dated"])
    expires = [row[head.index("expires")] for row in dated if len(row) > head.index("expires")]
    assert any(isinstance(one, date) for one in expires)
    assert cells(theirs["stages"])[1] == ["SS1", Decimal("9.4"), "2026-06-13 08:18"]


@pytest.mark.parametrize("table", ["stages", "dated", "operations", "parts", "people"])
def test_the_phones_tables_are_read_as_numbers_days_and_text(taken_away: Path, tmp_path: Path, table: str) -> None:
    tables_agree((taken_away / f"{table}.csv").read_bytes(), table, tmp_path)

"""One line in the table of keys is all that a new key costs: form, page, schema, reader, JSON and difference follow."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import setup_keys

from shuntbook.kit.errors import BadSetup
from shuntbook.setup.keys import Key, Table, name, names
from shuntbook.setup.lines import toml_line
from shuntbook.setup.tables import TABLES
from small_event import EVENT, small_setup

ROOT = Path(__file__).resolve().parents[2]
LINE = '    text("surface", "Gravel, asphalt or snow.", seen="all"),\n'
BEFORE = '    number("km", 10_000, "km", "How long it is.", default=0, seen="all"),\n'
ASKED = """
import json, sys
sys.path[:0] = sys.argv[1:]
import setup_keys
from shuntbook.describing import openapi
from shuntbook.setup.difference import difference
from shuntbook.kit.errors import BadSetup
from shuntbook.setup.folder import read_setup
from shuntbook.setup.tables import TABLES
from shuntbook.wire.setup_json import setup_json
from small_event import EVENT, small_files

gravel = {**small_files(), "event.toml": EVENT.replace(b"km = 12.5", b'km = 12.5\\nsurface = "gravel"')}
setup = read_setup(gravel)
print(json.dumps({
    "form": setup_keys.typescript(TABLES),
    "page": setup_keys.page("", TABLES),
    "schema": openapi()["components"]["schemas"]["Stage"]["properties"],
    "warnings": [str(one) for one in setup.warnings],
    "told": setup_json(setup)["stages"][1],
    "changed": difference(read_setup(small_files()), setup),
}))
"""


def test_the_form_and_the_page_are_as_the_table_makes_them() -> None:
    assert setup_keys.SPECS.read_text() == setup_keys.typescript(TABLES), "run `make schemas`"
    page = setup_keys.PAGE.read_text()
    assert page == setup_keys.page(page, TABLES), "run `make schemas`"


def test_a_key_costs_one_line(tmp_path: Path) -> None:
    copy = tmp_path / "api"
    shutil.copytree(ROOT / "api", copy, ignore=shutil.ignore_patterns("__pycache__", "app"))
    keys = copy / "shuntbook" / "setup" / "event_keys.py"
    assert keys.read_text().count(BEFORE) == 1
    keys.write_text(keys.read_text().replace(BEFORE, BEFORE + LINE))
    said = subprocess.run(
        [sys.executable, "-c", ASKED, str(copy), str(ROOT / "tools"), str(ROOT / "tests")],
        env={**os.environ, "PYTHONPATH": str(copy)},
        capture_output=True,
        text=True,
        check=True,
    )
    found = json.loads(said.stdout)
    assert '{"column": "surface", "kind": "text"}' in found["form"]
    assert "| `surface` | text |  | nothing | everybody | Gravel, asphalt or snow. |" in found["page"]
    assert found["schema"]["surface"] == {"type": "string"}
    assert found["warnings"] == []
    assert found["told"] == {"stage": "SS2", "km": 12.5, "start": None, "surface": "gravel"}
    (change,) = found["changed"]
    assert (change["table"], change["key"]) == ("stages", "SS2")
    assert change["cells"] == [{"field": "surface", "before": "", "after": "gravel"}]


def test_without_the_line_none_of_it_is_there() -> None:
    assert "surface" not in setup_keys.typescript(TABLES) + setup_keys.page("", TABLES)


def test_each_key_says_what_it_is_for_and_stands_once() -> None:
    for table in TABLES:
        names = [key.key for key in table.columns]
        assert len(set(names)) == len(names), table.table
        assert all(key.help.endswith(".") for key in table.columns), table.table
        assert set(table.keys) <= set(names)


def test_what_a_key_refers_to_is_there() -> None:
    there = {f"{table.table}.{key.key}" for table in TABLES for key in table.columns}
    assert {key.refers for table in TABLES for key in table.columns if key.refers} <= there


def test_a_key_that_nothing_follows_from_yet_is_kept_and_whoever_sets_it_is_told() -> None:
    table = Table("things", "event.toml", "rows", ("thing",), (name("thing", ""), names("idle", "", used=False)))
    told: list[str] = []

    def tell(_key: str, what: str, _new: bool) -> None:
        told.append(what)

    line = toml_line(table, {"thing": "one", "idle": ["41"]}, tell, tell)
    assert line["idle"] == ("41",)
    assert ["nothing follows from it in this version" in what for what in told] == [True]


def test_idle_keys_are_marked_in_the_form_and_on_the_page() -> None:
    idle: list[Key] = [key for table in TABLES for key in table.columns if not key.used]
    assert setup_keys.typescript(TABLES).count('"idle": true') == len(idle)
    assert setup_keys.page("", TABLES).count("nothing follows from it in this version") == len(idle)


def test_driving_in_and_out_may_be_said_apart_and_counts_as_their_sum() -> None:
    apart = EVENT.replace(b"minutes = 20", b"minutes = 20\nin_minutes = 2\nout_minutes = 4.5")
    service = next(one for one in small_setup(event=apart).event.services if one.minutes == 20)
    assert service.in_and_out_minutes == 6.5
    with pytest.raises(BadSetup, match="either this or in_minutes and out_minutes"):
        small_setup(event=apart.replace(b"in_minutes = 2", b"in_minutes = 2\nin_and_out_minutes = 6"))

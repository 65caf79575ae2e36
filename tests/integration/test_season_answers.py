"""What a season teaches, over HTTP and by command: an invented season of four events with timed repairs."""

import shutil
from decimal import Decimal
from pathlib import Path

import pytest
from bench.invented_season import season
from command import printed
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from phone import NOW, Phone
from shuntbook.flow import clock, joining
from shuntbook.flow.load import load
from shuntbook.store import setups
from shuntbook.store.database import Store

EVENTS = 4
LAST = "invented-04-2026"


@pytest.fixture(scope="module")
def season_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with the invented season; the tests that change it have a copy."""
    root = tmp_path_factory.mktemp("season")
    store = Store(root / "data")
    for folder in season(root / "events", EVENTS, 250):
        load(store, folder, NOW)
    store.db.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return root / "data"


@pytest.fixture
def data_folder(season_folder: Path, tmp_path: Path) -> Path:
    """The season in place of the sample event."""
    return Path(shutil.copytree(season_folder, tmp_path / "data"))


@pytest.fixture
def manager(client: FlaskClient, sample_store: Store) -> Phone:
    """The season's manager."""
    code = joining.invite(sample_store, "p-desk", clock.now())
    token = client.post("/api/v1/join", json={"code": code}).get_json()["token"]
    return Phone(client, {"Authorization": f"Bearer {token}"})


def test_every_event_is_there_in_its_order_with_its_own_sheets_cents(manager: Phone) -> None:
    events = manager.get("/season").get_json()["events"]
    assert [one["event"] for one in events] == [f"invented-{number:02}-2026" for number in range(1, EVENTS + 1)]
    for one in events:
        sheet = manager.get(f"/events/{one['event']}/costs").get_json()
        assert (one["estimate"], one["actual"]) == (sheet["totals"]["estimate"], sheet["totals"]["actual"])
        assert one["incidents"] == len({line["incident"] for line in sheet["lines"] if line["incident"]})
        assert Decimal(one["actual"]) > 0


def test_commands_print_what_the_server_answers(manager: Phone, data_folder: Path) -> None:
    assert printed("season", data=data_folder) == manager.get("/season").get_json()
    observed = manager.get(f"/events/{LAST}/rates/observed").get_json()
    assert printed("observed", "--event", LAST, data=data_folder) == observed
    spares = manager.get(f"/events/{LAST}/spares?km=142.5&cars=2&cover=90").get_json()
    asked = ("spares", "--event", LAST, "--km", "142.5", "--cars", "2", "--cover", "90")
    assert printed(*asked, data=data_folder) == spares
    assert (spares["km"], spares["cars"], spares["cover"], spares["model"]) == (142.5, 2, 90, "gamma-poisson")


def suggested(manager: Phone) -> tuple[dict, list[dict]]:
    answer = manager.get(f"/events/{LAST}/rates/observed").get_json()
    return answer, [one for one in answer["operations"] if one["suggested"]]


def accept(manager: Phone, asked: dict) -> TestResponse:
    return manager.client.post("/api/v1/rates/accept", json=asked, headers=manager.headers)


def named(operation: dict) -> dict:
    return {name: operation[name] for name in ("component", "condition", "action", "zone")}


def test_an_accepted_suggestion_changes_that_row_and_no_other(manager: Phone, data_folder: Path) -> None:
    answer, found = suggested(manager)
    assert found, "the season's own paces differ from the table's"
    one = found[0]
    before = setups.get(Store(data_folder).db, LAST).rates
    reply = accept(manager, {"rates": answer["rates"], "operations": [named(one)]})
    assert reply.status_code == 200
    taken = reply.get_json()
    now = setups.get(Store(data_folder).db, LAST).rates
    assert (taken["before"], taken["rates"]) == (before.version, now.version)
    assert now.version != before.version
    changed = [key for key, row in now.operations.items() if row.minutes != before.operations[key].minutes]
    assert changed == [(one["component"], one["condition"], one["zone"])]
    assert float(now.operations[changed[0]].minutes.likely) == one["suggested"]["minutes_likely"]
    # The sheet of old is calculated to the same cents with the table of then.
    path = f"/events/{LAST}/costs"
    assert manager.get(f"{path}?rates={before.version}").get_json()["rates"] == before.version


def test_nothing_changes_by_itself_and_an_old_table_is_not_written_over(manager: Phone, data_folder: Path) -> None:
    answer, found = suggested(manager)
    assert setups.get(Store(data_folder).db, LAST).rates.version == answer["rates"]
    asked = {"rates": answer["rates"], "operations": [named(found[0])]}
    assert accept(manager, asked).status_code == 200
    again = accept(manager, asked)
    assert again.status_code == 409
    assert "look at the suggestions again" in again.get_json()["detail"]


def test_what_nobody_suggested_is_refused(manager: Phone) -> None:
    answer, found = suggested(manager)
    other = {**named(found[0]), "component": "roof-vent"}
    assert accept(manager, {"rates": answer["rates"], "operations": [other]}).status_code == 409


def test_the_shopping_list_is_the_stock_less_the_van(manager: Phone) -> None:
    answer = manager.get(f"/events/{LAST}/spares?cover=99").get_json()
    by_part = {row["part"]: row for row in answer["parts"]}
    for item in answer["shopping"]["items"]:
        row = by_part[item["part"]]
        [cell] = [cell for cell in row["covers"] if cell["cover"] == 99]
        assert item["qty"] == cell["buy"] == max(0, cell["stock"] - row["van"])
    for row in answer["parts"]:
        stocks = [cell["stock"] for cell in row["covers"]]
        assert stocks == sorted(stocks)


@pytest.mark.parametrize("query", ["km=0", "km=-5", "cars=0", "cover=50", "km=nan"])
def test_what_makes_no_sense_is_refused_in_words(manager: Phone, query: str) -> None:
    assert manager.get(f"/events/{LAST}/spares?{query}").status_code == 422

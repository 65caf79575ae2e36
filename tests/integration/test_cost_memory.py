"""Costs that are brought forward are those made anew, whatever comes in, in whatever order, under whatever set-up."""

import random
import tomllib
from collections.abc import Sequence
from pathlib import Path

import pytest

from every_kind import one_of_each
from longer import some
from making import Pen, raw
from oracle.folders import write_folder
from shuntbook.cost.answer import Costs
from shuntbook.cost.sheet import cost_sheet
from shuntbook.flow import answers, uploads
from shuntbook.flow.cost_memory import TELLING, CostMemory
from shuntbook.flow.ingest import Batch, ingest, take
from shuntbook.flow.load import setup_files
from shuntbook.report.kinds import KINDS
from shuntbook.store import log, setups
from shuntbook.store.database import Store
from shuntbook.web.remembered import Remembered

NOW = "2026-06-14T12:00:00Z"


def parts(lines: Sequence[bytes], chance: random.Random) -> list[list[bytes]]:
    """Return the lines in batches of chance's size and order."""
    todo = chance.sample(lines, len(lines))
    found = []
    while todo:
        size = chance.choice([1, 1, 3, 20])
        found.append(todo[:size])
        todo = todo[size:]
    return found


@pytest.mark.parametrize("seed", some(range(24), 9))
def test_after_each_batch_the_sheet_is_that_of_a_server_that_remembers_nothing(tmp_path: Path, seed: int) -> None:
    store, chance = Store(tmp_path / "data"), random.Random(seed)
    folder = write_folder(tmp_path, seed, 60 + seed * 17 % 160)
    files = setup_files(folder)
    event = tomllib.loads(files["event.toml"].decode())["event"]
    uploads.put_setup(store, event, files, NOW)
    memory = CostMemory()
    lines = [line for line in (folder / "entries.jsonl").read_bytes().splitlines() if line.strip()]
    for batch in parts(lines, chance):
        with store.write() as db:
            take(db, Batch(batch, 0, None, None, NOW, None), None)
        made = answers.costs(store, event)
        assert answers.costs(store, event, None, None, memory) == made == of_all_entries(store, event)


def of_all_entries(store: Store, event: str) -> Costs:
    """Return the sheet made of every entry of the log, those of no account among them."""
    with store.read() as db:
        setup = setups.get(db, event)
        cars = sorted({*setup.event.cars, *log.cars(db, event)})
        return cost_sheet({car: log.of_car(db, event, car) for car in cars}, setup, None)


def test_kinds_that_are_not_read_move_no_sheet_and_a_pass_with_a_check_that_is_false_is_read(
    sample_store: Store, pen: Pen
) -> None:
    job, event = "front-left/wheel", pen.event
    hit = pen.filed(f"{job} bent")
    repaired = pen.finished(job, hit, minutes=7)
    passed = pen.passed(job, hit, checks=[{"check": "torque", "ok": True}, {"check": "bolts", "ok": False}])
    for entry in (*one_of_each(pen), hit, repaired, passed, *one_of_each(pen, person="p-vera")):
        with sample_store.write() as db:
            take(db, Batch([raw(entry)], 0, None, None, NOW, None), None)
        assert answers.costs(sample_store, event) == of_all_entries(sample_store, event)
    assert {row[0] for row in sample_store.db.conn.execute("SELECT kind FROM entry")} >= KINDS.keys()
    lines = answers.costs(sample_store, event).lines
    assert [line.kind for line in lines if passed["id"] in line.entries] == ["open"]


def test_one_car_then_all_then_an_older_rate_table(sample_store: Store, pen) -> None:
    memory, event = CostMemory(), pen.event
    old = answers.costs(sample_store, event).rates
    for car, rates in ((None, None), ("41", None), ("42", None), (None, old), ("41", old), (None, None)):
        ingest(sample_store, Batch([raw(pen.filed("front-left/wheel bent"))], 0, None, None, NOW, None))
        asked = (sample_store, event, car, rates)
        assert answers.costs(*asked, memory) == answers.costs(*asked)


def test_a_sheet_of_too_many_entries_is_made_anew_each_time(sample_store: Store, pen) -> None:
    with sample_store.read() as db:
        held = len(log.telling(db, pen.event, TELLING))
    for most, kept in ((held, held), (held - 1, 0)):
        memory = CostMemory(most)
        assert answers.costs(sample_store, pen.event, None, None, memory) == answers.costs(sample_store, pen.event)
        assert memory.size == kept


def test_what_is_remembered_stays_within_its_bytes_and_the_newest_is_kept() -> None:
    remembered: Remembered[bytes] = Remembered(3, 10)
    for key, size in (("a", 4), ("b", 4), ("c", 4), ("b", 2), ("d", 30)):
        assert len(remembered.put(key, b"x" * size)) == size
        assert remembered.get(key) is not None
    assert [remembered.get(key) is not None for key in "abcd"] == [False, False, False, True]
    assert all(remembered.put(key, b"") == b"" for key in "efgh")
    assert [remembered.get(key) is not None for key in "defgh"] == [False, False, True, True, True]

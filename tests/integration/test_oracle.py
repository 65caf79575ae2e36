"""The queue against a second, independent reading of the rules, on random folders made to be nasty."""

import json
import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec import to_builtins

from longer import some, times
from oracle.folders import write_folder
from oracle.reading import queue as oracle_queue
from shuntbook.flow import answers, diagnostics, ingest
from shuntbook.flow.load import load, read_folder
from shuntbook.kit.canonical import json_text
from shuntbook.store import setups
from shuntbook.store.database import Store

DEFAULT_MAP = Path(__file__).parents[2] / "api" / "shuntbook" / "defaults" / "car_map.toml"
NOW = "2026-05-16T10:00:00Z"
NOT_JUDGED = [HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
"""Each example makes folders of its own; how long that takes is not judged."""


def read_by_oracle(folder: Path, event: str, car: str) -> dict:
    return json.loads(json.dumps(oracle_queue(folder, event, car, DEFAULT_MAP), default=float))


def read_by_product(store: Store, event: str, car: str) -> dict:
    return json.loads(json_text(answers.queue(store, event, car)))


def event_and_cars(folder: Path) -> tuple[str, list[str]]:
    read = tomllib.loads((folder / "event.toml").read_text())
    return read["event"], [car["car"] for car in read["cars"]]


@pytest.mark.parametrize("seed", some(range(60), 10))
def test_a_loaded_folder_reads_as_the_oracle_reads_it(tmp_path: Path, seed: int) -> None:
    folder = write_folder(tmp_path, seed, 40 + seed * 7 % 360)
    store = Store(tmp_path / "data")
    load(store, folder, NOW)
    event, cars = event_and_cars(folder)
    for car in cars:
        assert read_by_product(store, event, car) == read_by_oracle(folder, event, car)
    assert diagnostics.check(store) == []


@settings(max_examples=times(3, 25), suppress_health_check=NOT_JUDGED)
@given(seed=st.integers(0, 10_000), chance=st.randoms(use_true_random=False))
def test_any_order_doubling_and_split_into_batches_and_devices_gives_the_same_queue(
    tmp_path_factory: pytest.TempPathFactory, seed: int, chance
) -> None:
    root = tmp_path_factory.mktemp("order")
    folder = write_folder(root, seed, 60)
    event, cars = event_and_cars(folder)
    whole = Store(root / "whole")
    load(whole, folder, NOW)
    store = set_up_without_entries(root / "parts", folder)
    raws = [raw for _, raw in read_folder(folder).entries.values()]
    raws += chance.sample(raws, len(raws) // 3)
    chance.shuffle(raws)
    while raws:
        size = chance.randint(1, 25)
        batch, raws = raws[:size], raws[size:]
        ingest.ingest(store, ingest.Batch(batch, 0, None, f"d-{chance.randint(1, 4)}", NOW, None))
    for car in cars:
        assert answers.queue(store, event, car) == answers.queue(whole, event, car)
    assert diagnostics.check(store) == []


@settings(max_examples=times(3, 15), suppress_health_check=NOT_JUDGED)
@given(seed=st.integers(0, 10_000), chance=st.randoms(use_true_random=False))
def test_no_interleaving_lets_go_of_what_an_independent_inspection_does_not_cover(
    tmp_path_factory: pytest.TempPathFactory, seed: int, chance
) -> None:
    """After every batch, the release is what the oracle says of exactly the entries that are there."""
    root = tmp_path_factory.mktemp("prefix")
    folder = write_folder(root, seed, 40)
    event, cars = event_and_cars(folder)
    store = set_up_without_entries(root / "data", folder)
    raws = [raw for _, raw in read_folder(folder).entries.values()]
    chance.shuffle(raws)
    here: list[bytes] = []
    while raws:
        size = chance.randint(1, 12)
        batch, raws = raws[:size], raws[size:]
        here += batch
        ingest.ingest(store, ingest.Batch(batch, 0, None, "d-1", NOW, None))
        (folder / "entries.jsonl").write_bytes(b"\n".join(here))
        for car in cars:
            release = to_builtins(answers.release(store, event, car))
            expected = read_by_oracle(folder, event, car)
            assert release["release"] == expected["release"]
            assert release["hold_reasons"] == expected["hold_reasons"]


def set_up_without_entries(data: Path, folder: Path) -> Store:
    store = Store(data)
    read = read_folder(folder)
    with store.write() as db:
        setups.put(db, read.setup, read.files)
    return store

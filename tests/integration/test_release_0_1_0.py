"""What release 0.1.0 left behind is opened by the code of today: nothing is lost, and today's rules judge it."""

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest
from msgspec import to_builtins

from phone import EVENT, NOW
from release_0_1_0 import FOLDER, said, unzipped
from shuntbook.flow import answers, diagnostics
from shuntbook.flow.bundle_import import Choice, import_bundle
from shuntbook.flow.load import load
from shuntbook.setup.defaults import first_looks, first_map
from shuntbook.setup.folder import default_car_map
from shuntbook.store import first_rules, people, quarantine, setups
from shuntbook.store.database import Store

HOSE = "front-right/brake-hose"
REPAIR = "01a22354-7c4d-741a-b6f4-4c414ff0c4ee"
"""What was repaired there, by the entry's id."""


@pytest.fixture
def held(tmp_path: Path) -> Store:
    """The store as that release left it."""
    return Store(unzipped("data", tmp_path / "data"))


def test_the_files_are_the_frozen_ones() -> None:
    digests = json.loads((FOLDER / "digests.json").read_text())
    assert {name: hashlib.sha256((FOLDER / name).read_bytes()).hexdigest() for name in digests} == digests


def test_every_entry_key_and_set_aside_thing_is_there(held: Store) -> None:
    then = said()
    raws = [row[0] for row in held.db.execute("SELECT raw FROM entry ORDER BY id")]
    assert (len(raws), hashlib.sha256(b"\n".join(raws)).hexdigest()) == (then["entries"], then["entries_sha256"])
    assert held.log_id == then["log_id"]
    assert quarantine.count_waiting(held.db) == then["set_aside"] == 2
    # p-gone's phone was shut out, those of tests and the manager's token have no key of their own.
    devices = [(row["person"], row["shut_out_at"] is not None) for row in people.devices(held.db)]
    assert ("p-gone", True) in devices
    assert {"p-toma", "p-bodo", "p-odil", "p-vera"} <= {person for person, is_out in devices if not is_out}
    assert diagnostics.check(held) == []


def test_queue_costs_and_statement_say_what_they_said(held: Store) -> None:
    then = said()
    now = to_builtins(answers.queue(held, EVENT, "41"))
    assert {**now, "hash": ""} == by_the_rules_of_today({**then["queue"], "hash": ""})
    statements = to_builtins(answers.statements(held, EVENT, "41"))
    assert statements["issued"] == then["statements"]["issued"]
    assert len(statements["issued"]) == 1


def by_the_rules_of_today(queue: dict[str, Any]) -> dict[str, Any]:
    """Return that release's queue where one pass covers nothing any more: it was signed with no check at all."""
    (hose,) = (job for job in queue["jobs"] if job["job"] == HOSE)
    hose |= {"inspection": "needed", "must_do": True, "uncovered": sorted([*hose["findings"], REPAIR])}
    queue["hold_reasons"].append({"job": HOSE, "needs": "inspection", "entries": hose["uncovered"]})
    return queue


def test_passes_that_it_counted_and_today_does_not_are_told(held: Store) -> None:
    with held.read() as db:
        assert first_rules.were_in_force(db)
    counted = [one for one in answers.passes(held, EVENT, "41").passes if one.counted_before]
    assert [(one.job, one.inspection) for one in counted] == [(HOSE, "needed")]
    assert [reason.why for reason in counted[0].reasons] == ["no-check-ok"]
    assert REPAIR in counted[0].reasons[0].entries


def test_a_new_folder_has_none_to_tell(tmp_path: Path) -> None:
    store = Store(tmp_path / "new")
    load(store, unzipped("event", tmp_path / "event"), NOW)
    with store.read() as db:
        assert not first_rules.were_in_force(db)
    assert not any(one.counted_before for one in answers.passes(store, EVENT, "41").passes)


def test_a_held_event_keeps_the_map_and_the_lists_that_it_began_with(held: Store) -> None:
    in_force = setups.files_of(held.db, EVENT, setups.in_force(held.db, EVENT) or "")
    assert in_force["car_map.toml"] == first_map()
    setup = setups.get(held.db, EVENT)
    assert setup.event.looks == first_looks()
    assert len(setup.car_map.checks_of("long-pedal", "front-left")) == 22
    assert setup.rates.version == said()["queue"]["rates"]


def test_loading_its_folder_again_changes_nothing(held: Store, tmp_path: Path) -> None:
    version = setups.in_force(held.db, EVENT)
    load(held, unzipped("event", tmp_path / "event"), NOW)
    assert setups.in_force(held.db, EVENT) == version


def test_a_new_event_has_the_map_and_the_lists_of_today(tmp_path: Path) -> None:
    store = Store(tmp_path / "new")
    load(store, unzipped("event", tmp_path / "event"), NOW)
    setup = setups.get(store.db, EVENT)
    assert (setup.car_map.symptoms, setup.event.looks) == (default_car_map().symptoms, {})


def test_its_event_folder_loads(tmp_path: Path) -> None:
    store = Store(tmp_path / "new")
    load(store, unzipped("event", tmp_path / "event"), NOW)
    agreements = setups.get(store.db, EVENT).event.agreements
    assert [(one.car, one.customer) for one in agreements] == [("42", "Marlies Ohm"), ("41", "Nadja Kern")]


def test_its_bundle_loses_nothing(tmp_path: Path) -> None:
    store = Store(tmp_path / "new")
    import_bundle(store, FOLDER / "bundle.zip", Choice(setup=True, trust=True), NOW)
    lines = (unzipped("bundle", tmp_path / "bundle") / "entries.jsonl").read_bytes().splitlines()
    held = {row[0] for row in store.db.execute("SELECT raw FROM entry")}
    waiting = {row[0] for row in store.db.execute("SELECT raw FROM set_aside")}
    assert set(lines) <= held | waiting
    assert len(lines) == said()["entries"]
    assert setups.get(store.db, EVENT).event.looks == first_looks()
    assert diagnostics.check(store) == []

"""The demo opens in the middle of the rally: the last hit a minute ago, the next service still to come."""

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from shuntbook.flow.demo import folder_of_now
from shuntbook.kit.times import instant
from shuntbook.report.entry import Entry, parse_entry
from shuntbook.serving import demo_folder, sample_folder
from shuntbook.store import log, setups
from shuntbook.store.database import Store

EVENT = "thornquell-2026"
WINTER, SUMMER = "2027-01-09T08:15:30Z", "2026-08-01T21:00:00+02:00"


def held(folder: Path) -> list[Entry]:
    return [parse_entry(raw) for raw in log.raws(Store(folder).db, EVENT)]


@pytest.mark.parametrize("now", [WINTER, SUMMER])
def test_the_last_entry_is_a_minute_old_and_the_next_service_is_to_come(now: str) -> None:
    folder = folder_of_now(sample_folder(), now)
    entries = [parse_entry(raw) for _, raw in folder.entries.values()]
    since = instant(now) - max(instant(entry.at) for entry in entries)
    assert timedelta(minutes=1) <= since < timedelta(minutes=2)
    entered = {entry.data.service for entry in entries if entry.kind == "service.entered"}
    assert entered == {"A", "B", "C"}
    arrives = {one.service: one.arrive for one in folder.setup.event.services if one.arrive}
    assert timedelta(0) < arrives["D"] - instant(now) < timedelta(hours=1)
    assert arrives["C"] < instant(now)
    assert arrives["D"] - arrives["C"] == timedelta(hours=15, minutes=42), "as in the sample"


def test_times_are_said_as_the_event_says_them() -> None:
    folder = folder_of_now(sample_folder(), WINTER)
    offsets = {parse_entry(raw).at[-6:] for _, raw in folder.entries.values()}
    assert offsets == {"+01:00"}, "Vienna in winter"


def test_the_demo_is_of_now(tmp_path: Path) -> None:
    with demo_folder(tmp_path / "data") as folder:
        newest = max(instant(entry.at) for entry in held(folder))
        services = setups.get(Store(folder).db, EVENT).event.services
    assert abs(datetime.now(newest.tzinfo) - newest) < timedelta(minutes=30)
    assert [one.service for one in services if one.arrive and one.arrive > newest] == ["D", "E"]

"""The sample event as a demo opens it: moved to now, in the middle of the rally, the next service still to come."""

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from shuntbook.flow.load import Folder, read_folder
from shuntbook.kit.times import instant
from shuntbook.report.entry import Entry, parse_entry
from shuntbook.report.kinds import ServiceEntered
from shuntbook.setup import event
from shuntbook.setup.folder import read_setup

_TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d")
_EXPIRES = re.compile(r"(?m)^(expires = )(\d{4}-\d\d-\d\d)$")
SINCE = timedelta(minutes=1)
"""How long ago the last entry was written."""


def folder_of_now(path: Path, now: str) -> Folder:
    """Return an event folder without the last service that its cars came into, moved so that its last entry is new.

    Times keep their distance from each other; dates move by whole days. Errors: BadSetup.
    """
    folder = read_folder(path)
    told = _before_the_last_service({name: parse_entry(raw) for name, (_, raw) in folder.entries.items()}, folder)
    by = instant(now) - SINCE - max(instant(entry.at) for entry in told.values())
    by -= timedelta(seconds=by.total_seconds() % 60)
    zone = ZoneInfo(folder.setup.event.timezone)
    files = {**folder.files, event.FILE: _moved(folder.files[event.FILE].decode(), by, zone).encode()}
    entries = {name: (row, _moved(raw.decode(), by, zone).encode()) for name, (row, raw) in folder.entries.items()}
    kept = {name: entries[name] for name in told}
    return replace(folder, files=files, setup=read_setup(files), entries=kept)


def _before_the_last_service(entries: Mapping[str, Entry], folder: Folder) -> Mapping[str, Entry]:
    came_in = [entry for entry in entries.values() if isinstance(entry.data, ServiceEntered)]
    order = {one.service: place for place, one in enumerate(folder.setup.event.services)}
    last = max((order.get(_service(entry), -1) for entry in came_in), default=-1)
    ends = [instant(entry.at) for entry in came_in if order.get(_service(entry), -1) == last]
    return {name: one for name, one in entries.items() if not ends or instant(one.at) < min(ends)}


def _service(entry: Entry) -> str:
    return entry.data.service if isinstance(entry.data, ServiceEntered) else ""


def _moved(text: str, by: timedelta, zone: ZoneInfo) -> str:
    def time(found: re.Match[str]) -> str:
        return (datetime.fromisoformat(found[0]) + by).astimezone(zone).isoformat()

    def day(found: re.Match[str]) -> str:
        return found[1] + (date.fromisoformat(found[2]) + timedelta(days=by.days)).isoformat()

    return _EXPIRES.sub(day, _TIME.sub(time, text))

"""Care of the store: is everything whole, does what is kept up equal a rebuild, what is worth knowing."""

import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from shuntbook.fold.report import Finding, findings_of
from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import BadEntry, NotFound
from shuntbook.queue.car import jobs_of_car
from shuntbook.report.entry import Entry, parse_entry
from shuntbook.report.kinds import REPORT_KINDS
from shuntbook.setup.folder import Setup
from shuntbook.store import diagnostics, log, photos, projections, quarantine, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import FILE, Store
from shuntbook.store.up_to_date import up_to_date


class Device(NamedTuple):
    """What came in from a device: how many entries, its newest number, numbers that are missing or came twice.

    missing: [first, last] of each run of numbers that were given and have not come in: those entries may still be
    on the phone, or were lost with it. twice: two entries with one number, as from a phone that was copied.
    """

    device: str
    entries: int
    last_seq: int
    missing: list[list[int]]
    twice: list[int]


class Found(NamedTuple):
    """What a look over the store found: problems to be fixed, notes worth knowing, and each device's numbers."""

    problems: list[str]
    notes: list[str]
    devices: list[Device]


def check(store: Store) -> list[str]:
    """Return what is wrong with the store, a sentence each; an empty list means nothing was found.

    SQLite's own integrity check, every entry read again, every set-up file and photo hashed again, and for each
    car what is kept up against a rebuild from the log.
    """
    with store.read() as db:
        if broken := _database(db):
            return broken
    with _view(store) as db:
        files = _files(db)
        # Without its files there is no set-up to rebuild by.
        return [*_entries(db), *files, *_photos(store, db), *([] if files else _kept_up(db))]


@contextmanager
def _view(store: Store) -> Iterator[Database]:
    """Give the store with all that follows, or as it is where an entry can't be read: that one is named then."""
    with ExitStack() as views:
        try:
            view = views.enter_context(up_to_date(store))
        except BadEntry:
            view = views.enter_context(store.read())
        yield view


def look_over(folder: Path) -> Found:
    """Return all that a look over a data folder finds; a database that cannot be opened is a problem too."""
    try:
        store = Store(folder)
        wrong = check(store)
        return Found(wrong, notes(store), devices(store))
    except sqlite3.DatabaseError as error:
        what = f"database: {error}. Restore a backup with `shuntbook restore`; phones send what it does not hold"
        return Found([f"{folder / FILE}: {what}"], [], [])


def notes(store: Store) -> list[str]:
    """Return what is worth knowing and no fault: what waits for a look, photos on their way, files left over."""
    with store.read() as db:
        held = set(photos.all_files(db))
        waiting, awaited = quarantine.count_waiting(db), len(diagnostics.photos_named(db) - held)
    said = []
    if waiting:
        said.append(f"needs review by a manager: {waiting}; the cars named are on hold")
    if awaited:
        said.append(f"photos that have not come in: {awaited}; they may still be on the phones that took them")
    for path in diagnostics.strays(store, held):
        said.append(f"{path}: no photo held is in this file, such as of an upload that was cut; nothing needs it")
    return said


def devices(store: Store) -> list[Device]:
    """Return what came in from each device, with the gaps in its numbers."""
    with store.read() as db:
        return [_device(*item) for item in diagnostics.numbers(db)]


def _device(device: str, taken: list[int]) -> Device:
    missing = [[one + 1, other - 1] for one, other in pairwise([0, *taken]) if other - one > 1]
    twice = sorted({one for one, other in pairwise(taken) if one == other})
    return Device(device, len(taken), taken[-1], missing, twice)


def _database(db: Database) -> list[str]:
    rows = db.conn.execute("PRAGMA integrity_check").fetchall()
    return [f"database: {row[0]}" for row in rows if row[0] != "ok"]


def _entries(db: Database) -> list[str]:
    """Hold each entry's own words against the columns that it is found by."""
    wrong = []
    columns = "id, event, car, kind, subject, person, device, seq"
    for raw, *row in db.conn.execute(f"SELECT raw, {columns} FROM entry ORDER BY cursor"):
        try:
            entry = parse_entry(raw)
        except BadEntry as error:
            wrong.append(f"entry {row[0]} can't be read: {error}")
            continue
        if [getattr(entry, name) for name in columns.split(", ")] != row:
            wrong.append(f"entry {row[0]} says other than what it is filed under")
    return wrong


def _files(db: Database) -> list[str]:
    rows = db.conn.execute("SELECT sha256, bytes FROM file")
    changed = [name for name, data in rows if sha256(data) != name]
    return [f"set-up file {name}: its bytes have another SHA-256; load the event again" for name in changed]


def _photos(store: Store, db: Database) -> list[str]:
    wrong = []
    for digest in photos.all_files(db):
        try:
            photos.read(store, digest)
        except NotFound as error:
            wrong.append(str(error))
    return wrong


def _kept_up(db: Database) -> list[str]:
    wrong = []
    for event in setups.events(db):
        setup = setups.get(db, event)
        for car in sorted({*log.cars(db, event), *setup.event.cars}):
            try:
                differs = _differs(db, event, car, setup)
            except BadEntry:  # named among the entries already
                continue
            if differs:
                wrong.append(f"{event}, car {car}: {differs} kept up differ from a rebuild; run `shuntbook rebuild`")
    return wrong


def _differs(db: Database, event: str, car: str, setup: Setup) -> str:
    entries = log.of_car(db, event, car)
    if projections.jobs(db, event, car) != jobs_of_car(entries, setup):
        return "the jobs"
    held = {(report, finding.key, finding.entry): finding for report, finding in projections.findings(db, event, car)}
    return "" if held == _findings(entries, setup) else "the findings"


def _findings(entries: list[Entry], setup: Setup) -> dict[tuple[str, str, str], Finding]:
    versions: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.kind in REPORT_KINDS:
            versions.setdefault(entry.subject, []).append(entry)
    return {
        (report, finding.key, finding.entry): finding
        for report, group in versions.items()
        for finding in findings_of(group, setup.car_map, setup.event)
    }

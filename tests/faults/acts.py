"""Deeds that change or copy all of a store at once, each in a process of its own, to be killed or given no room.

A copy is made, a copy is brought back, a bundle is taken in, suggested rates are accepted, a set-up is put.
"""

import multiprocessing
import resource
import shutil
from collections.abc import Callable
from multiprocessing.connection import Connection
from multiprocessing.context import ForkServerProcess
from pathlib import Path

from bench.invented_season import season

from shuntbook.flow import backups, diagnostics, seasons, uploads
from shuntbook.flow.bundle_export import export_bundle
from shuntbook.flow.bundle_import import Choice, import_bundle
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.kit.errors import StoreUnavailable
from shuntbook.season.timed import OperationName
from shuntbook.store import setups
from shuntbook.store.database import FILE, Store

EVENTS, ENTRIES = 2, 160
FIRST, LAST = "invented-01-2026", "invented-02-2026"
DATA, NEW, COPY, GIVEN, BUNDLE = "data", "new", "copy.zip", "given.zip", "given.shuntbook"
NO_ROOM = "no room"
"""What a deed ends with where nothing could be written, and it said so."""


def make_base(folder: Path) -> Path:
    """Make a store of two events, a copy and a bundle of it, and below `half` one that lacks the second event."""
    written = season(folder / "events", EVENTS, ENTRIES)
    half, whole = Store(folder / "half" / DATA), Store(folder / "whole" / DATA)
    load(half, written[0], now())
    for event in written:
        load(whole, event, now())
    for where in (folder / "half", folder / "whole"):
        backups.backup(whole, where / GIVEN)
        export_bundle(whole, where / BUNDLE, None, now())
    half.db.conn.close()
    whole.db.conn.close()
    return folder


def _backup(where: Path) -> None:
    backups.backup(Store(where / DATA), where / COPY)


def _restore(where: Path) -> None:
    backups.restore(where / GIVEN, where / NEW)


def _import(where: Path) -> None:
    import_bundle(Store(where / DATA), where / BUNDLE, Choice(setup=True, trust=True), now())


def _accept(where: Path) -> None:
    store = Store(where / DATA)
    seen = seasons.observed(store, LAST)
    asked = [OperationName(*key) for key in suggested(store)]
    seasons.accept(store, seen.rates, asked)


def _put(where: Path) -> None:
    store = Store(where / DATA)
    files = setups.files_of(store.db, FIRST, setups.in_force(store.db, FIRST) or "")
    said = b"\n# looked through again\n"
    files["event.toml"] = files["event.toml"].removesuffix(said) + said
    uploads.put_setup(store, FIRST, files, now())


def suggested(store: Store) -> list[tuple[str, str, str, str]]:
    """Return the operations that other minutes are suggested for, as they are named when they are accepted."""
    found = seasons.observed(store, LAST).operations
    return [(one.component, one.condition, one.action, one.zone) for one in found if one.suggested]


DEEDS: dict[str, Callable[[Path], None]] = {
    "backup": _backup,
    "restore": _restore,
    "import": _import,
    "accept": _accept,
    "put": _put,
}
START = {"import": "half"}
"""Where a deed does not begin with the whole store."""


def laid_out(base: Path, deed: str, where: Path) -> Path:
    """Lay a folder out for a deed to be done in."""
    shutil.rmtree(where, ignore_errors=True)
    shutil.copytree(base / START.get(deed, "whole"), where, dirs_exist_ok=True)
    return where


class Doing:
    """A deed in a process that is up, and begins when it is told to. most_bytes: no file may grow beyond."""

    def __init__(self, deed: str, where: Path, most_bytes: int | None = None) -> None:
        here, there = multiprocessing.get_context("forkserver").Pipe()
        self._pipe = here
        self.process: ForkServerProcess = multiprocessing.get_context("forkserver").Process(
            target=_do, args=(deed, where, most_bytes, there), daemon=True
        )
        self.process.start()
        there.close()
        assert self._pipe.recv() == "ready"

    def begin(self) -> None:
        self._pipe.send("go")

    def end(self, patience_s: float = 120) -> str:
        """Wait for its end; return `done`, `no room`, what went wrong, or `killed`."""
        try:
            assert self._pipe.poll(patience_s), "the deed goes on and on"
            said = str(self._pipe.recv())
        except (EOFError, ConnectionResetError):
            said = "killed"
        self.process.join(patience_s)
        self._pipe.close()
        return said


def _do(deed: str, where: Path, most_bytes: int | None, pipe: Connection) -> None:
    pipe.send("ready")
    pipe.recv()
    if most_bytes is not None:
        _, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, hard))
    try:
        DEEDS[deed](where)
        pipe.send("done")
    except StoreUnavailable:
        pipe.send(NO_ROOM)
    except Exception as error:  # noqa: BLE001  # said where the test reads it, whatever it is
        pipe.send(f"{type(error).__name__}: {error}")


def entries_in(folder: Path) -> dict[str, bytes]:
    """Return the entries that a store's folder holds."""
    store = Store(folder)
    try:
        return {name: bytes(raw) for name, raw in store.db.conn.execute("SELECT id, raw FROM entry")}
    finally:
        store.db.conn.close()


def wrong_with(folder: Path, held: dict[str, bytes], whole: dict[str, bytes]) -> list[str]:
    """Return what is wrong with a store that held some entries, and may have come to hold the others of `whole`."""
    store = Store(folder)
    try:
        found = diagnostics.check(store)
        rows = store.db.conn.execute("SELECT id, raw, device, seq FROM entry").fetchall()
    finally:
        store.db.conn.close()
    here = {name: bytes(raw) for name, raw, _, _ in rows}
    found += [f"{name} is lost" for name in held.keys() - here.keys()]
    found += [f"{name} is there with other bytes" for name in here if whole.get(name) != here[name]]
    numbers = [(device, seq) for _, _, device, seq in rows]
    return found + [f"{number} is there twice" for number in set(numbers) if numbers.count(number) > 1]


def state_of(deed: str, where: Path) -> object:
    """Return which state a deed left, as far as it has two: the set-up's versions, or whether the copy is there."""
    if deed == "backup":
        return (where / COPY).exists()
    if deed == "restore":
        return (where / NEW / FILE).exists()
    store = Store(where / DATA)
    try:
        return {event: setups.in_force(store.db, event) for event in setups.events(store.db)}
    finally:
        store.db.conn.close()

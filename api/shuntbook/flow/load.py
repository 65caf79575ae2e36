"""Loads an event folder: set-up, entries and photos, all or nothing, with every fault named."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from shuntbook.flow.ingest import Batch, same, take, try_again
from shuntbook.flow.trust import Judge
from shuntbook.kit.canonical import sha256
from shuntbook.kit.errors import BadEntry, BadPhoto, BadSetup, Fault, NotFound
from shuntbook.report.attached import Attached, identify
from shuntbook.report.entry import parse_entry
from shuntbook.setup.folder import FILES, Setup, read_setup
from shuntbook.store import keys, log, photos, rebuilds, setups
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.refresh import rebuild

ENTRIES = "entries.jsonl"
ATTACHED = ("photos", "voices")
DISBELIEVED = ("bad-signature", "shut-out")
"""Why entries of a folder are faults although whoever loads it is believed: somebody changed them, or wrote them on a
phone that was blocked by then. What nothing is known of counts."""


@dataclass(frozen=True)
class Loaded:
    """What a folder brought: its event, how many entries were new and already here, how many photos; what to tell."""

    event: str
    new: int
    held: int
    photos: int
    warnings: tuple[Fault, ...] = ()


@dataclass(frozen=True)
class Folder:
    """An event folder's content, read and checked."""

    files: dict[str, bytes]
    setup: Setup
    entries: dict[str, tuple[int, bytes]]
    pictures: dict[str, tuple[bytes, Attached]]


def load(store: Store, path: Path, now: str) -> Loaded:
    """Load an event folder into the store.

    Errors: BadSetup with every fault of every file; the store is then as it was.
    """
    return take_folder(store, read_folder(path), now)


def take_folder(store: Store, folder: Folder, now: str) -> Loaded:
    """Take an event folder that was read into the store. Errors: BadSetup; the store is then as it was."""
    for digest, (data, _) in folder.pictures.items():
        photos.put_file(store, digest, data)
    with store.write() as db:
        raws = [raw for _, raw in folder.entries.values()]
        held = log.held(db, list(folder.entries))
        _no_conflicts(held, folder.entries)
        if not setups.events(db) and log.last_cursor(db) == 0:
            # The machine's owner begins a log with a folder, and brings none back.
            rebuilds.end(db)
        files = setups.following(db, folder.setup.event.event, folder.files)
        changed = setups.put(db, folder.setup if files == folder.files else read_setup(files), files)
        _none_disbelieved(db, {name: one for name, one in folder.entries.items() if name not in held})
        taken = take(db, Batch(raws, 0, None, None, now, None), None)
        if changed:
            rebuild(db, folder.setup.event.event)
        try_again(db, now)
        for digest, (data, picture) in folder.pictures.items():
            photos.put_row(db, digest, picture, len(data), now)
    return Loaded(
        folder.setup.event.event,
        taken.added,
        len(taken.accepted) - taken.added,
        len(folder.pictures),
        folder.setup.warnings,
    )


def demand_event_folder(path: Path) -> None:
    """Refuse what is no event folder at all, before its faults are looked for. Errors: NotFound, with what to do."""
    name = "name the folder that holds event.toml, rates/ and van.csv"
    if not path.is_dir():
        raise NotFound(f"{path} is {'not a folder' if path.exists() else 'not there'}; {name}")
    if not (path / FILES[0]).is_file():
        raise NotFound(f"{path} is no event folder, since it holds no {FILES[0]}; {name}")


def read_folder(path: Path) -> Folder:
    """Read and check an event folder. Errors: BadSetup with every fault of every file."""
    if not path.is_dir():
        raise BadSetup(
            [
                Fault(
                    str(path),
                    0,
                    "",
                    "is not a folder; name the folder that holds event.toml",
                )
            ]
        )
    faults: list[Fault] = []
    files: dict[str, bytes] = {}
    setup, entries = None, {}
    with _noting(faults):
        files = setup_files(path)
        setup = read_setup(files)
    with _noting(faults):
        entries = _entries(path, faults)
    pictures = _pictures(path, faults)
    if faults or setup is None:
        raise BadSetup(faults)
    return Folder(files, setup, entries, pictures)


@contextmanager
def _noting(faults: list[Fault]) -> Iterator[None]:
    """Note the faults that end what is done inside, so that the other files are looked at, too."""
    try:
        yield
    except BadSetup as bad:
        faults += bad.faults


def _bytes(files: Mapping[str, Path]) -> dict[str, bytes]:
    """Return files' bytes by name. Errors: BadSetup with each that can't be read, as a folder or another's file."""
    found, faults = {}, []
    for name, file in files.items():
        try:
            found[name] = file.read_bytes()
        except OSError as error:
            what = f"can't be read: {error.strerror}; a file that you may read has to lie here"
            faults.append(Fault(name, 0, "", what))
    if faults:
        raise BadSetup(faults)
    return found


def setup_files(path: Path) -> dict[str, bytes]:
    """Return the set-up's files of an event folder by their name in it. Errors: BadSetup for what can't be read."""
    files = {name: path / name for name in FILES if (path / name).exists()}
    return _bytes(files | {f"rates/{name}": file for name, file in _of_rates(path / "rates").items()})


def rates_files(path: Path) -> dict[str, bytes]:
    """Return the CSV and TOML files of a rates folder by name. Errors: BadSetup for what can't be read."""
    return _bytes(_of_rates(path))


def _of_rates(path: Path) -> dict[str, Path]:
    if not path.is_dir():
        return {}
    return {file.name: file for file in _files_in(path) if file.suffix in (".csv", ".toml")}


def _entries(path: Path, faults: list[Fault]) -> dict[str, tuple[int, bytes]]:
    """Return each entry's (line, bytes) by id; the same one again is nothing, another with its id a fault."""
    entries: dict[str, tuple[int, bytes]] = {}
    for row, raw in _lines(path):
        try:
            name = parse_entry(raw).id
        except BadEntry as fault:
            faults.append(Fault(ENTRIES, row, fault.field, f"{fault.code}: {fault}"))
            continue
        if name in entries and not same(entries[name][1], raw):
            what = f"{name} stands in row {entries[name][0]} with other content; an entry never changes"
            faults.append(Fault(ENTRIES, row, "id", what))
        entries.setdefault(name, (row, raw))
    return entries


def _lines(path: Path) -> Iterator[tuple[int, bytes]]:
    if (path / ENTRIES).exists():
        whole = _bytes({ENTRIES: path / ENTRIES})[ENTRIES]
        for row, line in enumerate(whole.removeprefix(b"\xef\xbb\xbf").split(b"\n"), start=1):
            if line.strip():
                yield row, line.strip()


def _pictures(path: Path, faults: list[Fault]) -> dict[str, tuple[bytes, Attached]]:
    found: dict[str, tuple[bytes, Attached]] = {}
    for file in _attached_files(path):
        with _noting(faults):
            found[file.stem] = _picture(file, f"{file.parent.name}/{file.name}")
    return found


def _picture(file: Path, name: str) -> tuple[bytes, Attached]:
    """Return a photo's or voice note's bytes and what it is. Errors: BadSetup."""
    data = _bytes({name: file})[name]
    if sha256(data) != file.stem:
        raise BadSetup([Fault(name, 0, "", f"its SHA-256 is {sha256(data)}; a photo is named by its own")])
    try:
        return data, identify(data)
    except BadPhoto as bad:
        raise BadSetup([Fault(name, 0, "", str(bad))]) from bad


def _attached_files(path: Path) -> list[Path]:
    """Return the files of `photos/` and of `voices/`; either may hold both kinds, since the bytes say which it is."""
    folders = [path / name for name in ATTACHED if (path / name).is_dir()]
    return [file for folder in folders for file in _files_in(folder)]


def _files_in(folder: Path) -> list[Path]:
    """Return what people put into a folder: not what a system leaves there, such as .DS_Store or ._operations.csv."""
    return [file for file in sorted(folder.iterdir()) if not file.name.startswith(".")]


def _no_conflicts(held: dict[str, bytes], entries: dict[str, tuple[int, bytes]]) -> None:
    faults = [
        Fault(
            ENTRIES,
            row,
            "id",
            f"{name} is held here with other content; an entry never changes",
        )
        for name, (row, raw) in entries.items()
        if name in held and not same(held[name], raw)
    ]
    if faults:
        raise BadSetup(faults)


def _none_disbelieved(db: Database, entries: dict[str, tuple[int, bytes]]) -> None:
    """Refuse new entries that a device which is known here did not sign so, or wrote after it was blocked."""
    if not keys.all_of(db):
        return
    judge = Judge(db, held_elsewhere=True)
    judged = ((row, judge.refusal(parse_entry(raw), raw)) for row, raw in entries.values())
    faults = [
        Fault(ENTRIES, row, fault.field, f"{fault.code}: {fault}")
        for row, fault in judged
        if fault is not None and fault.code in DISBELIEVED
    ]
    if faults:
        raise BadSetup(faults)

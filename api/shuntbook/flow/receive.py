"""Takes a batch of entries: each stored once, or answered with the reason and set aside; then tells the news."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import msgspec
from sqlite_utils import Database

from shuntbook.flow.refresh import refresh
from shuntbook.kit.canonical import canonical, sha256
from shuntbook.kit.errors import BadEntry
from shuntbook.report.entry import parse_entry
from shuntbook.store import aside, log, people
from shuntbook.store.database import Store
from shuntbook.store.log import Arrived

PAGE = 500


@dataclass(frozen=True)
class Batch:
    """What a phone sends: entries byte for byte, its cursor into the log `log_id`, who it is, when it came."""

    entries: Sequence[bytes]
    cursor: int
    log_id: str | None
    brought_by: str | None
    received_at: str
    skew_s: float | None


@dataclass
class Taken:
    """What became of a batch. `news` are entries after the cursor that the batch did not bring itself."""

    log_id: str
    cursor: int
    accepted: list[str] = field(default_factory=list)
    rejected: list[tuple[str | None, BadEntry]] = field(default_factory=list)
    news: list[bytes] = field(default_factory=list)
    more: bool = False
    added: int = 0


def receive(store: Store, batch: Batch) -> Taken:
    """Store a batch and return what is acknowledged, what was refused and what is new for the phone.

    Idempotent by entry id. A log_id that is not this log's, or a cursor ahead of it, starts from 0 again.
    """
    parsed = [_parse(raw, batch) for raw in batch.entries]
    with store.write() as db:
        taken = Taken(store.log_id, 0)
        added = _add(db, parsed, batch, taken)
        refresh(db, [arrived.entry for arrived in added])
        taken.added = len(added)
    with store.read() as db:
        _news(db, batch, taken)
    return taken


def take(db: Database, entries: Sequence[bytes], received_at: str, brought_by: str | None) -> Taken:
    """Store entries inside a transaction that is under way, as `receive` does."""
    batch = Batch(entries, 0, None, brought_by, received_at, None)
    taken = Taken("", 0)
    added = _add(db, [_parse(raw, batch) for raw in entries], batch, taken)
    refresh(db, [arrived.entry for arrived in added])
    taken.added = len(added)
    return taken


def _parse(raw: bytes, batch: Batch) -> Arrived | tuple[bytes, BadEntry]:
    try:
        return Arrived(parse_entry(raw), raw, batch.received_at, batch.skew_s, batch.brought_by)
    except BadEntry as fault:
        return raw, fault


def _add(
    db: Database,
    parsed: Sequence[Arrived | tuple[bytes, BadEntry]],
    batch: Batch,
    taken: Taken,
) -> list[Arrived]:
    shut_out = people.shut_out_devices(db)
    known = log.held(db, [item.entry.id for item in parsed if isinstance(item, Arrived)])
    added: dict[str, Arrived] = {}
    for item in parsed:
        fault = item[1] if not isinstance(item, Arrived) else _refusal(item, known, shut_out)
        raw = item.raw if isinstance(item, Arrived) else item[0]
        if fault is not None:
            names = aside.put(db, raw, fault, batch.received_at, batch.brought_by)
            taken.rejected.append((names.id, fault))
        elif isinstance(item, Arrived):
            taken.accepted.append(item.entry.id)
            if item.entry.id not in known:
                known[item.entry.id] = item.raw
                added[item.entry.id] = item
    log.append(db, added.values())
    return list(added.values())


def _refusal(item: Arrived, known: dict[str, bytes], shut_out: frozenset[str]) -> BadEntry | None:
    held = known.get(item.entry.id)
    if held is not None:
        return None if same(held, item.raw) else _conflict(held, item.raw)
    if item.entry.device in shut_out:
        return BadEntry(
            "shut-out",
            f"device {item.entry.device} was shut out; a manager has to look",
            "device",
        )
    return None


def same(one: bytes, other: bytes) -> bool:
    """Return whether two entries are the same JSON value; white space and the order of keys are nothing."""
    return one == other or _value(one) == _value(other)


def _value(raw: bytes) -> bytes:
    try:
        return canonical(msgspec.json.decode(raw))
    except (msgspec.DecodeError, ValueError):
        return raw


def _conflict(held: bytes, sent: bytes) -> BadEntry:
    what = f"another entry has this id; held: sha256 {sha256(held)}, sent: sha256 {sha256(sent)}. Both are kept"
    return BadEntry("conflict", what, "id")


def _news(db: Database, batch: Batch, taken: Taken) -> None:
    known_here = batch.log_id in (
        None,
        taken.log_id,
    ) and batch.cursor <= log.last_cursor(db)
    rows, taken.cursor, taken.more = log.page(db, batch.cursor if known_here else 0, PAGE)
    brought = set(taken.accepted)
    taken.news = [raw for name, raw in rows if name not in brought]

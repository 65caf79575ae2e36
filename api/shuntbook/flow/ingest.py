"""Takes a batch of entries: each stored once, or answered with the reason and set aside; then tells the news."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from shuntbook.flow.changes import Place, changed_cars, setup_version
from shuntbook.flow.trust import TRY_AGAIN, Judge
from shuntbook.kit.canonical import digest_of, sha256
from shuntbook.kit.errors import BadEntry
from shuntbook.kit.signing import signed_text
from shuntbook.report.entry import parse_entry
from shuntbook.store import keys, log, people, quarantine, quarantine_review, quarantine_room
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.log import Arrived
from shuntbook.store.quarantine import Waiting
from shuntbook.store.quarantine_room import Room
from shuntbook.store.readable_names import read_names
from shuntbook.wire.sight import Sees
from shuntbook.wire.withheld import is_withheld, withheld

PAGE = 500
Parsed = Arrived | tuple[bytes, BadEntry]
"""An entry that reads as one, or its bytes with what is wrong with them."""


@dataclass(frozen=True)
class Batch:
    """What a phone sends: entries byte for byte, its cursor into the log `log_id`, who it is, when it came.

    sees: what its person sees of the events that he is in, whose entries it is sent; None: all of all. lacks: ids of
    entries that were withheld from it, as from somebody else or in another role, and that it asks for. heads: what
    stands for a withheld entry is to have its head.
    """

    entries: Sequence[bytes]
    cursor: int
    log_id: str | None
    brought_by: str | None
    received_at: str
    skew_s: float | None
    sees: Mapping[str, Sees] | None = None
    lacks: Sequence[str] = ()
    heads: bool = False


@dataclass
class SyncResult:
    """What became of a batch. `news` are entries after the cursor that the batch did not bring itself.

    cars: those that changed after the phone's cursor, its own entries included. setup, set_aside: versions, as of now.
    """

    log_id: str
    cursor: int
    accepted: list[str] = field(default_factory=list)
    rejected: list[tuple[str | None, BadEntry]] = field(default_factory=list)
    news: list[bytes] = field(default_factory=list)
    more: bool = False
    added: int = 0
    cars: list[Place] = field(default_factory=list)
    setup: str = ""
    set_aside: str = ""


def ingest(store: Store, batch: Batch) -> SyncResult:
    """Store a batch and return what is acknowledged, what was refused and what is new for the phone.

    Idempotent by entry id. A log_id that is not this log's, or a cursor ahead of it, starts from 0 again.
    """
    parsed = _parsed(batch)
    _verify(store, parsed)
    with store.write() as db:
        taken = _take(db, parsed, batch, Judge(db))
        taken.log_id = store.log_id
        lacks_before = _lacks_before(db, batch, store.log_id)
    with store.read() as db:
        _news(db, batch, taken, lacks_before)
    return taken


def _lacks_before(db: Database, batch: Batch, log_id: str) -> int | None:
    """Return the cursor up to which a phone has all, where its person came into an event whose entries it passed over.

    Else None; then it is kept of which events the phone is sent entries. What is answered to a phone that lacks some is
    a cursor behind its own, as after a restored copy: it comes again from there, also if the answer is lost.
    """
    if batch.sees is None or batch.brought_by is None:
        return None
    before = people.sent_events(db, batch.brought_by)
    new = [event for event in batch.sees if before is not None and event not in before]
    first = log.first_cursor(db, new) if new and batch.log_id in (None, log_id) else None
    if first is not None and first <= batch.cursor:
        return first - 1
    if before is None or set(batch.sees) != set(before):
        people.note_sent(db, batch.brought_by, list(batch.sees))
    return None


def take(db: Database, batch: Batch, judge: Judge | None) -> SyncResult:
    """Store a batch inside a transaction that is under way; without a judge every entry is believed."""
    return _take(db, _parsed(batch), batch, judge)


def _take(db: Database, parsed: Sequence[Parsed], batch: Batch, judge: Judge | None) -> SyncResult:
    taken = SyncResult("", 0)
    taken.added = len(_add(db, parsed, batch, judge, taken))
    return taken


def _verify(store: Store, parsed: Sequence[Parsed]) -> None:
    """Verify signatures before the store is locked; the judgement proper then finds each verified."""
    arrived = [item for item in parsed if isinstance(item, Arrived)]
    if not arrived:
        return
    with store.read() as db:
        judge = Judge(db)
        for item in arrived:
            judge.verify(item.entry, item.raw)


def try_again(db: Database, now: str) -> int:
    """Take what was set aside for want of a key or a set-up and can be believed now; return how many."""
    return believe(db, waiting_again(db), now)


def waiting_again(db: Database) -> list[Waiting]:
    """Return what was set aside for want of a key or a set-up."""
    return quarantine.waiting_for(db, TRY_AGAIN)


def believe(db: Database, waiting: Sequence[Waiting], now: str) -> int:
    """Take those that can be believed now and that nobody decided on meanwhile; return how many."""
    judge, taken = Judge(db), 0
    for digest, raw, received_at, brought_by in waiting:
        batch = Batch([raw], 0, None, brought_by, received_at, None)
        item = _parse(raw, batch)
        good = isinstance(item, Arrived) and judge.refusal(item.entry, raw) is None
        if good and quarantine.waits(db, digest):
            taken += take(db, batch, judge).added
            quarantine_review.review(db, digest, "", "accepted", "believed once its key or set-up was here", now)
    return taken


def _parsed(batch: Batch) -> list[Parsed]:
    return [_parse(raw, batch) for raw in batch.entries]


def _parse(raw: bytes, batch: Batch) -> Parsed:
    try:
        return Arrived(parse_entry(raw), raw, batch.received_at, batch.skew_s, batch.brought_by)
    except BadEntry as fault:
        return raw, fault


def _add(
    db: Database,
    parsed: Sequence[Parsed],
    batch: Batch,
    judge: Judge | None,
    taken: SyncResult,
) -> list[Arrived]:
    known = log.held(db, [item.entry.id for item in parsed if isinstance(item, Arrived)])
    added: dict[str, Arrived] = {}
    room = Room(db, batch.brought_by)
    for item in parsed:
        fault = item[1] if not isinstance(item, Arrived) else _refusal(item, known, judge)
        raw = item.raw if isinstance(item, Arrived) else item[0]
        stood_in = is_withheld(raw) if fault is not None else None
        if stood_in is not None:
            # An older phone sends back what it was given in an entry's place: nobody wrote it, and nothing is lost.
            taken.accepted.append(stood_in)
        elif fault is not None:
            taken.rejected.append(_set_aside(db, raw, fault, batch, room))
        elif isinstance(item, Arrived):
            taken.accepted.append(item.entry.id)
            if item.entry.id not in known:
                known[item.entry.id] = item.raw
                added[item.entry.id] = item
    log.append(db, added.values())
    keys.trust(db, judge.believed if judge else [(name, digest_of(item.raw)) for name, item in added.items()])
    return list(added.values())


def _set_aside(db: Database, raw: bytes, fault: BadEntry, batch: Batch, room: Room) -> tuple[str | None, BadEntry]:
    """Set an entry aside, or say that it is not kept: then it stays on its phone, and holds every car all the same."""
    if quarantine.is_kept(db, raw) or room.take(len(raw)):
        return quarantine.put(db, raw, fault, batch.received_at, batch.brought_by).id, fault
    room.note_full(batch.received_at)
    what = f"so much of this phone waits for a manager's look that this is not kept on the server; {fault}"
    return read_names(raw).id, BadEntry(quarantine_room.FULL, what, fault.field)


def _refusal(item: Arrived, known: dict[str, bytes], judge: Judge | None) -> BadEntry | None:
    held = known.get(item.entry.id)
    if held is not None:
        return None if same(held, item.raw) else _conflict(held, item.raw)
    return judge.refusal(item.entry, item.raw) if judge else None


def same(one: bytes, other: bytes) -> bool:
    """Return whether two entries say the same: white space, the order of keys and the signature are nothing.

    Of one signature anybody can make another that fits (ECDSA takes s and n - s): the entry first stored stays.
    """
    if one == other or digest_of(one) == digest_of(other):
        return True
    content = _unsigned(one)
    return content is not None and content == _unsigned(other)


def _unsigned(raw: bytes) -> bytes | None:
    try:
        return signed_text(raw)
    except ValueError:
        return None


def _conflict(held: bytes, sent: bytes) -> BadEntry:
    what = f"another entry has this id; held: sha256 {sha256(held)}, sent: sha256 {sha256(sent)}. Both are kept"
    return BadEntry("conflict", what, "id")


def _news(db: Database, batch: Batch, taken: SyncResult, lacks_before: int | None) -> None:
    known_here = batch.log_id in (
        None,
        taken.log_id,
    ) and batch.cursor <= log.last_cursor(db)
    after = batch.cursor if known_here else 0
    taken.setup, taken.set_aside = setup_version(db, taken.log_id, batch.sees), quarantine.version(db)
    if lacks_before is not None:
        taken.cursor, taken.more = lacks_before, True
        return
    rows, taken.cursor, taken.more = log.page(db, after, PAGE, batch.sees)
    taken.cars = changed_cars(db, after, taken.cursor, batch.sees)
    brought = set(taken.accepted)
    lacked = [one for one in log.those(db, batch.lacks) if batch.sees is None or one.event in batch.sees]
    named = {one.id for one in lacked}
    news = [*lacked, *(one for one in rows if one.id not in brought and one.id not in named)]
    taken.news = [_seen(one, batch) for one in news]


def _seen(held: log.Held, batch: Batch) -> bytes:
    """Return an entry as somebody is sent it: itself, or what stands in its place."""
    sees = batch.sees[held.event] if batch.sees is not None else None
    if sees is None or sees.sees_entry(held.kind, held.car):
        return held.raw
    return withheld(held.raw, is_others=not sees.sees_car(held.car), heads=batch.heads)

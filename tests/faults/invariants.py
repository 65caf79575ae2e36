"""What must hold after every fault, whatever it was; each test ends with `check`.

(a) every entry that the server acknowledged is stored exactly once, byte for byte;
(b) every entry written on a phone is acknowledged, waiting, or in a visible quarantine, never absent;
(c) what is kept up incrementally equals what is rebuilt from the log, and the store is whole;
(d) all phones end with the same queue hash, that of a rebuild;
(e) outboxes are empty without anybody having touched a phone.
"""

import json
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from server import EVENT

from shuntbook.flow import answers, diagnostics
from shuntbook.store import log
from shuntbook.store.database import Store

from . import tally
from .outbox import compact
from .yard import Client, Ledger, Yard


@dataclass
class Held:
    """What the server's store holds: bytes by id, and what it set aside."""

    rows: list[tuple[str, bytes]]
    set_aside: set[bytes]
    by_id: dict[str, bytes] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.by_id = dict(self.rows)


@dataclass
class Found:
    """What was wrong: ids lost, ids doubled, sentences about all else."""

    lost: list[str]
    doubled: list[str]
    wrong: list[str]


def check(
    yard: Yard,
    fault: str,
    what: str,
    *,
    tries: int = 1,
    recovered_s: Sequence[float] = (),
    note: str = "",
    clones: bool = False,
) -> None:
    """Hold the yard against all five, count the fault's tries, and fail where anything is wrong.

    clones: two phones with one device id are meant.
    """
    found = look(yard, clones)
    tally.count(
        fault,
        what,
        tries=tries,
        lost=len(found.lost),
        doubled=len(found.doubled),
        recovered_s=recovered_s,
        note=note,
    )
    assert (found.lost, found.doubled, found.wrong) == ([], [], []), found


def look(yard: Yard, clones: bool) -> Found:
    """Return what of the five does not hold."""
    store = Store(yard.data)
    held = read(store)
    lost = [*lost_by_server(yard.ledger, held), *absent(yard, held)]
    wrong = [*diagnostics.check(store), *other_hashes(store, yard.clients)]
    wrong += [f"{one.waiting()} still wait on a phone" for one in yard.clients if one.waiting()]
    return Found(sorted(set(lost)), doubled(held, clones), wrong)


def read(store: Store) -> Held:
    """Read the store as it is, past the product's own queries."""
    rows = store.db.conn.execute("SELECT id, raw FROM entry").fetchall()
    aside = {bytes(row[0]) for row in store.db.conn.execute("SELECT raw FROM set_aside")}
    return Held([(row[0], bytes(row[1])) for row in rows], aside)


def lost_by_server(ledger: Ledger, held: Held) -> list[str]:
    """(a) Return what was acknowledged and is not there with the bytes that were written."""
    return [
        name
        for name in ledger.acknowledged
        if name not in held.by_id or not is_same(held.by_id[name], ledger.written.get(name, held.by_id[name]))
    ]


def is_same(stored: bytes, written: bytes) -> bool:
    """Return whether these are the bytes that were written; the app signs an entry after it is on the disk."""
    return stored == written or (b'"sig"' in stored and b'"sig"' not in written and unsigned(stored) == written)


def unsigned(raw: bytes) -> bytes:
    return compact({name: value for name, value in json.loads(raw).items() if name != "sig"})


def absent(yard: Yard, held: Held) -> list[str]:
    """(b) Return what was written and is nowhere, or is `sent` on its phone without the server having it."""
    on_phones: dict[str, str] = {}
    missing = []
    for client in yard.clients:
        for name, (raw, sending) in client.own().items():
            on_phones[name] = sending
            if sending == "sent" and held.by_id.get(name) != raw:
                missing.append(name)
            # Refused by the server's judgement of this entry: it keeps the bytes too, for a manager to see.
            if sending == "attention" and raw not in held.set_aside and name not in held.by_id:
                missing.append(name)
    for name, raw in yard.ledger.written.items():
        if name not in on_phones and name not in held.by_id and raw not in held.set_aside:
            missing.append(name)
    return missing


def doubled(held: Held, clones: bool) -> list[str]:
    """(a) Return ids that are there twice, and numbers of a device that two entries have."""
    ids = Counter(name for name, _ in held.rows)
    twice = [name for name, count in ids.items() if count > 1]
    numbers = Counter((one["event"], one["device"], one["seq"]) for one in (json.loads(raw) for _, raw in held.rows))
    return twice if clones else [*twice, *(f"{d} {s}" for (_, d, s), count in numbers.items() if count > 1)]


def other_hashes(store: Store, clients: list[Client]) -> list[str]:
    """(d) Return where a phone's queue is another than the rebuilt one (which (c) holds the kept-up one against)."""
    wrong = []
    for car in log.cars(store.db, EVENT):
        right = answers.queue(store, EVENT, car).hash
        seen = {client.queue_hash(car) for client in clients}
        if seen - {right}:
            wrong.append(f"car {car}: phones see {seen}, the log says {right}")
    return wrong

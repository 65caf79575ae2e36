"""A manager's decision on an entry that was set aside: taken after all, or left out, always with a reason."""

from typing import Literal

from shuntbook.flow.ingest import Batch, take
from shuntbook.kit.canonical import digest_of
from shuntbook.kit.errors import BadEntry, NotPossible
from shuntbook.report.entry import parse_entry
from shuntbook.store import keys, log, quarantine
from shuntbook.store.connection import Database
from shuntbook.store.database import Store

Verdict = Literal["accepted", "discarded"]


def review(store: Store, digest: str, verdict: Verdict, reason: str, person: str, now: str) -> None:
    """Decide on an entry that was set aside; its bytes stay kept either way, and the hold it caused ends.

    Errors: NotFound; NotPossible where an entry to be accepted cannot be read, or another one has its id.
    """
    with store.write() as db:
        raw, code = quarantine.get(db, digest)
        if verdict == "accepted":
            _accept(db, raw, code, now)
        quarantine.review(db, digest, person, verdict, reason, now)


def _accept(db: Database, raw: bytes, code: str, now: str) -> None:
    try:
        entry = parse_entry(raw)
    except BadEntry as fault:
        raise NotPossible(f"it cannot be read as an entry ({code}: {fault}); discard it with a reason") from fault
    if log.held(db, [entry.id]):
        raise NotPossible("the log holds another entry with this id; discard it with a reason")
    keys.trust(db, [(entry.id, digest_of(raw))])
    take(db, Batch([raw], 0, None, None, now, None), None)

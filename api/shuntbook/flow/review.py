"""A manager's decision on an entry that was set aside: taken after all, or left out, always with a reason.

Whoever reviews does not speak for the author. What the author's own signature shows is taken at any time (a time that
is odd, say); what nothing but the manager's word shows only in a rebuild; an inspection never: its inspector says it
again.
"""

from typing import Literal

from shuntbook.flow import rebuilding
from shuntbook.flow.ingest import Batch, take
from shuntbook.flow.members import Member, demand
from shuntbook.flow.trust import Judge
from shuntbook.kit.canonical import digest_of
from shuntbook.kit.errors import BadEntry, NotFound, NotPossible
from shuntbook.report.entry import Entry, parse_entry
from shuntbook.store import keys, log, quarantine, quarantine_review
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.rebuilds import Doer

Verdict = Literal["accepted", "discarded"]


def review(store: Store, digest: str, verdict: Verdict, reason: str, now: str, who: Member) -> None:
    """Decide on an entry that was set aside; its bytes stay kept either way, and the hold it caused ends.

    Errors: NotFound; NotAllowed where it is of an event that `who` does not manage; NotPossible where an entry to be
    accepted cannot be read, another one has its id, or it would count by the manager's word alone.
    """
    with store.write() as db:
        raw, code, event = quarantine.get(db, digest)
        demand(who, "manager", "Reviewing entries", event)
        if verdict == "accepted":
            _accept(db, raw, code, Doer(who.person, now))
        quarantine_review.review(db, digest, who.person, verdict, reason, now)


def leave_out_group(store: Store, brought_by: str | None, upto: str, reason: str, now: str, who: Member) -> int:
    """Leave out all that waits of one who brought it, up to what `who` has seen of it; return how many.

    What names an event that `who` does not manage stays. Errors: NotAllowed; NotFound where nothing of it waits.
    """
    demand(who, "manager", "Reviewing entries")
    with store.write() as db:
        count = quarantine_review.leave_out_group(db, brought_by, upto, who.person, reason, now, who.unmanaged)
        if not count:
            raise NotFound("nothing of this device waits for a look any more; see the list again")
    return count


def _accept(db: Database, raw: bytes, code: str, doer: Doer) -> None:
    try:
        entry = parse_entry(raw)
    except BadEntry as fault:
        raise NotPossible(f"it cannot be read as an entry ({code}: {fault}); discard it with a reason") from fault
    if log.held(db, [entry.id]):
        raise NotPossible("the log holds another entry with this id; discard it with a reason")
    if Judge(db, held_elsewhere=True).refusal(entry, raw) is not None:
        _believe(db, entry, raw, doer)
    take(db, Batch([raw], 0, None, None, doer.now, None), None)


def _believe(db: Database, entry: Entry, raw: bytes, doer: Doer) -> None:
    if entry.kind.startswith("inspection."):
        raise NotPossible(
            "no review makes an inspection count: its inspector says it again, on a phone that is let in. Discard this"
            " one with a reason"
        )
    rebuilding.note(db, doer, "review", [entry.id], "Taking an entry on a manager's word")
    keys.trust(db, [(entry.id, digest_of(raw))])

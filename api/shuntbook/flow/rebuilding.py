"""A rebuild: while a log that was lost comes back, managers' phones may bring what nobody's signature shows.

Three things are possible only then: a review that believes an entry, digests of entries that were trusted without a
signature, and devices of other people. It lasts from a new log id until an owner ends it; everybody sees it, with what
was done.
"""

from collections.abc import Sequence

from msgspec import Struct

from shuntbook.flow.members import Member, demand_owner
from shuntbook.kit.errors import NotPossible
from shuntbook.store import rebuilds
from shuntbook.store.connection import Database
from shuntbook.store.database import Store
from shuntbook.store.rebuilds import Act, Doer, Done


class Rebuild(Struct, frozen=True):
    """Whether a rebuild is under way, and what was done in it and in those before."""

    under_way: bool
    done: Sequence[Done]


def rebuild_answer(store: Store) -> Rebuild:
    """Return whether a rebuild is under way and what was done."""
    with store.read() as db:
        return Rebuild(rebuilds.is_under_way(db), rebuilds.done(db))


def end(store: Store, who: Member, now: str) -> None:
    """End the rebuild; an owner does it. Errors: NotAllowed, NotPossible where none is under way."""
    demand_owner(who, "Ending the rebuild")
    with store.write() as db:
        if not rebuilds.is_under_way(db):
            raise NotPossible("no rebuild is under way; somebody may have ended it")
        rebuilds.end(db)
        rebuilds.note(db, Doer(who.person, now), "ended", [""])


def begin(store: Store) -> None:
    """Begin a rebuild again: the act of the machine's owner."""
    with store.write() as db:
        rebuilds.begin(db)


def note(db: Database, doer: Doer | None, act: Act, whats: Sequence[str], what: str) -> None:
    """Keep what somebody does that only a rebuild allows; None is the machine's owner. Errors: NotPossible."""
    if doer is None or not whats:
        return
    if not rebuilds.is_under_way(db):
        raise NotPossible(
            f"{what} is possible only in a rebuild: from a new or restored log until an owner ends it. None is under"
            " way; whoever keeps the server begins one with `shuntbook serve --rebuild`"
        )
    rebuilds.note(db, doer, act, whats)

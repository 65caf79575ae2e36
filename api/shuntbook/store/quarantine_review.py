"""What a manager looks at of what was set aside, and decides: the lists, and one verdict for one or for many."""

from collections import Counter
from collections.abc import Collection, Sequence
from typing import Any

from msgspec import Struct

from shuntbook.store import quarantine
from shuntbook.store.connection import Database

SHOWN = 20
"""So many of what one device brought are shown to whoever decides on it."""
DECIDED = 200
"""So many of what is decided are shown."""


class Aside(Struct, frozen=True):
    """An entry that was set aside, byte for byte, with why."""

    sha256: str
    id: str | None
    event: str | None
    car: str | None
    raw: str
    code: str
    what: str
    received_at: str
    brought_by: str | None
    reviewed_at: str | None
    reviewed_by: str | None
    reason: str | None
    verdict: str | None


class AsideGroup(Struct, frozen=True):
    """What waits of one who brought it (a device; None: a file, or the machine itself), as far as a manager may see it.

    cars: those named, None among them where none can be read; codes: how many wait for each reason.
    """

    brought_by: str | None
    waiting: int
    cars: list[str | None]
    codes: dict[str, int]
    first_at: str
    last_at: str


def listing(db: Database, without: Collection[str] = ()) -> list[Aside]:
    """Return what was set aside, newest last, its bytes as text where they are UTF-8; without that of some events.

    Of what one device brought the oldest `SHOWN` that wait, and of what is decided the last `DECIDED`: a crowd of
    nonsense hides nothing of others, and all of it is in `groups`.
    """
    theirs, events = _not_of(without)
    rows = db.query(
        "SELECT s.* FROM set_aside s JOIN (SELECT sha256, reviewed_at IS NULL AS waits, row_number() OVER"
        " (PARTITION BY reviewed_at IS NULL, CASE WHEN reviewed_at IS NULL THEN brought_by END"
        " ORDER BY CASE WHEN reviewed_at IS NULL THEN received_at END, reviewed_at DESC, sha256) AS place"
        f" FROM set_aside WHERE {theirs}) p ON p.sha256 = s.sha256"
        f" WHERE place <= CASE WHEN waits THEN {SHOWN} ELSE {DECIDED} END ORDER BY s.received_at, s.sha256",
        events,
    )
    return [Aside(**{**row, "raw": bytes(row["raw"]).decode(errors="replace")}) for row in rows]


def groups(db: Database, without: Collection[str] = ()) -> list[AsideGroup]:
    """Return what waits by who brought it, most first; without that of some events."""
    theirs, events = _not_of(without)
    rows = db.conn.execute(
        "SELECT brought_by, car, code, count(*), min(received_at), max(received_at) FROM set_aside"
        f" WHERE reviewed_at IS NULL AND {theirs} GROUP BY brought_by, car, code",
        events,
    ).fetchall()
    found = [_group(bringer, [row for row in rows if row[0] == bringer]) for bringer in {row[0] for row in rows}]
    return sorted(found, key=lambda group: (-group.waiting, group.brought_by or ""))


def _group(bringer: str | None, rows: Sequence[tuple[Any, ...]]) -> AsideGroup:
    codes: Counter[str] = Counter()
    for _, _, code, count, *_ in rows:
        codes[code] += count
    cars = sorted({row[1] for row in rows}, key=lambda car: (car is None, car or ""))
    return AsideGroup(
        brought_by=bringer,
        waiting=codes.total(),
        cars=cars[:SHOWN],
        codes=dict(sorted(codes.items())),
        first_at=min(row[4] for row in rows),
        last_at=max(row[5] for row in rows),
    )


def review(db: Database, digest: str, person: str, verdict: str, reason: str, now: str) -> None:
    """Note what was decided of something set aside, by whom and why; its bytes stay kept. Errors: NotFound."""
    quarantine.get(db, digest)
    db.conn.execute(
        "UPDATE set_aside SET reviewed_at = ?, reviewed_by = ?, verdict = ?, reason = ? WHERE sha256 = ?",
        [now, person, verdict, reason, digest],
    )


def leave_out_group(
    db: Database, brought_by: str | None, upto: str, person: str, reason: str, now: str, without: Collection[str] = ()
) -> int:
    """Note that all that waits of one who brought it is left out, and why; return how many; bytes stay kept.

    upto: when the last came that was looked at; what came later waits on. without: events that are not the person's.
    """
    theirs, events = _not_of(without)
    done = db.conn.execute(
        "UPDATE set_aside SET reviewed_at = ?, reviewed_by = ?, verdict = 'discarded', reason = ?"
        f" WHERE reviewed_at IS NULL AND brought_by IS ? AND received_at <= ? AND {theirs}",
        [now, person, reason, brought_by, upto, *events],
    )
    return int(done.rowcount)


def _not_of(events: Collection[str]) -> tuple[str, list[str]]:
    """Return a condition that leaves out what names one of some events, and its values."""
    marks = ", ".join("?" * len(events))
    return f"(event IS NULL OR event NOT IN ({marks}))", sorted(events)

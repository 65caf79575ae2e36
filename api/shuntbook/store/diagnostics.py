"""Questions that only a look over the whole store asks: numbers used, photos named, files that nothing names."""

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import msgspec

from shuntbook.store.connection import Database
from shuntbook.store.database import Store


class Numbers(NamedTuple):
    """A device's own numbers as they came in, ascending; one that came twice stands twice."""

    device: str
    taken: list[int]


def numbers(db: Database) -> list[Numbers]:
    """Return which of its numbers each device used, by device; entries that were set aside count."""
    found: dict[str, list[int]] = {}
    for device, seq in db.conn.execute("SELECT device, seq FROM entry"):
        found.setdefault(device, []).append(seq)
    held = {row[0] for row in db.conn.execute("SELECT id FROM entry")}
    for name, raw in db.conn.execute("SELECT id, raw FROM set_aside"):
        # What was taken in later stands in the log; counted once.
        device, seq = _number(raw) if name not in held else (None, None)
        if device is not None and seq is not None:
            found.setdefault(device, []).append(seq)
    return [Numbers(device, sorted(found[device])) for device in sorted(found)]


OF_WALKS = " UNION ".join(
    f"SELECT json_extract(one.value, '$.photo') FROM entry, json_each(CAST(entry.raw AS TEXT), '$.data.{field}') AS one"
    " WHERE entry.cursor IN (SELECT cursor FROM entry WHERE kind = 'handover.signed')"
    " AND (:event IS NULL OR entry.event = :event)"
    for field in ("photos", "signed")
)
"""The photos of hand-over walks: one a row, null where a view was left out or nobody drew.

The inner question is answered by an index alone, so that no other entry is read.
"""


def photos_named(db: Database, event: str | None = None) -> set[str]:
    """Return the digests of the photos that entries name, of one event or all: a walk's, too, and voice notes."""
    sql = (
        "SELECT photo.value FROM entry, json_each(CAST(entry.raw AS TEXT), '$.data.photos') AS photo"
        " WHERE entry.kind IN ('report.filed', 'report.amended') AND (:event IS NULL OR entry.event = :event)"
        " UNION SELECT json_extract(CAST(raw AS TEXT), '$.data.photo') FROM entry"
        " WHERE kind = 'photo.linked' AND (:event IS NULL OR event = :event)"
        " UNION SELECT json_extract(CAST(raw AS TEXT), '$.data.voice') FROM entry"
        " WHERE kind = 'voice.linked' AND (:event IS NULL OR event = :event)"
        f" UNION {OF_WALKS}"
    )
    return {row[0] for row in db.conn.execute(sql, {"event": event}) if row[0] is not None}


def photos_awaited(db: Database) -> int:
    """Return how many photos the jobs and walks show that are not here; quicker than to ask all entries."""
    sql = (
        "WITH shown(photo) AS ("
        "SELECT photo.value FROM job, json_each(CAST(job.value AS TEXT), '$.photos') AS photo"
        f" UNION {OF_WALKS})"
        " SELECT count(*) FROM shown WHERE photo IS NOT NULL AND photo NOT IN (SELECT photo FROM photo)"
    )
    return int(db.conn.execute(sql, {"event": None}).fetchone()[0])


def strays(store: Store, held: set[str]) -> Iterator[Path]:
    """Yield the files in the folder of photos that no photo held is in, such as of an upload that was cut."""
    for path in sorted(store.photos.rglob("*")):
        if path.is_file() and not (path.name in held and path.parent.name == path.name[:2]):
            yield path.relative_to(store.folder)


def _number(raw: bytes) -> tuple[str | None, int | None]:
    try:
        value = msgspec.json.decode(raw)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        return None, None
    fields = value if isinstance(value, dict) else {}
    device, seq = fields.get("device"), fields.get("seq")
    is_number = isinstance(seq, int) and not isinstance(seq, bool) and seq > 0
    return (device, seq) if isinstance(device, str) and is_number else (None, None)

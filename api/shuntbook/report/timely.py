"""Whether the times that an entry names can be meant: what is outside is set aside where it newly comes in.

A rule for the door alone: an entry that a log holds counts whatever it says, since a fact is never taken back.
"""

from collections.abc import Iterator
from datetime import UTC

from shuntbook.kit.errors import BadEntry
from shuntbook.kit.times import PLAUSIBLE, is_plausible, written
from shuntbook.report.entry import Entry

IN_DATA = ("official_time", "ready_by")
"""Fields of `data` that name a time in words of the person's own; a bare clock time or a word names no year."""


def odd_time(entry: Entry) -> BadEntry | None:
    """Return why an entry's times cannot be meant, None where they can."""
    for field, text in _times(entry):
        if text and not _can_be_meant(text):
            years = f"from {PLAUSIBLE[0]} to {PLAUSIBLE[-1]}"
            what = f"{text!r} is not of the years {years}; set the phone's clock and write it again"
            return BadEntry("odd-time", what, field)
    return None


def _times(entry: Entry) -> Iterator[tuple[str, str | None]]:
    yield "at", entry.at
    yield "said_at", entry.said_at
    for name in IN_DATA:
        yield f"data.{name}", getattr(entry.data, name, None)


def _can_be_meant(text: str) -> bool:
    try:
        time = written(text)
    except ValueError:
        return True
    return is_plausible(time if time.tzinfo else time.replace(tzinfo=UTC))

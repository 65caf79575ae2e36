"""An entry: a fact that one person put down on one device, never changed or deleted.

{"id": "0197…", "v": 1, "kind": "report.filed", "event": "…", "car": "41", "subject": "0197…",
 "at": "2026-05-16T10:42:07+02:00", "device": "d-7f3a", "seq": 12, "person": "p-maru", "data": {}}
"""

import re
from datetime import datetime
from typing import Annotated, Any

import msgspec
from msgspec import Meta, Struct

from shuntbook.kit.errors import BadEntry
from shuntbook.kit.ids import is_uuid7
from shuntbook.kit.times import instant, instant_or_none, written
from shuntbook.report.body import Name
from shuntbook.report.kinds import JOB_KINDS, KINDS, Data
from shuntbook.setup.words import is_job_key

MAX_BYTES = 16 * 1024
MAX_DEPTH = 32
_HALF = re.compile(rb"\\u[dD][89a-fA-F]")
"""Half of a character of UTF-16 (RFC 8259, section 8.2: what a decoder makes of a lone one is open)."""
RFC3339 = re.compile(r"\d{4}-\d{2}-\d{2}[Tt ]\d{2}:\d{2}:\d{2}(\.\d+)?([Zz]|[+-]\d{2}:\d{2})")


class Envelope(Struct, frozen=True):
    """The fields that every entry has; `data` is still as it came."""

    id: Name
    v: int
    kind: Name
    event: Name
    car: Name
    at: str
    device: Name
    seq: Annotated[int, Meta(ge=1, le=2**53)]
    person: Name
    data: dict[str, Any]
    subject: str | None = None
    sig: str | None = None
    said_at: Any = None


_ENVELOPE = msgspec.json.Decoder(Envelope)


class Entry(Struct, frozen=True):
    """A checked entry with its `data` typed by kind; `said_at`: when it was said, if it was typed in later."""

    id: str
    kind: str
    event: str
    car: str
    subject: str
    at: str
    device: str
    seq: int
    person: str
    data: Data
    said_at: str | None = None

    @property
    def when(self) -> datetime:
        """The instant that the fact belongs to: when it was said, else when it was put down."""
        return instant_or_none(self.said_at) or instant(self.at)


def parse_entry(raw: bytes) -> Entry:
    """Check an entry's bytes and return it.

    Errors: BadEntry with code too-large, not-json, wrong-shape, unknown-version or unknown-kind, the
    field, and what to do.
    """
    if len(raw) > MAX_BYTES:
        raise BadEntry(
            "too-large",
            f"{len(raw)} bytes; an entry has at most {MAX_BYTES}. Shorten the note.",
        )
    return _typed(_envelope(raw), raw)


def _typed(envelope: Envelope, raw: bytes) -> Entry:
    """Return the entry with its data checked for its kind. Errors: BadEntry."""
    if envelope.v != 1:
        raise BadEntry(
            "unknown-version",
            f"version {envelope.v} is not known here; update the server",
            "v",
        )
    if envelope.kind not in KINDS:
        raise BadEntry(
            "unknown-kind",
            f"kind {envelope.kind!r} is not known here; update the server",
            "kind",
        )
    _check_envelope(envelope)
    return _entry(envelope, _is_flat(raw))


def held_entry(raw: bytes) -> Entry:
    """Return an entry of the log, which was checked when it was taken in: only its shape is read again.

    Errors: BadEntry for bytes that are none, as of a file that was damaged.
    """
    envelope = _envelope(raw)
    return _entry(envelope, b"null" not in raw) if envelope.kind in KINDS else _typed(envelope, raw)


def _entry(envelope: Envelope, flat: bool) -> Entry:
    """Return an envelope with its data typed. flat: the data hold no null and are not nested too deep."""
    return Entry(
        envelope.id,
        envelope.kind,
        envelope.event,
        envelope.car,
        envelope.subject or "",
        envelope.at,
        envelope.device,
        envelope.seq,
        envelope.person,
        _data(envelope, flat),
        envelope.said_at if isinstance(envelope.said_at, str) else None,
    )


def _envelope(raw: bytes) -> Envelope:
    try:
        # The decoder passes over fields that it does not know; what is passed on must be UTF-8 all the same.
        return _ENVELOPE.decode(raw.decode())
    except msgspec.ValidationError as error:
        raise BadEntry("wrong-shape", *_place(str(error))) from error
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        what = f"not JSON that can be read: {error}"
        if _HALF.search(raw):
            what = f"{what}. It may hold half a character, such as \\ud83d without its other half; write the text again"
        raise BadEntry("not-json", what) from error


def _check_envelope(envelope: Envelope) -> None:
    if not is_uuid7(envelope.id):
        raise BadEntry(
            "wrong-shape",
            f"{envelope.id!r} is not a UUID of version 7 (RFC 9562)",
            "id",
        )
    # RFC 9562 lets a reader take either case, but who names this entry (covers, replaces) names it letter for letter:
    # one fact under two spellings would be two.
    if envelope.id != envelope.id.lower():
        raise BadEntry("wrong-shape", f"{envelope.id!r} has upper-case letters; write ids in lower case", "id")
    if not _is_time(envelope.at):
        raise BadEntry(
            "wrong-shape",
            f"{envelope.at!r} is not an RFC 3339 time with its offset",
            "at",
        )
    subject = envelope.subject or ""
    if envelope.kind in (*JOB_KINDS, "part.fitted") and not is_job_key(subject):
        raise BadEntry("wrong-shape", f"{subject!r} is not a job's key, zone/component", "subject")
    if envelope.kind == "report.filed" and subject != envelope.id:
        raise BadEntry("wrong-shape", "a filed report's subject is its own id", "subject")
    if envelope.kind.startswith("report.") and not subject:
        raise BadEntry("wrong-shape", "the subject must be the id of the report", "subject")


def _is_time(text: str) -> bool:
    if not RFC3339.fullmatch(text):
        return False
    try:
        written(text)
    except ValueError:
        return False
    return True


def _data(envelope: Envelope, flat: bool) -> Data:
    try:
        data = envelope.data if flat else _without_nulls(envelope.data)
        return msgspec.convert(data, KINDS[envelope.kind], strict=True)
    except msgspec.ValidationError as error:
        what, field = _place(str(error))
        raise BadEntry("wrong-shape", what, f"data.{field}".rstrip(".")) from error


def _is_flat(raw: bytes) -> bool:
    """Return whether a JSON text can hold no null and can't be nested too deep: so are nearly all, and it is quick."""
    return b"null" not in raw and raw.count(b"{") + raw.count(b"[") <= MAX_DEPTH


def _without_nulls(value: Any, depth: int = 0) -> Any:
    if depth > MAX_DEPTH:
        raise BadEntry("wrong-shape", f"nested deeper than {MAX_DEPTH}", "data")
    if isinstance(value, dict):
        return {k: _without_nulls(v, depth + 1) for k, v in value.items() if v is not None}
    if isinstance(value, list):
        return [_without_nulls(item, depth + 1) for item in value]
    return value


def _place(message: str) -> tuple[str, str]:
    """Split a decoder's message "what - at `$.field`" into (what, field)."""
    what, _, place = message.partition(" - at `$")
    return what, place.rstrip("`").lstrip(".")

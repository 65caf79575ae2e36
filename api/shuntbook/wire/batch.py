"""Reads a batch of entries so that one which cannot be read never takes the others with it.

Nearly every batch is read in one go. Where that fails, the request is cut at the commas of its `entries` by brackets
and quotes alone: what stands between them is an entry's bytes, whatever it says, and is judged by itself.
"""

import re
from collections.abc import Iterator

import msgspec

from shuntbook.wire.answers import SyncRequest

MOST_ENTRIES = 500

# A string is taken to its end or the text's, in one step each way: a text of quotes and no end costs no second look.
_TOKEN = re.compile(rb'"[^"\\]*+(?:\\.[^"\\]*+)*+"?+|[\[{]++|[\]}]|,', re.DOTALL)
_LIST = re.compile(rb"\s*:\s*\[")
_WHITE = b" \t\r\n"


class NoBatch(ValueError):
    """Bytes that are no batch, even with all of its entries left out; the text says where."""


class TooManyEntries(ValueError):
    """More entries than a batch may have."""


def read_batch(body: bytes) -> tuple[SyncRequest, list[bytes]]:
    """Return a batch's own fields and the bytes of each of its entries. Errors: NoBatch, TooManyEntries."""
    try:
        batch = _decoded(body)
        entries = [bytes(raw) for raw in batch.entries]
    except NoBatch as error:
        batch, entries = _cut(body, error)
    if len(entries) > MOST_ENTRIES:
        raise TooManyEntries(f"more than {MOST_ENTRIES} entries; send at most {MOST_ENTRIES} at once")
    return batch, entries


def _decoded(body: bytes) -> SyncRequest:
    try:
        return msgspec.json.decode(body, type=SyncRequest)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise NoBatch(str(error)) from error


def _cut(body: bytes, error: NoBatch) -> tuple[SyncRequest, list[bytes]]:
    begin = _begin(body)
    if begin is None:
        raise error
    entries: list[bytes] = []
    end = begin
    for piece_at, end in _pieces(body, begin):
        entries.append(body[piece_at:end].strip(_WHITE))
        if len(entries) > MOST_ENTRIES:
            raise TooManyEntries(f"more than {MOST_ENTRIES} entries; send at most {MOST_ENTRIES} at once")
    batch = _decoded(body[:begin] + body[end:])
    if entries == [b""]:
        entries = []
    # A list that stands twice, or a comma too many: no entry was meant where nothing stands.
    if batch.entries or b"" in entries:
        raise error
    return batch, entries


def _begin(body: bytes) -> int | None:
    """Return where the first entry begins: after the bracket of the outermost object's `entries`."""
    depth = 0
    for token in _TOKEN.finditer(body):
        word = token.group()
        if depth == 1 and word == b'"entries"' and (found := _LIST.match(body, token.end())):
            return found.end()
        depth += _step(word)
    return None


def _pieces(body: bytes, begin: int) -> Iterator[tuple[int, int]]:
    """Yield where each entry begins and ends; the last end is that of the list."""
    depth = 0
    for token in _TOKEN.finditer(body, begin):
        word = token.group()
        depth += _step(word)
        if depth < 0 or (depth == 0 and word == b","):
            yield begin, token.start()
            begin = token.end()
        if depth < 0:
            return


def _step(word: bytes) -> int:
    if word[:1] in (b"[", b"{"):
        return len(word)
    return -1 if word in (b"]", b"}") else 0

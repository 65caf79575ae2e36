"""A batch that cannot be read in one go is cut into its entries by brackets and quotes; each is judged by itself."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shuntbook.store.readable_names import Named, read_names
from shuntbook.wire.batch import MOST_ENTRIES, NoBatch, TooManyEntries, read_batch

HALF = rb'{"id": "h", "note": "cut off: \ud83d"}'


def body(*entries: bytes, cursor: int = 7) -> bytes:
    return b'{"cursor": %d, "entries": [' % cursor + b" ,\n".join(entries) + b'], "log_id": "l"}'


@pytest.mark.parametrize(
    "bad",
    [
        HALF,
        rb'"\udc00"',
        rb'{"\ud800": 1}',
        b'{"id": NaN}',
        b"{'id': 1}",
        rb'{"note": "\x"}',
        b'{"note": "a\x01b"}',
        b'{"a": ' + b"[" * 50_000 + b"]" * 50_000 + b"}",
        b"tru",
        rb'{"note": "quote \" bracket ] comma , and \ud800"}',
    ],
    ids=lambda bad: repr(bad[:20]),
)
def test_an_entry_that_cannot_be_read_leaves_those_beside_it(bad: bytes) -> None:
    good = json.dumps({"id": "1", "note": 'a "quoted" [text], with {all} of it \\'}).encode()
    batch, entries = read_batch(body(good, bad, good))
    assert entries == [good, bad, good]
    assert (batch.cursor, batch.log_id) == (7, "l")


texts = st.text(alphabet='a"\\[]{},: \ud83d\udc00é😀', max_size=12)
values = st.recursive(
    st.none() | st.integers() | texts,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3),
    max_leaves=8,
)


@given(st.lists(values, max_size=6))
def test_whatever_entries_hold_each_comes_out_as_the_bytes_it_was(entries: list[object]) -> None:
    # The standard library writes halves of characters as they are, escaped: RFC 8259, section 8.2.
    raws = [json.dumps(entry).encode() for entry in entries]
    assert read_batch(body(*raws))[1] == raws
    assert read_batch(body(*raws, HALF))[1] == [*raws, HALF]


@pytest.mark.parametrize(
    "broken",
    [
        b"",
        b"[]",
        b'{"entries": [',
        b'{"entries": [{"id": "\\ud800"}',
        b'{"entries": [{"id": "\\ud800}]}',
        b'{"entries": [{"id": "\\ud800"},]}',
        b'{"entries": ["\\ud800"], "cursor": -1}',
        b'{"entries": ["\\ud800"], "log_id": "\\ud800"}',
        b'{"entries": ["\\ud800"], "entries": [1]}',
        b'{"other": {"entries": ["\\ud800"]}}',
        b'{"entries": "\\ud800"}',
        b'"' + b'\\"' * 100_000,
        b"[" * 200_000,
    ],
    ids=lambda broken: repr(broken[:40]),
)
def test_what_is_no_batch_without_its_entries_is_refused(broken: bytes) -> None:
    with pytest.raises(NoBatch):
        read_batch(broken)


def test_more_entries_than_a_batch_has_are_too_many_readable_or_not() -> None:
    assert len(read_batch(body(*[b"1"] * MOST_ENTRIES))[1]) == MOST_ENTRIES
    for entries in ([b"1"] * (MOST_ENTRIES + 1), [HALF] * (MOST_ENTRIES + 1)):
        with pytest.raises(TooManyEntries):
            read_batch(body(*entries))


@pytest.mark.parametrize(
    ("raw", "names"),
    [
        (rb'{"id": "a", "event": "e", "car": "41", "note": "\ud83d"}', Named("a", "e", "41")),
        (rb'{"id": "a", "event": "e", "car": "\ud83d"}', Named("a", "e", None)),
        (b'{"id": "a", "car": "4\xff"}', Named("a", None, None)),
        (b'{"id": "a", "car": "41", "km": NaN}', Named("a", None, "41")),
        (b'{"id": "%s", "car": "41"}' % (b"a" * 201), Named(None, None, "41")),
        (rb'["\ud83d"]', Named(None, None, None)),
        (b'{"car": ' + b"[" * 50_000, Named(None, None, None)),
        (b'{"id": "a", "n": ' + b"9" * 5000 + b', "x": "\\ud83d"}', Named(None, None, None)),
    ],
    ids=lambda value: repr(value[:30]) if isinstance(value, bytes) else "",
)
def test_the_names_of_what_cannot_be_read_are_read_as_far_as_they_can_be(raw: bytes, names: Named) -> None:
    assert read_names(raw) == names

"""The photos of a hand-over walk, its views and its signatures, are the log's like a report's."""

from typing import Any

from making import Pen, raw
from phone import EVENT, NOW
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.store import diagnostics
from shuntbook.store.database import Store

VIEW, INK = "a" * 64, "b" * 64
WALK: dict[str, Any] = {
    "walk": "out",
    "photos": [{"view": "front", "photo": VIEW}, {"view": "roof", "photo": None, "why_none": "Too dark"}],
    "signed": [{"side": "team", "name": "Vera", "photo": INK}, {"side": "customer", "name": "Kiri Oda"}],
}


def test_views_and_signatures_are_named_and_awaited(sample_store: Store) -> None:
    named, awaited = diagnostics.photos_named(sample_store.db), diagnostics.photos_awaited(sample_store.db)
    assert {VIEW, INK} & named == set()
    walk = Pen(EVENT, car="42", start=70_000).entry("handover.signed", **WALK)
    ingest(sample_store, Batch([raw(walk)], 0, None, None, NOW, None))
    assert diagnostics.photos_named(sample_store.db) == named | {VIEW, INK}
    assert diagnostics.photos_named(sample_store.db, EVENT) >= {VIEW, INK}
    assert {VIEW, INK} & diagnostics.photos_named(sample_store.db, "another-2026") == set()
    assert diagnostics.photos_awaited(sample_store.db) == awaited + 2

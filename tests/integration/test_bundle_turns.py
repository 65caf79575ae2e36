"""A large bundle goes in by turns: others write in between, an import that broke off is finished by the same again."""

import json
import sqlite3
import threading
from itertools import pairwise
from pathlib import Path

import pytest

from bundles import lines, packed, with_manifest
from making import Pen, raw
from phone import EVENT, NOW
from sample_event import event_files
from shuntbook.flow import diagnostics, uploads
from shuntbook.flow.bundle_import import PAGE, Choice, import_bundle
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.kit.errors import StoreUnavailable
from shuntbook.store import log
from shuntbook.store.database import Store
from shuntbook.wire.bundle_file import BadBundle
from signer import Signer

MANY = 3 * PAGE + 20


@pytest.fixture
def there(tmp_path: Path) -> Store:
    """A machine that holds the event's set-up, signatures off, and no entry."""
    store = Store(tmp_path / "there")
    uploads.put_setup(store, EVENT, event_files("off"), NOW)
    return store


@pytest.fixture(scope="module")
def entries() -> list[dict]:
    pen = Pen(EVENT, start=50_000)
    return [pen.filed("rear-left/wheel marked") for _ in range(MANY)]


@pytest.fixture
def large(entries: list[dict], tmp_path: Path) -> Path:
    return packed(tmp_path / "large.zip", with_manifest({"entries.jsonl": lines(*entries)}))


def held(store: Store) -> int:
    return store.db.conn.execute("SELECT count(*) FROM entry").fetchone()[0]


def test_no_turn_takes_more_than_a_phones_batch(there: Store, large: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is on disk after each COMMIT, as another connection sees it, grows by 500 at most."""
    seen = [0]
    other = sqlite3.connect(there.folder / "shuntbook.sqlite")
    turn = there._turn

    def counted():
        seen.append(other.execute("SELECT count(*) FROM entry").fetchone()[0])
        return turn()

    monkeypatch.setattr(there, "_turn", counted)
    taken = import_bundle(there, large, Choice(), NOW)
    seen.append(held(there))
    assert (taken.new, seen[-1]) == (MANY, MANY)
    assert max(later - earlier for earlier, later in pairwise(seen)) == PAGE
    assert diagnostics.check(there) == []


def test_a_phone_gets_its_turn_while_a_bundle_goes_in(there: Store, large: Path, pen: Pen) -> None:
    """A server on the same folder writes over a connection of its own, as another process does."""
    server, places, stop = Store(there.folder), [], threading.Event()

    def write() -> None:
        while not stop.is_set():
            entry = pen.filed("front-left/wheel marked")
            assert ingest(server, Batch([raw(entry)], 0, None, None, NOW, None)).accepted == [entry["id"]]
            row = server.db.conn.execute("SELECT cursor FROM entry WHERE id = ?", [entry["id"]]).fetchone()
            places.append(row[0])

    writer = threading.Thread(target=write)
    writer.start()
    try:
        taken = import_bundle(there, large, Choice(), NOW)
    finally:
        stop.set()
        writer.join(60)
    assert taken.new == MANY
    ours = [row[0] for row in there.db.conn.execute("SELECT cursor FROM entry WHERE brought_by IS NULL")]
    between = [place for place in places if PAGE < place <= MANY]
    assert between, "none came in before the last turn"
    assert len(ours) == MANY + len(places)
    assert diagnostics.check(there) == []


def test_a_disk_that_fills_in_between_leaves_what_came_and_the_same_again_brings_the_rest(
    there: Store, large: Path, entries: list[dict], monkeypatch: pytest.MonkeyPatch
) -> None:
    real, calls = log.append, []

    def full(db, arrivals) -> None:
        calls.append(1)
        if len(calls) == 3:
            raise sqlite3.OperationalError("database or disk is full")
        real(db, arrivals)

    monkeypatch.setattr(log, "append", full)
    with pytest.raises(StoreUnavailable, match=r"disk is full\. A part of the bundle is in; .* import it again"):
        import_bundle(there, large, Choice(), NOW)
    assert held(there) == 2 * PAGE
    again = import_bundle(there, large, Choice(), NOW)
    assert (again.new, again.held) == (MANY - 2 * PAGE, 2 * PAGE)
    assert {json.loads(one)["id"] for one in log.raws(there.db, EVENT)} == {one["id"] for one in entries}
    assert diagnostics.check(there) == []


def test_one_damaged_line_at_the_end_of_a_large_bundle_leaves_nothing(
    there: Store, entries: list[dict], tmp_path: Path
) -> None:
    files = with_manifest({"entries.jsonl": lines(*entries)})
    files["entries.jsonl"] = files["entries.jsonl"][:-3] + b"x}\n"
    with pytest.raises(BadBundle):
        import_bundle(there, packed(tmp_path / "damaged.zip", files), Choice(), NOW)
    assert held(there) == 0


def test_what_waits_for_a_key_is_believed_by_turns_too(there: Store, entries: list[dict], tmp_path: Path) -> None:
    uploads.put_setup(there, EVENT, event_files("on"), NOW)
    signer = Signer()
    signed = [signer.sign({**entry, "device": "d-lost"}) for entry in entries[: PAGE + 40]]
    device = {"device": "d-lost", "person": "p-toma", "key": signer.jwk, "shut_out_at": None}
    files = {"entries.jsonl": lines(*signed), "devices.json": json.dumps([device]).encode()}
    path = packed(tmp_path / "signed.zip", with_manifest(files))
    assert len(import_bundle(there, path, Choice(), NOW).set_aside) == PAGE + 40
    only_keys = packed(tmp_path / "keys.zip", with_manifest({**files, "entries.jsonl": b""}))
    assert import_bundle(there, only_keys, Choice(trust=True), NOW).believed == PAGE + 40
    assert held(there) == PAGE + 40
    assert diagnostics.check(there) == []

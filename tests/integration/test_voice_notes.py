"""A voice note goes wherever a photo goes: to another machine, into a copy and back; one that is damaged is named."""

import pytest

from making import Pen, raw
from phone import EVENT, NOW
from shuntbook.flow import answers, diagnostics
from shuntbook.flow.backups import backup, restore
from shuntbook.flow.bundle_export import export_bundle
from shuntbook.flow.bundle_import import Choice, import_bundle
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.flow.uploads import put_photo
from shuntbook.kit.canonical import sha256
from shuntbook.report.attached import Attached
from shuntbook.store import photos
from shuntbook.store.database import Store

# The EBML header that each WebM file begins with (RFC 8794, 11.2.1), and something after it.
SOUND = bytes.fromhex("1a45dfa39f4286810142f7810142f2810442f381084282847765626d") + bytes(range(256))
VOICE = sha256(SOUND)
CAR = "42"


@pytest.fixture
def spoken(sample_store: Store) -> Store:
    """The sample event with one voice note about a report of a car."""
    pen = Pen(EVENT, CAR)
    hit = pen.filed("front-end/badge missing")
    linked = pen.entry("voice.linked", hit["id"], voice=VOICE, seconds=7.5)
    batch = Batch([raw(hit), raw(linked)], 0, None, None, NOW, None)
    assert len(ingest(sample_store, batch).accepted) == 2
    put_photo(sample_store, VOICE, SOUND, NOW)
    return sample_store


def test_a_bundle_brings_it_to_another_machine(spoken, tmp_path):
    export_bundle(spoken, tmp_path / "event.zip", None, NOW)
    there = Store(tmp_path / "there")
    import_bundle(there, tmp_path / "event.zip", Choice(), NOW)
    assert photos.read(there, VOICE) == SOUND
    assert photos.find(there.db, VOICE) == Attached("audio/webm")
    assert diagnostics.check(there) == []


def test_a_copy_brings_it_back(spoken, tmp_path):
    backup(spoken, tmp_path / "copy.zip")
    restore(tmp_path / "copy.zip", tmp_path / "back")
    back = Store(tmp_path / "back")
    assert photos.read(back, VOICE) == SOUND
    assert diagnostics.check(back) == []


def test_one_that_is_damaged_on_the_disk_is_named(spoken):
    path = photos.path_of(spoken, VOICE)
    path.write_bytes(SOUND[:-1])
    assert [VOICE in fault for fault in diagnostics.check(spoken)] == [True]


def test_saying_something_and_taking_it_back_changes_no_job(sample_store):
    pen = Pen(EVENT, CAR)
    before = answers.queue(sample_store, EVENT, CAR).jobs
    linked = pen.entry("voice.linked", before[0].job, voice=VOICE)
    taken_back = pen.entry("entry.voided", before[0].job, voids=[linked["id"]], reason="mis-tap")
    for entry in (linked, taken_back):
        assert ingest(sample_store, Batch([raw(entry)], 0, None, None, NOW, None)).accepted
        assert answers.queue(sample_store, EVENT, CAR).jobs == before

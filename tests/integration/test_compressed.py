"""Large answers go compressed where the caller takes it; the answer stays the same."""

import gzip
import json
import os

import pytest

from shuntbook.app import create_app
from shuntbook.flow import changes
from shuntbook.web import api

GZIP = {"Accept-Encoding": "gzip, deflate, br"}


@pytest.fixture
def headers(join):
    return join("mechanic")


def test_a_set_up_is_compressed_to_less_than_a_fifth(client, headers):
    plain = client.get("/api/v1/setup", headers=headers)
    packed = client.get("/api/v1/setup", headers={**headers, **GZIP})
    assert plain.content_encoding is None
    assert packed.content_encoding == "gzip"
    assert gzip.decompress(packed.data) == plain.data
    assert json.loads(plain.data)["events"][0]["rate_table"]["operations"]
    assert len(packed.data) < len(plain.data) / 5
    assert int(packed.headers["Content-Length"]) == len(packed.data)
    assert "Accept-Encoding" in plain.headers["Vary"]
    assert packed.get_etag() == plain.get_etag()


def test_nobody_gets_what_he_does_not_take(client, headers):
    for refusing in ("identity", "gzip;q=0", "br"):
        answer = client.get("/api/v1/setup", headers={**headers, "Accept-Encoding": refusing})
        assert answer.content_encoding is None


def test_a_small_answer_goes_as_it_is(client):
    answer = client.get("/api/v1/health", headers=GZIP)
    assert len(answer.data) < api.LARGE_BYTES
    assert answer.content_encoding is None


def test_a_phone_with_a_set_up_of_an_older_shape_fetches_it_anew(client, headers, monkeypatch):
    monkeypatch.setattr(changes, "SHAPE", "1")
    etag = client.get("/api/v1/setup", headers=headers).headers["ETag"]
    assert client.get("/api/v1/setup", headers={**headers, "If-None-Match": etag}).status_code == 304
    monkeypatch.undo()
    assert client.get("/api/v1/setup", headers={**headers, "If-None-Match": etag}).status_code == 200


@pytest.fixture
def built(sample_store, tmp_path):
    """The app's pages: a script long enough to be worth it, and a picture."""
    folder = tmp_path / "built"
    (folder / "assets").mkdir(parents=True)
    (folder / "index.html").write_text("<!doctype html><title>Shuntbook</title>")
    (folder / "assets" / "log-1a.js").write_text("export const parts = [];\n" * 200)
    (folder / "icon.png").write_bytes(b"\x89PNG\r\n\x1a\n" * 50)
    return create_app(sample_store, folder).test_client()


def test_a_script_goes_compressed_and_the_same_bytes_come_out(built):
    plain = built.get("/assets/log-1a.js", buffered=True)
    packed = built.get("/assets/log-1a.js", headers=GZIP)
    assert plain.content_encoding is None
    assert packed.content_encoding == "gzip"
    assert gzip.decompress(packed.data) == plain.data
    assert int(packed.headers["Content-Length"]) == len(packed.data) < len(plain.data) / 5
    assert packed.mimetype == plain.mimetype == "text/javascript"
    assert "immutable" in packed.headers["Cache-Control"]
    assert "Accept-Encoding" in plain.headers["Vary"]


def test_two_encodings_of_a_page_share_a_weak_tag_that_is_still_known(built):
    """RFC 9110, 8.8.1: a tag that stands for both encodings is weak; 13.1.2: If-None-Match compares weakly."""
    tag = built.get("/", headers=GZIP).headers["ETag"]
    assert tag.startswith('W/"')
    assert built.get("/", buffered=True).headers["ETag"] == tag
    again = built.get("/", headers={**GZIP, "If-None-Match": tag}, buffered=True)
    assert (again.status_code, again.data) == (304, b"")


def test_a_picture_and_a_piece_of_a_script_go_as_they_are(built):
    assert built.get("/icon.png", headers=GZIP, buffered=True).content_encoding is None
    piece = built.get("/assets/log-1a.js", headers={**GZIP, "Range": "bytes=0-5"}, buffered=True)
    assert (piece.status_code, piece.content_encoding, piece.data) == (206, None, b"export")


def test_a_file_that_changed_is_compressed_anew(built, tmp_path):
    before = gzip.decompress(built.get("/", headers=GZIP).data)
    file = tmp_path / "built" / "index.html"
    file.write_text("<!doctype html><title>Newer</title>")
    os.utime(file, ns=(1, 1))
    assert b"Newer" in gzip.decompress(built.get("/", headers=GZIP).data) != before

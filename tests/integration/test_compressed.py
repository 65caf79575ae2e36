"""Large answers go compressed where the caller takes it; the answer stays the same."""

import gzip
import json

import pytest

from shuntbook.web import api, syncing

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
    monkeypatch.setattr(syncing, "SHAPE", "1")
    etag = client.get("/api/v1/setup", headers=headers).headers["ETag"]
    assert client.get("/api/v1/setup", headers={**headers, "If-None-Match": etag}).status_code == 304
    monkeypatch.undo()
    assert client.get("/api/v1/setup", headers={**headers, "If-None-Match": etag}).status_code == 200

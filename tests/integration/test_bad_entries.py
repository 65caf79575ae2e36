"""Bad input: one bad entry never blocks the others, nothing is overwritten, the server stays up."""

import hashlib
import json

import pytest

from making import Pen, ids, raw
from phone import sync_body


def codes(answer):
    return [item["problem"]["type"].rsplit("/", 1)[1] for item in answer["rejected"]]


@pytest.mark.parametrize("bad", [1, 99])
def test_of_a_hundred_the_good_are_stored_and_each_bad_one_has_its_reason(phone, pen, bad, sample_store):
    sender = phone()
    batch = [pen.filed("front-end/badge missing") for _ in range(100)]
    for entry in batch[:bad]:
        entry["data"]["zone"] = "front/end"
    answer = sender.sync(*batch)
    assert answer["accepted"] == ids(batch[bad:])
    assert [item["id"] for item in answer["rejected"]] == ids(batch[:bad])
    assert set(codes(answer)) == {"wrong-shape"}
    assert all(item["problem"]["field"] == "data.zone" for item in answer["rejected"])
    assert sample_store.db.execute("SELECT count(*) FROM set_aside").fetchone() == (bad,)
    assert sender.sync(pen.filed("front-end/badge missing"))["rejected"] == []


def test_the_same_bad_bytes_again_are_set_aside_once(phone, pen, sample_store):
    bad = {**pen.filed(), "kind": "report.shouted"}
    for _ in range(3):
        assert codes(phone().sync(bad)) == ["unknown-kind"]
    assert sample_store.db.execute("SELECT count(*) FROM set_aside").fetchone() == (1,)


def test_a_conflict_keeps_both_and_names_both_hashes(phone, pen, sample_store):
    sender = phone()
    entry = pen.filed("front-end/badge missing")
    other = {**entry, "person": "p-bodo"}
    neighbour = pen.filed("front-end/badge bent")
    sender.sync(entry)
    answer = sender.sync(other, neighbour)
    assert answer["accepted"] == ids([neighbour])
    assert codes(answer) == ["conflict"]
    problem = answer["rejected"][0]["problem"]
    assert problem["status"] == 409
    for sent in (entry, other):
        assert hashlib.sha256(raw(sent)).hexdigest() in problem["detail"]
    read = sample_store.db.execute
    assert read("SELECT raw FROM entry WHERE id = ?", [entry["id"]]).fetchall() == [(raw(entry),)]
    assert read("SELECT raw FROM set_aside").fetchall() == [(raw(other),)]


def test_two_entries_with_one_id_in_one_batch_conflict_too(phone, pen):
    entry = pen.filed("front-end/badge missing")
    answer = phone().sync(entry, {**entry, "seq": 99})
    assert (answer["accepted"], codes(answer)) == (ids([entry]), ["conflict"])


def test_another_signature_under_the_same_entry_makes_no_conflict_and_the_first_stays(phone, pen, sample_store):
    toma, entry = phone(), pen.filed("front-left/brake-hose cracked")
    first, other = {**entry, "sig": "A" * 86}, {**entry, "sig": "B" * 85 + "A"}
    assert toma.sync(first)["accepted"] == toma.sync(other)["accepted"] == ids([entry])
    held = sample_store.db.conn.execute("SELECT raw FROM entry WHERE id = ?", [entry["id"]]).fetchone()[0]
    assert json.loads(held)["sig"] == first["sig"]


def test_white_space_and_the_order_of_keys_make_no_conflict(phone, pen, sample_store):
    sender = phone()
    entry = pen.filed("front-end/badge missing", km=1.5)
    sender.sync(entry)
    shuffled = raw(dict(reversed(entry.items()))).replace(b", ", b",\n ").replace(b"1.5", b"1.50")
    assert sender.sync(shuffled)["accepted"] == ids([entry])
    assert sample_store.db.execute("SELECT raw FROM entry WHERE id = ?", [entry["id"]]).fetchone() == (raw(entry),)


@pytest.mark.parametrize(
    ("spoil", "code"),
    [
        (lambda data: data.replace(b'"v": 1', b'"v": 2'), "unknown-version"),
        (lambda data: data.replace(b"report.filed", b"report.sung"), "unknown-kind"),
        (lambda data: data.replace(b'"note": "x"', b'"note": "' + b"x" * 16400 + b'"'), "too-large"),
        (lambda data: data.replace(b'"note": "x"', b'"note": "\xff\xfe"'), "not-json"),
        (lambda data: data.replace(b'"note": "x"', b'"later": "\xff\xfe"'), "not-json"),
        (lambda data: data.replace(b'"note": "x"', b'"km": 1e400'), "wrong-shape"),
        (lambda data: data.replace(b'"note": "x"', b'"x": ' + b"[" * 200 + b"]" * 200), "wrong-shape"),
        (lambda data: b"null", "wrong-shape"),
        (lambda data: b"[]", "wrong-shape"),
        (lambda data: b'"text"', "wrong-shape"),
    ],
)
def test_a_spoilt_entry_comes_back_with_its_reason_beside_a_good_one(phone, pen, spoil, code):
    good, bad = pen.filed(note="y"), pen.filed(note="x")
    answer = phone().sync(spoil(raw(bad)), good)
    assert answer["accepted"] == ids([good])
    assert codes(answer) == [code]


# The request itself is no JSON then: RFC 8259 knows no NaN, and no bound on nesting that a server must take.
@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[]",
        b"<html>Please log in to the hotel's network</html>",
        sync_body((b'{"id": NaN}',)),
        sync_body((b'{"id": Infinity}',)),
        sync_body((b'{"id": -Infinity}',)),
        sync_body((b"[" * 200_000,)),
        sync_body((b"[" * 200_000 + b"]" * 200_000,)),
        sync_body(()).replace(b'"cursor": 0', b'"cursor": -1'),
        sync_body(()).replace(b'"cursor": 0', b'"cursor": "0"'),
        b'{"entries": {}}',
    ],
    ids=lambda body: repr(body[:12] + body[60:80]),
)
def test_a_request_that_is_no_json_of_the_right_shape_is_answered_with_a_problem(phone, pen, body):
    sender = phone()
    response = sender.post(body)
    assert response.status_code in (400, 200)
    if response.status_code == 200:
        assert response.get_json()["accepted"] == []
        assert len(response.get_json()["rejected"]) == 1
    else:
        assert response.content_type == "application/problem+json"
    entry = pen.filed()
    assert sender.sync(entry)["accepted"] == ids([entry])


def test_more_than_five_hundred_at_once_are_refused_and_nothing_is_stored(phone, pen, sample_store):
    batch = [pen.filed() for _ in range(501)]
    before = sample_store.db.execute("SELECT count(*) FROM entry").fetchone()
    response = phone().send(*batch)
    assert response.status_code == 413
    assert "at most 500" in response.get_json()["detail"]
    assert sample_store.db.execute("SELECT count(*) FROM entry").fetchone() == before
    assert len(phone().sync(*batch[:500])["accepted"]) == 500


def test_ten_megabytes_in_one_entry_are_set_aside_and_the_next_is_taken(phone, pen):
    huge, good = pen.filed(note="x"), pen.filed()
    data = raw(huge).replace(b'"x"', b'"' + b"x" * 10_000_000 + b'"')
    answer = phone().sync(data, good)
    assert (codes(answer), answer["accepted"]) == (["too-large"], ids([good]))
    assert answer["rejected"][0]["problem"]["status"] == 413


def test_a_body_over_the_servers_limit_is_refused(phone):
    response = phone().post(b" " * (13 * 1024 * 1024))
    assert (response.status_code, response.content_type) == (413, "application/problem+json")


def test_fields_that_nobody_knows_are_kept_and_passed_on_byte_for_byte(phone, pen):
    entry = {**pen.filed(note="Tür"), "said_at": "2026-06-13T07:00:00Z", "of_later": {"b": [1, None], "a": 1.50}}
    data = raw(entry).replace(b'"a": 1.5', b'"a" :   1.500e0').replace(b'"b"', b'"\\u0062"')
    writer, reader = phone(), phone("mechanic")
    reader.pull()
    writer.sync(data)
    assert data in reader.send().data


@pytest.mark.parametrize("name", ["id", "event", "car"])
def test_an_entry_whose_names_are_no_text_does_not_stop_the_others(phone, name):
    pen = Pen("thornquell-2026", start=40_000)
    answer = phone().sync({**pen.filed(), name: {"$gt": ""}}, pen.filed())
    assert (codes(answer), len(answer["accepted"])) == (["wrong-shape"], 1)

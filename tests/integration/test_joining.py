"""Joining: a code works once, secrets are kept as hashes only, roles are those in force now."""

import hashlib
import re
from typing import Any

import pytest

from phone import PEOPLE
from sample_event import event_files
from shuntbook.flow import clock, joining, uploads


def test_whoever_joins_learns_who_he_is_and_gets_a_token_of_his_own(client, sample_store):
    code = joining.invite(sample_store, "p-anni", clock.now())
    answer = client.post("/api/v1/join", json={"code": code}).get_json()
    assert (answer["person"], answer["name"], answer["roles"]) == ("p-anni", "Anni", ["mechanic", "inspector"])
    assert answer["events"] == ["thornquell-2026"]
    assert re.fullmatch(r"d-[0-9a-f]{8}", answer["device"])
    # 256 random bits: RFC 6750, section 5.2 asks for tokens that nobody guesses.
    assert len(answer["token"]) >= 43


def test_a_code_works_once(client, sample_store):
    code = joining.invite(sample_store, "p-toma", clock.now())
    assert client.post("/api/v1/join", json={"code": code}).status_code == 200
    again = client.post("/api/v1/join", json={"code": code})
    assert (again.status_code, again.get_json()["type"].rsplit("/", 1)[1]) == (410, "used-code")
    assert "new link" in again.get_json()["detail"]


def test_a_code_may_be_typed_in_small_letters_with_spaces_around(client, sample_store):
    code = joining.invite(sample_store, "p-toma", clock.now())
    assert client.post("/api/v1/join", json={"code": f" {code.lower()} "}).status_code == 200


def test_a_code_that_was_never_made_is_unknown(client):
    answer = client.post("/api/v1/join", json={"code": "AAAA-BBBB-CCCC"})
    assert (answer.status_code, answer.get_json()["type"].rsplit("/", 1)[1]) == (404, "unknown-code")
    assert "new link" in answer.get_json()["detail"]


@pytest.mark.parametrize("body", [{}, {"code": ""}, {"code": 7}, {"code": "A", "role": "manager"}, {"code": "A" * 101}])
def test_a_body_that_is_no_code_is_a_problem(client, body):
    assert client.post("/api/v1/join", json=body).status_code == 422


def test_neither_token_nor_code_stands_in_the_database_only_their_hashes(client, sample_store):
    used, unused = (
        joining.invite(sample_store, "p-toma", clock.now()),
        joining.invite(sample_store, "p-bodo", clock.now()),
    )
    token = client.post("/api/v1/join", json={"code": used}).get_json()["token"]
    sample_store.db.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    stored = b"".join(file.read_bytes() for file in sample_store.folder.glob("shuntbook.sqlite*"))
    for secret in (used, unused, token):
        assert secret.encode() not in stored
        assert hashlib.sha256(secret.encode()).hexdigest().encode() in stored


def test_a_code_holds_no_letters_that_are_mistaken_for_others_when_read_aloud(sample_store):
    codes = "".join(joining.invite(sample_store, "p-toma", clock.now()) for _ in range(20))
    assert not set(codes) & set("01IO")


@pytest.mark.parametrize("header", [None, "", "Bearer", "Bearer ", "Bearer wrong", "Basic dXNlcjpwYXNz", "wrong"])
def test_a_call_without_a_good_token_is_asked_for_one(client, header):
    headers = {} if header is None else {"Authorization": header}
    answer = client.get("/api/v1/setup", headers=headers)
    assert answer.status_code == 401
    # RFC 9110, section 11.6.1: a 401 names the scheme.
    assert answer.headers["WWW-Authenticate"] == "Bearer"
    assert answer.get_json()["type"].endswith("/not-joined")


def test_the_scheme_is_read_in_any_case(client, join):
    # RFC 9110, section 11.1: the scheme is case-insensitive.
    token = join("driver")["Authorization"].removeprefix("Bearer ")
    assert client.get("/api/v1/setup", headers={"Authorization": f"bearer {token}"}).status_code == 200


def test_a_manager_invites_and_the_link_carries_the_code_in_its_fragment(client, join):
    answer = client.post("/api/v1/invites", json={"person": "p-kasp"}, headers=join("manager"))
    assert answer.status_code == 201
    link, code = answer.get_json()["link"], answer.get_json()["code"]
    assert link == f"http://localhost/#/join/{code}"
    assert client.post("/api/v1/join", json={"code": code}).get_json()["person"] == "p-kasp"


def test_nobody_invites_a_person_whom_no_event_knows(client, join):
    answer = client.post("/api/v1/invites", json={"person": "p-nobody"}, headers=join("manager"))
    assert answer.status_code == 404


def test_a_role_that_was_taken_away_ends_with_the_next_call(client, join, sample_store):
    manager = join("manager")
    assert client.get("/api/v1/set-aside", headers=manager).status_code == 200
    files = event_files("off")
    files["event.toml"] = files["event.toml"].replace(b'roles = ["manager"]', b'roles = ["mechanic"]')
    uploads.put_setup(sample_store, "thornquell-2026", files, "2026-05-16T10:00:00Z")
    assert client.get("/api/v1/set-aside", headers=manager).status_code == 403
    assert client.get("/api/v1/setup", headers=manager).status_code == 200


def test_a_person_taken_out_of_the_event_is_told_so_and_let_in_again_when_put_back(phone, pen, sample_store):
    """401, as for a device that was shut out: a phone of several people goes on with the others."""
    toma, files = phone(), event_files("off")
    gone = {**files, "event.toml": files["event.toml"].replace(b'"p-toma"', b'"p-else"')}
    uploads.put_setup(sample_store, "thornquell-2026", gone, "2026-05-16T10:00:00Z")
    entry = pen.filed("front-left/wheel bent")
    for refused in (toma.get("/setup"), toma.send(entry), toma.get("/events/thornquell-2026/cars/41/queue")):
        assert refused.status_code == 401
        assert refused.get_json()["type"].endswith("/not-joined")
        assert "ask the manager to put p-toma back into event.toml" in refused.get_json()["detail"]
        assert "Nothing on the phone is lost" in refused.get_json()["detail"]
    uploads.put_setup(sample_store, "thornquell-2026", files, "2026-05-16T10:00:00Z")
    assert toma.sync(entry)["accepted"] == [entry["id"]]


DIGEST = "0" * 64
# call → (method, path, body, status for somebody who joined, status for a manager)
CALLS: dict[str, tuple[str, str, Any, int, int]] = {
    "setup": ("GET", "/setup", None, 200, 200),
    "sync": ("POST", "/sync", {"entries": [], "cursor": 0}, 200, 200),
    "queue": ("GET", "/events/thornquell-2026/cars/41/queue", None, 200, 200),
    "release": ("GET", "/events/thornquell-2026/cars/41/release", None, 200, 200),
    "photo": ("GET", f"/photos/{DIGEST}", None, 404, 404),
    "costs": ("GET", "/events/thornquell-2026/costs", None, 403, 200),
    "costs.json": ("GET", "/events/thornquell-2026/costs.json", None, 403, 200),
    "costs.csv": ("GET", "/events/thornquell-2026/costs.csv", None, 403, 200),
    "costs of one car": ("GET", "/events/thornquell-2026/costs?car=42", None, 403, 200),
    "rates": ("PUT", "/rates", {"files": {}}, 403, 422),
    "event": ("PUT", "/events/thornquell-2026", {"files": {}}, 403, 422),
    "invites": ("POST", "/invites", {"person": "p-toma"}, 403, 201),
    "devices": ("DELETE", "/devices/d-none", None, 403, 404),
    "set-aside": ("GET", "/set-aside", None, 403, 200),
    "review": ("POST", f"/set-aside/{DIGEST}/review", {"reason": "x"}, 403, 404),
}


@pytest.mark.parametrize("role", [*PEOPLE, None])
def test_each_call_is_for_the_roles_of_the_rules(client, join, role):
    headers = join(role) if role else {}
    for name, (method, path, body, others, manager) in CALLS.items():
        status = 401 if role is None else manager if role == "manager" else others
        answer = client.open(f"/api/v1{path}", method=method, json=body, headers=headers)
        assert answer.status_code == status, f"{role} {name}"


@pytest.mark.parametrize("path", ["/openapi.json", "/health"])
def test_the_description_and_the_health_are_for_anyone(client, path):
    assert client.get(f"/api/v1{path}").status_code == 200

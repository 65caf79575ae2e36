"""Every error leaves as problem details (RFC 9457), with the headers that HTTP asks for."""

import json
from typing import Any

import pytest

from shuntbook.web import reading

MEMBERS = {"type": str, "title": str, "status": int, "detail": str}
QUEUE = "/api/v1/events/thornquell-2026/cars/41/queue"

# (what happens, method, path, body, role, status, code)
ERRORS: list[tuple[Any, ...]] = [
    ("unknown call", "GET", "/api/v1/nothing", None, None, 404, "not-found"),
    ("unknown page", "GET", "/nothing.js", None, None, 404, "not-found"),
    ("unknown event", "GET", "/api/v1/events/none/cars/41/queue", None, "driver", 404, "not-found"),
    ("unknown car", "GET", "/api/v1/events/thornquell-2026/cars/99/queue", None, "driver", 404, "not-found"),
    ("unknown car's costs", "GET", "/api/v1/events/thornquell-2026/costs?car=99", None, "manager", 404, "not-found"),
    ("unknown photo", "GET", f"/api/v1/photos/{'0' * 64}", None, "driver", 404, "not-found"),
    ("unknown code", "POST", "/api/v1/join", {"code": "AAAA"}, None, 404, "unknown-code"),
    ("no token", "GET", QUEUE, None, None, 401, "not-joined"),
    ("wrong role", "GET", "/api/v1/events/thornquell-2026/costs", None, "driver", 403, "not-allowed"),
    ("wrong method", "DELETE", QUEUE, None, None, 405, "method-not-allowed"),
    ("wrong method on sync", "GET", "/api/v1/sync", None, "driver", 405, "method-not-allowed"),
    ("no JSON", "POST", "/api/v1/sync", b"{", "driver", 400, "bad-request"),
    ("no JSON to join", "POST", "/api/v1/join", b"{", None, 400, "bad-request"),
    ("wrong body", "POST", "/api/v1/join", {"kode": "A"}, None, 422, "unprocessable-entity"),
    ("bad photo", "PUT", f"/api/v1/photos/{'0' * 64}", b"x", "driver", 422, "bad-photo"),
    ("bad set-up", "PUT", "/api/v1/events/thornquell-2026", {"files": {}}, "manager", 422, "bad-setup"),
    ("too many entries", "POST", "/api/v1/sync", {"entries": [1] * 501}, "driver", 413, "request-entity-too-large"),
    ("too large", "POST", "/api/v1/sync", b" " * (13 << 20), "driver", 413, "request-entity-too-large"),
]


@pytest.mark.parametrize(
    ("what", "method", "path", "body", "role", "status", "code"), ERRORS, ids=lambda value: str(value)[:30]
)
def test_an_error_has_the_members_of_rfc_9457(client, join, what, method, path, body, role, status, code):
    sent = {"data": body} if isinstance(body, bytes) else {"json": body}
    headers = (join(role) if role else {}) | {"Content-Type": "application/json"}
    answer = client.open(path, method=method, headers=headers, **sent)
    assert answer.status_code == status, what
    # RFC 9457, section 3: the media type; 3.1: the members, `status` the same as the response's.
    assert answer.content_type == "application/problem+json"
    problem = json.loads(answer.data)
    for member, kind in MEMBERS.items():
        assert isinstance(problem[member], kind), member
        assert problem[member], member
    assert problem["status"] == status
    assert problem["type"] == f"https://shuntbook.invalid/problems/{code}"


PLAN = "/api/v1/events/thornquell-2026/cars/41/plan"
# (path, body, the paths of its faults)
BAD_BODIES: list[tuple[str, Any, set[str]]] = [
    ("/api/v1/join", {}, {"code"}),
    ("/api/v1/join", {"code": "A", "kode": "B"}, {"kode"}),
    ("/api/v1/join", {"code": "A", "key": {"kty": "EC"}}, {"key.crv", "key.x", "key.y"}),
    ("/api/v1/join", [1], {""}),
    (PLAN, {"service": "A", "minutes": 0, "mechanics": 51}, {"minutes", "mechanics"}),
    (PLAN, {"previous": {"tasks": [{"task": "x", "people": []}]}}, {"previous.tasks.0.start_s"}),
]


@pytest.mark.parametrize(("path", "body", "paths"), BAD_BODIES)
def test_faults_of_a_body_stand_by_path_and_in_a_sentence(client, join, path, body, paths):
    answer = client.post(path, json=body, headers=join("mechanic"))
    assert answer.status_code == 422
    problem = answer.get_json()
    assert set(problem["errors"]) == paths
    # RFC 9457, section 3.1.4: the detail is for a person; who wants to read it by machine reads an extension member.
    assert "{" not in problem["detail"]
    for where, what in problem["errors"].items():
        assert all(isinstance(one, str) and one for one in what)
        assert where in problem["detail"]


def test_faults_of_a_query_stand_by_name(client, join):
    answer = client.get("/api/v1/events/thornquell-2026/spares?km=far&cars=0", headers=join("manager"))
    problem = answer.get_json()
    assert (answer.status_code, set(problem["errors"])) == (422, {"km", "cars"})
    assert all(name in problem["detail"] for name in problem["errors"])


def test_the_sentence_of_a_body_with_many_faults_is_short(client):
    answer = client.post("/api/v1/join", json={"code": "A", **{f"k{n}": n for n in range(9)}})
    problem = answer.get_json()
    assert len(problem["errors"]) == 9
    assert "And 6 more." in problem["detail"]


def test_a_wrong_method_says_which_are_right(client):
    # RFC 9110, section 15.5.6: a 405 must carry Allow.
    answer = client.delete(QUEUE)
    assert set(answer.headers["Allow"].replace(" ", "").split(",")) == {"GET", "HEAD", "OPTIONS"}
    assert "POST" in client.get("/api/v1/sync").headers["Allow"]


def test_a_message_names_what_there_is_instead(phone):
    reader = phone()
    assert "thornquell-2026" in reader.get("/events/none/cars/41/queue").get_json()["detail"]
    assert "41, 42" in reader.get("/events/thornquell-2026/cars/99/queue").get_json()["detail"]
    assert "for a manager; Toma is co-driver" in reader.get("/set-aside").get_json()["detail"]


def test_an_error_that_nobody_foresaw_is_a_problem_without_a_secret(phone, monkeypatch, caplog):
    def broken(*_: object) -> None:
        raise RuntimeError("secret of the machine")

    monkeypatch.setattr(reading.answers, "queue", broken)
    answer = phone().get("/events/thornquell-2026/cars/41/queue")
    assert (answer.status_code, answer.content_type) == (500, "application/problem+json")
    assert answer.get_json()["type"].endswith("/unforeseen")
    assert "secret" not in answer.text
    assert "secret of the machine" in caplog.text


def test_a_car_with_entries_but_not_in_the_set_up_has_a_queue(phone, pen):
    sender = phone()
    sender.sync({**pen.filed("front-end/grille missing"), "car": "7"})
    assert [job["job"] for job in sender.queue("7")["jobs"]] == ["front-end/grille"]


@pytest.mark.parametrize("name", ["4 1", "%2e%2e", "41%00", "é", "'; DROP TABLE entry;--"])
def test_an_odd_car_is_not_found_and_breaks_nothing(phone, name):
    reader = phone()
    assert reader.get(f"/events/thornquell-2026/cars/{name}/queue").status_code in (404, 308)
    assert reader.queue()["entries"] > 0

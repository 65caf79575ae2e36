"""Who may do what: role × call, and role × kind of entry. Roles decide what an entry does, never whether it is kept."""

from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient

from every_kind import one_of_each
from making import Pen
from phone import NOW, Phone
from shuntbook.setup.words import ROLES

EVENT = "thornquell-2026"
QUEUE = f"/api/v1/events/{EVENT}/cars/41"
DIGEST = "0" * 64
NAMES = {"event": EVENT, "car": "41", "digest": DIGEST, "device": "d-none", "invite": "7", "name": "restart-sheet"}
NO_KEY = {"kty": "EC", "crv": "P-256", "x": "A" * 43, "y": "A" * 43}
WHEEL = {"component": "wheel", "condition": "bent", "action": "swap", "zone": ""}

# (method, path, body): status for anybody who joined / for a manager. Nobody without a token gets further than 401.
CALLS: dict[tuple[str, str], tuple[Any, int, int]] = {
    ("POST", "/api/v1/sync"): ({}, 200, 200),
    ("GET", "/api/v1/setup"): (None, 200, 200),
    ("GET", f"{QUEUE}/queue"): (None, 200, 200),
    ("GET", f"{QUEUE}/release"): (None, 200, 200),
    ("GET", f"{QUEUE}/lives"): (None, 200, 200),
    ("GET", f"{QUEUE}/passes"): (None, 200, 200),
    ("POST", f"{QUEUE}/plan"): ({"service": "nowhere"}, 404, 404),
    ("GET", f"/api/v1/photos/{DIGEST}"): (None, 404, 404),
    ("POST", f"/api/v1/events/{EVENT}/plan"): ({"visits": [{"car": "41", "service": "nowhere"}]}, 404, 404),
    ("PUT", f"/api/v1/photos/{DIGEST}"): (b"not a picture", 422, 422),
    ("GET", f"/api/v1/events/{EVENT}/costs"): (None, 403, 200),
    ("GET", f"/api/v1/events/{EVENT}/costs.json"): (None, 403, 200),
    ("GET", f"/api/v1/events/{EVENT}/costs.csv"): (None, 403, 200),
    ("GET", f"/api/v1/events/{EVENT}/costs.xlsx"): (None, 403, 200),
    ("GET", f"/api/v1/events/{EVENT}/costs.pdf"): (None, 403, 200),
    ("GET", f"/api/v1/events/{EVENT}/costs.png"): (None, 403, 200),
    ("GET", f"{QUEUE}/documents/restart-sheet.pdf"): (None, 200, 200),
    ("GET", f"{QUEUE}/documents/restart-sheet.png"): (None, 200, 200),
    ("GET", f"{QUEUE}/documents/parts-order.csv"): (None, 200, 200),
    ("GET", f"{QUEUE}/documents.zip"): (None, 200, 200),
    ("GET", "/api/v1/sample"): (None, 403, 200),
    ("GET", f"/api/v1/events/{EVENT}/files"): (None, 403, 200),
    ("GET", f"{QUEUE}/statements"): (None, 403, 200),
    ("POST", f"/api/v1/events/{EVENT}/files/check"): ({"files": {}}, 403, 200),
    ("PUT", f"/api/v1/events/{EVENT}"): ({"files": {}}, 403, 422),
    ("PUT", "/api/v1/rates"): ({"files": {}}, 403, 422),
    ("GET", f"/api/v1/events/{EVENT}/rates/observed"): (None, 403, 200),
    ("GET", f"/api/v1/events/{EVENT}/spares"): (None, 403, 200),
    ("GET", "/api/v1/season"): (None, 403, 200),
    ("POST", "/api/v1/rates/accept"): ({"rates": DIGEST, "operations": [WHEEL]}, 403, 409),
    ("PUT", "/api/v1/devices"): ({"devices": []}, 403, 200),
    ("POST", "/api/v1/invites"): ({"person": "p-toma"}, 403, 201),
    ("DELETE", "/api/v1/devices/d-none"): (None, 403, 404),
    ("POST", "/api/v1/invites/7/known"): (None, 403, 403),
    ("GET", "/api/v1/rebuild"): (None, 200, 200),
    ("PUT", "/api/v1/second-key"): (NO_KEY, 422, 422),
    ("DELETE", "/api/v1/rebuild"): (None, 403, 403),
    ("GET", "/api/v1/set-aside"): (None, 403, 200),
    ("POST", f"/api/v1/set-aside/{DIGEST}/review"): ({"reason": "looked"}, 403, 404),
    ("GET", "/api/v1/set-aside/groups"): (None, 403, 200),
    ("POST", "/api/v1/set-aside/groups"): ({"brought_by": "d-none", "upto": NOW, "reason": "looked"}, 403, 404),
}
# Whoever sits in the car does not plan the service, nor reads on the road what service reads.
CREW = {
    ("GET", f"{QUEUE}/lives"): 403,
    ("GET", f"{QUEUE}/passes"): 403,
    ("POST", f"{QUEUE}/plan"): 403,
    ("POST", f"/api/v1/events/{EVENT}/plan"): 403,
    ("GET", f"{QUEUE}/documents/restart-sheet.pdf"): 403,
    ("GET", f"{QUEUE}/documents/restart-sheet.png"): 403,
    ("GET", f"{QUEUE}/documents/parts-order.csv"): 403,
}
OPEN_TO_ALL = {("POST", "/api/v1/join"), ("GET", "/api/v1/health"), ("GET", "/api/v1/openapi.json")}


def call(client: FlaskClient, method: str, path: str, body: object, headers: dict[str, str]) -> int:
    content = {"data": body} if isinstance(body, bytes) else {"json": body} if body is not None else {}
    return client.open(path, method=method, headers=headers, **content).status_code


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize(("method", "path"), CALLS)
def test_each_call_by_each_role(
    client: FlaskClient, join: Callable[[str], dict[str, str]], role: str, method: str, path: str
) -> None:
    body, anybody, manager = CALLS[method, path]
    wanted = manager if role == "manager" else anybody
    if role in ("driver", "co-driver"):
        wanted = CREW.get((method, path), wanted)
    assert call(client, method, path, body, join(role)) == wanted


@pytest.mark.parametrize(("method", "path"), CALLS)
@pytest.mark.parametrize("headers", [{}, {"Authorization": "Bearer wrong"}, {"Authorization": "Basic eDp5"}])
def test_nobody_gets_in_without_a_token(client: FlaskClient, method: str, path: str, headers: dict[str, str]) -> None:
    assert call(client, method, path, CALLS[method, path][0], headers) == 401


def test_every_call_that_there_is_stands_in_the_table(client: FlaskClient) -> None:
    described = client.get("/api/v1/openapi.json").get_json()["paths"]
    named = {
        (
            method.upper(),
            path.format(**NAMES),
        )
        for path, calls in described.items()
        for method in calls
        if method in ("get", "put", "post", "delete")
    }
    streams = {("GET", "/api/v1/live")}
    assert named == (CALLS.keys() | OPEN_TO_ALL | streams) - {("GET", "/api/v1/openapi.json")}


@pytest.mark.parametrize("role", ROLES)
def test_each_kind_of_entry_is_kept_whoever_sends_it(phone: Callable[[str], Phone], pen: Pen, role: str) -> None:
    entries = one_of_each(pen)
    answer = phone(role).sync(*entries)
    assert answer["rejected"] == []
    assert sorted(answer["accepted"]) == sorted(entry["id"] for entry in entries)

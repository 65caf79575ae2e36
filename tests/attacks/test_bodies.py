"""Bodies that no phone sends: nobody's are looked at without a token, and whoever has one is told what is wrong."""

import json
from collections.abc import Callable, Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient

from phone import EVENT
from shuntbook.web.auth import OPEN

BODIES = {
    "nested without end": b"[" * 100_000,
    "nested in an object": b'{"code": ' + b'{"a": ' * 20_000 + b"1" + b"}" * 20_001,
    "a number of 10,000 digits": b'{"code": ' + b"9" * 10_000 + b"}",
    "half a character": rb'{"code": "\ud800", "person": "\ud800", "reason": "\ud800", "files": {"a": "\ud800"}}',
    "half a character as a name": rb'{"\ud800": 1}',
    "not UTF-8": b'{"code": "\xff\xfe"}',
    "not a number": b'{"code": NaN}',
    "cut off": b'{"code": "',
}
PARTS = {"event": EVENT, "car": "41", "device": "d-1", "invite": "1", "digest": "0" * 64, "name": "record"}

BARE = "people.KnownInvite"
"""A call that is made by its address alone."""


def calls(app: Flask) -> Iterator[tuple[str, str, str]]:
    """Yield endpoint, method and path of each call of the API that takes a body."""
    for rule in app.url_map.iter_rules():
        for method in {"POST", "PUT"} & (rule.methods or set()) if rule.endpoint != BARE else ():
            values = {name: PARTS[name] for name in rule.arguments}
            path = app.url_map.bind("localhost").build(rule.endpoint, values, method=method)
            yield rule.endpoint, method, path


def send(client: FlaskClient, method: str, path: str, body: bytes, headers: dict[str, str]):
    return client.open(path, method=method, data=body, headers=headers, content_type="application/json")


def test_without_a_token_no_body_is_looked_at(app: Flask, client: FlaskClient) -> None:
    seen = set()
    for endpoint, method, path in calls(app):
        if endpoint in OPEN:
            continue
        seen.add(endpoint)
        # A good body and the worst are answered alike: nothing was read of either.
        answers = {send(client, method, path, body, {}).data for body in (b"{}", *BODIES.values())}
        assert len(answers) == 1, path
        assert json.loads(answers.pop())["status"] == 401, path
    assert {"season.Accept", "manager.Rates", "people.Invites", "plan.TeamPlan"} <= seen


@pytest.mark.parametrize("name", BODIES)
def test_joining_answers_a_body_that_cannot_be_read_with_what_is_wrong(client: FlaskClient, name: str) -> None:
    answer = send(client, "POST", "/api/v1/join", BODIES[name], {})
    assert (answer.status_code, answer.content_type) == (400, "application/problem+json")
    assert "is not the JSON that this call takes" in answer.get_json()["detail"]


@pytest.mark.parametrize("name", BODIES)
def test_no_call_of_a_manager_fails_for_its_body(
    app: Flask, client: FlaskClient, join: Callable[[str], dict[str, str]], name: str
) -> None:
    headers = join("manager")
    for _, method, path in calls(app):
        answer = send(client, method, path, BODIES[name], headers)
        if answer.status_code == 200 and path.endswith("/sync"):
            # A field that nobody knows is passed over unread.
            assert answer.get_json()["accepted"] == answer.get_json()["rejected"] == []
            continue
        assert answer.status_code in (400, 422), f"{path}: {answer.text[:200]}"
        assert answer.content_type == "application/problem+json"


@pytest.mark.parametrize("digits", [16, 19, 40, 5000])
def test_a_number_in_a_path_that_nothing_has_is_not_found(
    client: FlaskClient, join: Callable[[str], dict[str, str]], digits: int
) -> None:
    answer = client.post(f"/api/v1/invites/{'9' * digits}/known", headers=join("manager"))
    assert answer.status_code == 404

"""Whoever guesses join codes has to wait; whoever has a good one is let in."""

from collections.abc import Callable

from flask.testing import FlaskClient

from shuntbook.flow import clock, joining
from shuntbook.store.database import Store


def test_ten_wrong_codes_from_one_address_make_it_wait(client: FlaskClient, sample_store: Store) -> None:
    answers = [client.post("/api/v1/join", json={"code": f"WRON-GCOD-E{n:03}"}) for n in range(12)]
    assert [answer.status_code for answer in answers] == [404] * 10 + [429] * 2
    assert answers[-1].headers["Retry-After"] == "60"
    assert answers[-1].get_json()["type"].endswith("/too-many-tries")
    code = joining.invite(sample_store, "p-toma", clock.now())
    assert client.post("/api/v1/join", json={"code": code}).status_code == 429
    elsewhere = {"REMOTE_ADDR": "127.0.0.9"}
    assert client.post("/api/v1/join", json={"code": code}, environ_base=elsewhere).status_code == 200


def test_good_codes_never_make_anybody_wait(client: FlaskClient, join: Callable[[str], dict[str, str]]) -> None:
    for _ in range(15):
        join("co-driver")
    assert client.get("/api/v1/setup", headers=join("mechanic")).status_code == 200


def test_a_code_that_ran_out_is_refused(client: FlaskClient, sample_store: Store) -> None:
    code = joining.invite(sample_store, "p-toma", "2026-01-01T00:00:00.000Z")
    answer = client.post("/api/v1/join", json={"code": code})
    assert answer.status_code == 410
    assert "run out" in answer.get_json()["detail"]

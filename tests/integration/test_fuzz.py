"""Schemathesis sends what OpenAPI allows and what it does not, as each role: never a 5xx, always as described."""

from collections.abc import Iterator
from pathlib import Path

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import content_type_conformance, response_schema_conformance

from longer import is_longer, times
from phone import PEOPLE
from sample_event import event_folder
from shuntbook.app import create_app
from shuntbook.flow import clock, joining
from shuntbook.flow.load import load
from shuntbook.setup.words import ROLES
from shuntbook.store.database import Store

CHECKS = [not_a_server_error, content_type_conformance, response_schema_conformance]
FEW = settings(
    max_examples=times(2, 12),
    deadline=None,
    derandomize=not is_longer(),
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[object]:
    store = Store(tmp_path_factory.mktemp("fuzz"))
    load(store, event_folder(tmp_path_factory.mktemp("event") / "event", "off"), clock.now())
    made = create_app(store, Path("/nonexistent"))
    yield made
    made.extensions["shuntbook.planner"].stop()


def headers_of(app, role: str) -> dict[str, str]:
    plain = {"Accept-Encoding": "identity"}
    if role == "nobody":
        return plain
    code = joining.invite(app.extensions["shuntbook.store"], PEOPLE[role], clock.now())
    token = app.test_client().post("/api/v1/join", json={"code": code}).get_json()["token"]
    return {**plain, "Authorization": f"Bearer {token}"}


@pytest.fixture(scope="module")
def calls(app) -> list[schemathesis.APIOperation]:
    """What can be called, read from the description once."""
    schema = schemathesis.openapi.from_wsgi("/api/v1/openapi.json", app)
    # The live stream never ends, and joining is limited to ten wrong codes a minute: both have tests of their own.
    return [found.ok() for found in schema.exclude(path_regex="/(live|join)$").get_all_operations()]


@pytest.mark.parametrize("role", [*ROLES, "nobody"])
def test_no_call_fails_whatever_a_role_sends(app, calls, role: str) -> None:
    headers = headers_of(app, role)
    for call in calls:

        @FEW
        @given(case=call.as_strategy())
        def once(case: schemathesis.Case) -> None:
            case.validate_response(case.call(headers=headers), checks=CHECKS)

        once()
    assert len(calls) >= 15

"""The description of the API: valid OpenAPI 3.1, complete, and true of what the server really answers."""

import json
import re

import pytest
from jsonschema import Draft202012Validator
from openapi_spec_validator import OpenAPIV31SpecValidator

from shuntbook.serving import sample_folder
from shuntbook.wire.entries import standalone


@pytest.fixture
def described(client) -> dict:
    return client.get("/api/v1/openapi.json").get_json()


def validator(described: dict, name: str) -> Draft202012Validator:
    schema = standalone(described["components"]["schemas"], name)
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def test_the_description_is_valid_openapi_3_1(described):
    assert described["openapi"].startswith("3.1")
    OpenAPIV31SpecValidator(described).validate()


def test_every_call_of_the_server_is_described(app, described):
    served = {
        (re.sub(r"<(?:[^:<>]+:)?([a-z]+)>", r"{\1}", rule.rule), method.lower())
        for rule in app.url_map.iter_rules()
        if rule.rule.startswith("/api/v1/") and "openapi" not in rule.rule
        for method in rule.methods - {"HEAD", "OPTIONS"}
    }
    assert len(served) >= 15
    told = {(path, method) for path, calls in described["paths"].items() for method in calls if method != "parameters"}
    assert {(shape(path), method) for path, method in told} == {(shape(path), method) for path, method in served}


def shape(path: str) -> str:
    return re.sub(r"\{[^}]*\}|<.*?>(?=/|$)", "{}", path)


def test_each_call_that_needs_a_token_says_so(described):
    open_calls = {"/api/v1/join", "/api/v1/health"}
    for path, calls in described["paths"].items():
        for method, call in calls.items():
            if method != "parameters":
                assert ("security" in call) == (path not in open_calls), f"{method} {path}"


def test_every_entry_of_the_sample_event_fits_the_schema_of_entries(described):
    check = validator(described, "Entry")
    for line in sample_folder().joinpath("entries.jsonl").read_text().splitlines():
        assert [error.message for error in check.iter_errors(json.loads(line))] == []


def test_an_entry_of_a_wrong_shape_does_not_fit(described, pen):
    check = validator(described, "Entry")
    good = pen.filed("front-end/grille missing")
    assert check.is_valid(good)
    for bad in ({**good, "v": 2}, {**good, "kind": "x"}, {**good, "seq": 0}, {**good, "data": {"where": "home"}}):
        assert not check.is_valid(bad)


@pytest.mark.parametrize(
    ("path", "name"),
    [
        ("/events/thornquell-2026/cars/41/queue", "Queue"),
        ("/events/thornquell-2026/cars/42/queue", "Queue"),
        ("/events/thornquell-2026/cars/41/release", "Release"),
        ("/events/thornquell-2026/costs", "Costs"),
        ("/events/thornquell-2026/costs?car=42", "Costs"),
        ("/events/thornquell-2026/cars/42/statements", "Statements"),
        ("/events/thornquell-2026/rates/observed", "Observed"),
        ("/events/thornquell-2026/spares", "Spares"),
        ("/season", "Season"),
        ("/setup", "Setup"),
        ("/health", "Health"),
        ("/nothing", "Problem"),
    ],
)
def test_what_the_server_answers_fits_its_own_schema(described, phone, path, name):
    answer = phone("manager").get(path).get_json()
    assert [error.message for error in validator(described, name).iter_errors(answer)] == []


def test_what_a_sync_answers_fits_its_own_schema(described, phone, pen):
    bad = {**pen.filed(), "kind": "report.shouted"}
    answer = phone().sync(pen.filed(), bad, pen.entry("job.started", "no-job"))
    assert len(answer["rejected"]) == 2
    check = validator(described, "SyncAnswer")
    assert [error.message for error in check.iter_errors(answer)] == []


def test_every_reference_of_the_description_leads_somewhere(described):
    names = set(re.findall(r"#/components/schemas/([A-Za-z0-9_.-]+)", json.dumps(described)))
    assert names <= set(described["components"]["schemas"])


def test_no_two_shapes_have_one_name(described):
    """Where they had, their names would get their modules' before them."""
    assert [name for name in described["components"]["schemas"] if not re.fullmatch("[A-Za-z]+", name)] == []

"""What caches may keep: nothing that holds the log, money or names, except by a tag or by the hash that names it."""

from collections.abc import Callable, Iterator

import pytest
from flask import Flask

from phone import EVENT, Phone
from shuntbook.store import photos
from shuntbook.store.database import Store

TAGGED = {
    "/events/<string:event>/cars/<string:car>/queue", "/events/<string:event>/cars/<string:car>/release",
    "/events/<string:event>/files", "/setup",
}  # fmt: skip
"""Asked for again and again: a phone or browser keeps them for itself and asks whether they still stand."""
PICTURE = "/photos/<regex('[0-9a-f]{64}'):digest>"
NOTHING: dict[str, dict[str, object]] = {"post": {}, "put": {}}


def calls(app: Flask) -> Iterator[tuple[str, str]]:
    """Yield each route of the API with each of its methods."""
    for rule in app.url_map.iter_rules():
        if rule.rule.startswith("/api/v1/"):
            for method in sorted((rule.methods or set()) - {"OPTIONS"}):
                yield method.lower(), rule.rule.removeprefix("/api/v1")


def path_of(route: str, digest: str) -> str:
    """Return a route's path for car 42 of the sample event."""
    known = {
        "<string:event>": EVENT, "<string:car>": "42", "<string:name>": "record", "<string:device>": "d-none",
        "<int:invite>": "7",
        "<regex('[0-9a-f]{64}'):digest>": digest,
    }  # fmt: skip
    for part, name in known.items():
        route = route.replace(part, name)
    assert "<" not in route, "a part of a path that this test does not know"
    return route


def test_no_answer_of_the_api_is_kept_but_by_its_tag_or_its_hash(
    app: Flask, phone: Callable[[str], Phone], sample_store: Store
) -> None:
    manager = phone("manager")
    digest = photos.all_held(sample_store.db)[0]
    seen, wrong = 0, {}
    for method, route in calls(app):
        for headers in (manager.headers, {}):
            path = f"/api/v1{path_of(route, digest)}"
            answer = manager.client.open(path, method=method, headers=headers, json=NOTHING.get(method))
            good = answer.status_code == 200
            kept = "private, no-cache" if good and route in TAGGED else "no-store"
            kept = "private, max-age=31536000, immutable" if good and route == PICTURE and method != "put" else kept
            said = answer.headers.get("Cache-Control", "")
            # "private, no-store" of a document is as good.
            if said.removeprefix("private, ") != kept.removeprefix("private, "):
                wrong[method, route, answer.status_code] = said
            seen += good
            answer.close()
    assert wrong == {}
    assert seen > 30, "most of them answered with what they hold"


@pytest.mark.parametrize("path", ["/api/v1/nothing", "/api/nothing"])
def test_what_is_not_there_is_not_kept_either(client, path: str) -> None:
    assert client.get(path).headers["Cache-Control"] == "no-store"

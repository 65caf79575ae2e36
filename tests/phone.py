"""A phone for tests: joins, keeps its cursor, sends entries as dicts or as the very bytes of them."""

import json
from typing import Any

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from making import Json, raw

EVENT = "thornquell-2026"
NOW = "2026-06-14T12:00:00Z"
PEOPLE = {
    "driver": "p-ilka",
    "co-driver": "p-toma",
    "mechanic": "p-bodo",
    "inspector": "p-odil",
    "manager": "p-vera",
}
"""Somebody of the sample event for each role."""


class Phone:
    """One joined phone that talks to the app's test client."""

    def __init__(self, client: FlaskClient, headers: dict[str, str]) -> None:
        self.client = client
        self.headers = headers
        self.cursor = 0
        self.log_id: str | None = None

    def post(self, body: bytes, headers: dict[str, str] | None = None) -> TestResponse:
        """Send the bytes of a whole sync request and return the response."""
        named = {**self.headers, **(headers or {})}
        return self.client.post("/api/v1/sync", data=body, headers=named, content_type="application/json")

    def send(self, *entries: Json | bytes) -> TestResponse:
        """Send entries and return the response; the cursor stays where it is."""
        return self.post(sync_body(entries, self.cursor, self.log_id))

    def sync(self, *entries: Json | bytes) -> Json:
        """Send entries, move the cursor and return the answer, which must be a good one."""
        response = self.send(*entries)
        assert response.status_code == 200, response.text
        answer: Json = response.get_json()
        self.cursor, self.log_id = answer["cursor"], answer["log_id"]
        return answer

    def pull(self) -> list[Json]:
        """Fetch all that is new, page by page."""
        found: list[Json] = []
        while True:
            answer = self.sync()
            found += answer["entries"]
            if not answer["more"]:
                return found

    def get(self, path: str, **more: Any) -> TestResponse:
        """Get a path of the API."""
        return self.client.get(f"/api/v1{path}", headers={**self.headers, **more.pop("headers", {})}, **more)

    def queue(self, car: str = "41", event: str = "thornquell-2026") -> Json:
        """Return a car's queue."""
        response = self.get(f"/events/{event}/cars/{car}/queue")
        assert response.status_code == 200, response.text
        answer: Json = response.get_json()
        return answer


def sync_body(entries: tuple[Json | bytes, ...], cursor: int = 0, log_id: str | None = None) -> bytes:
    """Return a sync request's body with each entry's bytes as they are."""
    parts = [entry if isinstance(entry, bytes) else raw(entry) for entry in entries]
    head = f'{{"log_id": {json.dumps(log_id)}, "cursor": {cursor}, "now": "2026-06-13T08:00:00Z", "entries": ['
    return head.encode() + b",".join(parts) + b"]}"

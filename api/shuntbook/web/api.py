"""The blueprint of /api/v1, and how JSON bodies are read and written."""

import gzip
from typing import Any

import msgspec
from flask import Request, Response, request
from flask_smorest import Api, Blueprint
from marshmallow import missing
from webargs.flaskparser import FlaskParser, is_json_request
from werkzeug.exceptions import BadRequest

from shuntbook.kit.canonical import json_text
from shuntbook.wire.common import ProblemSchema
from shuntbook.wire.problems import MEDIA_TYPE

PREFIX = "/api/v1"
SECURED: dict[str, Any] = {"security": [{"token": []}]}
LARGE_BYTES = 4096
"""From this size on an answer is compressed: a set-up with its rate table goes over a weak signal in a tenth."""


def no_json(error: Exception) -> BadRequest:
    """Return the refusal of a body that is not the JSON that a call takes."""
    return BadRequest(f"the body is not the JSON that this call takes: {error}. Nothing of it was taken")


class Bodies(FlaskParser):
    """Reads bodies as strictly as batches are read: whatever they hold, what can't be read is refused in words.

    The standard library's decoder raises what nobody foresees: for nesting without end, and for whole numbers of
    thousands of digits; and it takes halves of characters, which no file and no database can keep.
    """

    def load_json(self, req: Request, schema: Any) -> Any:
        """Return the JSON value of a body, `missing` where there is none. Errors: BadRequest that says where."""
        body = req.get_data(cache=True) if is_json_request(req) else b""
        if not body:
            return missing
        try:
            return msgspec.json.decode(body)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
            raise no_json(error) from error


def blueprint(name: str, description: str) -> Blueprint:
    """Return a blueprint under /api/v1 whose calls may answer with problem details."""
    made = Blueprint(name, __name__, url_prefix=PREFIX, description=description)
    made.ARGUMENTS_PARSER = Bodies()
    return made


STRUCTS: set[type[msgspec.Struct]] = set()
"""The values that calls take and give; `wire.openapi` makes their schemas."""


def schema_of(kind: type[msgspec.Struct]) -> str:
    """Return the name that a value's schema has, which is described from now on."""
    STRUCTS.add(kind)
    return kind.__name__


def answers_with(made: Blueprint, kind: type[msgspec.Struct], status: int = 200, *, many: bool = False) -> Any:
    """Describe the value that a call answers with, or a list of such."""
    return made.response(status, {"type": "array", "items": schema_of(kind)} if many else schema_of(kind))


def answers_problem(made: Blueprint, *statuses: int) -> Any:
    """Describe the problem details that a call may answer with, one decorator for several statuses."""

    def decorate(view: Any) -> Any:
        for status in statuses:
            view = made.alt_response(status, schema=ProblemSchema, content_type=MEDIA_TYPE)(view)
        return view

    return decorate


def json_response(value: Any, status: int = 200, etag: str | None = None, kept: bool = True) -> Response:
    """Return JSON; with an ETag, 304 where the caller holds that one already.

    kept: whether a browser may keep the answer, and ask whether it still stands; else only who holds it by itself asks.
    """
    if etag is not None and is_held(etag):
        return not_modified(etag, kept)
    body = value if isinstance(value, bytes) else json_text(value).encode()
    response = _compressed(Response(body, status=status, content_type="application/json"))
    return response if etag is None else tagged(response, etag, kept)


def in_query(name: str) -> str | None:
    """Return what the query says of a name, None where it says nothing: a form sends its empty fields, too."""
    return request.args.get(name) or None


def is_held(etag: str) -> bool:
    """Return whether the caller says that it holds the answer of a tag (RFC 9110, 13.1.2)."""
    return request.if_none_match.contains_weak(etag)


def not_modified(etag: str, kept: bool = True) -> Response:
    """Return 304: the caller holds the answer of this tag."""
    return tagged(Response(status=304), etag, kept)


def tagged(response: Response, etag: str, kept: bool) -> Response:
    """Return an answer with its tag. kept: as `json_response`."""
    response.set_etag(etag)
    response.headers["Cache-Control"] = "private, no-cache" if kept else "no-store"
    return response


def _compressed(response: Response) -> Response:
    body = response.get_data()
    if len(body) < LARGE_BYTES:
        return response
    response.vary.add("Accept-Encoding")
    if request.accept_encodings["gzip"] > 0:
        response.set_data(gzip.compress(body, compresslevel=5, mtime=0))
        response.content_encoding = "gzip"
    return response


def make_api() -> Api:
    """Return the OpenAPI side of the app; errors are left to `errors.py`."""

    class QuietApi(Api):  # type: ignore[misc]
        """flask-smorest's own error handler would drop `Allow` and speak another JSON than RFC 9457."""

        ERROR_SCHEMA = ProblemSchema

        def _register_error_handlers(self) -> None:
            """Register none."""

        def _register_responses(self) -> None:
            """Describe errors as the problem details that they are."""
            self.DEFAULT_RESPONSE_CONTENT_TYPE = MEDIA_TYPE
            super()._register_responses()
            self.DEFAULT_RESPONSE_CONTENT_TYPE = Api.DEFAULT_RESPONSE_CONTENT_TYPE

    return QuietApi()

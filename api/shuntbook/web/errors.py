"""The outermost edge of the web: every error leaves as problem details (RFC 9457)."""

import json
import logging
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from typing import Any

from flask import Flask, Response
from werkzeug.exceptions import HTTPException

from shuntbook.kit.damage import is_damage, told
from shuntbook.kit.errors import NotJoined, ShuntbookError, StoreUnavailable, TooMany
from shuntbook.store.people import UnknownCode, UsedCode
from shuntbook.web.logs import request_id
from shuntbook.wire.problems import MEDIA_TYPE, problem, problem_of

RETRY_AFTER_S = "5"
MOST_TOLD = 3
"""So many faults of what was sent stand in the sentence; all of them are in `errors`."""
WHOLE = "_schema"
"""What marshmallow calls a fault that is of no key."""
_log = logging.getLogger("shuntbook")


def problem_response(body: dict[str, object], headers: dict[str, str] | None = None) -> Response:
    """Return problem details as a response with their own status."""
    response = Response(json.dumps(body), status=int(str(body["status"])), content_type=MEDIA_TYPE)
    response.headers.update(headers or {})
    return response


def handle_errors(app: Flask) -> None:
    """Register the handlers of errors raised on purpose, of HTTP's own, and of those nobody foresaw."""
    app.register_error_handler(ShuntbookError, _on_purpose)
    app.register_error_handler(HTTPException, _http)
    app.register_error_handler(Exception, _unforeseen)


def _on_purpose(error: ShuntbookError) -> Response:
    if isinstance(error, UsedCode):
        return problem_response(problem("used-code", 410, "No longer valid", str(error)))
    if isinstance(error, UnknownCode):
        return problem_response(problem("unknown-code", 404, "Not known here", str(error)))
    headers = {}
    if isinstance(error, NotJoined):
        headers["WWW-Authenticate"] = "Bearer"
    if isinstance(error, StoreUnavailable):
        headers["Retry-After"] = RETRY_AFTER_S
    if isinstance(error, TooMany):
        headers["Retry-After"] = "60"
    return problem_response(problem_of(error), headers)


def _http(error: HTTPException) -> Response:
    status = error.code or 500
    if status < 400:
        return Response(status=status, headers=list(error.get_headers()))
    code = error.name.lower().replace(" ", "-")
    # By where it stood: in the body, or in the query.
    places = getattr(error, "data", {}).get("messages", {})
    errors = dict(sorted(fault for messages in places.values() for fault in _by_path(messages)))
    body = problem(code, status, error.name, _detail(error, errors), **({"errors": errors} if errors else {}))
    # HTTP's own headers stay: Allow on 405, Retry-After on 503.
    kept = {name: value for name, value in error.get_headers() if name.lower() in ("allow", "retry-after")}
    return problem_response(body, kept)


def _detail(error: HTTPException, errors: Mapping[str, Sequence[str]]) -> str:
    """Return a sentence; of many faults it says the first ones, and how many there are."""
    if not errors:
        return str(error.description)
    told = [f"{path}: {' '.join(what)}" if path else " ".join(what) for path, what in islice(errors.items(), MOST_TOLD)]
    more = len(errors) - len(told)
    rest = f" And {more} more." if more else ""
    return f"what was sent is not what this call takes. {' '.join(told)}{rest} Nothing of it was taken"


def _by_path(messages: Any, path: str = "") -> Iterator[tuple[str, list[str]]]:
    """Yield what is wrong by the path of keys and places in lists, joined with dots; "" is all that was sent."""
    if not isinstance(messages, Mapping):
        yield path, [str(one) for one in messages]
        return
    for key, inner in messages.items():
        yield from _by_path(inner, path if key == WHOLE else ".".join(filter(None, (path, str(key)))))


def _unforeseen(error: Exception) -> Response:
    _log.error("unforeseen error", exc_info=error, extra={"fields": {"request": request_id()}})
    if is_damage(error):
        return problem_response(problem("store-damaged", 500, "Database damaged", f"{told(error)} Nothing was stored"))
    detail = (
        "The server met an error that nobody foresaw; nothing was stored by this call."
        f" Its log has the details, beside request {request_id()}."
    )
    return problem_response(problem("unforeseen", 500, "Unforeseen error", detail))

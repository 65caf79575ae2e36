"""What the server writes down: one JSON line per request and event, on stderr, with no token, code or body in it."""

import json
import logging
import re
import secrets
import time
from datetime import UTC, datetime
from typing import Any

from flask import Flask, Response, g, request

from shuntbook.store.people import ALPHABET

HEADER = "X-Request-Id"
BEGAN = "shuntbook.began"
"""Where the environ of a request says when its first byte came, by time.perf_counter."""
GOOD_ID = re.compile(r"[\w.-]{8,64}", re.ASCII)
# A join code, or anything as long as a token, that somebody put into a path by mistake; a photo's digest may stay.
_CODE = "-".join([f"[{ALPHABET}]{{4}}"] * 3)
_SECRET = re.compile(
    rf"(?<![\w-])(?:{_CODE}|(?![0-9a-f]{{64}}(?![\w-]))[\w-]{{40,}})(?![\w-])", re.ASCII | re.IGNORECASE
)
_requests = logging.getLogger("shuntbook.request")


class JsonLines(logging.Formatter):
    """Writes a record as one line of JSON: time (UTC), level, logger, message, and the record's `fields`."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the line."""
        time_of = datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds")
        fields: dict[str, Any] = {
            "time": time_of.replace("+00:00", "Z"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage(),
            **getattr(record, "fields", {}),
        }
        if record.exc_info:
            fields["error"] = self.formatException(record.exc_info)
        return json.dumps(fields, ensure_ascii=False, default=str)


def logging_config(level: str) -> dict[str, Any]:
    """Return what `logging.config.dictConfig` takes: our own lines and Granian's, as JSON on stderr."""
    ours = {"handlers": ["stderr"], "level": level.upper(), "propagate": False}
    return {
        "version": 1,
        "disable_existing_loggers": False,
        "formatters": {"json": {"()": JsonLines}},
        "handlers": {
            "stderr": {
                "class": "logging.StreamHandler",
                "formatter": "json",
                "stream": "ext://sys.stderr",
            }
        },
        "loggers": {"shuntbook": dict(ours), "_granian": dict(ours)},
    }


def log_requests(app: Flask) -> None:
    """Give every request an id, which the answer carries, and write a line when it is answered."""
    app.before_request(_begin)
    app.after_request(_answered)


def request_id() -> str:
    """Return the id of the request under way: the caller's own where it is a good one."""
    if "request_id" not in g:
        given = request.headers.get(HEADER, "")
        g.request_id = given if GOOD_ID.fullmatch(given) else secrets.token_hex(8)
    name: str = g.request_id
    return name


def without_secrets(path: str) -> str:
    """Return a path with what may be a code or a token in it made unreadable."""
    return _SECRET.sub("…", path)


def _begin() -> None:
    g.began = request.environ.get(BEGAN, time.perf_counter())


def _answered(response: Response) -> Response:
    response.headers[HEADER] = request_id()
    fields = {
        "request": request_id(),
        "method": request.method,
        "path": without_secrets(request.path),
        "status": response.status_code,
        "ms": round((time.perf_counter() - g.get("began", time.perf_counter())) * 1000, 1),
        # Of the token; None where the call needs none, or the token is not known.
        "device": g.caller[0].device if "caller" in g else None,
    }
    level = logging.WARNING if response.status_code >= 500 else logging.INFO
    _requests.log(level, "answered", extra={"fields": fields})
    return response

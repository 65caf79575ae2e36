"""Problem details as RFC 9457 has them: type, title, status, detail, and what more helps to fix it."""

from typing import Any

from shuntbook.kit.errors import (
    BadEntry,
    BadKey,
    BadPhoto,
    BadSetup,
    ChangedMeanwhile,
    NotAllowed,
    NotFound,
    NotJoined,
    NotPossible,
    ShuntbookError,
    StoreUnavailable,
    TooMany,
)

TYPE = "https://shuntbook.invalid/problems/"
"""Start of every problem's type: names of this application's own, that nobody looks up (RFC 2606)."""

MEDIA_TYPE = "application/problem+json"

CODES: dict[type[ShuntbookError], tuple[str, int, str]] = {
    BadSetup: ("bad-setup", 422, "The files have faults; nothing was changed"),
    BadKey: ("bad-key", 422, "The phone's key was not taken"),
    NotPossible: ("not-possible", 409, "That cannot be done"),
    TooMany: ("too-many-tries", 429, "Too many tries"),
    BadPhoto: ("bad-photo", 422, "The photo was not taken"),
    ChangedMeanwhile: ("changed-meanwhile", 409, "Somebody else changed it meanwhile"),
    NotFound: ("not-found", 404, "Not held here"),
    NotAllowed: ("not-allowed", 403, "Not for these roles"),
    NotJoined: ("not-joined", 401, "This phone has not joined"),
    StoreUnavailable: ("store-unavailable", 503, "Nothing was stored; try again"),
}
"""Problem code, HTTP status and title of each error."""


def problem(code: str, status: int, title: str, detail: str, **more: Any) -> dict[str, Any]:
    """Return problem details as JSON; the detail is a sentence for the person who reads it."""
    sentence = detail[:1].upper() + detail[1:]
    return {"type": TYPE + code, "title": title, "status": status, "detail": sentence, **more}


def problem_of(error: ShuntbookError) -> dict[str, Any]:
    """Return the problem details of an error raised on purpose."""
    for kind in type(error).__mro__:
        if kind in CODES:
            code, status, title = CODES[kind]
            more = {"faults": [fault.as_json() for fault in error.faults]} if isinstance(error, BadSetup) else {}
            return problem(code, status, title, str(error), **more)
    return problem("error", 500, "Something went wrong", str(error))


def entry_problem(fault: BadEntry) -> dict[str, Any]:
    """Return why one entry goes to review, or why not even that."""
    status = {"conflict": 409, "shut-out": 403, "too-large": 413, "set-aside-full": 507}.get(fault.code, 422)
    title = "The entry was not kept" if status == 507 else "The entry needs review"
    return problem(fault.code, status, title, str(fault), field=fault.field)

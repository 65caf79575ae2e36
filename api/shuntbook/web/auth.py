"""Who is calling: the bearer token of the request, and the store that the app was made with."""

from flask import Flask, current_app, g, request

from shuntbook.flow.members import Member, caller, demand, demand_car, demand_in, demand_sight
from shuntbook.kit.errors import NotJoined
from shuntbook.store.database import Store
from shuntbook.store.people import Device
from shuntbook.web.api import PREFIX
from shuntbook.web.live import News
from shuntbook.wire.sight import ANSWERS


def the_store() -> Store:
    """Return the app's store."""
    store: Store = current_app.extensions["shuntbook.store"]
    return store


def the_news() -> News:
    """Return the app's live news."""
    news: News = current_app.extensions["shuntbook.news"]
    return news


def joined() -> tuple[Device, Member]:
    """Return who calls. Errors: NotJoined."""
    if "caller" not in g:
        g.caller = caller(the_store(), token_of(request.headers.get("Authorization", "")))
    device, who = g.caller
    return device, who


OPEN = {"people.Join", "answers.Health", "api-docs.openapi_json"}
"""Calls of the API that need no token."""


def ask_who_calls_first(app: Flask) -> None:
    """Have every call of the API answered with 401, but for the open ones, before its body is looked at."""

    @app.before_request
    def ask() -> None:
        if request.path.startswith(f"{PREFIX}/") and request.endpoint not in {None, *OPEN}:
            joined()


def token_of(authorization: str) -> str:
    """Return the token of an `Authorization` header. Errors: NotJoined."""
    scheme, _, token = authorization.partition(" ")
    if scheme.lower() != "bearer" or not token:
        raise NotJoined("the call has no token; open a join link first. Nothing on the phone is lost")
    return token.strip()


def reading(event: str) -> Member:
    """Return who calls, who must be in the event. Errors: NotJoined, NotAllowed."""
    _, who = joined()
    demand_in(who, event)
    return who


def reading_car(event: str, car: str) -> Member:
    """Return who calls, who must be shown that car of the event. Errors: NotJoined, NotAllowed."""
    who = reading(event)
    demand_car(who, event, car)
    return who


def seeing(answer: str, what: str, event: str) -> Member:
    """Return who calls, who must see such an answer of the event (`wire.sight.ANSWERS`). Errors: NotJoined, NotAllowed.

    what: the answer as a refusal names it.
    """
    _, who = joined()
    demand_sight(who, ANSWERS[answer], what, event)
    return who


def managing(what: str, event: str | None = None) -> Member:
    """Return who calls, who must be a manager: of the event, or of any. Errors: NotJoined, NotAllowed."""
    _, who = joined()
    demand(who, "manager", what, event)
    return who

"""Makes the Flask app: a store, the routes, the pages."""

import asyncio
import os
from pathlib import Path

from flask import Flask
from werkzeug.routing import BaseConverter, IntegerConverter

from shuntbook import __version__
from shuntbook.config import PAUSE_VARIABLE, VARIABLE, data_folder
from shuntbook.flow.changes import versions
from shuntbook.flow.members import caller
from shuntbook.kit.heap import share
from shuntbook.store.database import Store
from shuntbook.web import documents, joining, managing, plan_routes, reading, seasons, syncing
from shuntbook.web.api import PREFIX, STRUCTS, make_api
from shuntbook.web.auth import ask_who_calls_first, token_of
from shuntbook.web.edge import Edge, refuse_at_the_edge
from shuntbook.web.errors import handle_errors
from shuntbook.web.limits import LARGEST, Limits
from shuntbook.web.live import News
from shuntbook.web.logs import log_requests
from shuntbook.web.pages import app_folder, serve_pages
from shuntbook.web.plan_queue import Planner
from shuntbook.web.rate_limit import new_guard
from shuntbook.web.remembered import Memory
from shuntbook.web.stopping import end_with_parent, on_stop
from shuntbook.wire.openapi import describe

CONFIG = {
    "API_TITLE": "Shuntbook",
    "API_VERSION": __version__,
    "OPENAPI_VERSION": "3.1.0",
    "OPENAPI_URL_PREFIX": PREFIX,
    "OPENAPI_JSON_PATH": "openapi.json",
    "MAX_CONTENT_LENGTH": LARGEST,
}


class Regex(BaseConverter):
    """A part of a path that must fit a pattern, such as the 64 hex digits of a photo."""

    # The pages' pattern holds slashes, as in assets/index.js.
    part_isolating = False

    def __init__(self, url_map: object, pattern: str) -> None:
        super().__init__(url_map)  # type: ignore[arg-type]
        self.regex = pattern


class Number(IntegerConverter):
    """A whole number in a path, of as many digits as every database and every program holds exactly."""

    regex = r"\d{1,15}"


def create_app(store: Store, pages: Path | None = None) -> Flask:
    """Return the app over a store; `pages` is the folder of the built app."""
    app = Flask("shuntbook", static_folder=None)
    app.config.update(CONFIG)
    app.url_map.converters |= {"regex": Regex, "int": Number}
    put_over(app, store)
    log_requests(app)
    refuse_at_the_edge(app)
    ask_who_calls_first(app)
    api = make_api()
    api.init_app(app)
    for module in (joining, syncing, reading, documents, plan_routes, managing, seasons):
        api.register_blueprint(module.routes)
    describe(api.spec, STRUCTS)
    handle_errors(app)
    serve_pages(app, pages or app_folder())
    return app


def put_over(app: Flask, store: Store) -> None:
    """Put the app over a store: all that it holds between requests is made new."""
    app.extensions["shuntbook.store"] = store
    app.extensions["shuntbook.news"] = news = News(lambda: versions(store)._asdict())
    app.extensions["shuntbook.memory"] = Memory()
    app.extensions["shuntbook.guard"] = new_guard()
    app.extensions["shuntbook.planner"] = Planner(store, news)


def from_environment() -> Edge:
    """Return the edge and the app behind it, over the data folder that SHUNTBOOK_DATA names: what a server runs."""
    share()
    store = Store(data_folder(Path(os.environ[VARIABLE])))
    app = create_app(store)
    news: News = app.extensions["shuntbook.news"]
    edge = Edge(app, news, lambda authorization: caller(store, token_of(authorization)), _limits())
    end_with_parent()
    # Once the server's loop runs: it takes the signals for itself before that.
    acts = (news.close, app.extensions["shuntbook.planner"].stop)
    asyncio.get_event_loop().call_soon(on_stop, *acts)
    return edge


def _limits() -> Limits:
    pause = os.environ.get(PAUSE_VARIABLE)
    return Limits(pause_s=float(pause)) if pause else Limits()

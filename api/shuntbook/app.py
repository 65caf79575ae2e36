"""Makes the Flask app: a store, the routes, the pages."""

import os
from pathlib import Path

from flask import Flask
from werkzeug.routing import BaseConverter

from shuntbook import __version__
from shuntbook.config import VARIABLE, data_folder
from shuntbook.report.photo import MAX_BYTES
from shuntbook.store.database import Store
from shuntbook.web import documents, logging_in, managing, planning, reading, seasons, syncing
from shuntbook.web.api import PREFIX, make_api
from shuntbook.web.errors import handle_errors
from shuntbook.web.guard import new_guard
from shuntbook.web.live import News
from shuntbook.web.logs import log_requests
from shuntbook.web.pages import app_folder, serve_pages
from shuntbook.web.planner import Planner
from shuntbook.web.stopping import end_with_parent, on_stop
from shuntbook.wire.openapi import describe

CONFIG = {
    "API_TITLE": "Shuntbook",
    "API_VERSION": __version__,
    "OPENAPI_VERSION": "3.1.0",
    "OPENAPI_URL_PREFIX": PREFIX,
    "OPENAPI_JSON_PATH": "openapi.json",
    # A photo is the largest body; a full batch of 500 entries has 8 MiB at most.
    "MAX_CONTENT_LENGTH": MAX_BYTES + 1024,
}


class Regex(BaseConverter):
    """A part of a path that must fit a pattern, such as the 64 hex digits of a photo."""

    # The pages' pattern holds slashes, as in assets/index.js.
    part_isolating = False

    def __init__(self, url_map: object, pattern: str) -> None:
        super().__init__(url_map)  # type: ignore[arg-type]
        self.regex = pattern


def create_app(store: Store, pages: Path | None = None) -> Flask:
    """Return the app over a store; `pages` is the folder of the built app."""
    app = Flask("shuntbook", static_folder=None)
    app.config.update(CONFIG)
    app.url_map.converters["regex"] = Regex
    put_over(app, store)
    log_requests(app)
    api = make_api()
    api.init_app(app)
    for module in (logging_in, syncing, reading, documents, planning, managing, seasons):
        api.register_blueprint(module.routes)
    describe(api.spec)
    handle_errors(app)
    serve_pages(app, pages or app_folder())
    return app


def put_over(app: Flask, store: Store) -> None:
    """Put the app over a store: all that it holds between requests is made new."""
    app.extensions["shuntbook.store"] = store
    app.extensions["shuntbook.news"] = news = News()
    app.extensions["shuntbook.guard"] = new_guard()
    app.extensions["shuntbook.planner"] = Planner(store, news)


def from_environment() -> Flask:
    """Return the app over the data folder that SHUNTBOOK_DATA names; how the server process makes it."""
    app = create_app(Store(data_folder(Path(os.environ[VARIABLE]))))
    end_with_parent()
    on_stop(app.extensions["shuntbook.news"].close, app.extensions["shuntbook.planner"].stop)
    return app

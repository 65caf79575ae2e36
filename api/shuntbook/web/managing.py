"""Routes for the manager: set-ups, rate tables, what was set aside."""

from typing import Any

from flask import Response
from flask.views import MethodView

from shuntbook.flow import uploads
from shuntbook.flow.clock import now
from shuntbook.store import aside
from shuntbook.web.api import SECURED, answers_problem, blueprint, json_response
from shuntbook.web.callers import managing, the_news, the_store
from shuntbook.wire.common import FilesSchema
from shuntbook.wire.people_schemas import AsideSchema, ReviewSchema
from shuntbook.wire.setup_schemas import RatesTakenSchema, SetupTakenSchema

routes = blueprint("manager", "Set-ups, rate tables, what was set aside")


def _bytes(files: dict[str, str]) -> dict[str, bytes]:
    return {name: text.encode() for name, text in files.items()}


@routes.route("/rates")
class Rates(MethodView):
    """Rate tables."""

    @routes.doc(**SECURED)
    @routes.arguments(FilesSchema)
    @routes.response(200, RatesTakenSchema)
    @answers_problem(routes, 401, 403, 422, 503)
    def put(self, body: dict[str, Any]) -> Response:
        """Put a rate table in force for every event held; every fault is named, all or nothing."""
        managing("The rate table")
        version, events = uploads.put_rates(the_store(), _bytes(body["files"]))
        the_news().tell()
        return json_response({"rates": version, "events": events})


@routes.route("/events/<string:event>")
class Events(MethodView):
    """Event set-ups."""

    @routes.doc(**SECURED)
    @routes.arguments(FilesSchema)
    @routes.response(200, SetupTakenSchema)
    @answers_problem(routes, 401, 403, 422, 503)
    def put(self, body: dict[str, Any], event: str) -> Response:
        """Put an event's set-up files in force (event.toml, rates/…, van.csv, car_map.toml); all or nothing."""
        managing("The set-up")
        setup = uploads.put_setup(the_store(), event, _bytes(body["files"]))
        the_news().tell()
        return json_response({"event": event, "rates": setup.rates.version})


@routes.route("/set-aside")
class SetAside(MethodView):
    """What was set aside."""

    @routes.doc(**SECURED)
    @routes.response(200, AsideSchema(many=True))
    @answers_problem(routes, 401, 403)
    def get(self) -> Response:
        """List the entries that were set aside, byte for byte, with the reasons."""
        managing("The list of what was set aside")
        return json_response(aside.listing(the_store().db))


@routes.route("/set-aside/<regex('[0-9a-f]{64}'):digest>/review")
class Review(MethodView):
    """A manager's look at what was set aside."""

    @routes.doc(**SECURED)
    @routes.arguments(ReviewSchema)
    @routes.response(204)
    @answers_problem(routes, 401, 403, 404, 422)
    def post(self, body: dict[str, Any], digest: str) -> Response:
        """Note that a manager has looked, with a reason; the entry stays kept, the hold it caused ends."""
        who = managing("Looking through what was set aside")
        with the_store().write() as db:
            aside.review(db, digest, who.person, body["reason"], now())
        the_news().tell()
        return Response(status=204)

"""Routes for what the crew and the manager read: queue, release, costs, health."""

from collections.abc import Callable

from flask import Response, request
from flask.views import MethodView

from shuntbook.cost import answer as cost_answers
from shuntbook.cost import statement_answer as statement_answers
from shuntbook.cost.table import costs_csv
from shuntbook.flow import answers
from shuntbook.flow.clock import now
from shuntbook.flow.health import Health as HealthAnswer
from shuntbook.flow.health import health
from shuntbook.flow.lives import lives
from shuntbook.flow.members import Member
from shuntbook.kit.canonical import json_text, sha256
from shuntbook.lives import answer as lives_answers
from shuntbook.queue import answer as queue_answers
from shuntbook.queue import passes as pass_answers
from shuntbook.store.database import Store
from shuntbook.web.api import (
    SECURED,
    answers_problem,
    answers_with,
    blueprint,
    in_query,
    is_held,
    json_response,
    not_modified,
)
from shuntbook.web.auth import reading_car, seeing, the_store
from shuntbook.web.remembered import the_memory, version_now
from shuntbook.wire.sight import Sight, queue_seen

routes = blueprint("answers", "What follows from the log")

CAR_PARAMETER = {"in": "query", "name": "car", "schema": {"type": "string"}, "description": "only this car"}


def _by_hash(
    made: Callable[[Store, str, str], queue_answers.Queue | queue_answers.Release], who: Member, event: str, car: str
) -> Response:
    """Answer with what has the queue's hash; whoever holds it already is told so before anything is made."""
    sees = who.sees_at(event)
    hashes, key = the_memory().hashes, (version_now(event), car, sees.may(Sight.CREW))
    known = hashes.get(key)
    if known is not None and is_held(known):
        return not_modified(known)
    answer = made(the_store(), event, car)
    if sees.may(Sight.CREW):
        return json_response(answer, etag=hashes.put(key, answer.hash))
    less = queue_seen(answer, sees)
    return json_response(less, etag=hashes.put(key, less["hash"]))


def _by_version(what: tuple[str | None, ...], event: str, made: Callable[[], object]) -> Response:
    """Answer with what was made of this version before, by a tag that needs no answer made."""
    sheets, key = the_memory().sheets, (*what, version_now(event))
    etag = sha256(repr(key).encode())
    body = sheets.get(key)
    if not request.if_none_match.star_tag and is_held(etag):
        return not_modified(etag, kept=False)
    # Money is kept by no browser.
    body = sheets.put(key, json_text(made()).encode()) if body is None else body
    return json_response(body, etag=etag, kept=False)


@routes.route("/events/<string:event>/cars/<string:car>/queue")
class Queue(MethodView):
    """Queue."""

    @routes.doc(**SECURED)
    @answers_with(routes, queue_answers.Queue)
    @answers_problem(routes, 401, 404)
    def get(self, event: str, car: str) -> Response:
        """Return the repair queue of a car; its ETag is the queue's hash."""
        return _by_hash(answers.queue, reading_car(event, car), event, car)


@routes.route("/events/<string:event>/cars/<string:car>/release")
class Release(MethodView):
    """Release."""

    @routes.doc(**SECURED)
    @answers_with(routes, queue_answers.Release)
    @answers_problem(routes, 401, 404)
    def get(self, event: str, car: str) -> Response:
        """Return what the log says about letting a car go."""
        return _by_hash(answers.release, reading_car(event, car), event, car)


@routes.route("/events/<string:event>/cars/<string:car>/lives")
class Lives(MethodView):
    """Parts with a life."""

    @routes.doc(**SECURED)
    @answers_with(routes, lives_answers.Lives)
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str, car: str) -> Response:
        """Return the parts of a car that have a life: what of it is used, and what is due at this event."""
        who = seeing("lives", "Parts with a life", event)
        return json_response(lives(the_store(), event, car, who.events))


@routes.route("/events/<string:event>/cars/<string:car>/passes")
class Passes(MethodView):
    """Passes that do not count."""

    @routes.doc(**SECURED)
    @answers_with(routes, pass_answers.Passes)
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str, car: str) -> Response:
        """Return the inspections signed as passed that cover less than they name, each with the reasons."""
        seeing("passes", "Reading which inspections do not count", event)
        return json_response(answers.passes(the_store(), event, car))


@routes.route("/events/<string:event>/costs")
@routes.route("/events/<string:event>/costs.json", endpoint="CostsJson")
class Costs(MethodView):
    """Costs."""

    @routes.doc(**SECURED, parameters=[CAR_PARAMETER])
    @answers_with(routes, cost_answers.Costs)
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str) -> Response:
        """Return the cost sheet of an event, or of one car."""
        seeing("costs", "The cost sheet", event)
        car, rates = in_query("car"), in_query("rates")
        store, memory = the_store(), the_memory().costs
        return _by_version(("costs", car, rates), event, lambda: answers.costs(store, event, car, rates, memory))


@routes.route("/events/<string:event>/costs.csv")
class CostsCsv(MethodView):
    """Costs as a table."""

    @routes.doc(
        **SECURED,
        parameters=[CAR_PARAMETER],
        responses={
            "200": {"description": "CSV (RFC 4180)", "content": {"text/csv": {"schema": {"type": "string"}}}},
        },
    )
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str) -> Response:
        """Return the lines of the cost sheet as CSV."""
        seeing("costs", "The cost sheet", event)
        table = costs_csv(answers.costs(the_store(), event, in_query("car"), in_query("rates")))
        headers = {"Content-Disposition": 'attachment; filename="costs.csv"'}
        return Response(table, content_type="text/csv; charset=utf-8", headers=headers)


@routes.route("/events/<string:event>/cars/<string:car>/statements")
class Statements(MethodView):
    """Statements."""

    @routes.doc(**SECURED)
    @answers_with(routes, statement_answers.Statements)
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str, car: str) -> Response:
        """Return what the customer of a car is charged under the agreement: the draft, and what was issued."""
        seeing("statements", "A statement", event)
        return _by_version(("statements", car), event, lambda: answers.statements(the_store(), event, car))


@routes.route("/health")
class Health(MethodView):
    """Health."""

    @answers_with(routes, HealthAnswer)
    @answers_problem(routes, 503)
    def get(self) -> Response:
        """Return how the server is."""
        return json_response(health(the_store(), now()))

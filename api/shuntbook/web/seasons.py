"""Routes for the manager: observed rates, spares to carry, the season."""

from decimal import Decimal
from typing import Any

from flask import Response
from flask.views import MethodView

from shuntbook.flow import seasons
from shuntbook.season import observed as observed_answers
from shuntbook.season import season as season_answers
from shuntbook.season import spares as spares_answers
from shuntbook.season import timed as timed_answers
from shuntbook.web.api import SECURED, answers_problem, answers_with, blueprint, json_response
from shuntbook.web.auth import managing, seeing, the_news, the_store
from shuntbook.wire.season_schemas import AcceptSchema, SparesAskedSchema

routes = blueprint("season", "What a season teaches")


@routes.route("/events/<string:event>/rates/observed")
class Observed(MethodView):
    """Observed rates."""

    @routes.doc(**SECURED)
    @answers_with(routes, observed_answers.Observed)
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str) -> Response:
        """Return what the timed jobs of all events held say of this event's rate table."""
        who = seeing("rates.observed", "Observed rates", event)
        return json_response(seasons.observed(the_store(), event, who.managed))


@routes.route("/rates/accept")
class Accept(MethodView):
    """Accepted suggestions."""

    @routes.doc(**SECURED)
    @routes.arguments(AcceptSchema)
    @answers_with(routes, timed_answers.Accepted)
    @answers_problem(routes, 401, 403, 409, 422, 503)
    def post(self, body: dict[str, Any]) -> Response:
        """Put suggested minutes in force; refused where the table has changed since they were shown."""
        who = managing("The rate table")
        operations = [timed_answers.OperationName(**one) for one in body["operations"]]
        accepted = seasons.accept(the_store(), body["rates"], operations, who.managed)
        the_news().notify()
        return json_response(accepted)


@routes.route("/events/<string:event>/spares")
class Spares(MethodView):
    """Spares to carry."""

    @routes.doc(**SECURED)
    @routes.arguments(SparesAskedSchema, location="query")
    @answers_with(routes, spares_answers.Spares)
    @answers_problem(routes, 401, 403, 404, 409, 422)
    def get(self, asked: dict[str, Any], event: str) -> Response:
        """Return the stock of each part that covers 90, 95 and 99 % of such events, and a shopping list."""
        who = seeing("spares", "What to carry", event)
        km = asked.get("km")
        wanted = seasons.Wanted(None if km is None else Decimal(str(km)), asked.get("cars"), asked["cover"])
        return json_response(seasons.spares(the_store(), event, wanted, who.managed))


@routes.route("/season")
class Season(MethodView):
    """The season."""

    @routes.doc(**SECURED)
    @answers_with(routes, season_answers.Season)
    @answers_problem(routes, 401, 403)
    def get(self) -> Response:
        """Return the damage of each event held, and estimate against actual minutes of each operation."""
        return json_response(seasons.season(the_store(), managing("The season").managed))

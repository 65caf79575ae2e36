"""Route of the service plan."""

from typing import Any

from flask import Response, current_app
from flask.views import MethodView

from shuntbook.flow.planning import away_of
from shuntbook.flow.team import TeamPlanRequest
from shuntbook.plan import told as plan_answers
from shuntbook.plan.context import PlanRequest, shown_of
from shuntbook.plan.team_context import shown_team
from shuntbook.web.api import SECURED, answers_problem, answers_with, blueprint, json_response
from shuntbook.web.auth import seeing
from shuntbook.web.plan_questions import OfCar, OfTeam
from shuntbook.web.plan_queue import Planner
from shuntbook.wire.plan_schemas import PlanRequestSchema, TeamPlanRequestSchema

routes = blueprint("plan", "What fits a service, by whom, in what order")


@routes.route("/events/<string:event>/cars/<string:car>/plan")
class Plan(MethodView):
    """Plan."""

    @routes.doc(**SECURED)
    @routes.arguments(PlanRequestSchema)
    @answers_with(routes, plan_answers.Plan)
    @answers_problem(routes, 401, 403, 404, 409, 422)
    def post(self, body: dict[str, Any], event: str, car: str) -> Response:
        """Plan a service; the plan made at once where the solver is still at work (`by` says which)."""
        seeing("plan", "Planning", event)
        planner: Planner = current_app.extensions["shuntbook.planner"]
        wish = PlanRequest(
            service=body["service"],
            mechanics=body.get("mechanics"),
            minutes=body.get("minutes"),
            away=away_of(body.get("away")),
            at=body.get("at"),
            ready_by=body.get("ready_by"),
            on_time_percent=body.get("on_time_percent"),
            previous=shown_of(body.get("previous")),
        )
        return json_response(planner.plan(OfCar(event, car, wish)))


@routes.route("/events/<string:event>/plan")
class TeamPlan(MethodView):
    """Plan of several cars."""

    @routes.doc(**SECURED)
    @routes.arguments(TeamPlanRequestSchema)
    @answers_with(routes, plan_answers.TeamPlan)
    @answers_problem(routes, 401, 403, 404, 409, 422)
    def post(self, body: dict[str, Any], event: str) -> Response:
        """Plan several cars whose services overlap, with the same people, stands and tools; `by` as for one."""
        seeing("plan", "Planning", event)
        planner: Planner = current_app.extensions["shuntbook.planner"]
        visits = tuple((visit["car"], visit["service"]) for visit in body["visits"])
        wish = TeamPlanRequest(
            visits=visits,
            mechanics=body.get("mechanics"),
            away=away_of(body.get("away")),
            at=body.get("at"),
            on_time_percent=body.get("on_time_percent"),
            previous=shown_team(body.get("previous")),
        )
        return json_response(planner.plan(OfTeam(event, wish)))

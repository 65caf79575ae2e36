"""Routes for joining, inviting and shutting out."""

from typing import Any

from flask import Response, request
from flask.views import MethodView

from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.joining import join_link
from shuntbook.kit.errors import NotFound
from shuntbook.web.api import SECURED, answers_problem, answers_with, blueprint, json_response
from shuntbook.web.auth import managing, the_store
from shuntbook.web.rate_limit import may_try_to_join, wrong_code
from shuntbook.wire.answers import Invited, Joined
from shuntbook.wire.people_schemas import InviteSchema, JoinSchema

routes = blueprint("people", "Who is in, on which phone")


@routes.route("/join")
class Join(MethodView):
    """Joining."""

    @routes.arguments(JoinSchema)
    @answers_with(routes, Joined)
    @answers_problem(routes, 404, 410, 422, 429)
    def post(self, body: dict[str, Any]) -> Response:
        """Redeem a join code for this phone's own token; a code works once."""
        may_try_to_join()
        try:
            device, token, who = joining.join(the_store(), body["code"], body.get("key"), now())
        except NotFound:
            wrong_code()
            raise
        joined = Joined(token, device.device, who.person, who.name, list(who.roles), list(who.events))
        return json_response(joined)


@routes.route("/invites")
class Invites(MethodView):
    """Invites."""

    @routes.doc(**SECURED)
    @routes.arguments(InviteSchema)
    @answers_with(routes, Invited, 201)
    @answers_problem(routes, 401, 403, 404, 422)
    def post(self, body: dict[str, Any]) -> Response:
        """Make a join code for a person."""
        managing("Inviting")
        code = joining.invite(the_store(), body["person"], now())
        return json_response(Invited(code, join_link(request.host_url, code)), 201)


@routes.route("/devices/<string:device>")
class Devices(MethodView):
    """Devices."""

    @routes.doc(**SECURED)
    @routes.response(204)
    @answers_problem(routes, 401, 403, 404)
    def delete(self, device: str) -> Response:
        """Shut a device out; what it wrote up to now counts, what it writes from now on is set aside."""
        managing("Shutting out")
        joining.shut_out(the_store(), device, now())
        return Response(status=204)

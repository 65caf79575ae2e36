"""Routes for joining, inviting and blocking."""

from typing import Any

from flask import Response, request
from flask.views import MethodView

from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.joining import join_link
from shuntbook.kit.errors import NotFound
from shuntbook.web.api import SECURED, answers_problem, answers_with, blueprint, json_response
from shuntbook.web.auth import joined, managing, the_news, the_store
from shuntbook.web.rate_limit import may_try_to_join, wrong_code
from shuntbook.wire.answers import Invited, Joined
from shuntbook.wire.people_schemas import InviteSchema, JoinSchema, KeySchema

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
            device, token, who = joining.join(
                the_store(), body["code"], body.get("key"), now(), body.get("second_key"), body["beside"]
            )
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
        """Make a join code for a person of an event that the caller manages; an owner, for anybody.

        One for somebody who has a device already is told to everybody of the person's events.
        """
        who = managing("Inviting")
        code = joining.invite(the_store(), body["person"], now(), who)
        the_news().notify()
        return json_response(Invited(code, join_link(request.host_url, code)), 201)


@routes.route("/second-key")
class SecondKey(MethodView):
    """The key of a PIN."""

    @routes.doc(**SECURED)
    @routes.arguments(KeySchema)
    @routes.response(204)
    @answers_problem(routes, 401, 409, 422)
    def put(self, body: dict[str, Any]) -> Response:
        """Keep the key that only the caller's PIN unlocks, just after joining; it is never replaced."""
        device, _ = joined()
        joining.put_second_key(the_store(), device.device, body, now())
        the_news().notify()
        return Response(status=204)


@routes.route("/invites/<int:invite>/known")
class KnownInvite(MethodView):
    """An invite that is known to its person."""

    @routes.doc(**SECURED)
    @routes.response(204)
    @answers_problem(routes, 401, 403, 404)
    def post(self, invite: int) -> Response:
        """Say that an invite for a person who had a device is known: that person on that device, or an owner."""
        device, who = joined()
        joining.know_invite(the_store(), invite, now(), who, device.device)
        the_news().notify()
        return Response(status=204)


@routes.route("/devices/<string:device>")
class Devices(MethodView):
    """Devices."""

    @routes.doc(**SECURED)
    @routes.response(204)
    @answers_problem(routes, 401, 403, 404)
    def delete(self, device: str) -> Response:
        """Block a device; what it wrote up to now counts, what it writes from now on goes to review."""
        joining.shut_out(the_store(), device, now(), managing("Blocking"))
        the_news().notify()
        return Response(status=204)

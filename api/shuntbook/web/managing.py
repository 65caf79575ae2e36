"""Routes for the manager: set-ups, rate tables, what needs review."""

from typing import Any

from flask import Response
from flask.views import MethodView

from shuntbook.flow import rebuilding, review, uploads
from shuntbook.flow.clock import now
from shuntbook.flow.sample import sample_files
from shuntbook.kit.canonical import plain, sha256
from shuntbook.setup.defaults import of_first
from shuntbook.setup.writing import cell_file, written
from shuntbook.store import keys, quarantine_review, setups
from shuntbook.store.keys import DeviceKey
from shuntbook.web.api import SECURED, answers_problem, answers_with, blueprint, json_response
from shuntbook.web.auth import joined, managing, seeing, the_news, the_store
from shuntbook.wire.answers import DevicesTaken, GroupLeftOut
from shuntbook.wire.common import FilesSchema
from shuntbook.wire.people_schemas import DevicesSchema, GroupReviewSchema, ReviewSchema
from shuntbook.wire.setup_schemas import (
    CheckFilesSchema,
    FilesCheckedSchema,
    RatesTakenSchema,
    SetupFilesSchema,
    SetupTakenSchema,
)

routes = blueprint("manager", "Set-ups, rate tables, what needs review")


def _bytes(files: dict[str, str]) -> dict[str, bytes]:
    return {name: text.encode() for name, text in files.items()}


def _sent(body: dict[str, Any]) -> dict[str, bytes]:
    """Return the files that a body brings: as text, or as cells that are written here. Errors: BadSetup."""
    cells = {name: written(name, cell_file(sent)) for name, sent in body.get("cells", {}).items()}
    return _bytes(body["files"]) | cells


@routes.route("/rates")
class Rates(MethodView):
    """Rate tables."""

    @routes.doc(**SECURED)
    @routes.arguments(FilesSchema)
    @routes.response(200, RatesTakenSchema)
    @answers_problem(routes, 401, 403, 422, 503)
    def put(self, body: dict[str, Any]) -> Response:
        """Put a rate table in force for every event that the caller manages; every fault is named, all or nothing."""
        who = managing("The rate table")
        version, events = uploads.put_rates(the_store(), _bytes(body["files"]), who.managed)
        the_news().notify()
        return json_response({"rates": version, "events": events})


@routes.route("/events/<string:event>")
class Events(MethodView):
    """Event set-ups."""

    @routes.doc(**SECURED)
    @routes.arguments(SetupFilesSchema)
    @routes.response(200, SetupTakenSchema)
    @answers_problem(routes, 401, 403, 409, 422, 503)
    def put(self, body: dict[str, Any], event: str) -> Response:
        """Put an event's set-up files in force (event.toml, rates/…, van.csv, car_map.toml); all or nothing.

        With the `version` that was edited ("" for a new event) it is refused where another one is in force by now.
        """
        who = managing("The set-up", event)
        files = _sent(body)
        setup = uploads.put_setup(the_store(), event, files, now(), body.get("trusted"), body.get("version"), who)
        the_news().notify()
        return json_response({"event": event, "rates": setup.rates.version})


@routes.route("/set-aside")
class SetAside(MethodView):
    """What needs review."""

    @routes.doc(**SECURED)
    @answers_with(routes, quarantine_review.Aside, many=True)
    @answers_problem(routes, 401, 403)
    def get(self) -> Response:
        """List what needs review, byte for byte, with the reasons; of a device the oldest 20 that wait."""
        who = managing("The list of what needs review")
        return json_response(quarantine_review.listing(the_store().db, who.unmanaged))


@routes.route("/set-aside/groups")
class SetAsideGroups(MethodView):
    """What needs review, by who brought it."""

    @routes.doc(**SECURED)
    @answers_with(routes, quarantine_review.AsideGroup, many=True)
    @answers_problem(routes, 401, 403)
    def get(self) -> Response:
        """Say how much waits of each who brought it, most first."""
        who = managing("The list of what needs review")
        with the_store().read() as db:
            return json_response(quarantine_review.groups(db, who.unmanaged))

    @routes.doc(**SECURED)
    @routes.arguments(GroupReviewSchema)
    @answers_with(routes, GroupLeftOut)
    @answers_problem(routes, 401, 403, 404, 422)
    def post(self, body: dict[str, Any]) -> Response:
        """Leave out all that waits of one who brought it, with a reason: one decision. Its bytes stay kept."""
        who = managing("Reviewing entries")
        count = review.leave_out_group(the_store(), body["brought_by"], body["upto"], body["reason"], now(), who)
        the_news().notify()
        return json_response(GroupLeftOut(count))


@routes.route("/set-aside/<regex('[0-9a-f]{64}'):digest>/review")
class Review(MethodView):
    """A manager's decision on what needs review."""

    @routes.doc(**SECURED)
    @routes.arguments(ReviewSchema)
    @routes.response(204)
    @answers_problem(routes, 401, 403, 404, 409, 422)
    def post(self, body: dict[str, Any], digest: str) -> Response:
        """Decide on it with a reason: accepted into the log, or discarded. Its bytes stay kept; the hold ends."""
        who = managing("Reviewing entries")
        review.review(the_store(), digest, body["verdict"], body["reason"], now(), who)
        the_news().notify()
        return Response(status=204)


@routes.route("/sample")
class Sample(MethodView):
    """The sample event as a pattern."""

    @routes.doc(**SECURED)
    @routes.response(200, FilesSchema)
    @answers_problem(routes, 401, 403)
    def get(self) -> Response:
        """Return the set-up files of the event that ships with the package; its rates/ are the package's rate table."""
        managing("The sample's set-up")
        return json_response({"files": sample_files()})


@routes.route("/events/<string:event>/files")
class Files(MethodView):
    """The files of an event's set-up."""

    @routes.doc(**SECURED)
    @routes.response(200, SetupFilesSchema)
    @answers_problem(routes, 401, 403, 404)
    def get(self, event: str) -> Response:
        """Return the set-up's files, so that a manager's phone can bring them to a new server."""
        seeing("files", "The set-up's files", event)
        with the_store().read() as db:
            setups.get(db, event)
            version = setups.in_force(db, event) or ""
            held = setups.files_of(db, event, version)
            car_map, looks = of_first(held)
            answer = {
                "files": {name: data.decode() for name, data in held.items()},
                "trusted": keys.trusted_of(db, event),
                "earlier": {"car_map": car_map, "looks": looks},
            }
        etag = sha256(plain(answer))
        return json_response({"version": version, **answer}, etag=etag)


@routes.route("/events/<string:event>/files/check")
class FilesCheck(MethodView):
    """A look at files before they are in force."""

    @routes.doc(**SECURED)
    @routes.arguments(CheckFilesSchema)
    @routes.response(200, FilesCheckedSchema)
    @answers_problem(routes, 401, 403, 404, 422)
    def post(self, body: dict[str, Any], event: str) -> Response:
        """Name every fault of set-up files, or what they would change; the event need not be held, nothing is kept."""
        managing("The set-up", event)
        against, edited = body.get("against"), body.get("version")
        if against is not None:
            managing("The set-up", against)
        return json_response(uploads.check_setup(the_store(), event, lambda: _sent(body), against, edited))


@routes.route("/devices")
class DeviceKeys(MethodView):
    """Devices of a server that was lost."""

    @routes.doc(**SECURED)
    @routes.arguments(DevicesSchema)
    @answers_with(routes, DevicesTaken)
    @answers_problem(routes, 401, 403, 409, 422, 503)
    def put(self, body: dict[str, Any]) -> Response:
        """Bring devices and their public keys in a rebuild; a key that is known is never replaced.

        Without a rebuild a block of a device that is known here is taken, nothing else.
        """
        who = managing("Bringing devices")
        devices = [DeviceKey(**device) for device in body["devices"]]
        believed = uploads.put_devices(the_store(), devices, now(), who)
        the_news().notify()
        return json_response(DevicesTaken(len(devices), believed))


@routes.route("/rebuild")
class RebuildState(MethodView):
    """Whether a log that was lost is being rebuilt."""

    @routes.doc(**SECURED)
    @answers_with(routes, rebuilding.Rebuild)
    @answers_problem(routes, 401)
    def get(self) -> Response:
        """Return whether a rebuild is under way, and what was taken on a manager's word in it."""
        joined()
        return json_response(rebuilding.rebuild_answer(the_store()))

    @routes.doc(**SECURED)
    @routes.response(204)
    @answers_problem(routes, 401, 403, 409)
    def delete(self) -> Response:
        """End the rebuild, for an owner: from then on nothing counts that its author did not sign."""
        _, who = joined()
        rebuilding.end(the_store(), who, now())
        the_news().notify()
        return Response(status=204)

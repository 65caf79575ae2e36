"""Routes for what phones send and fetch: entries, photos, set-up, news."""

from typing import Any

import msgspec
from flask import Response, request
from flask.views import MethodView
from msgspec import Raw
from werkzeug.exceptions import RequestEntityTooLarge

from shuntbook.flow import ingest, uploads
from shuntbook.flow.changes import setup_version
from shuntbook.flow.clock import now, skew_s
from shuntbook.flow.seen import seen_by
from shuntbook.kit.errors import NotFound
from shuntbook.store import photos
from shuntbook.web.api import SECURED, answers_problem, answers_with, blueprint, json_response, no_json, schema_of
from shuntbook.web.auth import joined, the_news, the_store
from shuntbook.web.live import DEVICE, STREAM
from shuntbook.wire.answers import ChangedCar, Photo, Rejected, SyncAnswer, SyncRequest
from shuntbook.wire.batch import NoBatch, TooManyEntries, read_batch
from shuntbook.wire.problems import entry_problem
from shuntbook.wire.setup_schemas import SetupSchema
from shuntbook.wire.withheld import Withheld, WithheldHead

routes = blueprint("sync", "Entries, photos and set-up, for phones")
# Described by name: an answer's list of entries refers to it.
schema_of(Withheld)
schema_of(WithheldHead)

SHA256 = "<regex('[0-9a-f]{64}'):digest>"


SYNC_DOC: dict[str, Any] = {
    "requestBody": {"required": True, "content": {"application/json": {"schema": schema_of(SyncRequest)}}}
}


@routes.route("/sync")
class Sync(MethodView):
    """Sync."""

    @routes.doc(**SECURED, **SYNC_DOC)
    @answers_with(routes, SyncAnswer)
    @answers_problem(routes, 400, 401, 413, 503)
    def post(self) -> Response:
        """Send entries and get those of others; idempotent by entry id."""
        device, who = joined()
        sent, entries = _batch()
        time = now()
        skew = skew_s(sent.now, time)
        heads = sent.heads or _is_browser()
        batch = ingest.Batch(entries, sent.cursor, sent.log_id, device.device, time, skew, who.sees, sent.lacks, heads)
        taken = ingest.ingest(the_store(), batch)
        if taken.added or taken.rejected:
            the_news().notify()
        return json_response(_answer(taken))


def _is_browser() -> bool:
    """Return whether this is an app, if it asks for heads or not: one of 0.1 does not, and takes nothing else."""
    return request.headers.get("User-Agent", "").startswith("Mozilla/")


def _batch() -> tuple[SyncRequest, list[bytes]]:
    try:
        return read_batch(request.get_data(cache=False))
    except TooManyEntries as error:
        raise RequestEntityTooLarge(str(error)) from error
    except NoBatch as error:
        raise no_json(error) from error


def _answer(taken: ingest.SyncResult) -> bytes:
    return msgspec.json.encode(
        SyncAnswer(
            log_id=taken.log_id,
            cursor=taken.cursor,
            accepted=taken.accepted,
            rejected=[Rejected(name, entry_problem(fault)) for name, fault in taken.rejected],
            entries=[Raw(raw) for raw in taken.news],
            more=taken.more,
            setup=taken.setup,
            set_aside=taken.set_aside,
            cars=[ChangedCar(*place) for place in taken.cars],
        )
    )


@routes.route(f"/photos/{SHA256}")
class Photos(MethodView):
    """Photos, and voice notes beside them, named by the SHA-256 of their bytes."""

    @routes.doc(
        **SECURED,
        requestBody={
            "required": True,
            "content": {
                kind: {"schema": {"type": "string", "contentEncoding": "binary"}}
                for kind in ("image/jpeg", "image/png", "image/webp", "audio/webm", "audio/mp4", "audio/ogg")
            },
        },
    )
    @answers_with(routes, Photo, 201)
    @answers_with(routes, Photo)
    @answers_problem(routes, 401, 413, 422, 503)
    def put(self, digest: str) -> Response:
        """Keep a photo; its bytes are checked against the hash in the address."""
        joined()
        picture, new = uploads.put_photo(the_store(), digest, request.get_data(cache=False), now())
        if new:
            the_news().notify()
        return json_response(Photo(digest, picture.width, picture.height), 201 if new else 200)

    @routes.doc(
        **SECURED,
        parameters=[{"in": "query", "name": "width", "schema": {"type": "integer", "minimum": 1, "maximum": 10000}}],
        responses={"200": {"description": "The photo or voice note; of a photo, an upright JPEG of about that width"}},
    )
    @answers_problem(routes, 401, 404)
    def get(self, digest: str) -> Response:
        """Return a photo's bytes, or with ?width= an upright JPEG without EXIF."""
        joined()
        held = photos.find(the_store().db, digest)
        if held is None:
            raise NotFound(f"photo {digest} is not held here; it may still be on the phone that took it")
        width = request.args.get("width", type=int)
        if width is not None:
            return _photo(photos.read_thumbnail(the_store(), digest, width), "image/jpeg")
        return _photo(photos.read(the_store(), digest), held.type)


def _photo(data: bytes, kind: str) -> Response:
    response = Response(data, content_type=kind)
    # Named by their content, so that they never change.
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return response


@routes.route("/setup")
class Setups(MethodView):
    """Set-up."""

    @routes.doc(**SECURED)
    @routes.response(200, SetupSchema)
    @answers_problem(routes, 401)
    def get(self) -> Response:
        """Return events, cars, itinerary, car map, people and rate-table version of the caller's own events."""
        _, who = joined()
        store = the_store()
        with store.read() as db:
            etag = setup_version(db, store.log_id, who.sees)
            answer = {"log_id": store.log_id, **seen_by(db, who)}
        return json_response(answer, etag=etag)


@routes.route("/live")
class Live(MethodView):
    """News."""

    @routes.doc(
        **SECURED,
        responses={
            "200": {
                "description": "Server-sent events named `changed`",
                "content": {"text/event-stream": {"schema": {"type": "string"}}},
            }
        },
    )
    @answers_problem(routes, 401)
    def get(self) -> Response:
        """Say that something changed, never what: a phone then syncs. The edge streams what follows these headers."""
        device, _ = joined()
        request.environ[DEVICE] = device.device
        return Response(content_type=STREAM, headers={"Cache-Control": "no-store"})

"""What the store answers: photos, health, entries set aside in a batch."""

from marshmallow import Schema

from shuntbook.wire.common import ProblemSchema
from shuntbook.wire.fields import count, ids, maybe, nested, one_of, text


class RejectedSchema(Schema):
    """An entry that was set aside, with the reason; id is null where it can't be read."""

    id = maybe()
    problem = nested(ProblemSchema)


class PhotoSchema(Schema):
    """A photo that the server holds; width and height as shown."""

    photo = text()
    width = count()
    height = count()


class HealthSchema(Schema):
    """How the server is."""

    status = one_of(("ok", "degraded"))
    version = text()
    log_id = text()
    entries = count()
    waiting_review = count()
    problems = ids()

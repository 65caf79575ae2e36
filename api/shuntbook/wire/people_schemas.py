"""What joining, inviting and looking through what was set aside take and give."""

from marshmallow import RAISE, Schema, fields, validate

from shuntbook.setup.words import ROLES
from shuntbook.wire.fields import ids, maybe, one_of, text


class JoinSchema(Schema):
    """A join code; it works once."""

    class Meta:
        unknown = RAISE

    code = fields.String(required=True, validate=validate.Length(min=1, max=100))


class JoinedSchema(Schema):
    """Who joined, on which device, with the token for every further call."""

    token = text()
    device = text()
    person = text()
    name = text()
    roles = fields.List(one_of(ROLES), required=True)
    events = ids()


class InviteSchema(Schema):
    """Whom to let in."""

    class Meta:
        unknown = RAISE

    person = fields.String(required=True, validate=validate.Length(min=1, max=200))


class InvitedSchema(Schema):
    """A join code and the link that carries it in its fragment."""

    code = text()
    link = text()


class AsideSchema(Schema):
    """An entry that was set aside, byte for byte, with why."""

    sha256 = text()
    id = maybe()
    event = maybe()
    car = maybe()
    raw = text()
    code = text()
    what = text()
    received_at = text()
    brought_by = maybe()
    reviewed_at = maybe()
    reviewed_by = maybe()
    reason = maybe()


class ReviewSchema(Schema):
    """What a manager made of an entry that was set aside."""

    class Meta:
        unknown = RAISE

    reason = fields.String(required=True, validate=validate.Length(min=1, max=4000))

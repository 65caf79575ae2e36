"""What joining, inviting and reviewing take."""

from marshmallow import EXCLUDE, RAISE, Schema, fields, validate

from shuntbook.wire.fields import count, many, maybe, one_of, text

MOST_SEQ = 2**53 - 1
"""The highest number that JSON of any program holds exactly (RFC 8259, section 6)."""


class KeySchema(Schema):
    """A device's public key, P-256, as a JWK (RFC 7517)."""

    class Meta:
        unknown = EXCLUDE

    kty = one_of(("EC",))
    crv = one_of(("P-256",))
    x = text()
    y = text()


class DeviceSchema(Schema):
    """A device, the person who joined on it, its public keys, when it was blocked and its last number believed.

    second_key: the key that only the person's PIN unlocks.
    """

    class Meta:
        unknown = RAISE

    device = text()
    person = text()
    key = fields.Nested(KeySchema, required=True, allow_none=True)
    shut_out_at = maybe()
    last_seq = fields.Integer(
        strict=True, allow_none=True, load_default=None, validate=validate.Range(min=0, max=MOST_SEQ)
    )
    second_key = fields.Nested(KeySchema, allow_none=True, load_default=None)


class SecondInviteSchema(Schema):
    """An invite for a person who had a device, that nobody said is known; by the machine's owner: invited_by null."""

    invite = count()
    person = text()
    invited_by = maybe()
    at = text()
    device = maybe()


class DevicesSchema(Schema):
    """Devices of a server that was lost."""

    class Meta:
        unknown = RAISE

    devices = many(DeviceSchema)


class JoinSchema(Schema):
    """A join code; it works once. second_key: the key that only the person's PIN unlocks.

    beside: a device of somebody who joined on this phone before; what that was sent, this phone has.
    """

    class Meta:
        unknown = RAISE

    code = fields.String(required=True, validate=validate.Length(min=1, max=100))
    key = fields.Nested(KeySchema, allow_none=True)
    second_key = fields.Nested(KeySchema, allow_none=True)
    beside = fields.String(allow_none=True, load_default=None, validate=validate.Length(max=100))


class InviteSchema(Schema):
    """Whom to let in."""

    class Meta:
        unknown = RAISE

    person = fields.String(required=True, validate=validate.Length(min=1, max=200))


class ReviewSchema(Schema):
    """What a manager made of an entry that went to review."""

    class Meta:
        unknown = RAISE

    verdict = fields.String(load_default="discarded", validate=validate.OneOf(("accepted", "discarded")))
    reason = fields.String(required=True, validate=validate.Length(min=1, max=4000))


class GroupReviewSchema(Schema):
    """What a manager made of all that one device brought; brought_by: null for a file or the machine itself.

    upto: `last_at` of the group as it was shown, so that nothing is decided on that nobody saw counted.
    """

    class Meta:
        unknown = RAISE

    brought_by = fields.String(required=True, allow_none=True)
    upto = fields.String(required=True, validate=validate.Length(min=1, max=64))
    reason = fields.String(required=True, validate=validate.Length(min=1, max=4000))

"""Schemas that several answers share."""

from marshmallow import RAISE, Schema, fields

from shuntbook.wire.fields import count, text


class FaultSchema(Schema):
    """One fault of an uploaded file; index: which table of its header in a TOML file, from 0."""

    file = text()
    row = count()
    column = text()
    what = text()
    index = fields.Integer()


class ProblemSchema(Schema):
    """Problem details (RFC 9457); errors: what is wrong with what was sent, by path."""

    type = text()
    title = text()
    status = count()
    detail = text()
    field = fields.String()
    faults = fields.List(fields.Nested(FaultSchema))
    errors = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))


class FilesSchema(Schema):
    """Files by name, as text."""

    class Meta:
        unknown = RAISE

    files = fields.Dict(keys=fields.String(), values=fields.String(), required=True)

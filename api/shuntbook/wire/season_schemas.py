"""What a manager accepts of suggested rates, and asks of spares to carry."""

from marshmallow import RAISE, Schema, fields, validate

from shuntbook.season.spares import COVERS
from shuntbook.wire.fields import text


class OperationNameSchema(Schema):
    """An operation of the rate table; zone is "" where the row holds in any zone."""

    component = text()
    condition = text()
    action = text()
    zone = text()


class AcceptSchema(Schema):
    """The operations whose suggestions a manager accepts, and the rate table that they were shown for."""

    class Meta:
        unknown = RAISE

    rates = fields.String(required=True, validate=validate.Length(min=1, max=200))
    operations = fields.List(
        fields.Nested(OperationNameSchema(unknown=RAISE)), required=True, validate=validate.Length(min=1, max=2000)
    )


class SparesAskedSchema(Schema):
    """The event to pack for; km and cars default to the event's own."""

    km = fields.Float(validate=validate.Range(min=0, min_inclusive=False, max=5000))
    cars = fields.Integer(validate=validate.Range(min=1, max=50))
    cover = fields.Integer(load_default=95, validate=validate.OneOf(COVERS))

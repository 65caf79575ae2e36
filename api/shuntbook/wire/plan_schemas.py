"""What a plan is asked for by."""

from marshmallow import RAISE, Schema, fields, validate


class PlanRequestSchema(Schema):
    """What is to be planned: a service; the first so many mechanics; minutes instead of the service's own.

    away: from which minute on somebody is there. at: the moment from which the rest is planned around what is under
    way. ready_by: for a car that restarts, in place of a service.
    """

    class Meta:
        unknown = RAISE

    service = fields.String(load_default="", validate=validate.Length(max=200))
    away = fields.Dict(keys=fields.String(), values=fields.Integer(validate=validate.Range(min=0, max=1440)))
    at = fields.AwareDateTime(format="iso", allow_none=True)
    ready_by = fields.AwareDateTime(format="iso", allow_none=True)
    mechanics = fields.Integer(allow_none=True, validate=validate.Range(min=1, max=50))
    minutes = fields.Integer(allow_none=True, validate=validate.Range(min=1, max=1440))


class VisitSchema(Schema):
    """A car and the service that it comes to."""

    class Meta:
        unknown = RAISE

    car = fields.String(required=True, validate=validate.Length(min=1, max=200))
    service = fields.String(required=True, validate=validate.Length(min=1, max=200))


class TeamPlanRequestSchema(Schema):
    """Several cars whose services overlap; the first so many mechanics; who is there from which minute on."""

    class Meta:
        unknown = RAISE

    visits = fields.List(fields.Nested(VisitSchema), required=True, validate=validate.Length(min=1, max=10))
    mechanics = fields.Integer(allow_none=True, validate=validate.Range(min=1, max=50))
    away = fields.Dict(keys=fields.String(), values=fields.Integer(validate=validate.Range(min=0, max=1440)))

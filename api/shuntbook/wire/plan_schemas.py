"""What a plan is asked for by."""

from typing import Any

from marshmallow import EXCLUDE, RAISE, Schema, fields, validate


class WholeNumber(fields.Integer):
    """A whole number; what has a fraction is refused, where marshmallow would cut it off and plan something else."""

    def _validated(self, value: Any) -> int:
        if isinstance(value, float) and not value.is_integer():
            raise self.make_error("invalid", input=value)
        return super()._validated(value)


class ShownTaskSchema(Schema):
    """A task of the plan last shown; what else a plan says of it is not needed."""

    class Meta:
        unknown = EXCLUDE

    task = fields.String(required=True, validate=validate.Length(max=400))
    start_s = WholeNumber(required=True, validate=validate.Range(min=-86_400, max=864_000))
    people = fields.List(
        fields.String(validate=validate.Length(max=200)), required=True, validate=validate.Length(max=50)
    )
    jobs = fields.List(fields.String(validate=validate.Length(max=200)), validate=validate.Length(max=500))


class ShownPlanSchema(Schema):
    """The plan last shown, as the server answered it."""

    class Meta:
        unknown = EXCLUDE

    tasks = fields.List(fields.Nested(ShownTaskSchema), required=True, validate=validate.Length(max=2000))


class PlanRequestSchema(Schema):
    """What is to be planned: a service; the first so many mechanics; minutes instead of the service's own.

    away: from which minute on somebody is there. at: the moment from which the rest is planned around what is under
    way. ready_by: for a car that restarts, in place of a service. on_time_percent: the chance to end in time that is
    kept, 0 for everything; without it the event's own. previous: the plan last shown, which is kept as far as can be.
    """

    class Meta:
        unknown = RAISE

    service = fields.String(load_default="", validate=validate.Length(max=200))
    away = fields.Dict(keys=fields.String(), values=WholeNumber(validate=validate.Range(min=0, max=1440)))
    at = fields.AwareDateTime(format="iso", allow_none=True)
    ready_by = fields.AwareDateTime(format="iso", allow_none=True)
    mechanics = WholeNumber(allow_none=True, validate=validate.Range(min=1, max=50))
    minutes = WholeNumber(allow_none=True, validate=validate.Range(min=1, max=1440))
    on_time_percent = fields.Float(allow_none=True, validate=validate.Range(min=0, max=100))
    previous = fields.Nested(ShownPlanSchema, allow_none=True)


class VisitSchema(Schema):
    """A car and the service that it comes to."""

    class Meta:
        unknown = RAISE

    car = fields.String(required=True, validate=validate.Length(min=1, max=200))
    service = fields.String(required=True, validate=validate.Length(min=1, max=200))


class ShownCarSchema(Schema):
    """A car's part of the team's plan last shown; offset_s: when its clock starts on that of all."""

    class Meta:
        unknown = EXCLUDE

    car = fields.String(required=True, validate=validate.Length(min=1, max=200))
    offset_s = WholeNumber(load_default=0, validate=validate.Range(min=0, max=864_000))
    tasks = fields.List(fields.Nested(ShownTaskSchema), required=True, validate=validate.Length(max=2000))


class ShownTeamSchema(Schema):
    """The team's plan last shown, as the server answered it; without `starts_at` its clock is taken as the same."""

    class Meta:
        unknown = EXCLUDE

    starts_at = fields.AwareDateTime(format="iso", allow_none=True)
    cars = fields.List(fields.Nested(ShownCarSchema), required=True, validate=validate.Length(max=10))


class TeamPlanRequestSchema(Schema):
    """Several cars whose services overlap; the first so many mechanics; who is there from which minute on.

    at: the moment from which the rest is planned around what is under way. on_time_percent: the chance to end in time
    that is kept for each car. previous: the team's plan last shown, which is kept as far as can be.
    """

    class Meta:
        unknown = RAISE

    visits = fields.List(fields.Nested(VisitSchema), required=True, validate=validate.Length(min=1, max=10))
    mechanics = WholeNumber(allow_none=True, validate=validate.Range(min=1, max=50))
    away = fields.Dict(keys=fields.String(), values=WholeNumber(validate=validate.Range(min=0, max=1440)))
    at = fields.AwareDateTime(format="iso", allow_none=True)
    on_time_percent = fields.Float(allow_none=True, validate=validate.Range(min=0, max=100))
    previous = fields.Nested(ShownTeamSchema, allow_none=True)

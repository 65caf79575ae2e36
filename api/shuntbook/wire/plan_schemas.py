"""The service plan."""

from marshmallow import RAISE, Schema, fields, validate

from shuntbook.wire.fields import count, flag, ids, many, maybe, number, one_of, text

KINDS = ("open", "work", "inspect", "check", "close", "routine")


class WishSchema(Schema):
    """What is to be planned: a service; the first so many mechanics; minutes instead of the service's own."""

    class Meta:
        unknown = RAISE

    service = fields.String(required=True, validate=validate.Length(min=1, max=200))
    mechanics = fields.Integer(allow_none=True, validate=validate.Range(min=1, max=50))
    minutes = fields.Integer(allow_none=True, validate=validate.Range(min=1, max=1440))


class PlanTaskSchema(Schema):
    """A task on the clock, in seconds from when the work can start."""

    task = text()
    kind = one_of(KINDS)
    job = maybe()
    step = maybe()
    start_s = count()
    end_s = count()
    people = ids()
    zone = text()
    critical = number()


class PutInCarSchema(Schema):
    """A part to put in the car for a job that is left out."""

    part = text()
    qty = number()


class LeftOutSchema(Schema):
    """What is not in the plan, and why."""

    job = text()
    reason = text()
    put_in_car = many(PutInCarSchema)


class NeedsSchema(Schema):
    """The least time that all musts take; penalty_s is null past the event's limit."""

    minutes = count()
    leave_late_min = count()
    penalty_s = fields.Integer(required=True, allow_none=True)


class LaterSchema(Schema):
    """What leaving so late buys."""

    leave_late_min = count()
    penalty_s = count()
    adds = ids()


class PlanSchema(Schema):
    """The plan of one car at one service; queue is the hash of the queue that it was made of."""

    event = text()
    car = text()
    service = text()
    minutes = count()
    rates = text()
    queue = text()
    stale = flag()
    proven = flag()
    by = one_of(("solver", "greedy"))
    finish_s = count()
    spare_s = count()
    on_time = number()
    tasks = many(PlanTaskSchema)
    left_out = many(LeftOutSchema)
    needs = fields.Nested(NeedsSchema, required=True, allow_none=True)
    later = many(LaterSchema)

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
    state = one_of(("planned", "under-way"))


class PlanPersonSchema(Schema):
    """Somebody who is there to work, from so many seconds on."""

    person = text()
    mechanic = flag()
    inspector = flag()
    from_s = count()


class PlanDoneSchema(Schema):
    """A task of this service that is done: who said so, and when."""

    task = text()
    job = maybe()
    at = text()
    person = text()


class PutInCarSchema(Schema):
    """A part to put in the car for a job that is left out."""

    part = text()
    qty = number()


class LeftOutSchema(Schema):
    """What is not in the plan, and why; to: who may do it later, with which parts and tools put aboard."""

    job = text()
    reason = text()
    why = one_of(("time", "value", "part", "people", "official"))
    to = one_of(("next-service", "road", "after"))
    put_in_car = many(PutInCarSchema)
    tools = fields.List(fields.String(), required=True)


class NeedsSchema(Schema):
    """The least time that all musts take; penalty_s is null past the event's limit."""

    minutes = count()
    leave_late_min = count()
    penalty_s = fields.Integer(required=True, allow_none=True)


class LaterSchema(Schema):
    """What leaving so late buys; proven: whether no plan of that length could do more."""

    leave_late_min = count()
    penalty_s = count()
    adds = ids()
    proven = flag()


class HandsSchema(Schema):
    """What one mechanic more or fewer changes: jobs that come in and drop out, when the work ends."""

    mechanics = count()
    adds = ids()
    drops = ids()
    finish_s = count()
    proven = flag()


class LatenessSchema(Schema):
    """Minutes late that the log has of earlier controls, and what the event still allows at this one."""

    used_min = count()
    left_min = count()


class PlanSchema(Schema):
    """The plan of one car at one service; queue is the hash of the queue that it was made of.

    work_s: the time for work. entered_at: when the car really came in, zero of the tasks' clock. now_s: from when the
    rest was planned. settled: false while what minutes and hands buy is still being worked out.
    """

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
    settled = flag()
    work_s = count()
    entered_at = maybe()
    due_out = maybe()
    now_s = count()
    people = many(PlanPersonSchema)
    done = many(PlanDoneSchema)
    hands = many(HandsSchema)
    lateness = fields.Nested(LatenessSchema, required=True)

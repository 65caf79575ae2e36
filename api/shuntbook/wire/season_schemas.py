"""Observed rates, spares to carry, the season."""

from marshmallow import RAISE, Schema, fields, validate

from shuntbook.season.spares import COVERS
from shuntbook.wire.costs_schemas import ByZoneSchema
from shuntbook.wire.fields import count, flag, ids, many, maybe, nested, number, one_of, text


def maybe_number() -> fields.Float:
    """Return a field of a number or null."""
    return fields.Float(required=True, allow_none=True)


class MinutesSchema(Schema):
    """Three-point minutes of an operation and their expected value."""

    minutes_best = number()
    minutes_likely = number()
    minutes_worst = number()
    minutes_expected = number()


class OperationNameSchema(Schema):
    """An operation of the rate table; zone is "" where the row holds in any zone."""

    component = text()
    condition = text()
    action = text()
    zone = text()


class ObservedOperationSchema(OperationNameSchema):
    """What was timed of an operation. ratio: elapsed ÷ expected minutes, the mean of its jobs; ratio_estimate: drawn
    towards the team's pace, by as much as `credibility` (0 to 1) lacks of 1."""

    timed = count()
    minutes_mean = number()
    minutes_median = number()
    table = nested(MinutesSchema)
    credibility = maybe_number()
    ratio = maybe_number()
    ratio_estimate = maybe_number()
    suggested = fields.Nested(MinutesSchema, required=True, allow_none=True)
    says = text()


class TemporarySchema(OperationNameSchema):
    """Temporary repairs that were timed: they say nothing of the operation itself."""

    timed = count()
    minutes_mean = number()


class ApartSchema(Schema):
    """How many finished jobs were left out, and why."""

    not_timed = count()
    temporary = count()
    no_row = count()
    another_action = count()
    another_crew = count()
    far_off = count()


class MethodSchema(Schema):
    """How it was reckoned. pace: the ratio of all operations together; within, between: variances of the ratio."""

    name = text()
    pace = maybe_number()
    within = maybe_number()
    between = maybe_number()


class ObservedSchema(Schema):
    """What the timed jobs of all events held say of an event's rate table; far_off: entries to look at."""

    event = text()
    rates = text()
    events = count()
    timed = count()
    apart = nested(ApartSchema)
    far_off = ids()
    method = nested(MethodSchema)
    operations = many(ObservedOperationSchema)
    temporary = many(TemporarySchema)


class AcceptSchema(Schema):
    """The operations whose suggestions a manager accepts, and the rate table that they were shown for."""

    class Meta:
        unknown = RAISE

    rates = fields.String(required=True, validate=validate.Length(min=1, max=200))
    operations = fields.List(
        fields.Nested(OperationNameSchema(unknown=RAISE)), required=True, validate=validate.Length(min=1, max=2000)
    )


class ChangedOperationSchema(OperationNameSchema):
    """An operation's minutes before and after."""

    before = nested(MinutesSchema)
    after = nested(MinutesSchema)


class AcceptedSchema(Schema):
    """The new rate table's version, the one before, the events it is in force for, and what changed."""

    rates = text()
    before = text()
    events = ids()
    operations = many(ChangedOperationSchema)


class SparesAskedSchema(Schema):
    """The event to pack for; km and cars default to the event's own."""

    km = fields.Float(validate=validate.Range(min=0, min_inclusive=False, max=5000))
    cars = fields.Integer(validate=validate.Range(min=1, max=50))
    cover = fields.Integer(load_default=95, validate=validate.OneOf(COVERS))


class CoveredSchema(Schema):
    """The stock that covers so many percent of such events, and what of it the van lacks; costs null where no price."""

    cover = count()
    stock = number()
    cost = maybe()
    buy = number()
    buy_cost = maybe()


class SparePartSchema(Schema):
    """A part that damage called for. bunched: in bunches: the stock covers less than it says."""

    part = text()
    description = text()
    unit_cost = maybe()
    calls = count()
    pieces = number()
    expected = number()
    bunched = flag()
    van = number()
    covers = many(CoveredSchema)


class CoverTotalSchema(Schema):
    """What a cover costs, and what of it is still to be bought."""

    cover = count()
    cost = text()
    buy_cost = text()


class ShoppingItemSchema(Schema):
    """A part to buy."""

    part = text()
    description = text()
    qty = number()
    cost = maybe()


class ShoppingSchema(Schema):
    """The shopping list for the cover that was asked for."""

    cover = count()
    items = many(ShoppingItemSchema)
    cost = text()


class SparesSchema(Schema):
    """What to carry; car_km: what the counts were made over; model: how the next event's counts are thought to fall."""

    event = text()
    rates = text()
    currency = text()
    km = number()
    cars = count()
    cover = count()
    events = count()
    car_km = number()
    model = one_of(("poisson", "gamma-poisson"))
    parts = many(SparePartSchema)
    never_called_for = count()
    totals = many(CoverTotalSchema)
    shopping = nested(ShoppingSchema)


class PerStageKmSchema(Schema):
    """Money per timed km; null where the event has none."""

    estimate = maybe()
    actual = maybe()


class SeasonEventSchema(Schema):
    """The damage of one event."""

    event = text()
    name = text()
    began = maybe()
    cars = count()
    stage_km = number()
    currency = text()
    estimate = text()
    actual = text()
    per_stage_km = nested(PerStageKmSchema)
    safety_critical = count()
    jobs = count()
    incidents = count()
    by_zone = many(ByZoneSchema)


class SeasonZoneSchema(Schema):
    """A zone of the car map."""

    zone = text()
    label = text()


class SeasonOperationSchema(OperationNameSchema):
    """An operation that was timed: minutes expected by each job's own table, and elapsed."""

    timed = count()
    estimate_minutes = number()
    actual_minutes = number()
    least_minutes = number()
    most_minutes = number()


class SeasonSchema(Schema):
    """All events held, in the order they were held, and the operations that were timed."""

    events = many(SeasonEventSchema)
    zones = many(SeasonZoneSchema)
    operations = many(SeasonOperationSchema)

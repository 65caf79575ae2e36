"""The cost sheet."""

from marshmallow import Schema, fields

from shuntbook.wire.fields import flag, ids, many, maybe, nested, number, one_of, text


class PartCostSchema(Schema):
    """A part of a cost line; unit_cost is null where the rate table has no such part."""

    part = text()
    qty = number()
    unit_cost = maybe()


class WorkedSchema(Schema):
    """Somebody's minutes on a repair, from a start that it ends to its end."""

    person = text()
    minutes = number()


class LineMoneySchema(Schema):
    """Minutes and money of a cost line; minutes null and timed false where nobody took the time."""

    minutes = fields.Float(required=True, allow_none=True)
    mechanics = fields.Integer(required=True, allow_none=True)
    timed = flag()
    timed_by = one_of(("entered", "estimate"))
    worked = many(WorkedSchema)
    labour = text()
    parts = many(PartCostSchema)
    parts_cost = text()
    consumables = text()
    total = text()


class SpentSchema(Schema):
    """Money expected and spent."""

    estimate = text()
    actual = text()


class PerKmSchema(Schema):
    """Money a stage kilometre; null where the itinerary has none."""

    estimate = maybe()
    actual = maybe()


class CostLineSchema(Schema):
    """One round of a job, what no repair covers, or an access step of a service."""

    line = text()
    kind = one_of(("repair", "open", "access"))
    car = text()
    job = maybe()
    step = maybe()
    zone = maybe()
    component = maybe()
    stage = maybe()
    day = maybe()
    driver = maybe()
    incident = maybe()
    service = maybe()
    action = text()
    condition = maybe()
    temporary = flag()
    baseline = flag()
    entries = ids()
    estimate = nested(LineMoneySchema)
    actual = fields.Nested(LineMoneySchema, required=True, allow_none=True)
    access_share = nested(SpentSchema)


class AdjustmentSchema(Schema):
    """A correction before tax; it counts if a manager made it."""

    entry = text()
    car = text()
    line = text()
    amount = text()
    reason = text()
    person = text()
    counts = flag()


class SumsSchema(Schema):
    """Sums of some job lines with the access that they bear; before_tax = actual + adjustments."""

    estimate = text()
    actual = text()
    adjustments = text()
    before_tax = text()


class ByCarSchema(SumsSchema):
    """Sums of one car; null for corrections that no line is about."""

    car = maybe()


class ByDaySchema(SumsSchema):
    """Sums of the hits of one day, in the event's time zone."""

    day = maybe()


class ByStageSchema(SumsSchema):
    """Sums of one stage; null for what belongs to none."""

    stage = maybe()


class ByZoneSchema(SumsSchema):
    """Sums of one zone."""

    zone = maybe()


class ByComponentSchema(SumsSchema):
    """Sums of one component, in all zones."""

    component = maybe()


class ByDriverSchema(SumsSchema):
    """Sums of the hits while one person drove; null where nobody said who."""

    driver = maybe()


class CostTotalsSchema(Schema):
    """Totals of a cost sheet; total = before_tax + tax."""

    estimate = text()
    consumables = text()
    actual = text()
    adjustments = text()
    before_tax = text()
    tax = text()
    total = text()


class CostsSchema(Schema):
    """The cost sheet of an event or of one car."""

    event = text()
    car = maybe()
    rates = text()
    currency = text()
    tax_percent = number()
    consumables_percent = number()
    lines = many(CostLineSchema)
    adjustments = many(AdjustmentSchema)
    by_car = many(ByCarSchema)
    by_day = many(ByDaySchema)
    by_stage = many(ByStageSchema)
    by_zone = many(ByZoneSchema)
    by_component = many(ByComponentSchema)
    by_driver = many(ByDriverSchema)
    stage_km = number()
    per_stage_km = nested(PerKmSchema)
    baseline = nested(SpentSchema)
    totals = nested(CostTotalsSchema)

"""The cost sheet."""

from marshmallow import Schema, fields

from shuntbook.wire.fields import flag, ids, many, maybe, nested, number, one_of, text


class PartCostSchema(Schema):
    """A part of a cost line; unit_cost is null where the rate table has no such part."""

    part = text()
    qty = number()
    unit_cost = maybe()


class LineMoneySchema(Schema):
    """Minutes and money of a cost line; minutes null and timed false where nobody took the time."""

    minutes = fields.Float(required=True, allow_none=True)
    mechanics = fields.Integer(required=True, allow_none=True)
    timed = flag()
    labour = text()
    parts = many(PartCostSchema)
    parts_cost = text()
    total = text()


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
    service = maybe()
    action = text()
    condition = maybe()
    entries = ids()
    estimate = nested(LineMoneySchema)
    actual = fields.Nested(LineMoneySchema, required=True, allow_none=True)


class AdjustmentSchema(Schema):
    """A correction before tax; it counts if a manager made it."""

    entry = text()
    car = text()
    line = text()
    amount = text()
    reason = text()
    person = text()
    counts = flag()


class ByStageSchema(Schema):
    """Sums of the lines of one stage; null for what belongs to none."""

    stage = maybe()
    estimate = text()
    actual = text()


class ByZoneSchema(Schema):
    """Sums of the lines of one zone; null for the car as a whole."""

    zone = maybe()
    estimate = text()
    actual = text()


class CostTotalsSchema(Schema):
    """Totals of a cost sheet; total = before_tax + tax."""

    estimate = text()
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
    lines = many(CostLineSchema)
    adjustments = many(AdjustmentSchema)
    by_stage = many(ByStageSchema)
    by_zone = many(ByZoneSchema)
    totals = nested(CostTotalsSchema)

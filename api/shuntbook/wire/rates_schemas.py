"""The rate table as phones read it; numbers that are reckoned with are decimal text."""

from typing import Any

from marshmallow import Schema, fields, validate

from shuntbook.setup.words import CONDITIONS
from shuntbook.wire.fields import count, flag, ids, many, nested, one_of, text

DECIMAL = r"^\d+(\.\d+)?$"


def decimal() -> fields.String:
    """Return a field of a number of 0 or more as decimal text, exact."""
    return fields.String(required=True, validate=validate.Regexp(DECIMAL))


def three_points() -> fields.List[Any]:
    """Return a field of best, likely and worst minutes."""
    return fields.List(decimal(), required=True, validate=validate.Length(equal=3))


class OperationPartSchema(Schema):
    """How many of a part an operation takes."""

    part = text()
    qty = decimal()


class OperationSchema(Schema):
    """A row of the rate table; zone is "" where it holds in any zone."""

    component = text()
    condition = one_of(CONDITIONS)
    zone = text()
    action = text()
    minutes_best = decimal()
    minutes_likely = decimal()
    minutes_worst = decimal()
    mechanics = count()
    access = ids()
    parts = many(OperationPartSchema)
    must_do = flag()
    value = decimal()


class AccessStepSchema(Schema):
    """A step that opens the way to a job, once for the car or once a zone."""

    step = text()
    per = one_of(("car", "zone"))
    minutes_open = decimal()
    minutes_close = decimal()
    mechanics = count()


class PricedPartSchema(Schema):
    """A part and what one costs."""

    part = text()
    description = text()
    unit_cost = decimal()


class RateTableSchema(Schema):
    """What of a rate table the queue is reckoned from; decimals are those of the currency's minor unit."""

    version = text()
    currency = text()
    decimals = count()
    labour_per_hour = decimal()
    inspect_minutes = three_points()
    assess_minutes = three_points()
    inspect_minutes_by_group = fields.Dict(keys=fields.String(), values=three_points(), required=True)
    operations = many(OperationSchema)
    access = many(AccessStepSchema)
    parts = many(PricedPartSchema)


def van() -> fields.Dict:
    """Return a field of quantities by part."""
    return fields.Dict(keys=fields.String(), values=decimal(), required=True)


def rate_table() -> fields.Nested:
    """Return a field of a rate table."""
    return nested(RateTableSchema)

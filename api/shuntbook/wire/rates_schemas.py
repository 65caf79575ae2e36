"""The rate table as phones read it; numbers that the queue is calculated from are decimal text."""

from marshmallow import fields

from shuntbook.setup import rate_keys
from shuntbook.wire.fields import count, ids, many, text
from shuntbook.wire.setup_fields import decimal, schema_of, three_points

OperationSchema = schema_of(rate_keys.OPERATIONS, "OperationSchema")
AccessStepSchema = schema_of(rate_keys.ACCESS, "AccessStepSchema")
PricedPartSchema = schema_of(rate_keys.PARTS, "PricedPartSchema")
_Own = schema_of(rate_keys.RATES, "OwnSchema")


class RateTableSchema(_Own):  # type: ignore[misc, valid-type]
    """What of a rate table the queue is calculated from; decimals are those of the currency's minor unit."""

    version = text()
    decimals = count()
    inspect_minutes_by_group = fields.Dict(keys=fields.String(), values=three_points(), required=True)
    inspect_access = fields.Dict(keys=fields.String(), values=ids())
    operations = many(OperationSchema)
    access = many(AccessStepSchema)
    parts = many(PricedPartSchema)


def van() -> fields.Dict:
    """Return a field of quantities by part, absent for who is shown no stock."""
    return fields.Dict(keys=fields.String(), values=decimal())


def rate_table() -> fields.Nested:
    """Return a field of a rate table, absent for who is shown no prices."""
    return fields.Nested(RateTableSchema)

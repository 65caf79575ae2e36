"""Statements to a car's customer: the draft, and what was issued."""

from marshmallow import Schema, fields

from shuntbook.wire.fields import count, flag, ids, many, maybe, nested, number, text


class ChargedPartSchema(Schema):
    """A part of a line: how many, at what, how much of its life was used, how many the agreement includes."""

    part = text()
    description = text()
    qty = number()
    unit_cost = maybe()
    used_percent = number()
    included = number()
    charged = text()


class TagSchema(Schema):
    """Where the broken part is kept until the bill is paid."""

    tag = text()
    shelf = text()


class StatementLineSchema(Schema):
    """A line with what is behind it; standing: agreed, disputed, withdrawn, or null; repaired false = estimated."""

    line = text()
    job = maybe()
    says = text()
    action = text()
    condition = text()
    service = maybe()
    repaired = flag()
    mechanic_minutes = number()
    labour = text()
    parts = many(ChargedPartSchema)
    parts_cost = text()
    consumables = text()
    amount = text()
    entries = ids()
    photos = ids()
    photos_before = ids()
    standing = maybe()
    tag = fields.Nested(TagSchema, required=True, allow_none=True)


class StatementStepSchema(Schema):
    """One step of a sum in words."""

    step = text()
    says = text()
    amount = text()


class StatementIncidentSchema(Schema):
    """A hit with its lines, and what of it is to be paid."""

    incident = text()
    title = text()
    stage = maybe()
    km = fields.Float(required=True, allow_none=True)
    driver = maybe()
    reported_at_the_time = flag()
    others_involved = flag()
    reports = ids()
    lines = many(StatementLineSchema)
    steps = many(StatementStepSchema)
    to_pay = text()


class StatementNotChargedSchema(Schema):
    """What is not charged, and why."""

    line = text()
    job = maybe()
    says = text()
    why = text()
    entries = ids()
    photos = ids()


class StatementTotalsSchema(Schema):
    """damage: all; to_pay: after the terms, before tax; now = to_pay + tax − stated_before; rest: less deposit."""

    damage = text()
    to_pay = text()
    tax = text()
    stated_before = text()
    now = text()
    deposit = text()
    rest = text()


class StatementSchema(Schema):
    """One statement; entry, issued_at and by are null in a draft."""

    event = text()
    car = text()
    agreement = text()
    customer = text()
    currency = text()
    rates = text()
    number = count()
    supplements = fields.Integer(required=True, allow_none=True)
    entry = maybe()
    issued_at = maybe()
    by = maybe()
    incidents = many(StatementIncidentSchema)
    not_charged = many(StatementNotChargedSchema)
    steps = many(StatementStepSchema)
    totals = nested(StatementTotalsSchema)


class StatementsSchema(Schema):
    """The statements of one car; draft is null where no agreement names the car."""

    event = text()
    car = text()
    draft = fields.Nested(StatementSchema, required=True, allow_none=True)
    issued = many(StatementSchema)

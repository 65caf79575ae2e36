"""The repair queue and the release."""

from marshmallow import Schema

from shuntbook.setup.words import CONDITIONS
from shuntbook.wire.fields import count, flag, ids, many, maybe, nested, number, one_of, text

STATES = ("open", "started", "deferred", "patched", "accepted", "finished")
INSPECTIONS = ("not-needed", "needed", "failed", "passed")
NEEDS = ("review", "re-inspection", "official", "inspection")


class HoldReasonSchema(Schema):
    """Why a car is on hold; job is null for entries set aside."""

    job = maybe()
    needs = one_of(NEEDS)
    entries = ids()


class ReleasedUnseenSchema(Schema):
    """Safety-critical findings that a release did not cover."""

    released = text()
    service = text()
    job = text()
    entries = ids()


class PartShortSchema(Schema):
    """A part that a job needs; short is what the van lacks of it."""

    part = text()
    qty = number()
    unit_cost = text()
    short = number()


class EstimateSchema(Schema):
    """What a job takes by the rate table; access left out. Money as text with the currency's decimals."""

    minutes_best = number()
    minutes_likely = number()
    minutes_worst = number()
    minutes_expected = number()
    mechanics = count()
    access = ids()
    labour = text()
    parts = many(PartShortSchema)
    parts_cost = text()
    total = text()
    currency = text()


class JobSchema(Schema):
    """A job of the repair queue."""

    job = text()
    zone = text()
    component = text()
    group = maybe()
    safety_critical = flag()
    must_do = flag()
    condition = one_of(CONDITIONS)
    action = text()
    no_rate = flag()
    knock_on = flag()
    retracted = flag()
    state = one_of(STATES)
    inspection = one_of(INSPECTIONS)
    findings = ids()
    uncovered = ids()
    reports = ids()
    photos = ids()
    two_versions = flag()
    estimate = nested(EstimateSchema)


class QueueTotalsSchema(Schema):
    """Sums over the jobs neither finished nor accepted."""

    mechanic_minutes = number()
    access_minutes = number()
    labour = text()
    parts_cost = text()
    total = text()


class ReleaseSchema(Schema):
    """What the log says about letting a car go: hold, or nothing open in the log."""

    event = text()
    car = text()
    entries = count()
    rates = text()
    hash = text()
    release = one_of(("hold", "nothing-open"))
    hold_reasons = many(HoldReasonSchema)
    released_unseen = many(ReleasedUnseenSchema)


class QueueSchema(ReleaseSchema):
    """The repair queue of a car."""

    jobs = many(JobSchema)
    totals = nested(QueueTotalsSchema)

"""The set-up as phones read it, and set-ups taken."""

from marshmallow import EXCLUDE, Schema, fields

from shuntbook.setup.event import EVENT_KINDS
from shuntbook.setup.words import CONDITIONS, ROLES, ZONE_KINDS
from shuntbook.wire.common import FaultSchema
from shuntbook.wire.fields import count, flag, ids, many, maybe, nested, number, one_of, text
from shuntbook.wire.people_schemas import DeviceSchema
from shuntbook.wire.rates_schemas import rate_table, van


class CarSchema(Schema):
    """A car of the event."""

    car = text()
    label = text()


class PersonSchema(Schema):
    """Somebody of the team."""

    person = text()
    name = text()
    roles = fields.List(one_of(ROLES), required=True)
    skills = ids()


class StageSchema(Schema):
    """A stage of the itinerary."""

    stage = text()
    km = number()


class RoadPlaceSchema(Schema):
    """A place of the road book on a stage; degrees of WGS 84."""

    stage = text()
    km = number()
    lat = number()
    lon = number()


class ServiceSchema(Schema):
    """A service of the itinerary; minutes from control to control."""

    service = text()
    after = text()
    kind = text()
    arrive = maybe()
    minutes = count()
    in_and_out_minutes = number()
    parc_ferme_after = flag()


class RegulationsSchema(Schema):
    """The event's own figures."""

    late_penalty_s_per_minute = count()
    early_penalty_s_per_minute = count()
    late_limit_minutes = count()
    total_late_limit_minutes = count()
    advice_on_road = flag()


class RoutineSchema(Schema):
    """Work planned at a service whatever happened; minutes are best, likely, worst."""

    task = text()
    services = ids()
    minutes = fields.List(fields.Float(), required=True)
    mechanics = count()
    zone = text()
    access = ids()
    must_do = flag()


class ZoneSchema(Schema):
    """A zone of the car map."""

    label = text()
    kind = one_of(ZONE_KINDS)
    people = count()
    components = ids()


class ComponentSchema(Schema):
    """A component of the car map with its group in force."""

    label = text()
    group = maybe()
    conditions = fields.List(one_of(CONDITIONS), required=True)
    sealed = flag()


class SymptomSchema(Schema):
    """A symptom; stop is what to do at once, or empty."""

    label = text()
    checks = ids()
    stop = text()


class KnockOnSchema(Schema):
    """A knock-on rule."""

    component = text()
    conditions = fields.List(one_of(CONDITIONS), required=True)
    same_zone = ids()
    also = ids()


class CarMapSchema(Schema):
    """The car map in force; fixed are the groups by component that the package's own map gives for good."""

    zones = fields.Dict(keys=fields.String(), values=fields.Nested(ZoneSchema), required=True)
    components = fields.Dict(keys=fields.String(), values=fields.Nested(ComponentSchema), required=True)
    symptoms = fields.Dict(keys=fields.String(), values=fields.Nested(SymptomSchema), required=True)
    knock_on = many(KnockOnSchema)
    safety_groups = ids()
    fixed = fields.Dict(keys=fields.String(), values=fields.String(), required=True)


class PartNameSchema(Schema):
    """A part of the rate table, without its cost."""

    part = text()
    description = text()


class TrustSchema(Schema):
    """Whether entries must be signed by the device that wrote them."""

    signatures = one_of(("on", "off"))


class AgreementNameSchema(Schema):
    """Who has a car on which agreement; its terms are the manager's to read."""

    agreement = text()
    car = text()
    customer = text()


class DatedSchema(Schema):
    """What on a car runs out (last day, or null) or is sealed."""

    car = text()
    item = text()
    place = text()
    expires = maybe()
    seal = text()


class EventSetupSchema(Schema):
    """Everything of an event that a phone needs to log and read offline."""

    event = text()
    name = text()
    timezone = text()
    kind = one_of(EVENT_KINDS)
    emergency = text()
    currency = text()
    cars = many(CarSchema)
    people = many(PersonSchema)
    stages = many(StageSchema)
    places = many(RoadPlaceSchema)
    services = many(ServiceSchema)
    regulations = nested(RegulationsSchema)
    routine = many(RoutineSchema)
    looks = fields.Dict(keys=fields.String(), values=fields.List(fields.String()), required=True)
    car_map = nested(CarMapSchema)
    rates = text()
    parts = many(PartNameSchema)
    rate_table = rate_table()
    van = van()
    agreements = many(AgreementNameSchema)
    dated = many(DatedSchema)
    trust = nested(TrustSchema)


class SetupSchema(Schema):
    """The set-ups of all events held."""

    log_id = text()
    events = many(EventSetupSchema)
    devices = many(DeviceSchema)


class SetupFilesSchema(Schema):
    """A set-up's files by name, and the entries (id → digest) that were taken without a signature."""

    class Meta:
        unknown = EXCLUDE

    files = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    trusted = fields.Dict(keys=fields.String(), values=fields.String())
    version = fields.String()


class CheckFilesSchema(Schema):
    """Set-up files to look at; against: the event to compare with where this one is not held yet."""

    class Meta:
        unknown = EXCLUDE

    files = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    against = fields.String(allow_none=True)


class ChangedCellSchema(Schema):
    """A cell that reads otherwise; "" is an empty one."""

    field = text()
    before = text()
    after = text()


class ChangeSchema(Schema):
    """A row that changes, by its key in its table; `moved`: the rows of a table stand in another order."""

    table = text()
    key = text()
    change = one_of(("added", "removed", "changed", "moved"))
    cells = many(ChangedCellSchema)


class FilesCheckedSchema(Schema):
    """Every fault of set-up files, or what they change against the version in force (null: none is)."""

    faults = many(FaultSchema)
    difference = many(ChangeSchema)
    version = maybe()


class SetupTakenSchema(Schema):
    """A set-up that is now in force."""

    event = text()
    rates = text()


class RatesTakenSchema(Schema):
    """A rate table that is now in force for the events named."""

    rates = text()
    events = ids()

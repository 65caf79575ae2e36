"""The set-up as phones read it, and set-ups taken."""

from marshmallow import EXCLUDE, Schema, fields, validate

from shuntbook.setup import event_keys, map_keys, rate_keys
from shuntbook.wire.common import FaultSchema
from shuntbook.wire.fields import flag, ids, many, maybe, nested, one_of, text
from shuntbook.wire.people_schemas import DeviceSchema, SecondInviteSchema
from shuntbook.wire.rates_schemas import rate_table, van
from shuntbook.wire.setup_fields import schema_of

CarSchema = schema_of(event_keys.CARS, "CarSchema")
PersonSchema = schema_of(event_keys.PEOPLE_OF, "PersonSchema")
StageSchema = schema_of(event_keys.STAGES, "StageSchema")
RoadPlaceSchema = schema_of(event_keys.PLACES, "RoadPlaceSchema")
ServiceSchema = schema_of(event_keys.SERVICES, "ServiceSchema")
RegulationsSchema = schema_of(event_keys.REGULATIONS, "RegulationsSchema")
RoutineSchema = schema_of(event_keys.ROUTINE, "RoutineSchema")
TrustSchema = schema_of(event_keys.TRUST, "TrustSchema")
AgreementNameSchema = schema_of(event_keys.AGREEMENTS, "AgreementNameSchema")
DatedSchema = schema_of(event_keys.DATED, "DatedSchema")
LifeRowSchema = schema_of(event_keys.LIVES, "LifeRowSchema")
ZoneSchema = schema_of(map_keys.ZONES, "ZoneSchema")
ComponentSchema = schema_of(map_keys.COMPONENTS, "ComponentSchema")
SymptomSchema = schema_of(map_keys.SYMPTOMS, "SymptomSchema")
KnockOnSchema = schema_of(map_keys.KNOCK_ON, "KnockOnSchema")
PartNameSchema = schema_of(rate_keys.PARTS, "PartNameSchema", without=("unit_cost",))
_Top = schema_of(event_keys.EVENT, "TopSchema")
_Map = schema_of(map_keys.CAR_MAP, "MapSchema")


class CarMapSchema(_Map):  # type: ignore[misc, valid-type]
    """The car map in force; fixed are the groups by component that the package's own map gives for good."""

    zones = fields.Dict(keys=fields.String(), values=fields.Nested(ZoneSchema), required=True)
    components = fields.Dict(keys=fields.String(), values=fields.Nested(ComponentSchema), required=True)
    symptoms = fields.Dict(keys=fields.String(), values=fields.Nested(SymptomSchema), required=True)
    knock_on = many(KnockOnSchema)
    fixed = fields.Dict(keys=fields.String(), values=fields.String(), required=True)


class ListedCheckSchema(Schema):
    """A row of the check lists in force: must is true where no pass counts without it, at says where it is made."""

    group = text()
    check = text()
    must = flag()
    at = fields.String(required=True, allow_none=True, validate=validate.OneOf(event_keys.AT))


class EventSetupSchema(_Top):  # type: ignore[misc, valid-type]
    """Everything of an event that a phone needs to log and read offline.

    rate_table and van are absent for who is shown no prices and no stock, agreements for all but managers.
    """

    currency = text()
    cars = many(CarSchema)
    people = many(PersonSchema)
    stages = many(StageSchema)
    places = many(RoadPlaceSchema)
    services = many(ServiceSchema)
    regulations = nested(RegulationsSchema)
    routine = many(RoutineSchema)
    looks = fields.Dict(keys=fields.String(), values=fields.List(fields.String()), required=True)
    check_lists = fields.List(fields.Nested(ListedCheckSchema))
    car_map = nested(CarMapSchema)
    rates = text()
    parts = many(PartNameSchema)
    rate_table = rate_table()
    van = van()
    agreements = fields.List(fields.Nested(AgreementNameSchema))
    dated = many(DatedSchema)
    lives = fields.List(fields.Nested(LifeRowSchema))
    trust = nested(TrustSchema)


class SetupSchema(Schema):
    """The set-ups of the events that the caller is in, and the state of the log that everybody is told.

    owners: persons. rebuild: whether one is under way. first_rules: whether the log was once folded by the rules of
    0.1, some of whose passes do not count any more. A server of 0.1 says none of the last four.
    """

    log_id = text()
    events = many(EventSetupSchema)
    devices = many(DeviceSchema)
    owners = fields.List(fields.String())
    rebuild = fields.Boolean()
    first_rules = fields.Boolean()
    second_invites = fields.List(fields.Nested(SecondInviteSchema))


class CellRowSchema(Schema):
    """A row as text by key; rest: what of its table no cell can hold, as TOML."""

    class Meta:
        unknown = EXCLUDE

    cells = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    rest = fields.String()


class CellFileSchema(Schema):
    """A TOML file as cells; base: the text that was edited, of which the unchanged stays; rest: its other keys."""

    class Meta:
        unknown = EXCLUDE

    tables = fields.Dict(keys=fields.String(), values=fields.List(fields.Nested(CellRowSchema)), required=True)
    base = fields.String()
    rest = fields.String()


def _cells() -> fields.Dict:
    return fields.Dict(keys=fields.String(), values=fields.Nested(CellFileSchema))


class EarlierSchema(Schema):
    """What an event keeps of release 0.1: its car map, and the check lists of these groups."""

    car_map = fields.Boolean()
    looks = ids()


class SetupFilesSchema(Schema):
    """A set-up's files by name, and the entries (id → digest) that were taken without a signature.

    cells: TOML files that the server writes from cells of text, in place of the text of a file. earlier: what of the
    package's newer car map and lists a manager may take; the server alone says it.
    """

    class Meta:
        unknown = EXCLUDE

    files = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    cells = _cells()
    trusted = fields.Dict(keys=fields.String(), values=fields.String())
    version = fields.String()
    earlier = fields.Nested(EarlierSchema)


class CheckFilesSchema(Schema):
    """Set-up files to look at; against: the event to compare with where this one is not held yet; version: edited."""

    class Meta:
        unknown = EXCLUDE

    files = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    cells = _cells()
    against = fields.String(allow_none=True)
    version = fields.String(allow_none=True)


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
    """Every fault of set-up files, or what they change against the version in force (null: none is).

    warnings: what is taken and deserves to be told, such as a key that is not known.
    """

    faults = many(FaultSchema)
    warnings = many(FaultSchema)
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

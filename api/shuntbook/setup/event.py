"""The event as its set-up says it: cars, people, itinerary, services, regulations, routine work."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property
from zoneinfo import ZoneInfo

from shuntbook.setup.agreements import Agreement, read_agreement
from shuntbook.setup.dated import Dated, read_dated
from shuntbook.setup.faults import Faults
from shuntbook.setup.itinerary import RoadPlace, Service, Stage, read_place, read_service, read_stage
from shuntbook.setup.looks import Looks, read_looks
from shuntbook.setup.toml_file import Place, Reader, TomlFile
from shuntbook.setup.words import ROLES

FILE = "event.toml"
EVENT_KINDS = ("rally", "school")
"""What an event is: stages and services, or turns on a loop that are called sessions."""
SIGNATURES = "on"
"""What an event demands that does not say."""


@dataclass(frozen=True)
class Person:
    """Somebody of the team; one person may have several roles and skills."""

    person: str
    name: str
    roles: tuple[str, ...]
    skills: tuple[str, ...] = ()


@dataclass(frozen=True)
class Regulations:
    """The event's own figures; the defaults follow the FIA's rally regulations as remembered.

    Penalties in seconds per clock minute; limits in minutes. official_lead_minutes: how long it takes until an
    official who is called has come (common practice, no source).
    """

    late_penalty_s_per_minute: int = 10
    early_penalty_s_per_minute: int = 60
    late_limit_minutes: int = 15
    total_late_limit_minutes: int = 30
    advice_on_road: bool = False
    official_lead_minutes: int = 60


@dataclass(frozen=True)
class Routine:
    """Work planned at a service whatever happened; minutes are best, likely, worst."""

    task: str
    services: tuple[str, ...]
    minutes: tuple[Decimal, Decimal, Decimal]
    mechanics: int
    zone: str
    access: tuple[str, ...]
    must_do: bool


@dataclass(frozen=True)
class Resource:
    """Something that the team has so many of: sets of stands, jacks, a torque wrench.

    held_by: access steps that hold one from opening to closing, and actions (or `fire-risk`) that hold one while they
    last.
    """

    resource: str
    count: int
    held_by: tuple[str, ...]


@dataclass(frozen=True)
class Event:
    """An event's set-up. Order in `stages` and `services` is the itinerary's."""

    event: str
    name: str
    timezone: str
    cars: tuple[str, ...]
    people: tuple[Person, ...]
    stages: tuple[Stage, ...]
    services: tuple[Service, ...]
    regulations: Regulations = Regulations()
    routine: tuple[Routine, ...] = ()
    resources: tuple[Resource, ...] = ()
    tools: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    car_labels: dict[str, str] = field(default_factory=dict)
    signatures_demanded: bool = SIGNATURES == "on"
    agreements: tuple[Agreement, ...] = ()
    dated: tuple[Dated, ...] = ()
    kind: str = EVENT_KINDS[0]
    emergency: str = ""
    places: tuple[RoadPlace, ...] = ()
    looks: Looks = field(default_factory=dict)

    def has_role(self, person: str, role: str) -> bool:
        """Return whether `person` has `role` in the set-up as it is now."""
        return any(p.person == person and role in p.roles for p in self.people)

    def agreement_of(self, car: str) -> Agreement | None:
        """Return the terms for a car, or None: then the team bears all."""
        return next((agreement for agreement in self.agreements if agreement.car == car), None)

    def stage_index(self, stage: str | None) -> int | None:
        """Return the stage's place in the itinerary, or None where it is not in it."""
        return self._stage_places.get(stage)

    def service_index(self, service: str | None) -> int | None:
        """Return the service's place in the itinerary, or None where it is not in it."""
        return self._service_places.get(service)

    @cached_property
    def _stage_places(self) -> dict[str | None, int]:
        return {stage.stage: place for place, stage in enumerate(self.stages)}

    @cached_property
    def _service_places(self) -> dict[str | None, int]:
        return {service.service: place for place, service in enumerate(self.services)}


def read_event(data: bytes, faults: Faults) -> Event | None:
    """Read `event.toml`; None where it cannot be parsed. Faults name line and key."""
    file = TomlFile(FILE, data, faults)
    if not file.readable:
        return None
    top = Reader(file, Place(), file.root)
    event = top.name("event")
    stages = tuple(read_stage(r) for r in _readers(file, "stages"))
    cars = [(r.name("car"), r.text("label", "")) for r in _readers(file, "cars")]
    names = tuple(car for car, _ in cars)
    value = Event(
        event=event,
        name=top.text("name", event),
        timezone=_timezone(top),
        cars=names,
        people=tuple(_person(r) for r in _readers(file, "people")),
        stages=stages,
        services=tuple(read_service(r, stages) for r in _readers(file, "services")),
        regulations=_regulations(file),
        routine=tuple(_routine(r) for r in _readers(file, "routine")),
        tools=_tools(file),
        resources=tuple(_resource(r) for r in _readers(file, "resources")),
        car_labels={car: label for car, label in cars if label},
        signatures_demanded=_signatures_demanded(file),
        agreements=tuple(read_agreement(r, names) for r in _readers(file, "agreements")),
        dated=tuple(read_dated(r, names) for r in _readers(file, "dated")),
        kind=top.one_of("kind", EVENT_KINDS),
        emergency=top.text("emergency", ""),
        places=tuple(read_place(r, stages) for r in _readers(file, "places")),
        looks=read_looks(file),
    )
    _no_twins(file, "cars", "car", list(value.cars))
    _no_twins(file, "people", "person", [p.person for p in value.people])
    _no_twins(file, "stages", "stage", [s.stage for s in stages])
    _no_twins(file, "resources", "resource", [r.resource for r in value.resources])
    _no_twins(file, "agreements", "agreement", [a.agreement for a in value.agreements])
    _no_twins(file, "agreements", "car", [a.car for a in value.agreements])
    _no_twins(file, "services", "service", [s.service for s in value.services])
    return value


def _readers(file: TomlFile, name: str) -> list[Reader]:
    return [Reader(file, place, table) for place, table in file.tables(name)]


def _timezone(top: Reader) -> str:
    name = top.text("timezone", "UTC")
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        top.fault(
            "timezone",
            f"{name!r} is not a time zone of the IANA database, such as Europe/Berlin",
        )
    return name


def _person(reader: Reader) -> Person:
    person = reader.text("person")
    roles = reader.texts("roles")
    for role in roles:
        if role not in ROLES:
            reader.fault("roles", f"{role!r} is not one of {', '.join(ROLES)}")
    return Person(person, reader.text("name", person), roles, reader.texts("skills"))


def _regulations(file: TomlFile) -> Regulations:
    table = file.root.get("regulations", {})
    if not isinstance(table, dict):
        file.fault(Place(), "regulations", "write it as a [regulations] table")
        return Regulations()
    reader = Reader(file, Place("regulations"), table)
    usual = Regulations()
    return Regulations(
        reader.whole("late_penalty_s_per_minute", usual.late_penalty_s_per_minute),
        reader.whole("early_penalty_s_per_minute", usual.early_penalty_s_per_minute),
        reader.whole("late_limit_minutes", usual.late_limit_minutes),
        reader.whole("total_late_limit_minutes", usual.total_late_limit_minutes),
        reader.flag("advice_on_road", usual.advice_on_road),
        reader.whole("official_lead_minutes", usual.official_lead_minutes),
    )


def _signatures_demanded(file: TomlFile) -> bool:
    table = file.root.get("trust", {})
    if not isinstance(table, dict):
        file.fault(Place(), "trust", "write it as a [trust] table")
        table = {}
    said = table.get("signatures", SIGNATURES)
    if said not in ("on", "off"):
        file.fault(Place("trust"), "signatures", f'{said!r} is neither "on" nor "off"')
    return bool(said != "off")


def _routine(reader: Reader) -> Routine:
    return Routine(
        reader.text("task"),
        reader.texts("services"),
        reader.three_points("minutes"),
        reader.whole("mechanics", 1, least=0),
        reader.text("zone", ""),
        reader.texts("access"),
        reader.flag("must_do"),
    )


def _resource(reader: Reader) -> Resource:
    return Resource(reader.text("resource"), reader.whole("count", 1, least=0), reader.texts("held_by"))


def _tools(file: TomlFile) -> dict[str, tuple[str, ...]]:
    """Read what the crew needs aboard for each action of the rate table that it may do on the road."""
    table = file.root.get("tools", {})
    if not isinstance(table, dict):
        file.fault(Place(), "tools", 'write it as a [tools] table of actions, such as tighten = ["brace"]')
        return {}
    reader = Reader(file, Place("tools"), table)
    return {action: reader.texts(action) for action in table}


def _no_twins(file: TomlFile, table: str, key: str, names: list[str]) -> None:
    for index, name in enumerate(names):
        if name and name in names[:index]:
            file.fault(Place(table, index), key, f"{name!r} stands twice; names must differ")

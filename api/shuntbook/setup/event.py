"""The event as its set-up says it: cars, people, itinerary, services, regulations, routine work."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property
from typing import Any
from zoneinfo import ZoneInfo

from shuntbook.kit.speech import ENGLISH
from shuntbook.setup import event_keys
from shuntbook.setup.agreements import Agreement, Clause, OtherCharge, Sender
from shuntbook.setup.dated import LIMITS, Dated, Life
from shuntbook.setup.event_keys import EVENT_KINDS, EVENT_TABLES, FILE
from shuntbook.setup.faults import Faults
from shuntbook.setup.itinerary import RoadPlace, Service, Stage, check_itinerary
from shuntbook.setup.lines import Line, Lines, Rows, Values, check_references, check_twins, known_in, picked, rows_of
from shuntbook.setup.looks import Looks, check_looks, lists_of, must_checks
from shuntbook.setup.toml_file import TomlFile

__all__ = ["EVENT_KINDS", "FILE", "SIGNATURES", "Event", "Person", "Regulations", "Resource", "Routine", "read_event"]

SIGNATURES = event_keys.SIGNATURES[0]
"""What an event demands that does not say."""


@dataclass(frozen=True)
class Person:
    """Somebody of the team; one person may have several roles and skills. cars: those that it is about; none: all."""

    person: str
    name: str
    roles: tuple[str, ...]
    skills: tuple[str, ...] = ()
    cars: tuple[str, ...] = ()


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
    """Work planned at a service whatever happened; minutes are best, likely, worst.

    when: `any`; `first`, before all else on the car; `ground`, once it is down for good; `last`, after all else.
    vital: it comes before the must-do jobs.
    """

    task: str
    services: tuple[str, ...]
    minutes: tuple[Decimal, Decimal, Decimal]
    mechanics: int
    zone: str
    access: tuple[str, ...]
    must_do: bool
    vital: bool = False
    when: str = "any"


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
    """An event's set-up. Order in `stages` and `services` is the itinerary's; `rows`: all of its file, by table."""

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
    pin_demanded: bool = False
    agreements: tuple[Agreement, ...] = ()
    other_charges: tuple[OtherCharge, ...] = ()
    clauses: tuple[Clause, ...] = ()
    sender: Sender = field(default_factory=Sender)
    dated: tuple[Dated, ...] = ()
    lives: tuple[Life, ...] = ()
    kind: str = EVENT_KINDS[0]
    emergency: str = ""
    languages: tuple[str, ...] = ()
    places: tuple[RoadPlace, ...] = ()
    looks: Looks = field(default_factory=dict)
    rows: Rows = field(default_factory=dict)

    def must_checks(self, group: str | None) -> frozenset[str]:
        """Return what a pass on a job of `group` must have ok: by the event's own list, else by the usual one."""
        return must_checks(self.looks, group)

    def has_role(self, person: str, role: str) -> bool:
        """Return whether `person` has `role` in the set-up as it is now."""
        return any(p.person == person and role in p.roles for p in self.people)

    def agreement_of(self, car: str) -> Agreement | None:
        """Return the terms for a car, or None: then the team bears all."""
        return next((agreement for agreement in self.agreements if agreement.car == car), None)

    def language_of(self, car: str) -> str:
        """Return what the papers for the customer of a car speak."""
        agreement = self.agreement_of(car)
        return (agreement.language if agreement else "") or self.language

    @property
    def language(self) -> str:
        """What papers speak where nobody asks for another language."""
        return self.languages[0] if self.languages else ENGLISH

    def stage_index(self, stage: str | None) -> int | None:
        """Return the stage's place in the itinerary, or None where it is not in it."""
        return self._stage_places.get(stage)

    def service_index(self, service: str | None) -> int | None:
        """Return the service's place in the itinerary, or None where it is not in it."""
        return self._service_places.get(service)

    def service_after(self, place: int) -> str | None:
        """Return the first service of the itinerary that comes after the stage of that place, or a later one."""
        return next((service for after, service in self._services_after if after >= place), None)

    @cached_property
    def _services_after(self) -> list[tuple[int, str]]:
        places = ((self.stage_index(service.after), service.service) for service in self.services)
        return [(after, service) for after, service in places if after is not None]

    @cached_property
    def _stage_places(self) -> dict[str | None, int]:
        return {stage.stage: place for place, stage in enumerate(self.stages)}

    @cached_property
    def _service_places(self) -> dict[str | None, int]:
        return {service.service: place for place, service in enumerate(self.services)}


def read_event(data: bytes, faults: Faults) -> Event | None:
    """Read `event.toml`; None where it cannot be parsed. Faults name line and key."""
    lines = event_lines(data, faults)
    return None if lines is None else event_of(lines)


def event_lines(data: bytes, faults: Faults) -> Lines | None:
    """Return the lines of `event.toml` by table, checked but for what the rate table has to say of them."""
    file = TomlFile(FILE, data, faults)
    if not file.readable:
        return None
    lines = {table.table: file.lines(table) for table in EVENT_TABLES}
    file.warn_of_unknown(EVENT_TABLES)
    check_references(lines, _known(lines))
    check_twins(lines)
    check_itinerary(lines)
    check_looks(lines["looks"])
    _check_zone(lines["event"][0])
    _check_charges(lines)
    _check_lives(lines["lives"])
    return lines


def event_of(lines: Lines) -> Event:
    """Return the event that checked lines say."""
    rows = rows_of(lines)
    return Event(
        **picked(Event, rows["event"][0]),
        cars=tuple(one["car"] for one in rows["cars"]),
        people=_all(Person, rows["people"]),
        stages=_all(Stage, rows["stages"]),
        services=_all(Service, rows["services"]),
        regulations=Regulations(**picked(Regulations, rows["regulations"][0])),
        routine=_all(Routine, rows["routine"]),
        resources=_all(Resource, rows["resources"]),
        tools={one["action"]: one["tools"] for one in rows["tools"]},
        car_labels={one["car"]: one["label"] for one in rows["cars"] if one["label"]},
        signatures_demanded=rows["trust"][0]["signatures"] == SIGNATURES,
        pin_demanded=rows["trust"][0]["pin"],
        agreements=_all(Agreement, rows["agreements"]),
        clauses=_all(Clause, rows["clauses"]),
        sender=Sender(**picked(Sender, rows["sender"][0])),
        other_charges=_all(OtherCharge, rows["other_charges"]),
        dated=_all(Dated, rows["dated"]),
        lives=_all(Life, rows["lives"]),
        places=_all(RoadPlace, rows["places"]),
        looks=lists_of(rows["looks"]),
        rows=rows,
    )


def _known(lines: Lines) -> dict[str, Collection[str]]:
    """Return the names that others may refer to; people only where there are some: a first event has nobody yet."""
    known = known_in(lines, EVENT_TABLES)
    return known if lines["people"] else {of: names for of, names in known.items() if of != "people.person"}


def _all(kind: type[Any], rows: tuple[Values, ...]) -> tuple[Any, ...]:
    return tuple(kind(**picked(kind, one)) for one in rows)


def _check_zone(line: Line) -> None:
    try:
        ZoneInfo(line["timezone"])
    except (KeyError, ValueError, OSError):
        what = f"{line['timezone']!r} is not a time zone of the IANA database, such as Europe/Berlin"
        line.fault("timezone", what)


def _check_charges(lines: Lines) -> None:
    """Note prices that nothing can be calculated from, a hire that ends before it begins, and tax without a number."""
    taxed = [line for table in ("agreements", "other_charges") for line in lines[table] if line["tax_percent"]]
    if taxed and not lines["sender"][0]["tax_number"]:
        what = 'a statement that shows tax bears a tax number; write tax_number = "…" under [sender]'
        taxed[0].warn("tax_percent", what)
    for line in lines["other_charges"]:
        if line["kind"] == "fuel" and line["per_tank"] is None:
            line.fault("per_tank", "per_tank is missing; say how many units a full tank holds, such as 64", new=True)
    for line in lines["agreements"]:
        begins, ends = line["hire_from"], line["hire_to"]
        if begins and ends and ends <= begins:
            line.fault("hire_to", "is not after hire_from; correct one of the two", new=True)


def _check_lives(lines: list[Line]) -> None:
    """Note parts that have no limit, which can never be due."""
    for line in lines:
        if not any(line[limit] for limit in LIMITS):
            line.fault("events", "no limit is said; write events, stage_km or days, one or several", new=True)

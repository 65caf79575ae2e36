"""The car map: zones, components with their groups, symptoms and knock-on rules."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from shuntbook.setup.faults import Faults
from shuntbook.setup.toml_file import Place, Reader, TomlFile
from shuntbook.setup.words import (
    CONDITIONS,
    FIXED_GROUPS,
    UNKNOWN,
    ZONE_KINDS,
    is_job_key,
)

FILE = "car_map.toml"


@dataclass(frozen=True)
class Zone:
    """A part of the car where people work; `people` is how many mechanics fit there at once."""

    zone: str
    label: str
    kind: str
    people: int
    components: tuple[str, ...]


@dataclass(frozen=True)
class Component:
    """Something that breaks; `conditions` is its own order, worst last, "" group where it has none."""

    component: str
    label: str
    group: str | None = None
    conditions: tuple[str, ...] = ()
    sealed: bool = False


@dataclass(frozen=True)
class Symptom:
    """What a co-driver notices, and the jobs (zone/component) that it makes the crew check, in order."""

    symptom: str
    label: str
    checks: tuple[str, ...]
    stop: str = ""


@dataclass(frozen=True)
class KnockOn:
    """Damage that makes the crew look further: one step, never a chain."""

    component: str
    conditions: frozenset[str]
    same_zone: tuple[str, ...]
    also: tuple[str, ...]


@dataclass(frozen=True)
class CarMap:
    """A car map; `fixed` are the groups that the package's own map gives and no team's map takes away."""

    zones: Mapping[str, Zone]
    components: Mapping[str, Component]
    symptoms: Mapping[str, Symptom]
    knock_on: tuple[KnockOn, ...]
    safety_groups: frozenset[str]
    fixed: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def knock_on_by_component(self) -> Mapping[str, list[KnockOn]]:
        """The knock-on rules by the component that shows them."""
        rules: dict[str, list[KnockOn]] = {}
        for rule in self.knock_on:
            rules.setdefault(rule.component, []).append(rule)
        return rules

    def lists(self, zone: str, component: str) -> bool:
        """Return whether the map lists `component` in `zone`."""
        return zone in self.zones and component in self.zones[zone].components

    def group_of(self, component: str) -> str | None:
        """Return the component's group: its own, unless the package's map puts it in a fixed one."""
        known = self.components.get(component)
        return self.fixed.get(component, known.group if known else None)

    def safety_critical(self, zone: str, component: str) -> bool:
        """Return whether damage there needs an inspection: a safety group, or a pair the map does not list."""
        group = self.group_of(component)
        return not self.lists(zone, component) or group in FIXED_GROUPS or group in self.safety_groups

    def severity(self, component: str, condition: str) -> tuple[int, int]:
        """Return a rank that grows with how bad the condition is for this component.

        `unknown` ranks lowest; a condition that the component's own list lacks ranks above all that it
        has, in the common order.
        """
        if condition == UNKNOWN:
            return (0, 0)
        known = self.components.get(component)
        own = known.conditions if known else ()
        if condition in own:
            return (1, own.index(condition))
        return (2, CONDITIONS.index(condition))

    def with_fixed_groups_of(self, package_map: "CarMap") -> "CarMap":
        """Return this map with the cage, brake and steering components of the package's own map fixed."""
        groups = {name: c.group for name, c in package_map.components.items()}
        return replace(self, fixed={n: g for n, g in groups.items() if g in FIXED_GROUPS})


def read_car_map(data: bytes, faults: Faults) -> CarMap | None:
    """Read `car_map.toml`; None where it cannot be parsed. Faults name line and key."""
    file = TomlFile(FILE, data, faults)
    if not file.readable:
        return None
    top = Reader(file, Place(), file.root)
    zones = {key: _zone(key, r) for key, r in _named(file, "zones")}
    if not zones:
        file.fault(Place(), "zones", "the map has no zone; write [zones.NAME] tables")
    return CarMap(
        zones=zones,
        components={key: _component(key, r) for key, r in _named(file, "components")},
        symptoms={key: _symptom(key, r) for key, r in _named(file, "symptoms")},
        knock_on=tuple(_knock_on(Reader(file, p, t)) for p, t in file.tables("knock_on")),
        safety_groups=frozenset(top.texts("safety_groups")),
    )


def _named(file: TomlFile, name: str) -> list[tuple[str, Reader]]:
    found = []
    for place, key, table in file.named_tables(name):
        if "/" in key or not key:
            file.fault(
                place,
                key,
                f"{key!r} holds a slash; names go without, since jobs are zone/component",
            )
        found.append((key, Reader(file, place, table)))
    return found


def _zone(key: str, reader: Reader) -> Zone:
    kind = reader.text("kind", "side")
    if kind not in ZONE_KINDS:
        reader.fault("kind", f"{kind!r} is not one of {', '.join(ZONE_KINDS)}")
    components = reader.texts("components")
    for name in components:
        if "/" in name:
            reader.fault("components", f"{name!r} holds a slash; names go without")
        if components.count(name) > 1:
            reader.fault("components", f"{name!r} stands twice")
    return Zone(
        key,
        reader.text("label", key),
        kind,
        reader.whole("people", 1, least=1),
        components,
    )


def _component(key: str, reader: Reader) -> Component:
    return Component(
        key,
        reader.text("label", key),
        reader.text("group", "") or None,
        _conditions(reader),
        reader.flag("sealed"),
    )


def _conditions(reader: Reader) -> tuple[str, ...]:
    conditions = reader.texts("conditions")
    for name in conditions:
        if name not in CONDITIONS:
            reader.fault("conditions", f"{name!r} is not one of {', '.join(CONDITIONS)}")
        if conditions.count(name) > 1:
            reader.fault("conditions", f"{name!r} stands twice")
    return conditions


def _symptom(key: str, reader: Reader) -> Symptom:
    checks = reader.texts("checks")
    if not checks:
        reader.fault(
            "checks",
            "a symptom must make the crew check something: list zone/component",
        )
    _keys(reader, "checks", checks)
    return Symptom(key, reader.text("label", key), checks, reader.text("stop", ""))


def _knock_on(reader: Reader) -> KnockOn:
    also = reader.texts("also")
    _keys(reader, "also", also)
    return KnockOn(
        reader.name("component"),
        frozenset(_conditions(reader)),
        reader.texts("same_zone"),
        also,
    )


def _keys(reader: Reader, key: str, names: tuple[str, ...]) -> None:
    for name in names:
        if not is_job_key(name):
            reader.fault(key, f"{name!r} is not zone/component")

"""The car map: zones, components with their groups, symptoms and knock-on rules."""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from shuntbook.setup.faults import Faults
from shuntbook.setup.lines import Line, Rows, Values, did_you_mean, picked, rows_of
from shuntbook.setup.map_keys import FILE, MAP_TABLES, NO_ZONES
from shuntbook.setup.toml_file import TomlFile
from shuntbook.setup.words import CONDITIONS, FIXED_GROUPS, UNKNOWN, job_key, split_key

__all__ = ["FILE", "CarMap", "Component", "KnockOn", "Symptom", "Zone", "read_car_map"]

HERE = "here"


@dataclass(frozen=True)
class Zone:
    """A part of the car where people work; `people` is how many mechanics fit there at once.

    across: the zone that is the same place on the other side.
    """

    zone: str
    label: str
    kind: str
    people: int
    components: tuple[str, ...]
    across: str | None = None


@dataclass(frozen=True)
class Component:
    """Something that breaks; `conditions` is its own order, worst last, "" group where it has none.

    inspect_access: the access steps that an inspection of it needs open, whatever the zone; None leaves that to the
    rate table.
    """

    component: str
    label: str
    group: str | None = None
    conditions: tuple[str, ...] = ()
    sealed: bool = False
    inspect_access: tuple[str, ...] | None = None


@dataclass(frozen=True)
class Symptom:
    """What a co-driver notices, and the jobs (zone/component) that it makes the crew check, in order.

    The zone may be `here` or `across`: see `CarMap.placed`.
    """

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


@dataclass(frozen=True, eq=False)
class CarMap:
    """A car map; `fixed` are the groups that the package's own map gives and no team's map takes away.

    rows: all that its file says, by table. Compared by identity, so that what follows from it can be remembered.
    """

    zones: Mapping[str, Zone]
    components: Mapping[str, Component]
    symptoms: Mapping[str, Symptom]
    knock_on: tuple[KnockOn, ...]
    safety_groups: frozenset[str]
    fixed: Mapping[str, str] = field(default_factory=dict)
    rows: Rows = field(default_factory=dict)

    @cached_property
    def knock_on_by_component(self) -> Mapping[str, list[KnockOn]]:
        """The knock-on rules by the component that shows them."""
        rules: dict[str, list[KnockOn]] = {}
        for rule in self.knock_on:
            rules.setdefault(rule.component, []).append(rule)
        return rules

    @cached_property
    def names(self) -> frozenset[str]:
        """Every component that it describes or that one of its zones lists."""
        return frozenset(self.components).union(*(zone.components for zone in self.zones.values()))

    def labelled(self, label: Callable[[str], str]) -> "CarMap":
        """Return the same map with other labels of zones, components and symptoms."""
        return replace(
            self,
            zones={name: replace(one, label=label(one.label)) for name, one in self.zones.items()},
            components={name: replace(one, label=label(one.label)) for name, one in self.components.items()},
            symptoms={name: replace(one, label=label(one.label)) for name, one in self.symptoms.items()},
        )

    def lists(self, zone: str, component: str) -> bool:
        """Return whether the map lists `component` in `zone`."""
        return zone in self.zones and component in self.zones[zone].components

    def placed(self, key: str, zone: str) -> list[str]:
        """Return the keys that `key` of `checks` or `also` means for a report about `zone`.

        `here/…` is that zone, `across/…` the zone on its other side, each where it lists the component; any other key
        is itself.
        """
        place, component = split_key(key)
        if place not in NO_ZONES:
            return [key]
        own = self.zones.get(zone)
        meant = zone if place == HERE else own.across if own else None
        return [job_key(meant, component)] if meant and self.lists(meant, component) else []

    def checks_of(self, symptom: str, zone: str) -> list[str]:
        """Return what a symptom reported about `zone` makes the crew check; empty where the map does not say.

        `here` is each zone that lists the component where `zone` does not.
        """
        known = self.symptoms.get(symptom)
        return [key for check in (known.checks if known else ()) for key in self._checked(check, zone)]

    def _checked(self, check: str, zone: str) -> list[str]:
        place, component = split_key(check)
        if place == HERE and not self.lists(zone, component):
            return [job_key(name, component) for name in self.zones if self.lists(name, component)]
        return self.placed(check, zone)

    def inspect_access(self, component: str) -> tuple[str, ...] | None:
        """Return the steps that the component itself says an inspection of it needs open; None where it does not."""
        known = self.components.get(component)
        return known.inspect_access if known else None

    def opening(self, steps: Collection[str]) -> "CarMap":
        """Return this map where inspections need no step open but `steps`: a team's rate table may lack the others."""
        wanted = {step for one in self.components.values() for step in one.inspect_access or ()}
        if wanted.issubset(steps):
            return self
        rows = tuple(_opening(row, steps) for row in self.rows["components"])
        return replace(self, components=_components(rows), rows={**self.rows, "components": rows})

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
    lines = {table.table: file.lines(table) for table in MAP_TABLES}
    file.warn_of_unknown(MAP_TABLES)
    if not lines["zones"] and "zones" not in {fault.column for fault in faults.found if fault.file == FILE}:
        faults.add(FILE, 0, "zones", "the map has no zone; write [zones.NAME] tables")
    _check_across(lines["zones"])
    return _car_map(rows_of(lines))


def _car_map(rows: Rows) -> CarMap:
    return CarMap(
        zones={one["zone"]: Zone(**picked(Zone, one)) for one in rows["zones"]},
        components=_components(rows["components"]),
        symptoms={one["symptom"]: Symptom(**picked(Symptom, one)) for one in rows["symptoms"]},
        knock_on=tuple(
            KnockOn(one["component"], frozenset(one["conditions"]), one["same_zone"], one["also"])
            for one in rows["knock_on"]
        ),
        safety_groups=frozenset(rows["car_map"][0]["safety_groups"]),
        rows=rows,
    )


def _components(rows: Iterable[Values]) -> dict[str, Component]:
    return {one["component"]: Component(**picked(Component, one)) for one in rows}


def _opening(row: Values, steps: Collection[str]) -> Values:
    needed = row["inspect_access"]
    return row if needed is None else {**row, "inspect_access": tuple(step for step in needed if step in steps)}


def _check_across(zones: list[Line]) -> None:
    """Note zones named as no zone can be, and pairs of zones that do not name each other."""
    across = {line["zone"]: line["across"] for line in zones}
    for line in zones:
        zone, other = line["zone"], line["across"]
        if zone in NO_ZONES:
            line.fault("zone", f"{zone!r} names no zone, since rules use the word; choose another", new=True)
        if other and other not in across:
            line.fault("across", f"{other!r} is not a zone of this map; {did_you_mean(other, across)}", new=True)
        elif other and (other == zone or across[other] != zone):
            what = f"{other!r} does not name {zone!r} as its across; let the two name each other"
            line.fault("across", what, new=True)

"""Says what the car map holds of a zone, a component or a condition."""

from dataclasses import dataclass
from typing import Any, Protocol

from .folder import Folder

CONDITIONS = [
    "unknown", "marked", "worn", "loose", "bent", "cracked", "leaking", "flat", "seized", "broken", "missing",
]  # fmt: skip
NEVER_TAKEN_AWAY = ["cage", "brake", "steering"]


class HasMap(Protocol):
    """Whatever knows the car map: a whole folder, or a map alone."""

    @property
    def car_map(self) -> dict[str, Any]:
        """The car map as the file has it."""


@dataclass(frozen=True)
class Mapped:
    """A car map alone."""

    car_map: dict[str, Any]


def zone_of(key: str) -> str:
    """The zone of a key `zone/component`."""
    return key.split("/")[0]


def component_of(key: str) -> str:
    """The component of a key `zone/component`."""
    return key.split("/")[1]


def zone_lists(car_map: dict[str, Any], zone: str, component: str) -> bool:
    """Whether the car map lists the pair."""
    return component in car_map.get("zones", {}).get(zone, {}).get("components", [])


def lists(car_map: dict[str, Any], key: str) -> bool:
    """Whether the car map lists the key."""
    return zone_lists(car_map, zone_of(key), component_of(key))


def across(car_map: dict[str, Any], zone: str) -> str | None:
    """The zone that a zone names as its other side."""
    name: str | None = car_map.get("zones", {}).get(zone, {}).get("across")
    return name


def placed(car_map: dict[str, Any], key: str, zone: str) -> list[Any]:
    """What a key of `checks` or `also` means for a version about a zone: `here` and `across` where they list it."""
    if zone_of(key) == "here":
        return [f"{zone}/{component_of(key)}"] if zone_lists(car_map, zone, component_of(key)) else []
    if zone_of(key) == "across":
        other = across(car_map, zone)
        return [f"{other}/{component_of(key)}"] if other and zone_lists(car_map, other, component_of(key)) else []
    return [key]


def group_of(folder: Folder, component: str) -> str | None:
    """A component's group; what the package's own map has in cage, brake or steering stays there."""
    package_group: str | None = folder.package_map.get("components", {}).get(component, {}).get("group")
    if package_group in NEVER_TAKEN_AWAY:
        return package_group
    return folder.car_map.get("components", {}).get(component, {}).get("group") or None


def safety_critical(folder: Folder, key: str) -> bool:
    """A pair that the map does not list, one of the three groups, or one of the map's own safety groups."""
    group = group_of(folder, component_of(key))
    return (
        not lists(folder.car_map, key) or group in NEVER_TAKEN_AWAY or group in folder.car_map.get("safety_groups", [])
    )


def badness(folder: HasMap, component: str, condition: str) -> tuple[Any, ...]:
    """Sorts conditions, worst last: unknown lowest, then the component's own list, then what it does not list."""
    own = folder.car_map.get("components", {}).get(component, {}).get("conditions", [])
    if condition == "unknown":
        return (0, 0)
    if condition in own:
        return (1, own.index(condition))
    return (2, CONDITIONS.index(condition))


def worst(folder: HasMap, component: str, conditions: list[Any]) -> str:
    """The worst of some conditions of a component."""
    answer: str = max(conditions, key=lambda condition: badness(folder, component, condition))
    return answer

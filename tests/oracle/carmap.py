"""Says what the car map holds of a zone, a component or a condition."""

from .folder import Folder

CONDITIONS = [
    "unknown", "marked", "worn", "loose", "bent", "cracked", "leaking", "flat", "seized", "broken", "missing",
]  # fmt: skip
NEVER_TAKEN_AWAY = ["cage", "brake", "steering"]


def zone_of(key: str) -> str:
    """The zone of a key `zone/component`."""
    return key.split("/")[0]


def component_of(key: str) -> str:
    """The component of a key `zone/component`."""
    return key.split("/")[1]


def zone_lists(car_map: dict, zone: str, component: str) -> bool:
    """Whether the car map lists the pair."""
    return component in car_map.get("zones", {}).get(zone, {}).get("components", [])


def lists(car_map: dict, key: str) -> bool:
    """Whether the car map lists the key."""
    return zone_lists(car_map, zone_of(key), component_of(key))


def group_of(folder: Folder, component: str) -> str | None:
    """A component's group; what the package's own map has in cage, brake or steering stays there."""
    package_group = folder.package_map.get("components", {}).get(component, {}).get("group")
    if package_group in NEVER_TAKEN_AWAY:
        return package_group
    return folder.car_map.get("components", {}).get(component, {}).get("group") or None


def safety_critical(folder: Folder, key: str) -> bool:
    """A pair that the map does not list, one of the three groups, or one of the map's own safety groups."""
    group = group_of(folder, component_of(key))
    return (
        not lists(folder.car_map, key) or group in NEVER_TAKEN_AWAY or group in folder.car_map.get("safety_groups", [])
    )


def badness(folder: Folder, component: str, condition: str) -> tuple:
    """Sorts conditions, worst last: unknown lowest, then the component's own list, then what it does not list."""
    own = folder.car_map.get("components", {}).get(component, {}).get("conditions", [])
    if condition == "unknown":
        return (0, 0)
    if condition in own:
        return (1, own.index(condition))
    return (2, CONDITIONS.index(condition))


def worst(folder: Folder, component: str, conditions: list) -> str:
    """The worst of some conditions of a component."""
    return max(conditions, key=lambda condition: badness(folder, component, condition))

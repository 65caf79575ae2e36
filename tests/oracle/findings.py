"""Says what each version of a report says, and which findings count."""

from dataclasses import dataclass, replace
from typing import Any

from .carmap import HasMap, component_of, lists, placed, safety_critical, worst, zone_lists, zone_of
from .entries import failed, listed
from .folder import Folder, roles_of
from .versions import below_without_ring, is_head, versions_of


@dataclass(frozen=True)
class Finding:
    """An entry says that a key is in a condition; `sort` = direct, bare, knock-on, retracted or failed."""

    entry: str
    key: str
    condition: str
    sort: str


def direct(folder: HasMap, version: dict[str, Any]) -> list[Any]:
    """Each finding of the body in its zone; each symptom through the map's checks, or `unknown` if not in the map."""
    zone = version["data"].get("zone") or "unknown"
    said = [
        Finding(version["id"], f"{zone}/{one['component']}", one["condition"], "direct")
        for one in listed(version, "findings")
    ]
    for symptom in listed(version, "symptoms"):
        for key in keys_to_check(folder, symptom, zone):
            said.append(Finding(version["id"], key, "unknown", "direct"))
    return said


def keys_to_check(folder: HasMap, symptom: str, zone: str) -> list[Any]:
    """The keys that the map wants looked at for a symptom.

    One that the map does not know, or whose checks give nothing, is the zone's `unknown`.
    """
    keys = []
    for check in folder.car_map.get("symptoms", {}).get(symptom, {}).get("checks", []):
        keys += checked(folder.car_map, check, zone)
    return keys or [f"{zone}/unknown"]


def checked(car_map: dict[str, Any], check: str, zone: str) -> list[Any]:
    """What one check means; `here` in a zone that does not list the component is each zone that does."""
    if zone_of(check) == "here" and not placed(car_map, check, zone):
        zones = [one for one in car_map.get("zones", {}) if zone_lists(car_map, one, component_of(check))]
        return [f"{one}/{component_of(check)}" for one in zones]
    return placed(car_map, check, zone)


def bare(version: dict[str, Any]) -> list[Any]:
    """A body with neither findings nor symptoms: something unknown in its zone."""
    if listed(version, "findings") or listed(version, "symptoms"):
        return []
    zone = version["data"].get("zone") or "unknown"
    return [Finding(version["id"], f"{zone}/unknown", "unknown", "bare")]


def knock_on(folder: HasMap, source: Finding, version_zone: str) -> list[Any]:
    """What a direct finding makes suspect: same-zone components that the zone lists, other keys that the map lists."""
    keys = []
    for rule in folder.car_map.get("knock_on", []):
        if rule["component"] == component_of(source.key) and source.condition in rule["conditions"]:
            zone = zone_of(source.key)
            keys += [f"{zone}/{one}" for one in rule.get("same_zone", []) if zone_lists(folder.car_map, zone, one)]
            also = [key for one in rule.get("also", []) for key in placed(folder.car_map, one, version_zone)]
            keys += [key for key in also if lists(folder.car_map, key)]
    return [Finding(source.entry, key, "unknown", "knock-on") for key in keys]


def said_by(folder: HasMap, version: dict[str, Any]) -> list[Any]:
    """All that one version says, each key once: direct before the rest, the worse condition first."""
    if version["kind"] == "report.withdrawn":
        return []
    said_directly = direct(folder, version)
    said = said_directly + bare(version)
    for source in said_directly:
        said = said + knock_on(folder, source, version["data"].get("zone") or "unknown")
    return [one_of(folder, said, key) for key in sorted({one.key for one in said})]


def one_of(folder: HasMap, said: list[Any], key: str) -> Finding:
    """The one finding that stands for a key: a direct one if there is one, and of those the worst."""
    on_key = [one for one in said if one.key == key]
    first = [one for one in on_key if one.sort == "direct"] or on_key
    condition = worst(folder, component_of(key), [one.condition for one in first])
    answer: Finding = next(one for one in first if one.condition == condition)
    return answer


def with_said(folder: Folder) -> Folder:
    """The same folder, with what each version says beside it."""
    return replace(folder, said={one["id"]: said_by(folder, one) for one in versions_of(folder.entries)})


def counted(folder: Folder, version: dict[str, Any]) -> list[Any]:
    """What of a version counts; of a hand-over only the safety-critical findings that are direct or knock-on."""
    said: list[Finding] = folder.said[version["id"]]
    if version["data"].get("where") != "hand-over":
        return said
    return [one for one in said if one.sort in ("direct", "knock-on") and safety_critical(folder, one.key)]


def retracted(folder: Folder, version: dict[str, Any], versions: list[Any]) -> list[Any]:
    """What a replaced version leaves behind: its safety-critical findings, unless what is below it settles them."""
    below = below_without_ring(version, versions)
    return [
        Finding(one.entry, one.key, "unknown", "retracted")
        for one in counted(folder, version)
        if safety_critical(folder, one.key) and not settled(folder, version, one, below)
    ]


def settled(folder: Folder, version: dict[str, Any], one: Finding, below: list[Any]) -> bool:
    """A direct finding is settled by a version below that names its key directly.

    A bare or knock-on one is settled by one that names its key at all, or is by the same person or by an inspector.
    What does not count names nothing.
    """
    if one.sort == "direct":
        return any(has(counted(folder, other), one.key, "direct") for other in below)
    names_it = any(has(counted(folder, other), one.key, "direct", "bare", "knock-on") for other in below)
    same_person = any(other["person"] == version["person"] for other in below)
    inspector = any("inspector" in roles_of(folder.setup, other["person"]) for other in below)
    return names_it or same_person or inspector


def has(findings: list[Any], key: str, *sorts: str) -> bool:
    """Whether a key is among the findings in one of the sorts."""
    return any(one.key == key and one.sort in sorts for one in findings)


def findings_of(folder: Folder) -> list[Any]:
    """All findings of the car: the heads', what was retracted, and each failed inspection on its own subject."""
    versions = versions_of(folder.entries)
    found = []
    for version in versions:
        found += counted(folder, version) if is_head(version, versions) else retracted(folder, version, versions)
    for entry in folder.entries:
        if failed(entry):
            found.append(Finding(entry["id"], entry["subject"], "unknown", "failed"))
    return found

"""Says which versions of a report replace which, and which are its heads."""

from typing import Any

from .entries import VERSION_KINDS, listed, of_kind


def versions_of(entries: list[Any]) -> list[Any]:
    """All versions of all reports of the car."""
    return of_kind(entries, *VERSION_KINDS)


def replaces(later: dict[str, Any], earlier: dict[str, Any]) -> bool:
    """One version replaces another of the same event, car and report if its `replaces` names it."""
    same_report = all(later[name] == earlier[name] for name in ("event", "car", "subject"))
    names_it = later["kind"] != "report.filed" and earlier["id"] in listed(later, "replaces")
    return same_report and names_it


def below(version: dict[str, Any], versions: list[Any]) -> list[Any]:
    """All versions that replace this one, directly or through others; in a ring, itself too."""
    same_report = [one for one in versions if one["subject"] == version["subject"]]
    found = []
    waiting = [version]
    while waiting:
        upper = waiting.pop()
        for lower in same_report:
            if replaces(lower, upper) and lower not in found:
                found.append(lower)
                waiting.append(lower)
    return found


def is_head(version: dict[str, Any], versions: list[Any]) -> bool:
    """A version is a head if every version below it has it below in turn."""
    return all(version in below(lower, versions) for lower in below(version, versions))


def below_without_ring(version: dict[str, Any], versions: list[Any]) -> list[Any]:
    """What is below, ring mates (which have this version below them) left out."""
    return [lower for lower in below(version, versions) if version not in below(lower, versions)]


def heads_of_report(subject: str, versions: list[Any]) -> list[Any]:
    """The heads among one report's versions."""
    return [one for one in versions if one["subject"] == subject and is_head(one, versions)]

"""A report as it stands: its heads and the findings that it puts on jobs."""

from collections.abc import Iterable

from msgspec import Struct

from shuntbook.fold.said import How, Said, counts, said_by
from shuntbook.fold.versions import Versions, versions_of
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.event import Event
from shuntbook.setup.words import UNKNOWN, Condition, split_key

_NO_BODY = Body()


class Finding(Struct, frozen=True, array_like=True):
    """That an entry names a job in a condition.

    covered_by: the entries that a cover may name to cover this finding: its own, and older versions that
    said the same key in the same condition, step by step down to it.
    """

    entry: str
    key: str
    condition: Condition
    how: How
    report: str
    stage: str | None
    photos: list[str]
    two_versions: bool
    covered_by: list[str]


class Report(Struct, frozen=True):
    """The versions of one report, and what they put on jobs."""

    versions: Versions
    findings: list[Finding]


def report_of(entries: Iterable[Entry], car_map: CarMap, event: Event) -> Report:
    """Return a report from all its versions, in any order."""
    versions = versions_of(entries)
    return Report(versions, _findings(versions, car_map, event))


def findings_of(entries: Iterable[Entry], car_map: CarMap, event: Event) -> list[Finding]:
    """Return the findings of one report from all its versions, in any order."""
    return report_of(entries, car_map, event).findings


def _findings(versions: Versions, car_map: CarMap, event: Event) -> list[Finding]:
    """Return what the versions put on jobs.

    Heads give what they say. A safety-critical finding of an older version stays, in condition `unknown`, until a
    version that overrules it settles it: safety is sticky.
    """
    if len(versions.by_id) == 1:  # nearly every report has one version, which stands
        return _alone(versions, car_map)
    said = {name: said_by(entry, car_map) for name, entry in versions.by_id.items()}
    counted = {name: _counted(entry, said[name], car_map) for name, entry in versions.by_id.items()}
    heads = versions.heads
    found = []
    for name, items in counted.items():
        kept = items.values() if name in heads else _retracted(name, versions, counted, car_map, event)
        body = _body(versions.by_id[name])
        found += [_finding(name, item, versions, said, body, len(heads) > 1) for item in kept]
    return found


def _alone(versions: Versions, car_map: CarMap) -> list[Finding]:
    """Return what the only version puts on jobs."""
    ((name, version),) = versions.by_id.items()
    said, body = said_by(version, car_map), _body(version)
    return [
        _finding(name, item, versions, {name: said}, body, False)
        for item in said.values()
        if counts(version, item, car_map)
    ]


def _body(version: Entry) -> Body:
    return version.data if isinstance(version.data, Body) else _NO_BODY


def _counted(version: Entry, said: dict[str, Said], car_map: CarMap) -> dict[str, Said]:
    return {key: item for key, item in said.items() if counts(version, item, car_map)}


def _retracted(
    name: str, versions: Versions, counted: dict[str, dict[str, Said]], car_map: CarMap, event: Event
) -> list[Said]:
    overruling = versions.overruling(name)
    authors = {versions.by_id[other].person for other in overruling}
    own = versions.by_id[name].person in authors or any(event.has_role(person, "inspector") for person in authors)
    return [
        Said(item.key, UNKNOWN, "retracted")
        for item in counted[name].values()
        if car_map.safety_critical(*split_key(item.key))
        and not _settled(item, [counted[other] for other in overruling], own)
    ]


def _settled(item: Said, overruling: list[dict[str, Said]], own: bool) -> bool:
    """Return whether versions that overrule the one that said `item` take it away.

    own: one of them is by the same person or an inspector, whose word is enough for what was only guessed at.
    """
    if item.how == "direct":
        return any(item.key in said and said[item.key].how == "direct" for said in overruling)
    return own or any(item.key in said for said in overruling)


def _finding(
    name: str,
    item: Said,
    versions: Versions,
    said: dict[str, dict[str, Said]],
    body: Body,
    two_versions: bool,
) -> Finding:
    return Finding(
        entry=name,
        key=item.key,
        condition=item.condition,
        how=item.how,
        report=versions.by_id[name].subject,
        stage=body.stage,
        photos=sorted(set(body.photos)) if body.photos else [],
        two_versions=two_versions,
        covered_by=_same_said_before(name, item.key, versions, said),
    )


def _same_said_before(name: str, key: str, versions: Versions, said: dict[str, dict[str, Said]]) -> list[str]:
    """Return the version and the older ones from which a cover of `key` passes down to it."""
    if not versions.replaces[name]:
        return [name]
    condition = said[name][key].condition
    seen = {name}
    todo = [name]
    while todo:
        for older in versions.replaces[todo.pop()]:
            before = said[older].get(key)
            if older not in seen and before is not None and before.condition == condition:
                seen.add(older)
                todo.append(older)
    return sorted(seen)

"""Which reports are of one hit: as somebody grouped them, else as one was found to be behind the other.

A grouping (`incident.grouped`) stands while no other names it in `replaces`. A report that several name belongs to
the one with the smallest id. A report that none names follows its `caused_by`, step by step; what is left alone is an
incident of its own, named by the report.
"""

from collections.abc import Iterable, Mapping
from functools import partial

from msgspec import Struct

from shuntbook.kit.kept import Kept
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import IncidentGrouped


class Incident(Struct, frozen=True):
    """One hit: its reports, and what its grouping says of others. `grouping` is None where nobody grouped."""

    incident: str
    title: str
    reports: tuple[str, ...]
    grouping: IncidentGrouped | None = None
    person: str = ""


def incidents(
    entries: Iterable[Entry], caused_by: Mapping[str, str | None], kept: Kept[Incident] | None = None
) -> dict[str, Incident]:
    """Return each report's incident; `caused_by` has every report that stands, with what is behind it or None.

    kept: incidents by name.
    """
    kept = kept or Kept()
    grouped = _standing_groups(entries)
    group_of: dict[str, str] = {}
    for name in sorted(grouped, reverse=True):
        group_of.update(dict.fromkeys(_data(grouped[name]).reports, name))
    of_report = {report: _root(report, group_of, caused_by) for report in caused_by}
    members: dict[str, list[str]] = {}
    for report, incident in of_report.items():
        members.setdefault(incident, []).append(report)
    made = {
        incident: kept.of(
            incident,
            (reports, incident in grouped),  # a grouping is what its id says
            partial(_incident, incident, reports, grouped.get(incident)),
        )
        for incident, reports in members.items()
    }
    return {report: made[incident] for report, incident in of_report.items()}


def _standing_groups(entries: Iterable[Entry]) -> dict[str, Entry]:
    all_groups = {entry.id: entry for entry in entries if isinstance(entry.data, IncidentGrouped)}
    # A grouping that names itself, or one of a ring, would leave none: only an older one is taken over (ids ascend).
    gone = {old for entry in all_groups.values() for old in _data(entry).replaces if old < entry.id}
    return {name: entry for name, entry in all_groups.items() if name not in gone}


def _root(report: str, group_of: Mapping[str, str], caused_by: Mapping[str, str | None]) -> str:
    seen = [report]
    while seen[-1] not in group_of:
        behind = caused_by.get(seen[-1])
        if behind is None or behind not in caused_by:
            return seen[-1]
        if behind in seen:
            return min(seen[seen.index(behind) :])
        seen.append(behind)
    return group_of[seen[-1]]


def _incident(name: str, reports: list[str], grouping: Entry | None) -> Incident:
    data = _data(grouping) if grouping else None
    title, person = (data.title, grouping.person) if data and grouping else ("", "")
    return Incident(name, title, tuple(sorted(reports)), data, person)


def _data(entry: Entry) -> IncidentGrouped:
    if not isinstance(entry.data, IncidentGrouped):
        raise TypeError(entry.kind)
    return entry.data

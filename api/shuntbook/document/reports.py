"""The reports of a car as they stand: the versions that count, by time."""

from shuntbook.document.car_file import CarFile, by_time
from shuntbook.fold.versions import versions_of
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import REPORT_KINDS


def standing_reports(file: CarFile) -> list[Entry]:
    """Return the versions with a body that no other replaces, by time; withdrawn ones are not among them."""
    groups: dict[str, list[Entry]] = {}
    for entry in file.standing:
        if entry.kind in REPORT_KINDS:
            groups.setdefault(entry.subject, []).append(entry)
    heads = []
    for group in groups.values():
        versions = versions_of(group)
        heads += [versions.by_id[name] for name in versions.heads]
    return by_time(entry for entry in heads if isinstance(entry.data, Body))


def body_of(entry: Entry) -> Body:
    """Return a report's body."""
    return entry.data if isinstance(entry.data, Body) else Body()

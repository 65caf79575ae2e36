"""The groupings of reports into hits as they stand: those that no other grouping took over."""

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.reports import body_of, standing_reports
from shuntbook.document.shots import by_whom, once, shots_of_report
from shuntbook.document.wording import Wording, short
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import IncidentGrouped


def standing_incidents(file: CarFile) -> list[tuple[Entry, IncidentGrouped]]:
    """Return the groupings that no later one replaces, by time."""
    found = file.of(IncidentGrouped)
    # Of a ring that names each other none would be left: only an older one is taken over (ids ascend).
    replaced = {name for entry, data in found for name in data.replaces if name < entry.id}
    return [(entry, data) for entry, data in found if entry.id not in replaced]


def incident_json(file: CarFile, entry: Entry, data: IncidentGrouped, wording: Wording) -> Json:
    """Return one hit with where, when, who, what else was in it, and its photos."""
    reports = [report for report in standing_reports(file) if report.subject in data.reports]
    bodies = [body_of(report) for report in reports]
    return {
        "title": data.title or wording.say("Not named"),
        "places": list(dict.fromkeys(filter(None, (wording.place(body) for body in bodies)))),
        "hits": list(dict.fromkeys(filter(None, (wording.hit(body) for body in bodies)))),
        "when": wording.clock(reports[0].at if reports else entry.at, year=True),
        "by": by_whom(entry, wording),
        "found": [short(wording.found(body), 140) for body in bodies],
        "others_involved": data.others_involved,
        "others": data.others,
        "property_hit": data.property_hit,
        "injured": data.injured,
        "reported_to": data.reported_to,
        "shots": once(shot for report in reports for shot in shots_of_report(file, report, wording)),
    }

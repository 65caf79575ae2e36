"""The damage and inspection record: what was put down, in order of time, with photos; for insurers."""

from shuntbook.document.car_file import CarFile, Json, Kept
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.incidents import incident_json, standing_incidents
from shuntbook.document.record_words import WORDS, said_of
from shuntbook.document.reports import standing_reports
from shuntbook.document.shots import once, shots_of_job, shots_of_report
from shuntbook.document.wording import Wording
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import EntryVoided


def record(file: CarFile, paper: str, costs: Json | None = None) -> Json:
    """Return the data of the record; with `costs` (the car's cost sheet) what it cost, too. Errors: NotFound."""
    wording = Wording(file.setup)
    heads = {entry.id for entry in standing_reports(file)}
    told = [e for e in file.standing if e.id in heads or isinstance(e.data, tuple(WORDS))]
    return {
        **heading(file, DOCUMENTS["record"], paper),
        "incidents": [incident_json(file, entry, data, wording) for entry, data in standing_incidents(file)],
        "entries": _with_photos_once([_entry(file, entry, wording) for entry in told]),
        "taken_back": [_taken_back(file, void, data, wording) for void, data in file.of(EntryVoided)],
        "money": None if costs is None else {"currency": costs["currency"], **costs["totals"]},
    }


def _entry(file: CarFile, entry: Entry, wording: Wording) -> Json:
    kept = file.kept.get(entry.id, Kept())
    title, lines = said_of(entry, file, wording)
    shots = shots_of_report(file, entry, wording)
    if entry.kind == "job.finished":
        shots = shots_of_job(file, entry.subject, wording)
    return {
        "when": wording.clock(entry.at),
        "said_at": wording.clock(kept.said_at) if kept.said_at else "",
        "by": wording.person(entry.person),
        "received": wording.clock(kept.received_at) if kept.received_at else "",
        "title": title,
        "lines": [line for line in lines if line],
        "shots": shots,
    }


def _with_photos_once(entries: list[Json]) -> list[Json]:
    """Show a photo beside the first thing that it belongs to alone."""
    seen: set[str] = set()
    for entry in entries:
        entry["shots"] = [one for one in once(entry["shots"]) if one["photo"] not in seen]
        seen |= {one["photo"] for one in entry["shots"]}
    return entries


def _taken_back(file: CarFile, void: Entry, data: EntryVoided, wording: Wording) -> str:
    standing_ids = {entry.id for entry in file.standing}
    gone = [entry for entry in file.entries if entry.id in data.voids and entry.id not in standing_ids]
    what = ", ".join(f"{entry.kind.replace('.', ' ')} of {wording.clock(entry.at)}" for entry in gone) or "nothing"
    why = f": {data.reason}" if data.reason else ""
    return f"{wording.clock(void.at)}, {wording.person(void.person)} took back {what}{why}"

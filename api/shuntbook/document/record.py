"""The damage and inspection record: what was put down, in order of time, with photos; for insurers."""

from collections import Counter

from msgspec.structs import asdict

from shuntbook.cost.answer import Costs
from shuntbook.cost.says import said_because
from shuntbook.document.car_file import CarFile, Json, Kept
from shuntbook.document.catalogue import DOCUMENTS
from shuntbook.document.heading import heading
from shuntbook.document.incidents import incident_json, standing_incidents
from shuntbook.document.record_words import WORDS, said_of
from shuntbook.document.reports import standing_reports
from shuntbook.document.shots import by_whom, once, shot, shots_of_job, shots_of_report
from shuntbook.document.wording import Wording, sentence
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import EntryVoided, PhotoLinked

TWO_VERSIONS = "Two versions of this report stand: two people edited this at the same time"


def record(file: CarFile, paper: str, costs: Costs | None = None) -> Json:
    """Return the data of the record; with `costs` (the car's cost sheet) what it cost, too. Errors: NotFound."""
    wording = Wording(file.setup)
    reports = standing_reports(file)
    versions = Counter(entry.subject for entry in reports)
    heads = {entry.id for entry in reports}
    told = [e for e in file.standing if e.id in heads or isinstance(e.data, tuple(WORDS))]
    entries = _with_photos_once([_entry(file, entry, versions[entry.subject] > 1, wording) for entry in told])
    return {
        **heading(file, DOCUMENTS["record"], paper),
        "incidents": [incident_json(file, entry, data, wording) for entry, data in standing_incidents(file)],
        # A photo that stands beside its report or repair already needs no line of its own.
        "entries": [one for one in entries if one["shots"] or one["kind"] != "photo.linked"],
        "taken_back": [_taken_back(file, void, data, wording) for void, data in file.of(EntryVoided)],
        "money": None if costs is None else _money(costs, wording),
    }


def _money(costs: Costs, wording: Wording) -> Json:
    totals: dict[str, str] = asdict(costs.totals)
    return {"currency": costs.currency, **{name: wording.say.amount(amount) for name, amount in totals.items()}}


def _entry(file: CarFile, entry: Entry, two_versions: bool, wording: Wording) -> Json:
    kept = file.kept.get(entry.id, Kept())
    title, lines = said_of(entry, file, wording)
    if two_versions and isinstance(entry.data, Body):
        lines = [*lines, wording.say(TWO_VERSIONS)]
    return {
        "kind": entry.kind,
        "when": wording.clock(entry.at),
        "said_at": wording.clock(kept.said_at) if kept.said_at else "",
        "by": wording.person(entry.person),
        "received": wording.clock(kept.received_at) if kept.received_at else "",
        "title": title,
        "lines": [line for line in lines if line],
        "shots": _shots(file, entry, wording),
    }


def _shots(file: CarFile, entry: Entry, wording: Wording) -> list[Json]:
    if isinstance(entry.data, PhotoLinked):
        return [shot(file, wording, entry.data.photo, entry.data.caption or "", by_whom(entry, wording))]
    if entry.kind == "job.finished":
        return shots_of_job(file, entry.subject, wording)
    return shots_of_report(file, entry, wording)


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
    say = wording.say
    of = [say("{what} ({when})", what=_title(one, file, wording), when=wording.clock(one.at)) for one in gone]
    said = "{when}, {who} took back: {what}"
    what = say("; ").join(of) or say("nothing")
    words = say(said, when=wording.clock(void.at), who=wording.person(void.person), what=what)
    return said_because(words, data.reason, say)


def _title(entry: Entry, file: CarFile, wording: Wording) -> str:
    if isinstance(entry.data, (Body, *WORDS)):
        return said_of(entry, file, wording)[0]
    return sentence(wording.say(entry.kind.replace(".", " ").replace("-", " ")))

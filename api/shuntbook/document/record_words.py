"""What each kind of entry says in a record, as a title and lines."""

from collections.abc import Callable
from typing import Any

from shuntbook.document.asked import ASKED
from shuntbook.document.car_file import CarFile
from shuntbook.document.job_rows import parts
from shuntbook.document.signatures import signature_says
from shuntbook.document.wording import Wording, number, plain, sentence
from shuntbook.fold.voids import failed
from shuntbook.kit.times import minutes_says
from shuntbook.report.arriving import ControlEntered, ControlLeft, DriverAsked
from shuntbook.report.body import Body
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import (
    Answered,
    CarReleased,
    CarRestarts,
    CarRetired,
    CheckDone,
    DriverChanged,
    Inspection,
    InspectionFailed,
    InspectionPassed,
    JobDeferred,
    JobFinished,
    PartFitted,
    PhotoLinked,
    ReadingTaken,
    ServiceEntered,
    ServiceLeft,
    StageNothingSeen,
    VoiceLinked,
)
from shuntbook.report.settling import HandoverSigned, PartRetained
from shuntbook.setup.words import is_job_key

Said = tuple[str, list[str]]


def said_of(entry: Entry, file: CarFile, wording: Wording) -> Said:
    """Return a title and lines for an entry of a kind that a record tells."""
    if isinstance(entry.data, Body):
        return _report(entry, entry.data, wording)
    return WORDS[type(entry.data)](entry, entry.data, wording)


def _report(entry: Entry, body: Body, wording: Wording) -> Said:
    corrected = " (as corrected)" if entry.kind == "report.amended" else ""
    drives = {"well": "drives well", "poorly": "drives poorly", "no": "does not drive"}.get(body.drives or "", "")
    where = ", ".join(filter(None, (wording.place(body), wording.hit(body), drives)))
    note = f"Note: {body.note}" if body.note else ""
    return f"Report{corrected}: {wording.found(body)}", [sentence(where), note]


def _finished(entry: Entry, data: JobFinished, wording: Wording) -> Said:
    kind = "Temporary repair" if data.temporary else "Repair"
    took = "not timed" if data.minutes is None else minutes_says(data.minutes)
    hands = f", {data.mechanics} mechanics" if data.mechanics and data.mechanics > 1 else ""
    used = parts(data.parts, wording)
    people = wording.people([entry.person, *data.repairers])
    lines = [f"{plain(data.action) or 'repaired'}, {took}{hands}", f"Parts: {used}" if used else "", f"By: {people}"]
    return f"{kind}: {wording.job(entry.subject)}", lines


def _deferred(entry: Entry, data: JobDeferred, wording: Wording) -> Said:
    to = "for the next service" if data.to == "next-service" else "to the crew of the car"
    return f"Left {to}: {wording.job(entry.subject)}", [data.reason]


def _looked(entry: Entry, data: Inspection, wording: Wording) -> Said:
    bad = failed(entry)
    checks = "; ".join(_checked(check) for check in data.checks)
    lines = [
        f"Looked at: {checks}" if checks else "",
        f"Good until service {data.until} is entered" if data.until else "",
        f"Shown to {data.shown_to}" if data.shown_to else "",
        f"The official said, as typed by the team: “{data.official_said}”" if data.official_said else "",
        f"Note: {data.note}" if data.note else "",
    ]
    how = "found wanting" if bad else "found in order"
    return f"Checked by (team) {wording.person(entry.person)}, {how}: {wording.job(entry.subject)}", lines


def _checked(check: CheckDone) -> str:
    if check.ok is None:
        return f"{check.check} NOT DONE{f' ({check.why})' if check.why else ''}"
    return check.check if check.ok else f"{check.check} NOT in order"


def _released(entry: Entry, data: CarReleased, wording: Wording) -> Said:
    reason = f"Reason: {data.reason}" if data.reason else ""
    answers = "; ".join(_answered(one, wording) for one in data.answers)
    return f"Let go from service {data.service}", [reason, f"Asked before it left: {answers}" if answers else ""]


def _answered(answer: Answered, wording: Wording) -> str:
    where = f", {wording.zone(answer.place)}" if answer.place else ""
    how = "" if answer.ok else " NOT DONE" if answer.ok is None else " NOT in order"
    who = f", {wording.person(answer.by)}" if answer.by else ""
    why = f" ({answer.why})" if answer.why else ""
    return f"{ASKED.get(answer.ask, answer.ask)}{where}{how}{who}{why}"


DRIVES = {"well": "yes", "poorly": "poorly", "no": "no"}
RESTART = {"yes": "yes", "no": "no", "unknown": "not known yet"}


def _retired(entry: Entry, data: CarRetired, wording: Wording) -> Said:
    km = f", km {data.km}" if data.km is not None else ""
    more = [
        f"Drives: {DRIVES[data.drives]}" if data.drives else "",
        f"Recovered by: {data.recovered_by}" if data.recovered_by else "",
        f"Restart: {RESTART[data.restart]}" if data.restart else "",
    ]
    return f"Stopped{f' on {data.stage}' if data.stage else ''}{km}", [line for line in more if line]


def _restarts(entry: Entry, data: CarRestarts, wording: Wording) -> Said:
    ready = f"Ready by {wording.clock(data.ready_by)}" if data.ready_by else ""
    return f"Restarts{f' with {data.stage}' if data.stage else ''}", [ready]


def _reading(entry: Entry, data: ReadingTaken, wording: Wording) -> Said:
    place = f", {wording.zone(data.place)}" if data.place else ""
    return f"Read: {data.reading}{place}: {data.value} {data.unit}".rstrip(), []


def _nothing_seen(entry: Entry, data: StageNothingSeen, wording: Wording) -> Said:
    return f"{data.stage}: nothing seen, {'from the seat' if data.how == 'from-seat' else 'walked round'}", []


def _official(time: str | None, wording: Wording) -> str:
    return f"Officials' clock: {wording.clock(time)}" if time else ""


def _service(word: str) -> Callable[[Entry, Any, Wording], Said]:
    def said(entry: Entry, data: Any, wording: Wording) -> Said:
        return f"{word} service {data.service}", [_official(data.official_time, wording)]

    return said


def _control_entered(entry: Entry, data: ControlEntered, wording: Wording) -> Said:
    return f"Came into {CONTROLS[data.control]}: no work on the car", [_official(data.official_time, wording)]


def _control_left(entry: Entry, data: ControlLeft, wording: Wording) -> Said:
    return "Out of it again: work may go on", [_official(data.official_time, wording)]


def _asked(entry: Entry, data: DriverAsked, wording: Wording) -> Said:
    changed = ", ".join(answer.question for answer in data.answers if not answer.as_before)
    return f"The driver was asked: {f'not as before: {changed}' if changed else 'all as before'}", []


def _driver(entry: Entry, data: DriverChanged, wording: Wording) -> Said:
    return f"From now on {wording.person(data.driver)} drives", []


def _walk(entry: Entry, data: HandoverSigned, wording: Wording) -> Said:
    word = "handed over" if data.walk == "out" else "returned"
    return f"The car was {word}", [" ".join(map(signature_says, data.signed)), data.note]


def _retained(entry: Entry, data: PartRetained, wording: Wording) -> Said:
    shelf = f", shelf {data.shelf}" if data.shelf else ""
    return f"Part kept: {wording.job(entry.subject)}, tag {data.tag}{shelf}", []


def _fitted(entry: Entry, data: PartFitted, wording: Wording) -> Said:
    serial = f", no. {data.serial}" if data.serial else ""
    since = f", its life counts from {data.since}" if data.since else ""
    return f"{'Rebuilt part' if data.rebuilt else 'Part'} fitted: {wording.job(entry.subject)}{serial}{since}", [
        data.note
    ]


def _photo(entry: Entry, data: PhotoLinked, wording: Wording) -> Said:
    return f"Photo{f' of {wording.job(entry.subject)}' if is_job_key(entry.subject) else ''}", []


def _voice(entry: Entry, data: VoiceLinked, wording: Wording) -> Said:
    of = f" of {wording.job(entry.subject)}" if is_job_key(entry.subject) else ""
    length = "" if data.seconds is None else f", {number(data.seconds)} s"
    return f"Voice note{of}{length}", ["To be heard in the app; not written out here."]


CONTROLS = {"control-zone": "a control zone", "regroup": "a regroup", "parc-ferme": "parc fermé"}

WORDS: dict[type, Callable[[Entry, Any, Wording], Said]] = {
    JobFinished: _finished,
    JobDeferred: _deferred,
    InspectionPassed: _looked,
    InspectionFailed: _looked,
    CarReleased: _released,
    CarRetired: _retired,
    CarRestarts: _restarts,
    ReadingTaken: _reading,
    StageNothingSeen: _nothing_seen,
    ServiceEntered: _service("Entered"),
    ServiceLeft: _service("Left"),
    DriverChanged: _driver,
    ControlEntered: _control_entered,
    ControlLeft: _control_left,
    DriverAsked: _asked,
    HandoverSigned: _walk,
    PartFitted: _fitted,
    PartRetained: _retained,
    PhotoLinked: _photo,
    VoiceLinked: _voice,
}
"""The kinds beside reports that a record tells, each with what it says."""
